// Rules on the files of a journal: those that cannot be read, and those that stand where none is looked for.
import type { Example } from '../rule.js';
import { faultRule } from '../rule.js';

const flat = `nm,R\n${Array.from({ length: 16 }, (_, at) => `${400 + 20 * at},0.20`).join('\n')}\n`;
const readFrom = (text: string): Example => ({
  matter: 'samples: [{ sample: A, colour: { spectrum: spectra/a.csv } }]',
  files: { 'spectra/a.csv': text },
});

export const fileFaultRules = {
  'not-text': faultRule({
    when: 'A file holds something other than text.',
    severity: 'error',
    advice: 'Save it as plain text (UTF-8).',
    fires: readFrom(`\u0001${flat}`),
    silent: readFrom(flat),
  }),
  'file-size': faultRule({
    when: 'A file is larger than anything of its kind.',
    severity: 'error',
    advice: 'Shorten it, or split it.',
    fires: { files: { 'pages/about.md': { text: 'All of it. ', times: 200_000 } } },
    silent: { files: { 'pages/about.md': { text: 'All of it. ', times: 200 } } },
  }),
  'empty-file': faultRule({
    when: 'A file is empty.',
    severity: 'error',
    advice: 'Write it, or export it again.',
    fires: readFrom(''),
    silent: readFrom(flat),
  }),
};

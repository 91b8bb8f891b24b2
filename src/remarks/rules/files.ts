// Rules on the files of a journal: those that cannot be read, and those that stand where none is looked for.
import { exampleEntryText } from '../example.js';
import type { Example } from '../rule.js';
import { faultRule, rule } from '../rule.js';

const flat = `nm,R\n${Array.from({ length: 16 }, (_, at) => `${400 + 20 * at},0.20`).join('\n')}\n`;
const spectrumNamed = (file: string): string => `samples: [{ sample: A, colour: { spectrum: ${file} } }]`;
const readFrom = (text: string): Example => ({
  matter: spectrumNamed('spectra/a.csv'),
  files: { 'spectra/a.csv': text },
});
const anEntry = exampleEntryText('');

/** Name of a file as a sentence begins with it; undefined for the file that the finding stands in. */
const fileNamed = (file: string | undefined): string => (file === undefined ? 'The file' : `The file ${file}`);

/** A file, by its path where another file names it. */
export interface FileFacts {
  readonly file?: string;
}

export const fileFaultRules = {
  'not-text': faultRule({
    when: 'A file holds something other than text.',
    severity: 'error',
    advice: 'Save it as plain text (UTF-8), or move it out of this folder.',
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

export const fileRules = {
  'missing-file': rule<FileFacts & { photo?: boolean; near?: string }>({
    when: 'A file that is named does not exist.',
    severity: { among: ['error', 'warning'], of: ({ photo }) => (photo ? 'warning' : 'error') },
    found: ({ file, photo }) => `${fileNamed(file)} does not exist${photo ? '; the photograph is not shown' : ''}.`,
    advice: 'Correct the path, or put the file there.',
    cure: ({ near }) => (near === undefined ? undefined : `Did you mean ${near}?`),
    subject: 'file',
    fires: spectrumNamed('spectra/a.csv'),
    silent: readFrom(flat),
  }),
  'outside-journal': rule<
    | (FileFacts & { of: 'file' })
    | { of: 'folder'; folder: string }
    | { of: 'link' | 'image'; written: string }
    | { of: 'value'; subject: string; written: string }
  >({
    when: 'Something leads out of the journal’s folder.',
    severity: 'error',
    found: (facts) => {
      switch (facts.of) {
        case 'file':
          return `${fileNamed(facts.file)} leads out of the journal’s folder and is not read.`;
        case 'folder':
          return `The folder ${facts.folder} leads out of the journal and is not read.`;
        case 'value':
          return `${facts.subject} is '${facts.written}', which leads out of the journal and is not read.`;
        default:
          return `The ${facts.of} ${facts.written} leads out of the journal.`;
      }
    },
    advice: 'Put the file itself into the journal’s folder.',
    cure: (facts) => {
      if (facts.of === 'folder') return `Make ${facts.folder} a folder inside the journal’s.`;
      if (facts.of === 'value')
        return (
          'Put the file into the journal’s folder and write its path ' +
          'from there, with forward slashes: spectra/14-A.csv.'
        );
      return facts.of === 'file' ? undefined : 'Put the file into the journal’s folder.';
    },
    fires: spectrumNamed('../a.csv'),
    silent: readFrom(flat),
  }),
  'not-a-file': rule<FileFacts & { what: string; to: 'read' | 'publish' }>({
    when: 'What is named is no ordinary file.',
    severity: 'error',
    found: ({ file, what, to }) =>
      to === 'read' ? `${fileNamed(file)} is ${what} and is not read.` : `${file} is ${what}, where a file should be.`,
    advice: 'Name the file itself.',
    cure: ({ to }) => (to === 'read' ? 'Put the file itself into the journal’s folder.' : undefined),
    fires: { matter: spectrumNamed('spectra'), files: { 'spectra/a.csv': flat } },
    silent: readFrom(flat),
  }),
  unreadable: rule<FileFacts & { folder?: string; code: string }>({
    when: 'The machine does not let a file or a folder be read.',
    severity: 'error',
    found: ({ file, folder, code }) =>
      `${folder === undefined ? fileNamed(file) : `The folder ${folder}`} can’t be read (${code}).`,
    advice: 'Look at the file’s permissions.',
    cure: ({ folder }) => (folder === undefined ? undefined : 'Look at the folder’s permissions.'),
    fires: { files: { 'pages/about.md': { text: 'Words.\n', unreadable: true } } },
    silent: { files: { 'pages/about.md': 'Words.\n' } },
  }),
  'not-utf-8': rule<FileFacts & { utf16: boolean }>({
    when: 'A file of text is not saved as UTF-8.',
    severity: 'error',
    found: ({ file, utf16 }) => `${fileNamed(file)} is ${utf16 ? 'saved as UTF-16' : 'not saved as UTF-8'}.`,
    advice: 'Save it as UTF-8.',
    fires: { files: { 'pages/about.md': { hex: '436166e90a' } } },
    silent: { files: { 'pages/about.md': { hex: '436166c3a90a' } } },
  }),
  'not-a-folder': rule<{ folder: string }>({
    when: 'Something other than a folder stands where a folder of the journal should be.',
    severity: 'error',
    found: ({ folder }) => `${folder} should be a folder, and is not.`,
    advice: 'Make it a folder inside the journal’s.',
    cure: ({ folder }) => `Make ${folder} a folder inside the journal’s.`,
    fires: { files: { pages: 'Words.\n' } },
    silent: { files: { 'pages/about.md': 'Words.\n' } },
  }),
  'no-journal': rule<{
    /** There is not even a folder. */
    folder?: string;
    /** Lines of the least journal.yaml. */
    least?: readonly string[];
  }>({
    when: 'There is no journal in the folder that is named.',
    severity: 'error',
    found: ({ folder }) =>
      folder === undefined
        ? 'There is no journal.yaml, so this folder is not a journal yet.'
        : `There is no folder ${folder}.`,
    advice: 'Name the journal’s folder with --journal DIR; `masstone begin --found "Title"` founds one.',
    cure: ({ least }) =>
      least &&
      `Run \`masstone begin --found "Title"\` here, or write a file journal.yaml ` +
        `with ${least.map((line) => `\`${line}\``).join(', ')}.`,
    fires: { files: { 'journal.yaml': { absent: true } } },
    silent: '',
  }),
  'not-read': rule<{ below?: string; name?: string }>({
    when: 'What looks like a file of Markdown stands where it is not read, or has another ending.',
    severity: 'warning',
    found: ({ below }) =>
      below === undefined
        ? 'Only files whose names end in .md are read here.'
        : `Markdown in a folder below ${below} is not read.`,
    advice: 'Move it up, or let its name end in .md.',
    cure: ({ below, name }) => (below === undefined ? `Rename it ${name}.` : `Move it up into ${below}.`),
    fires: { files: { 'pages/about.markdown': 'Words.\n' } },
    silent: { files: { 'pages/about.md': 'Words.\n' } },
  }),
  'no-entries': rule({
    when: 'The journal has no entries.',
    severity: 'warning',
    found: () => 'There are no entries yet.',
    advice: 'Run `masstone begin "Title"` to begin one.',
    fires: { files: { 'entries/001-example.md': { absent: true } } },
    silent: '',
  }),
  'other-fence': rule<{ opening: string }>({
    when: 'The front matter is set off otherwise than with lines of three hyphens.',
    severity: 'warning',
    found: ({ opening }) => `The front matter begins with ${opening}, where a line --- stands first.`,
    advice: 'Let the file begin with a line ---, and end the front matter with another.',
    fires: { matter: '', files: { 'entries/002-x.md': `\n\n${exampleEntryText('number: 2')}` } },
    silent: { matter: '', files: { 'entries/002-x.md': exampleEntryText('number: 2') } },
  }),
  'no-front-matter': rule({
    when: 'The file of an entry does not begin with front matter.',
    severity: 'error',
    found: () => 'The file does not begin with front matter.',
    advice: 'Begin the file with a line ---, then number, title, date and status, then another line ---.',
    fires: { files: { 'entries/001-example.md': 'It was green.\n' } },
    silent: { files: { 'entries/001-example.md': anEntry } },
  }),
  'front-matter-end': rule<{ how: 'missing' | 'unclear' | 'carriage-returns' }>({
    when: 'It is not clear where the front matter ends.',
    severity: 'error',
    found: ({ how }) => {
      if (how === 'missing') return 'The front matter has no end.';
      return how === 'unclear'
        ? 'A line begins with --- but has more on it, so that the end of the front matter is not clear.'
        : 'The file’s lines end in the old way (CR only), which is not read.';
    },
    advice: 'Write a line --- after the last key.',
    cure: ({ how }) => {
      if (how === 'missing') return undefined;
      return how === 'unclear'
        ? 'End the front matter with --- alone on its line.'
        : 'Save it with line ends LF or CRLF.';
    },
    fires: { files: { 'entries/001-example.md': anEntry.replace(/---\n\n?$/, '') } },
    silent: { files: { 'entries/001-example.md': anEntry } },
  }),
  'front-matter-language': rule<{ language: string }>({
    when: 'The front matter says that it is something other than YAML.',
    severity: 'error',
    found: ({ language }) => `The front matter says it is '${language}'; only YAML is read, and nothing is run.`,
    advice: 'Write --- alone on the first line, and YAML below it.',
    fires: { files: { 'entries/001-example.md': anEntry.replace('---', '---js') } },
    silent: { files: { 'entries/001-example.md': anEntry.replace('---', '---yaml') } },
  }),
  'front-matter-size': rule<{ kilobytes?: number; atMost: number }>({
    when: 'The front matter is too long, or has a very long empty stretch.',
    severity: 'error',
    found: ({ kilobytes, atMost }) =>
      kilobytes === undefined
        ? 'The front matter has a very long empty stretch.'
        : `The front matter has ${kilobytes} kB; at most ${atMost} kB are read.`,
    advice: 'Move what is long into the body, and take empty lines out.',
    fires: { files: { 'entries/001-example.md': anEntry.replace('\n---\n', `${'\n'.repeat(500)}\n---\n`) } },
    silent: { files: { 'entries/001-example.md': anEntry.replace('\n---\n', `${'\n'.repeat(50)}\n---\n`) } },
  }),
};

// Rules on lots: the products of samples as reagents of later entries.
import { exampleEntryText } from '../example.js';
import type { Example } from '../rule.js';
import { rule } from '../rule.js';

const twoEntries = (taken: string) => ({
  files: {
    'entries/001-made.md': exampleEntryText('pigment: { name: malachite }\nsamples: [{ sample: A, obtained: 2.00 g }]'),
    'entries/002-used.md': exampleEntryText(
      `number: 2\ntitle: Used\ndate: 2026-01-03\nreagents: [{ lot: 1/A, amount: ${taken} }]`,
    ),
  },
});

const sentAway = (amount: string): string =>
  `pigment: { name: malachite }
samples:
  - { sample: A, obtained: 2.00 g, sent: [{ date: 2026-02-01, amount: ${amount}, to: P-17 }] }`;

const planned = (amount: string): Example => ({
  matter: `status: planned\nreagents: [{ reagent: jar, amount: ${amount} }]`,
  files: {
    'shelf.yaml': 'jar: { name: salt, formula: NaCl, bought: { amount: 10 g, date: 2026-01-01 } }\n',
  },
});

export const lotRules = {
  'shelf-runs-out': rule<{ id: string; sample: string; needed: string; left: string; planned: boolean }>({
    when: 'Less is left on the shelf of a reagent, by what was bought and used since, than an entry takes.',
    severity: 'warning',
    found: ({ id, sample, needed, left, planned: isPlanned }) => {
      const who = sample === '' ? 'this entry' : `sample ${sample} of this entry`;
      return isPlanned
        ? `Of ${id} ${left} will be left, and ${who} takes ${needed}.`
        : `Of ${id} ${left} were left, and ${who} took ${needed}: more than was bought.`;
    },
    advice: 'Buy more and write it under `bought:` in shelf.yaml, or correct an amount or the date.',
    subject: 'id',
    fires: planned('12 g'),
    silent: planned('9 g'),
  }),
  'lot-overspent': rule<{ lot: string; obtained: string; sample: string; tooMuch: string; others?: string }>({
    when: 'More has been taken of a lot, over all entries, than was obtained of it.',
    severity: 'warning',
    found: ({ lot, obtained, sample, tooMuch, others }) =>
      `More has been taken of lot ${lot} than there was: ${obtained} were obtained, ` +
      `and with ${sample === '' ? 'this entry' : `sample ${sample} of this entry`} ${tooMuch} too much are used.` +
      (others === undefined ? '' : ` Of it took too: ${others}.`),
    advice: 'Correct an amount, or name the other lot that was used.',
    subject: 'lot',
    fires: twoEntries('2.50 g'),
    silent: twoEntries('1.50 g'),
  }),
  'lot-sent-beyond': rule<{ lot: string; obtained: string; tooMuch: string }>({
    when: 'More of a sample has been sent away, with what later entries took, than was obtained of it.',
    severity: 'warning',
    found: ({ lot, obtained, tooMuch }) =>
      `More of lot ${lot} has been sent away than was left of it: ${obtained} were obtained, ` +
      `and ${tooMuch} too much are gone.`,
    advice: 'Correct an amount that was sent or used.',
    subject: 'lot',
    fires: sentAway('2.50 g'),
    silent: sentAway('0.50 g'),
  }),
};

// Rules on the register of published addresses: whether it is whole, and whether every address in it is still there.
import { rule } from '../rule.js';

const withdrawn = 'status: withdrawn\nwithdrawn: It was never dry.';

/** How an address would be lost, with what is new in the journal and could be what went. */
type Loss =
  | {
      readonly lost: 'entry';
      readonly number: number;
      readonly renumbered: readonly { readonly file: string; readonly number: number }[];
    }
  | { readonly lost: 'draft'; readonly number: number; readonly status: string }
  | { readonly lost: 'sample'; readonly number: number; readonly sample: string; readonly renamed: readonly string[] }
  | { readonly lost: 'reagent'; readonly id: string; readonly added: readonly string[] }
  | { readonly lost: 'page'; readonly name: string; readonly added: readonly string[] };

const either = (names: readonly string[]): string => names.join(' or ');

function lossWords(loss: Loss): string {
  switch (loss.lost) {
    case 'entry':
      return `Entry ${loss.number} is published at /${loss.number}/, and is not in the journal any more.`;
    case 'draft':
      return `Entry ${loss.number} is published at /${loss.number}/, and would go, since its status is ${loss.status}.`;
    case 'sample':
      return (
        `Sample ${loss.sample} of entry ${loss.number} is published at /${loss.number}/#${loss.sample}, and is not ` +
        'there any more.'
      );
    case 'reagent':
      return (
        `The reagent ${loss.id} is published at /reagents/${loss.id}/, where the codes on its labels lead, and is ` +
        'not on the shelf any more.'
      );
    case 'page':
      return `The page ${loss.name} is published at /${loss.name}/, and is not among the pages any more.`;
  }
}

/** What to do where something only got another name; the cure where it is in fact gone stands behind it. */
function lossCure(loss: Loss): string {
  switch (loss.lost) {
    case 'entry': {
      const now = loss.renumbered.map(({ file, number }) => `${file}, which is number ${number} now`);
      const back = now.length === 0 ? '' : ` (${either(now)})`;
      return (
        `If it got another number${back}, give it its own back: number: ${loss.number}. Otherwise bring its file ` +
        'back, and write status: withdrawn in it if it should not stand.'
      );
    }
    case 'draft':
      return 'Write status: finished, or status: withdrawn if it should not stand.';
    case 'sample': {
      const now = loss.renamed.length === 0 ? '' : ` (it may be ${either(loss.renamed)} now)`;
      return `Bring sample ${loss.sample} back${now}, or write status: withdrawn for the entry.`;
    }
    case 'reagent': {
      const now = loss.added.length === 0 ? '' : ` (it may be ${either(loss.added)} now)`;
      return (
        `If it got another id${now}, write moved-from: [${loss.id}] in that jar, or give it its id back. If it is ` +
        'used up or given away, its jar stays in shelf.yaml, and a note: says so.'
      );
    }
    case 'page': {
      const now = loss.added.length === 0 ? '' : ` (it may be ${either(loss.added)} now)`;
      return (
        `If it got another name${now}, write moved-from: [${loss.name}] in the front matter of that page. Otherwise ` +
        `bring pages/${loss.name}.md back, if only to say that there is nothing here any more.`
      );
    }
  }
}

export const registerRules = {
  register: rule<{ line: string }>({
    when: 'A line of register.txt is no address that is kept.',
    severity: 'error',
    found: ({ line }) => `'${line}' is not an address of an entry, a sample, a reagent, a page, a series or a colour.`,
    advice:
      'This file is written by `masstone publish`; take the line out, or fetch the file back from your last copy.',
    fires: { files: { 'register.txt': '/1/\nfirst\n' }, matter: '' },
    silent: { files: { 'register.txt': '/1/\n\n' }, matter: '' },
  }),
  'register-cut': rule<{ said?: number; there: number }>({
    when: 'register.txt is empty, or holds fewer addresses than its first line says.',
    severity: 'error',
    found: ({ said, there }) =>
      said === undefined
        ? 'The register is empty, and is never written so: it has been cut short.'
        : `The register holds ${there} of the ${said} addresses that its first line names: it has been cut short.`,
    advice: 'Fetch the file back from your last copy.',
    cure: ({ said, there }) =>
      said === undefined
        ? 'Fetch the file back from your last copy; delete it only if nothing has been published yet.'
        : `Fetch the file back from your last copy; if these are all, write ${there} for the number in its first line.`,
    fires: { files: { 'register.txt': '# 2 addresses\n/1/\n' }, matter: '' },
    silent: { files: { 'register.txt': '# 1 address\n/1/\n' }, matter: '' },
  }),
  'address-lost': rule<Loss>({
    when: 'An address that is in register.txt would go with the next publication.',
    severity: 'error',
    found: lossWords,
    advice: 'Bring it back, or write status: withdrawn in the entry.',
    cure: lossCure,
    fires: { files: { 'register.txt': '/1/\n/1/#B\n' }, matter: 'samples: [{ sample: A }]' },
    silent: { files: { 'register.txt': '/1/\n/1/#B\n' }, matter: withdrawn },
  }),
};

// Rules on the register of published addresses: whether it is whole, and whether every address in it is still there.
import { rule } from '../rule.js';

const withdrawn = 'status: withdrawn\nwithdrawn: It was never dry.';

/** How an address would be lost. */
type Loss =
  | { readonly lost: 'entry'; readonly number: number }
  | { readonly lost: 'draft'; readonly number: number; readonly status: string }
  | { readonly lost: 'sample'; readonly number: number; readonly sample: string };

export const registerRules = {
  register: rule<{ line: string }>({
    when: 'A line of register.txt is no address of an entry or a sample.',
    severity: 'error',
    found: ({ line }) => `'${line}' is not an address of an entry or a sample.`,
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
    found: (loss) => {
      const page = `/${loss.number}/`;
      if (loss.lost === 'entry')
        return `Entry ${loss.number} is published at ${page}, and is not in the journal any more.`;
      if (loss.lost === 'draft')
        return `Entry ${loss.number} is published at ${page}, and would go, since its status is ${loss.status}.`;
      const address = `${page}#${loss.sample}`;
      return `Sample ${loss.sample} of entry ${loss.number} is published at ${address}, and is not there any more.`;
    },
    advice: 'Bring it back, or write status: withdrawn in the entry.',
    cure: (loss) => {
      if (loss.lost === 'entry')
        return 'Bring its file back, and write status: withdrawn in it if it should not stand.';
      if (loss.lost === 'draft') return 'Write status: finished, or status: withdrawn if it should not stand.';
      return `Bring sample ${loss.sample} back, or write status: withdrawn for the entry.`;
    },
    fires: { files: { 'register.txt': '/1/\n/1/#B\n' }, matter: 'samples: [{ sample: A }]' },
    silent: { files: { 'register.txt': '/1/\n/1/#B\n' }, matter: withdrawn },
  }),
};

// Rules on what an entry refers to: reagents, lots, other entries, pages.
import { rule } from '../rule.js';

export const referenceRules = {
  'unknown-reagent': rule<{
    id: string;
    /** The nearest that is on the shelf. */
    near?: string;
    /** What names it: a use, an incident, the reference. */
    of: 'use' | 'incident' | 'reference';
  }>({
    when: 'A reagent is named that is not on the shelf.',
    severity: 'error',
    found: ({ id }) => `'${id}' is not on the shelf.`,
    advice: 'Add it to shelf.yaml, or describe it here: { name: …, formula: … }.',
    cure: ({ near, of }) => {
      if (near !== undefined) return `Did you mean ${near}?`;
      if (of === 'incident') return 'Write the id of a reagent on the shelf.';
      return of === 'reference' ? 'Write the id of a reagent on the shelf, or give the colour here.' : undefined;
    },
    subject: 'id',
    fires: 'reagents: [{ reagent: blue-vitrol, amount: 5.00 g }]',
    silent: 'reagents: [{ reagent: blue-vitriol, amount: 5.00 g }]',
  }),
};

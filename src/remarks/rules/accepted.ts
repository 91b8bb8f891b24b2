// Rules on what a maker accepts of the proof.
import { rule } from '../rule.js';

const accepting = (warning: string): string =>
  `accept: [{ warning: ${warning}, because: It is what the workshop has. }]
reagents: [{ reagent: { name: grandmother’s powder, formula: NaCl }, amount: 1.00 g, intent: excess }]
samples: [{ sample: A }]
heating: [{ to: boiling }]`;

export const acceptedRules = {
  'not-accepted': rule<{ rule: string; why: 'danger' | 'error' | 'unknown' | 'nothing' }>({
    when: 'Something is accepted that cannot be, or that is not there.',
    severity: { among: ['warning', 'note'], of: ({ why }) => (why === 'nothing' ? 'note' : 'warning') },
    found: ({ rule: id, why }) => {
      switch (why) {
        case 'danger':
          return `'${id}' speaks of a danger, which is answered and never accepted.`;
        case 'error':
          return `'${id}' is an error here, which is mended and never accepted.`;
        case 'unknown':
          return `'${id}' is no rule of the proof.`;
        case 'nothing':
          return `There is no '${id}' here to accept.`;
      }
    },
    advice: 'Take the line out.',
    cure: ({ why }) => {
      if (why === 'danger') return 'Write what is done about it, under precautions:.';
      return why === 'unknown' ? 'Write the id that stands in brackets behind the remark.' : undefined;
    },
    fires: accepting('danger-unanswered'),
    silent: accepting('heat-in-words'),
  }),
};

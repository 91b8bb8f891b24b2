// Rules on a journal beside the site that was published of it before.
import { rule } from '../rule.js';

export const publicationRules = {
  'register-behind': rule<{
    /** Some of the addresses. */
    some: readonly string[];
    more: boolean;
  }>({
    when: 'The site that was published before has addresses that the register has not.',
    severity: 'warning',
    found: ({ some, more }) =>
      `The site has addresses that the register has not: ${some.join(', ')}${more ? ', …' : ''}.`,
    advice:
      'An older register came back, or a part of it was lost. What the site has is put back when it is published.',
    fires: { matter: '', published: true },
    silent: {
      matter: '',
      files: {
        'shelf.yaml': 'water: { name: water, formula: H2O }\n',
        'register.txt': '# 2 addresses\n/1/\n/reagents/water/\n',
      },
      published: true,
    },
  }),
};

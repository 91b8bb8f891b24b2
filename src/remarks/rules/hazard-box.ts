// Rules on the hazard box: what is known of each substance, and what the maker's sheet says of it.
import { rule } from '../rule.js';

/** An entry that uses one reagent of a shelf that has no other. */
const shelved = (facts: string) => ({
  matter: 'reagents: [{ reagent: of-the-shelf, amount: 1.00 g }]',
  files: { 'shelf.yaml': `of-the-shelf: { ${facts} }\n` },
});

export const hazardBoxRules = {
  'no-hazard-data': rule<{
    name: string;
    /** It was made in this journal: nobody sells a sheet for it. */
    madeHere: boolean;
    /** Its formula or CAS number is there: the table has nothing of it all the same. */
    identified: boolean;
  }>({
    when: 'Neither the table nor a safety data sheet says what is hazardous about a substance.',
    severity: { among: ['warning', 'note'], of: ({ madeHere }) => (madeHere ? 'note' : 'warning') },
    found: ({ name }) => `No hazard data for ${name}: it is shown as unknown and treated as hazardous.`,
    advice:
      'Copy the H-statements of its safety data sheet into `sds:` on the shelf, or give a formula or a CAS number.',
    cure: ({ madeHere, identified }) => {
      if (madeHere)
        return (
          'Treat it as hazardous. If the trade sells the same pigment, put a reagent ' +
          'with that sheet’s `sds:` and this `lot:` on the shelf.'
        );
      return identified
        ? 'The table has nothing of it: copy the H-statements of its safety data sheet into `sds:` on the shelf.'
        : undefined;
    },
    subject: 'name',
    mendedOnce: true,
    fires: shelved('name: grandmother’s powder'),
    silent: shelved('name: grandmother’s powder, sds: { statements: [H302] }'),
  }),
  'sold-with-several-contents': rule<{ name: string; contents: readonly string[] }>({
    when: 'A product is sold with several contents, and nothing says which it is.',
    severity: 'note',
    found: ({ name, contents }) =>
      `${name} is taken as ${contents[0]!}` +
      `${contents.length > 1 ? `; it may also be ${contents.slice(1).join(', ')}` : ''}.` +
      (contents.length > 1 ? ' The hazards of all of them are shown.' : ' Its hazards are shown.'),
    advice: 'Give what its label says: a formula or another name, or the H-statements of its sheet under `sds:`.',
    subject: 'name',
    mendedOnce: true,
    fires: shelved('name: rust remover'),
    silent: shelved('name: rust remover, formula: H3PO4, strength: 10 %'),
  }),
  'sheet-leaves-out': rule<{ name: string; codes: readonly string[] }>({
    when: 'The maker’s sheet leaves out statements that the table has.',
    severity: 'note',
    found: ({ name, codes }) => `The maker’s sheet for ${name} leaves out ${codes.join(', ')}, which the table has.`,
    advice:
      'Compare the sheet again, its date and the strength it is for; ' +
      'the box shows the sheet and says what it leaves out.',
    subject: 'name',
    mendedOnce: true,
    fires: shelved('name: barium carbonate, formula: BaCO3, sds: { statements: [H315] }'),
    silent: shelved('name: barium carbonate, formula: BaCO3, sds: { statements: [H302, H332] }'),
  }),
  'strange-statement': rule<{ name: string; codes: readonly string[] }>({
    when: 'A code on the maker’s sheet is no published statement.',
    severity: 'warning',
    found: ({ codes }) => `${codes.join(', ')} on the maker’s sheet is no published statement.`,
    advice: 'Copy the code again from the sheet, e.g. H302 or EUH032.',
    subject: 'name',
    mendedOnce: true,
    fires: shelved('name: a salt, sds: { statements: [H399] }'),
    silent: shelved('name: a salt, sds: { statements: [H302] }'),
  }),
  'strength-not-given': rule<{ name: string }>({
    when: 'A substance that is sold at many strengths has none.',
    severity: 'note',
    found: ({ name }) => `No strength is given for ${name}: its hazards are those of the undiluted substance.`,
    advice: 'Give `strength:` on the shelf or where it is used.',
    subject: 'name',
    mendedOnce: true,
    fires: shelved('name: hydrochloric acid, formula: HCl'),
    silent: shelved('name: hydrochloric acid, formula: HCl, strength: 10 %'),
  }),
};

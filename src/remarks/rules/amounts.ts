// Rules on the reaction and the amounts of an entry.
import { inYaml } from '../in-yaml.js';
import type { Example } from '../rule.js';
import { rule } from '../rule.js';

const malachite = (rest: string): string =>
  `pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
${rest}`;
const amountsOf = (vitriol: string, soda: string): string =>
  malachite(`reagents:
  - { reagent: blue-vitriol, ${vitriol} }
  - { reagent: soda, ${soda} }`);
const obtaining = (mass: string): string =>
  `${amountsOf('amount: 5.00 g', 'amount: 2.50 g')}
samples: [{ sample: A, obtained: ${mass} }]`;
/** Soda whose titration took so much acid. */
const assayed = (used: string): Example => ({
  matter: 'reagents: [{ reagent: soda, amount: 2.50 g }]',
  files: {
    'shelf.yaml':
      'soda: { name: soda, formula: Na2CO3, assay: { by: titration, taken: 0.500 g, titrant: HCl 0.500 mol/L, ' +
      `used: ${used}, indicator: methyl orange } }\n`,
  },
});

export const amountsRules = {
  reaction: rule<{ message: string; column?: number; cure?: string; inWords?: boolean }>({
    when: 'The reaction cannot be read.',
    severity: { among: ['error', 'warning'], of: ({ inWords }) => (inWords ? 'warning' : 'error') },
    found: ({ message, column, inWords }) =>
      inWords
        ? 'The reaction has words in it, or a side that is missing: it is shown, and no yield is reckoned by it.'
        : `The reaction cannot be read${column === undefined ? '' : ` at its column ${column}`}: ${message}`,
    advice: 'Write it like CuSO4 + Na2CO3 -> CuCO3 + Na2SO4.',
    cure: ({ cure, inWords }) => (inWords ? undefined : cure),
    fires: 'reaction: CuSO4 + Na2CO3',
    silent: 'reaction: CuSO4 + Na2CO3 -> CuCO3 + Na2SO4',
  }),
  'reaction-unbalanced': rule<{ sentence: string; balanced?: string; fault?: string }>({
    when: 'The reaction has not the same atoms, or not the same charge, on both sides.',
    severity: 'error',
    found: ({ sentence }) => `The reaction does not balance. ${sentence}`,
    advice: 'Correct the coefficients; `masstone balance` finds them.',
    cure: ({ balanced, fault }) => (balanced === undefined ? fault : `Write ${balanced}`),
    fires: 'reaction: FeSO4 + NaOH -> Fe(OH)2 + Na2SO4',
    silent: 'reaction: FeSO4 + 2 NaOH -> Fe(OH)2 + Na2SO4',
  }),
  'product-not-named': rule<{ products: readonly string[]; pigment?: string }>({
    when: 'The reaction has several products, and nothing says which is the pigment.',
    severity: 'note',
    found: () => 'Nothing says which product of the reaction is the pigment, so no yield is reckoned.',
    advice: 'Add pigment: { name: …, formula: … } with the formula of one of the products.',
    cure: ({ products, pigment }) =>
      pigment === undefined
        ? `Add pigment: { name: …, formula: … } with the formula of one of ${products.join(', ')}.`
        : `Write pigment: { name: ${pigment}, formula: … } with the formula that it has: ${products.join(' or ')}.`,
    fires: 'reaction: CuSO4 + Na2CO3 -> CuCO3 + Na2SO4',
    silent: 'pigment: { name: copper carbonate, formula: CuCO3 }\nreaction: CuSO4 + Na2CO3 -> CuCO3 + Na2SO4',
  }),
  'product-hydrate': rule<{ made: string; reckonedAs: string }>({
    when: 'The pigment and the product of the reaction differ in their water.',
    severity: 'note',
    found: ({ made, reckonedAs }) => `The reaction makes ${made}; the yield is reckoned as ${reckonedAs}.`,
    advice: 'Write the same formula in both places, if it is one substance.',
    subject: 'reckonedAs',
    fires: 'pigment: { name: gypsum, formula: CaSO4·2H2O }\nreaction: CaCO3 + H2SO4 -> CaSO4 + H2O + CO2',
    silent: 'pigment: { name: anhydrite, formula: CaSO4 }\nreaction: CaCO3 + H2SO4 -> CaSO4 + H2O + CO2',
  }),
  'product-not-in-reaction': rule<{
    formula: string;
    products: readonly string[];
    /** The reaction with its sides changed, where the pigment stands on the left. */
    turned?: string;
  }>({
    when: 'The pigment stands nowhere among the products of the reaction.',
    severity: 'warning',
    found: ({ formula, turned }) =>
      turned === undefined
        ? `The reaction makes no ${formula}, so no yield is reckoned.`
        : `The reaction has ${formula} on its left, where what goes in stands, so no yield is reckoned.`,
    advice: 'Write the reaction through to the pigment, or give the pigment a formula that stands among the products.',
    cure: ({ formula, products, turned }) =>
      (turned === undefined
        ? `Write the reaction through to ${formula}, several steps as one equation; or, of another substance, give `
        : `Write ${turned}, if its sides were taken for one another; else give `) +
      `the pigment a formula that stands among the products: ${products.join(', ')}.`,
    subject: 'formula',
    fires: 'pigment: { name: tenorite, formula: CuO }\nreaction: CuSO4 + Na2CO3 -> CuCO3 + Na2SO4',
    silent: 'pigment: { name: copper carbonate, formula: CuCO3 }\nreaction: CuSO4 + Na2CO3 -> CuCO3 + Na2SO4',
  }),
  'reactant-without-reagent': rule<{
    reactant: string;
    /** It is known what every reagent is made of. */
    certain: boolean;
    /** The one sample that goes without it, where others have it. */
    sample?: string;
    /** What that sample has besides, which takes no part in the reaction of the entry. */
    added?: readonly string[];
  }>({
    when: 'A reactant of the reaction is supplied by none of the reagents.',
    severity: {
      among: ['error', 'warning'],
      of: ({ certain, sample }) => (certain && sample === undefined ? 'error' : 'warning'),
    },
    found: ({ reactant, sample, added }) => {
      if (sample === undefined)
        return (
          `Nothing among the reagents supplies ${reactant}, so the limiting reagent and the yield are not ` +
          'reckoned.'
        );
      const nothing = `Nothing in sample ${sample} supplies ${reactant}`;
      return added === undefined
        ? `${nothing}, so its limiting reagent and yield are not reckoned.`
        : `${nothing}; with ${added.join(' and ')} instead it is made by another reaction than the entry’s, and its ` +
            'limiting reagent and yield are not reckoned.';
    },
    advice:
      'Add the reagent, with amount: excess if it was not measured (air, ' +
      'water), or correct the formula of one that is there.',
    cure: ({ sample, added }) =>
      added &&
      `To have its yield reckoned, write sample ${sample} as an entry of its own, with its own reaction, and link ` +
        'the two; masstone begin makes one.',
    subject: 'reactant',
    fires: malachite('reagents: [{ reagent: blue-vitriol, amount: 5.00 g }]'),
    silent: amountsOf('amount: 5.00 g', 'amount: excess'),
  }),
  'takes-no-part': rule<{ name: string; formula?: string; reactants: readonly string[] }>({
    when: 'A reagent without a role takes no part in the reaction as it is written.',
    severity: 'note',
    found: ({ name, formula }) => `${name} (${formula}) takes no part in the reaction as it is written.`,
    advice: 'Give it a role (solvent, additive, flux, wash), or write it into the reaction.',
    cure: ({ reactants }) =>
      `Give it a role (solvent, additive, flux, wash), or write it into ` +
      `the reaction: ${reactants.join(', ')} are there now.`,
    subject: 'name',
    fires: malachite(`reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: soda, amount: 2.50 g }
  - { reagent: epsom-salt, amount: 0.50 g }`),
    silent: malachite(`reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: soda, amount: 2.50 g }
  - { reagent: epsom-salt, amount: 0.50 g, role: additive }`),
  }),
  'limits-though-meant-in-excess': rule<{
    name: string;
    /** It limits; or weighing cannot tell it from what does. */
    how: 'limits' | 'may-limit' | 'too-close';
    /** Names of what limits. */
    limits: string;
    /** How much it is short, in a sentence. */
    short?: string;
  }>({
    when: 'A reagent that is meant to be in excess limits, or may.',
    severity: 'warning',
    found: ({ name, how, limits, short }) => {
      const meant = `${name} is meant to be in excess, but`;
      if (how === 'limits') return `${meant} it limits.${short === undefined ? '' : ` ${short}`}`;
      return how === 'may-limit'
        ? `${meant} it may be what limits: weighing cannot tell.`
        : `${meant} weighing cannot tell it from what limits (${limits}).`;
    },
    advice: 'Take more of it, or correct the intent or the formula (a hydrate weighs more).',
    cure: ({ how }) => (how === 'too-close' ? 'Take more of it, or correct the intent.' : undefined),
    subject: 'name',
    fires: amountsOf('amount: 5.00 g', 'amount: 1.00 g, intent: excess'),
    silent: amountsOf('amount: 5.00 g', 'amount: 2.50 g, intent: excess'),
  }),
  'does-not-limit': rule<{ name: string; limits: string }>({
    when: 'A reagent that is meant to limit does not.',
    severity: 'warning',
    found: ({ name, limits }) => `${name} is meant to limit, but ${limits} does.`,
    advice: 'Take more of the other, or correct the intent.',
    subject: 'name',
    fires: amountsOf('amount: 5.00 g, intent: limiting', 'amount: 1.00 g'),
    silent: amountsOf('amount: 5.00 g, intent: limiting', 'amount: 2.50 g'),
  }),
  'finer-than-the-balance': rule<{ amount: string }>({
    when: 'A mass is written more finely than the journal’s balance can weigh.',
    severity: 'note',
    found: ({ amount }) => `${amount} is written more finely than the journal’s balance can weigh.`,
    advice: 'Write what the balance showed, or give this reading its own ± if another balance was used.',
    fires: 'reagents: [{ reagent: soda, amount: 2.5031 g }]',
    silent: 'reagents: [{ reagent: soda, amount: 2.50 g }]',
  }),
  'purity-above-100': rule<{ purity: string }>({
    when: 'An assay came to a purity above 100 %.',
    severity: 'warning',
    found: ({ purity }) => `A purity of ${purity} is not possible.`,
    advice: 'Look at the assay again: what was taken, the titrant, and whether the formula is right.',
    fires: assayed('20.00 mL'),
    silent: assayed('18.80 mL'),
  }),
  'strength-above-100': rule<{ strength: string }>({
    when: 'A strength by mass lies above 100 %.',
    severity: 'warning',
    found: ({ strength }) => `A strength of ${strength} is not possible.`,
    advice: 'Correct the strength.',
    fires: 'reagents: [{ reagent: vinegar, amount: 5 g, strength: 110 % }]',
    silent: 'reagents: [{ reagent: vinegar, amount: 5 g, strength: 60 % }]',
  }),
  'nothing-taken': rule<{ amount: string; name: string }>({
    when: 'An amount is nothing.',
    severity: 'warning',
    found: ({ amount, name }) => `An amount of ${amount} of ${name} is nothing.`,
    advice: 'Omit it from the sample instead.',
    subject: 'name',
    fires: 'reagents: [{ reagent: soda, amount: 0.00 g }]',
    silent: 'reagents: [{ reagent: soda, amount: 0.10 g }]',
  }),
  'hydrate-or-not': rule<{
    name: string;
    formula: string;
    hydrate: string;
    /** What limits as it is written, and what would limit if it is the hydrate; both where they differ. */
    limits?: string;
    limitsAsHydrate?: string;
    /** The lot that it is, of which only the reaction tells what it is. */
    lot?: string;
    /** Its name alone tells what it is; then how much of the dry salt the hydrate holds. */
    byName?: string | undefined;
    /** Its name alone tells what it is, and the yield is reckoned with it. */
    counts?: true;
    /** The jar of the shelf that it is of. */
    jar?: string;
    /** Its amount, where it is named in place, without keys of its own. */
    amount?: string;
  }>({
    when: 'A salt that is usually sold with water of crystallisation is written without it.',
    severity: {
      among: ['warning', 'note'],
      of: ({ limitsAsHydrate, counts }) => (limitsAsHydrate === undefined && !counts ? 'note' : 'warning'),
    },
    found: ({ name, formula, hydrate, limits, limitsAsHydrate, lot, byName }) => {
      const sold = `it is often sold as ${hydrate}`;
      const own =
        byName === undefined
          ? `${name} is written as ${formula}, without water; ${sold}.`
          : `Nothing but its name says what ${name} is: it is reckoned as ${formula}, without water; ${sold}, and ` +
            `${byName}.`;
      const asked =
        lot === undefined
          ? own
          : `Lot ${lot} is taken as ${formula}, as its reaction has it, without water; it mostly crystallises as ` +
            `${hydrate}.`;
      return limitsAsHydrate === undefined
        ? asked
        : `${asked} As the hydrate, ${limitsAsHydrate} would limit instead of ${limits}.`;
    },
    advice: 'Look at the label: write the formula that stands there, or call the salt anhydrous in its name.',
    cure: ({ name, hydrate, formula, lot, jar, amount }) => {
      if (lot !== undefined)
        return `Write formula: ${hydrate}, or ${formula} if it was dried so far, under the sample of lot ${lot}.`;
      const named =
        amount === undefined
          ? `formula: ${hydrate}`
          : `{ reagent: { name: ${inYaml(name)}, formula: ${hydrate} }, amount: ${inYaml(amount)} }`;
      const there = jar === undefined ? '' : ` for ${jar} in shelf.yaml`;
      return `Look at the label: write ${named}${there}, or call it anhydrous in its name.`;
    },
    subject: 'name',
    fires: 'reagents: [{ reagent: { name: copper sulfate, formula: CuSO4 }, amount: 5.00 g }]',
    silent: 'reagents: [{ reagent: { name: "copper sulfate, anhydrous", formula: CuSO4 }, amount: 5.00 g }]',
  }),
  'other-water': rule<{ name: string; formula: string; called: string; meant: string }>({
    when: 'A name tells of other water of crystallisation than the formula beside it.',
    severity: 'warning',
    found: ({ name, formula, called }) =>
      `${name} is ${called}, and its formula is written ${formula}: they tell of different water.`,
    advice: 'Look at the label: correct the formula or the name.',
    cure: ({ meant }) => `Look at the label: write ${meant}, or correct the name.`,
    subject: 'name',
    fires: 'reagents: [{ reagent: { name: nickel sulfate hexahydrate, formula: NiSO4·7H2O }, amount: 5.00 g }]',
    silent:
      'reagents: [{ reagent: { name: nickel sulfate hexahydrate, formula: NiSO4·6H2O }, amount: 5.00 g }, ' +
      '{ reagent: { name: copper sulfate pentahydrate, formula: Na2CO3 }, amount: 2.50 g }]',
  }),
  'name-and-formula': rule<{
    name: string;
    formula: string;
    meant: string;
    /** Another line, which has the formula of this name. */
    exchangedWith?: string;
  }>({
    when: 'A name tells of another substance than the formula beside it.',
    severity: 'warning',
    found: ({ name, formula, meant, exchangedWith }) =>
      exchangedWith === undefined
        ? `${name} is ${meant} by its name, and its formula is written ${formula}, whose mass and dangers are told.`
        : `The formulae of ${name} and ${exchangedWith} are exchanged: that of ${name} is written ${formula}, whose ` +
          `mass and dangers are told, and ${meant} stands beside ${exchangedWith}.`,
    advice: 'Look at the label: correct the formula or the name.',
    cure: ({ meant, exchangedWith }) =>
      exchangedWith === undefined
        ? `Look at the label: write ${meant} with the water that it holds, or correct the name.`
        : `Look at the labels: write ${meant} here, or exchange the names.`,
    subject: 'name',
    fires: 'reagents: [{ reagent: { name: copper sulfate, formula: ZnSO4·7H2O }, amount: 5.00 g }]',
    silent: 'reagents: [{ reagent: { name: copper sulfate, formula: CuSO4·5H2O }, amount: 5.00 g }]',
  }),
  'more-than-went-in': rule<{ obtained: string; wentIn: string }>({
    when: 'More product was obtained than all that went in.',
    severity: 'warning',
    found: ({ obtained, wentIn }) => `More came out (${obtained}) than all that went in (${wentIn}).`,
    advice: 'Check the weighing and the amounts.',
    fires: obtaining('9.00 g'),
    silent: obtaining('1.98 g'),
  }),
  'above-100-percent': rule<{
    percentYield: string;
    leftSolid?: string;
    /** Water would take the product with its salts. */
    soluble?: true;
    /** What two amounts that were swapped would make of it. */
    swapped?: string;
  }>({
    when: 'The yield lies above 100 % by more than weighing can explain.',
    severity: 'warning',
    found: ({ percentYield, leftSolid, swapped = '' }) =>
      `The yield is ${percentYield}: more than the reaction can give, and more than weighing can explain.` +
      (leftSolid === undefined ? '' : ` By the reckoning ${leftSolid} is left over, which no water takes out.`) +
      swapped,
    advice: 'Dry and weigh again, wash out salts, or correct the formula (a hydrate?) or the amounts.',
    cure: ({ leftSolid, soluble }) => {
      if (leftSolid !== undefined)
        return 'Say how it was taken out, or take less of it; correct the amounts if they are not what went in.';
      return soluble
        ? 'Dry or heat it further and weigh again (water would dissolve it), or correct the formula (a hydrate?) or ' +
            'the amounts.'
        : undefined;
    },
    fires: obtaining('2.60 g'),
    silent: obtaining('2.20 g'),
  }),
  'taken-as-repeat': rule<{ sample: string; repeats: string; differs: string }>({
    when: 'Two samples tell the same of what differs, with nothing added, left out or changed between them.',
    severity: 'note',
    found: ({ sample, repeats, differs }) =>
      `Samples ${repeats} and ${sample} tell the same of what differs ('${differs}'): they are taken for repeats.`,
    advice: 'Say `replicate-of` where one repeats another, or what differs.',
    cure: ({ sample, repeats }) =>
      `If it is so, write \`replicate-of: ${repeats}\` in sample ${sample}; else say in each what differs.`,
    fires: 'samples: [{ sample: A, differs: cold }, { sample: B, differs: cold }]',
    silent: 'samples: [{ sample: A, differs: cold }, { sample: B, differs: warm }]',
  }),
  'words-against-change': rule<{ sample: string; differs: string; name: string; told: string; written: string }>({
    when: 'The words of a sample tell of another amount than its `change:`.',
    severity: 'warning',
    found: ({ sample, differs, name, told, written }) =>
      `Sample ${sample} says '${differs}', which comes to ${told} of ${name}, and is reckoned with the ${written} ` +
      'of its `change:`.',
    advice: 'Let words and figures tell the same; the figures are reckoned with.',
    cure: ({ told }) => `Correct the words, or write amount: ${told}.`,
    fires: `${amountsOf('amount: 5.00 g', 'amount: 2.50 g')}
samples: [{ sample: B, differs: half the soda, change: [{ reagent: soda, amount: 2.00 g }], obtained: 1.02 g }]`,
    silent: `${amountsOf('amount: 5.00 g', 'amount: 2.50 g')}
samples: [{ sample: B, differs: half the soda, change: [{ reagent: soda, amount: 1.25 g }], obtained: 1.02 g }]`,
  }),
  'amount-in-words-only': rule<{
    sample: string;
    differs: string;
    /** The reagent, as it is called and as the sample would name it; none where all amounts are others. */
    name?: string;
    id?: string;
    /** What it is reckoned with. */
    amount?: string;
    isLeftOut: boolean;
    /** What the words tell instead. */
    instead?: string;
    /** Another strength that they tell; empty where they do not say which. */
    strength?: string;
    /** What they say went in in its place. */
    replacedBy?: string;
  }>({
    when: 'The words of a sample tell of another amount, strength or reagent than it is reckoned with.',
    severity: 'warning',
    found: ({ sample, differs, name, amount }) => {
      const reckoned = name === undefined ? 'the amounts of all samples' : `${amount ?? 'as much'} of ${name}`;
      return (
        `Sample ${sample} says '${differs}', and is reckoned with ${reckoned}: what stands only in its words ` +
        'changes no amount.'
      );
    },
    advice: 'Write it under `change:`, `omit:` or `add:` of the sample; its yield is reckoned with that.',
    cure: ({ sample, id, isLeftOut, instead = '…', strength, replacedBy }) => {
      if (id === undefined)
        return `Write all its amounts under sample ${sample}: change: [{ reagent: …, amount: … }, …]`;
      if (replacedBy !== undefined)
        return `Write under sample ${sample}: omit: [${id}], add: [{ reagent: ${replacedBy}, amount: … }]`;
      if (strength !== undefined)
        return `Write under sample ${sample}: change: [{ reagent: ${id}, strength: ${strength || '…'} }]`;
      const key = isLeftOut ? `omit: [${id}]` : `change: [{ reagent: ${id}, amount: ${instead} }]`;
      return `Write under sample ${sample}: ${key}`;
    },
    fires: `${amountsOf('amount: 5.00 g', 'amount: 2.50 g')}
samples: [{ sample: A, obtained: 1.98 g }, { sample: B, differs: half the soda, obtained: 1.02 g }]`,
    silent: `${amountsOf('amount: 5.00 g', 'amount: 2.50 g')}
samples:
  - { sample: A, obtained: 1.98 g }
  - { sample: B, differs: half the soda, change: [{ reagent: soda, amount: 1.25 g }], obtained: 1.02 g }`,
  }),
};

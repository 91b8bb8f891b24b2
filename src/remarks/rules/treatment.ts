// Rules on what was done with a product after it was made: washing, drying, ignition, and the water it holds.
import { faultRule, rule } from '../rule.js';

const malachite = (rest: string): string =>
  `pigment: { name: malachite, formula: Cu2CO3(OH)2 }
reaction: 2 CuSO4 + 2 Na2CO3 + H2O -> Cu2CO3(OH)2 + 2 Na2SO4 + CO2
reagents:
  - { reagent: blue-vitriol, amount: 5.00 g }
  - { reagent: soda, amount: 2.50 g }
  - { reagent: water, amount: 100 mL, role: solvent }
${rest}`;
const washed = (wash: string): string =>
  malachite(`washes: [${wash}]
samples: [{ sample: A, obtained: 2.15 g }]`);

type WashingOddity = 'held-beyond-liquor' | 'held-beyond-wash' | 'liquor-below-liquids';

export const treatmentRules = {
  'washing-not-reckoned': rule<{ lacks: 'held' | 'liquor' }>({
    when: 'The washes are written down, and something is lacking to reckon what they leave.',
    severity: 'note',
    found: ({ lacks }) =>
      lacks === 'held'
        ? 'Nothing says how much liquor the cake keeps each time, so what washing leaves is not reckoned.'
        : 'Nothing says how much liquor there was before the first pouring, so what washing leaves is not reckoned.',
    advice: 'Write held: for each wash and liquor: for the pot.',
    cure: ({ lacks }) =>
      lacks === 'held' ? 'Write it as held: … mL, by the settled volume.' : 'Write it as liquor: … mL.',
    fires: washed('{ with: water, volume: 200 mL, times: 3 }'),
    silent: washed('{ with: water, volume: 200 mL, times: 3, held: 20 mL }'),
  }),
  'washing-volumes': rule<{ odd: WashingOddity; volume: string; of: string }>({
    when: 'Volumes of a washing do not go together: more is kept than there was, or there was less than went in.',
    severity: {
      among: ['warning', 'note'],
      of: ({ odd }) => (odd === 'held-beyond-liquor' ? 'warning' : 'note'),
    },
    found: ({ odd, volume, of }) => {
      if (odd === 'held-beyond-liquor')
        return `The cake cannot keep ${volume} of a liquor of ${of}: what washing leaves is reckoned too high.`;
      if (odd === 'held-beyond-wash')
        return `The cake keeps ${volume}, more than each wash of ${of} brings: such a wash takes little out.`;
      return `The liquor is ${volume}, and ${of} of liquid went in.`;
    },
    advice:
      'Correct held:, volume: or liquor:; held: is what stays with the cake, liquor: what stood over it at first.',
    cure: ({ odd }) =>
      odd === 'liquor-below-liquids'
        ? 'Write under liquor: all that was in the pot before the first pouring off; leave it as it is if so much ' +
          'had boiled away.'
        : undefined,
    fires: washed('{ with: water, volume: 200 mL, times: 3, held: 150 mL }'),
    silent: washed('{ with: water, volume: 200 mL, times: 3, held: 20 mL }'),
  }),
  'yield-carried-by-salt': rule<{
    washed: boolean;
    inWords: boolean;
    percentYield: string;
    salts: string;
    mass: string;
    without: string;
  }>({
    when: 'A yield above 95 % is carried by salt that was never washed out.',
    severity: 'warning',
    found: ({ washed: was, inWords, percentYield, salts, mass, without }) => {
      const untold = inWords
        ? 'What the washing in the words of the steps took out nobody can reckon, without its volumes'
        : 'No washing is written down';
      const how = was
        ? `The washes leave about ${mass} of salt (${salts}) in it even at best`
        : `${untold}, and the pot held ${mass} of salt (${salts})`;
      const rest = was ? `without it the yield is ${without} %` : 'a part of it could carry the yield';
      return `A yield of ${percentYield} ${was ? 'is' : 'may'} not ${was ? '' : 'be '}all pigment. ${how}; ${rest}.`;
    },
    advice: 'Wash until the last washing shows no salt, write the washes down, and weigh again.',
    cure: ({ inWords }) =>
      inWords ? 'Write under `washes:` how much water, how often and how much stayed with the cake.' : undefined,
    fires: washed('{ with: water, volume: 50 mL, times: 1, held: 40 mL }'),
    silent: washed('{ with: water, volume: 200 mL, times: 3, held: 20 mL }'),
  }),
  'not-dried-to-constant-mass': rule<{ sample: string }>({
    when: 'The last two weighings of a drying differ by more than two steps of the balance.',
    severity: 'note',
    found: ({ sample }) =>
      `Sample ${sample} was still losing mass: its last two weighings differ by more than two steps.`,
    advice: 'Dry and weigh again until two weighings agree.',
    fires: 'samples: [{ sample: A, dried: [{ dish: 20.10 g, with-product: 24.80 g }, { with-product: 24.62 g }] }]',
    silent: 'samples: [{ sample: A, dried: [{ dish: 20.10 g, with-product: 24.63 g }, { with-product: 24.62 g }] }]',
  }),
  'lighter-than-its-dish': rule<{ sample: string; dish: string; full: string }>({
    when: 'A dish with the product weighs less than the dish by itself.',
    severity: 'warning',
    found: ({ sample, dish, full }) =>
      `Sample ${sample}: the dish with the product, ${full}, weighs less than the dish, ${dish}; its drying is not ` +
      'reckoned.',
    advice: 'Exchange the two, if they were swapped.',
    cure: ({ full }) =>
      'Exchange the two, if they were swapped; if the dish was taken off already (on the balance, or in your head), ' +
      `write obtained: ${full}, and no dish.`,
    fires: 'samples: [{ sample: A, dried: [{ dish: 24.62 g, with-product: 20.10 g }] }]',
    silent: 'samples: [{ sample: A, dried: [{ dish: 20.10 g, with-product: 24.62 g }] }]',
  }),
  'heated-past-standing': rule<{
    written: string;
    at: string;
    sample?: string;
    left?: string;
    goneBy?: number;
    going?: { readonly from: string; readonly into?: string; readonly staysTo: number; readonly goneBy?: number };
  }>({
    when: 'A product was heated more than it stands before it was weighed.',
    severity: 'warning',
    found: ({ written, at, sample, left, goneBy, going }) => {
      const whose = sample === undefined ? '' : `Sample ${sample}: `;
      const done = left !== undefined && !going ? ` by ${goneBy} °C` : '';
      const turned = left === undefined ? '' : ` has turned into ${left}${done}, and is reckoned as that`;
      if (!going) return `${whose}${written} cannot have stood ${at}: it${turned}.`;
      const { from, into, staysTo, goneBy: end } = going;
      const begins = into === undefined ? 'and what is left then is not known' : `and then turns into ${into}`;
      const until = end === undefined ? '' : ` (all of it by ${end} °C)`;
      const first = left === undefined ? '' : `it${turned}; `;
      const none = 'how much of it had turned nobody knows, so that no yield and no metal account are told';
      const stays = `${from} stays up to ${staysTo} °C, ${begins}${until}`;
      const stood = left === undefined ? 'may not have stood' : 'cannot have stood';
      return `${whose}${written} ${stood} ${at}: ${first}${stays}; ${none}.`;
    },
    advice: 'Write the formula of what was weighed in the sample, or correct the heat.',
    cure: ({ left, going }) => {
      const into = going ? going.into : left;
      const own =
        into === undefined
          ? 'Write in the sample the formula of what was weighed'
          : `Where that is what was weighed, write formula: ${into} in the sample`;
      return `${own}; where it was weighed before that heat, or was not so hot, write that.`;
    },
    fires: malachite('heating: [{ of: product, to: 500 °C }]\nsamples: [{ sample: A, obtained: 1.50 g }]'),
    silent: malachite('heating: [{ of: product, to: 60 °C }]\nsamples: [{ sample: A, obtained: 1.98 g }]'),
  }),
  'target-not-read': rule<{ message: string; cure?: string }>({
    when: 'The composition that is aimed at cannot be read.',
    severity: 'warning',
    found: ({ message }) => `The target cannot be read: ${message}`,
    advice: 'Write a formula (Mn0.3Zn0.7O) or a recipe of oxides (CoO 40 %, Al2O3 60 %).',
    cure: ({ cure }) => cure,
    fires: 'pigment: { name: pink, target: some pink }',
    silent: 'pigment: { name: pink, target: Mn0.3Zn0.7O }',
  }),
  'gained-on-ignition': rule<{ sample: string; before: string; after: string }>({
    when: 'A portion weighs more after ignition than before.',
    severity: 'warning',
    found: ({ sample, before, after }) => `Sample ${sample} weighs ${after} after ignition and ${before} before it.`,
    advice: 'Check the weighings; a gain means that it took up oxygen, or that the figures are the wrong way round.',
    fires: 'samples: [{ sample: A, ignition: { before: 1.596 g, after: 2.497 g, residue: CuSO4 } }]',
    silent: 'samples: [{ sample: A, ignition: { before: 2.497 g, after: 1.596 g, residue: CuSO4 } }]',
  }),
  'ignited-more-than-obtained': rule<{ sample: string; before: string; obtained: string; mayBeCharge: boolean }>({
    when: 'More was ignited than was obtained of the product.',
    severity: 'warning',
    found: ({ sample, before, obtained }) =>
      `Sample ${sample}: ${before} were ignited, and only ${obtained} of the product were obtained.`,
    advice: 'Write the weighings of a portion of the finished product, or correct one of the masses.',
    cure: ({ mayBeCharge }) =>
      mayBeCharge
        ? 'An ignition is that of a portion of the finished product. If this is what went into the fire and came out ' +
          'of it, take it out: the amounts and obtained: say that.'
        : undefined,
    fires: 'samples: [{ sample: A, obtained: 1.50 g, ignition: { before: 4.00 g, after: 3.20 g, residue: CuSO4 } }]',
    silent: 'samples: [{ sample: A, obtained: 4.10 g, ignition: { before: 4.00 g, after: 3.20 g, residue: CuSO4 } }]',
  }),
  'water-not-in-the-formula': rule<{
    formula: string;
    name: string;
    range?: string;
    condition: string;
    source: string;
    /** What it threatens when it is ignited. */
    ignited?: { readonly title: string; readonly consequence: string; readonly gas?: string } | undefined;
  }>({
    when: 'A product is known to hold water, its formula says none, and it was neither ignited nor said to be dry.',
    severity: 'note',
    found: ({ formula, name, range, condition, source }) => {
      const holds = `${range} H2O for each ${formula}`;
      const subject = `${name.charAt(0).toUpperCase()}${name.slice(1)}`;
      const known = `${subject} is known to hold ${holds} (${condition}; ${source})`;
      return `${known}; the yield is reckoned as if it held none.`;
    },
    advice:
      'Write the water into the formula; or, unless heat makes it dangerous, ignite a weighed portion and write ' +
      'ignition: { before, after, to, residue }.',
    cure: ({ formula, range, ignited }) => {
      if (!ignited) return undefined;
      const { title, consequence, gas } = ignited;
      const danger = `${title}: ${consequence}${gas === undefined ? '' : ` (${gas})`}`;
      const water = `${range?.replace(' to ', '-')}H2O`;
      return `Do not ignite it (danger: ${danger}). Write the water into the formula: ${formula}·${water}.`;
    },
    subject: 'formula',
    fires: `pigment: { name: Prussian blue, formula: "Fe4[Fe(CN)6]3" }
samples: [{ sample: A, obtained: 2.00 g }]`,
    silent: `pigment: { name: Prussian blue, formula: "Fe4[Fe(CN)6]3·14H2O" }
samples: [{ sample: A, obtained: 2.00 g }]`,
  }),
};

/** Faults of an assay bring their own words. */
export const assayFaultRules = {
  'assay-not-reckoned': faultRule({
    when: 'An assay lacks something, or its figures cannot be put together.',
    severity: 'warning',
    advice: 'Write what was taken, what it was titrated or weighed as, and how much was used.',
    fires: `pigment: { name: epsom salt, formula: MgSO4 }
samples: [{ sample: A, assay: { by: gravimetric, taken: 0.455 g } }]`,
    silent: `pigment: { name: epsom salt, formula: MgSO4 }
samples: [{ sample: A, assay: { by: gravimetric, taken: 0.455 g, weighed: BaSO4 0.6168 g } }]`,
  }),
};

// An oxidiser and a fuel, or two cleaners, of which one stands in the table and the other only in the words of a step;
// what is only beside the work; what comes in when the heat is over; what was filtered off before the fire.
import { describe, expect, it } from 'vitest';
import { foresee } from '../../../src/hazards/index.js';
import { reckonDangers } from '../../../src/reckoning/dangers/dangers.js';
import { foreseenBySteps } from '../../../src/reckoning/dangers/foreseen-by-steps.js';
import { resolveNamed } from '../../../src/reagents/index.js';
import { emptyRoom, entry } from '../entries.js';

/** Rules that are told as a danger or a warning, and the rest as notes. */
function told(matter: string): { readonly grave: readonly string[]; readonly notes: readonly string[] } {
  const all = reckonDangers(entry(7, matter), emptyRoom).dangers.foreseen ?? [];
  const of = (isGrave: boolean) => all.filter(({ severity }) => (severity !== 'note') === isGrave);
  return { grave: of(true).map(({ rule }) => rule), notes: of(false).map(({ rule }) => rule) };
}
const pot = (reagents: readonly string[], steps: readonly string[], pigment = 'name: brown'): string =>
  [
    `pigment: { ${pigment} }`,
    `reagents: [${reagents.map((one) => `{ reagent: { name: ${JSON.stringify(one)} }, amount: 10 g }`).join(', ')}]`,
    `steps: ${JSON.stringify(steps)}`,
  ].join('\n');

describe('one half in the table, the other in words', () => {
  it.each([
    ['potassium permanganate', 'Pour a spoonful of glycerine into the hollow.', 'permanganate-organic'],
    ['glycerine', 'Sprinkle the purple crystals onto it.', 'permanganate-organic'],
    ['methylated spirits', 'Tip in a pinch of violet crystals and swirl.', 'permanganate-organic'],
    ['ethylene glycol', "Drop Condy's crystals in one at a time.", 'permanganate-organic'],
    ['potassium permanganate', 'Grind together with a spoon of caster sugar.', 'permanganate-organic'],
    ['potassium permanganate', 'Wash the crystals down with rubbing alcohol.', 'permanganate-organic'],
    ['bleach', 'Wash the beaker out with ammonia cleaner while it still holds the liquor.', 'hypochlorite-ammonia'],
    ['household ammonia', 'A splash of thin bleach goes in.', 'hypochlorite-ammonia'],
    ['nitric acid', 'Stir in 20 mL of methylated spirit.', 'nitric-organic'],
    ['isopropyl alcohol', 'Pour the aqua fortis into the alcohol.', 'nitric-organic'],
    ['acetone', 'Add 30 mL of hair bleach peroxide, 12 %.', 'peroxide-ketone'],
    ['acetone', 'A dash of 9 % developer from the hairdresser turns it brown.', 'peroxide-ketone'],
    ['hydrogen peroxide 12 %', 'Rinse the residue with nail varnish remover into the same beaker.', 'peroxide-ketone'],
  ])('%s: %s', (reagent, step, rule) => expect(told(pot([reagent], [step])).grave).toContain(rule));

  it('purple crystals are what they are called after, where nothing else there looks so', () => {
    const foreseen = foresee({
      ingredients: ['purple crystals', 'glycerine'].map((name) => ({ reagent: resolveNamed(name) })),
    }).foreseen;
    expect(foreseen.map(({ rule }) => rule)).toContain('permanganate-organic');
    expect(told(pot(['cobalt chloride', 'glycerine'], ['Dissolve the violet crystals in it.'])).grave).toEqual([]);
    const ochre = pot(['iron oxide', 'manganese sulfate', 'glycerine'], ['Sprinkle the purple crystals onto it.']);
    expect(told(ochre).grave).toContain('permanganate-organic');
    const alum = pot(['chromium(III) sulfate', 'potassium sulfate', 'ethanol'], ['Purple crystals grew overnight.']);
    expect(told(alum).grave).toEqual([]);
  });
});

describe('what is only beside the work', () => {
  it.each([
    ['potassium permanganate', 'Brown fingers afterwards come clean with lemon juice and glycerine soap.'],
    ['potassium permanganate', 'Stained hands were cleaned with alcohol gel when all was put away.'],
    ['potassium permanganate', 'Keep sugar and glycerine well away from it.'],
    ['charcoal', 'Saltpetre and sulphur are kept well away from the mill, in the cupboard next door.'],
    ['potassium permanganate', 'Warm the solution over a spirit lamp.'],
    ['hydrogen peroxide 6 %', 'The glass funnel was rinsed with acetone the day before and stood in the air since.'],
    ['hydrogen peroxide 6 %', 'Yesterday the funnel had been rinsed with acetone and left to dry.'],
    ['iron oxide', 'Put it in a crucible with a lid of aluminium foil and fire at 300 °C.'],
    ['iron oxide', 'Wrap it in kitchen foil and bake at 300 °C.'],
    ['iron oxide', 'Wrap the red powder in aluminium foil and bake it at 300 °C.'],
    ['iron oxide', 'Cover the dish loosely with tin foil and dry at 60 °C.'],
    ['iron oxide', 'The dish stood on aluminium foil in the oven at 200 °C.'],
  ])('is no danger of %s: %s', (reagent, step) => {
    const rules = told(pot([reagent], [step])).grave;
    const untrue = ['permanganate-organic', 'peroxide-ketone', 'metal-powder-oxide-hot', 'nitrate-fuel'];
    expect(rules.filter((one) => untrue.includes(one))).toEqual([]);
  });

  it.each([
    ['potassium permanganate', 'Add the glycerine soap to the solution.', 'permanganate-organic'],
    ['potassium permanganate', 'Wipe the glycerine away from the rim with a rag.', 'permanganate-organic'],
    ['potassium permanganate', 'Refill the spirit lamp and knock it over.', 'permanganate-organic'],
    [
      'hydrogen peroxide 6 %',
      'Rinse the funnel with acetone and leave it to dry until the next day.',
      'peroxide-ketone',
    ],
    ['hydrogen peroxide 6 %', 'Yesterday the cake was rinsed with acetone and left to dry.', 'peroxide-ketone'],
    ['iron oxide', 'Mix with aluminium filings and heat to 900 °C.', 'metal-powder-oxide-hot'],
    ['iron oxide', 'Stir in torn bits of aluminium foil, dry, and heat to 700 °C.', 'metal-powder-oxide-hot'],
    ['acetone', 'Warm it over a spirit lamp.', 'flammable-liquid-hot'],
  ])('is one where it is there: %s, %s', (reagent, step, rule) =>
    expect(told(pot([reagent], [step])).grave).toContain(rule),
  );
});

describe('alcohol that comes in when the heat is over', () => {
  const warm = ['flammable-liquid-heated', 'flammable-liquid-hot'];
  const salts = ['copper sulfate pentahydrate', 'sodium carbonate'];
  const warmed = (matter: string): readonly string[] => {
    const { grave, notes } = told(matter);
    return [...grave, ...notes].filter((one) => warm.includes(one));
  };
  it.each([
    [salts, ['Pour together and filter.', 'Dry at 50 °C; when cold, wet it with alcohol and rub.']],
    [
      [...salts, 'ethanol'],
      ['Pour the soda in, filter.', 'Dry at 50 °C, then grind with the alcohol.'],
    ],
    [
      [...salts, 'ethanol'],
      [
        'Heat the copper sulfate to 70 °C and add the soda.',
        'Let it cool overnight.',
        'Add the ethanol to the cold liquor.',
      ],
    ],
  ])('is not told as heated: %s, %s', (reagents, steps) => expect(warmed(pot(reagents, steps))).toEqual([]));

  it('also where a key says the heat that a step tells', () => {
    const steps = ['Heat the copper sulfate to 80 °C.', 'Let it cool.', 'Pour in the cold ethanol.'];
    expect(warmed(`${pot([...salts, 'ethanol'], steps)}\nheating: [{ of: mixture, to: 80 °C }]`)).toEqual([]);
    expect(warmed(`${pot([...salts, 'ethanol'], steps)}\nheating: [{ of: mixture, to: 95 °C }]`)).not.toEqual([]);
  });

  it.each([
    [salts, ['Filter.', 'Rinse with alcohol and dry in the oven at 120 °C.']],
    [['copper sulfate', 'ethanol'], ['Heat the copper sulfate to 80 °C, then pour in the ethanol.']],
    [[], ['Fire the ochre at 600 °C, then quench it in methylated spirit.']],
  ])('is told where it is hot: %s, %s', (reagents, steps) => expect(warmed(pot(reagents, steps))).not.toEqual([]));
});

describe('what was filtered off and washed before the fire', () => {
  const zinc = (steps: readonly unknown[], more = ''): string => `
pigment: { name: zinc carbonate, formula: ZnCO3 }
reaction: ZnSO4·7H2O + Na2CO3 -> ZnCO3 + Na2SO4 + 7 H2O
reagents:
  - { reagent: { name: zinc sulfate heptahydrate, formula: ZnSO4·7H2O }, amount: 10 g }
  - { reagent: { name: sodium carbonate, formula: Na2CO3 }, amount: 5 g, intent: excess }
${more}
steps: ${JSON.stringify(steps)}`;
  const wet = ['Dissolve both, pour together.', 'Filter and wash until free of sulfate.'];

  it.each([
    ['in words', [...wet, 'Fire at 1000 °C.']],
    ['by a key', [...wet, { do: 'Into the kiln.', heat: '1000 °C' }]],
  ])('its salts are told as what may have been left: %s', (_, steps) => {
    const { grave, notes } = told(zinc(steps));
    expect(grave).not.toContain('metal-sulfate-heated');
    expect(notes).toContain('metal-sulfate-heated');
    const last = foreseenBySteps(entry(7, zinc(steps)), emptyRoom, []).at(-1)!;
    expect(last.begins.map(({ rule }) => rule)).not.toContain('metal-sulfate-heated');
  });

  it.each([
    ['ground dry and fired', ['Grind both together.', 'Fire at 1000 °C.', 'Wash out the salts.']],
    ['fired with all the rest', ['Dissolve, filter and wash the sand.', 'Mix it with the rest.', 'Fire at 1000 °C.']],
    ['filtered and not washed', ['Dissolve both, pour together.', 'Filter.', 'Fire at 1000 °C.']],
  ])('and as there where it is there: %s', (_, steps) =>
    expect(told(zinc(steps)).grave).toContain('metal-sulfate-heated'),
  );

  it('what goes in behind the washing is fired with it', () => {
    const nitrate = '  - { reagent: { name: copper nitrate trihydrate, formula: Cu(NO3)2·3H2O }, amount: 5 g }';
    const { grave } = told(zinc([...wet, 'Rub in the copper nitrate.', 'Fire at 700 °C.'], nitrate));
    expect(grave).toContain('copper-nitrate-heated');
    expect(grave).not.toContain('metal-sulfate-heated');
  });
});

// What meets by words beside the work: what is told by its use, in company of what goes in, in notes of samples, and what
// cleans a vessel. What happens is from memory.
import { describe, expect, it } from 'vitest';
import { readEntry } from '../../../src/journal/index.js';
import { reckonDangers } from '../../../src/reckoning/dangers/dangers.js';
import { emptyRoom } from '../entries.js';

/** Titles and gases of what is foreseen as a danger. */
function dangersOf(body: string, matter = ''): string {
  const head = '---\nnumber: 7\ntitle: A case\ndate: 2026-01-02\nstatus: finished\n';
  const { entry } = readEntry('entries/007-a.md', `${head}${matter}\n---\n${body}\n`);
  const foreseen = reckonDangers(entry!, emptyRoom).dangers.foreseen ?? [];
  return foreseen
    .filter(({ severity }) => severity === 'danger')
    .map(({ title, gas, consequence }) => `${title} ${gas} ${consequence}`)
    .join('; ');
}

describe('a write-up that stands alone', () => {
  it.each([
    ['Kitchen foil dropped into the stuff for unblocking sinks, dissolved hot.', /H2/],
    ['Yellow prussiate boiled half an hour with a glug of what goes in car batteries.', /HCN/],
    ['I rubbed stump rotter with charcoal powder, three to one, and lit it.', /nitrate with sulfur, charcoal/],
    ['Poured the stuff you put in the swimming pool over the crust and then vinegar on top.', /Cl2/],
    ['The iodine crystals were drowned in household ammonia and the black mud was left to dry.', /explosion/],
    ['Jodkristalle mit einem Schuß Salmiakgeist übergossen, auf Küchenpapier getrocknet.', /explosion/],
    ['Die Jodkristalle vom Opa kamen in eine Tasse mit Ammoniakwasser.', /explosion/],
    ['Scrubbed it with the thick stuff for under the lavatory rim, then squirted kettle descaler over it.', /Cl2/],
    [
      'Two parts hydrogen peroxide 12 % to one part muriatic. The cup of acetone went in on top.',
      /peroxide with acetone/,
    ],
    ['Cadmiumrot wird geglüht, eine Stunde lang.', /cadmium compound heated/],
    ['Zwei Teile Wasserstoffperoxid 12 %, ein Teil Aceton.', /peroxide with acetone/],
    ['Oiled it with boiled linseed, wiped it down with half an old cotton sheet and bagged the sheet.', /heats itself/],
    ['Aluminiumfolie in den Eimer gelegt und das Zeug für den verstopften Abfluss darübergestreut.', /H2/],
  ])('tells what stands beside what is put in: %s', (body, danger) => expect(dangersOf(body)).toMatch(danger));
  it.each([
    'I keep the descaler under the sink and the bleach in the shed, and stirred the chalk into water.',
    'Poured water on the ochre; no bleach, no acid.',
    'Rubbed the ochre with gum. The label of the drain cleaner was green.',
    'Washed the chalk in water and wrote about the stuff for the drains.',
    'Stirred chalk into water. Bleach lives in the bathroom cupboard, ammonia under the kitchen sink, far from here.',
    'Dried the ochre at 60 °C in the fruit dryer.',
    'Cadmiumrot mit Öl angerieben, und geglüht wird hier nichts.',
  ])('tells nothing of what is kept elsewhere: %s', (body) => expect(dangersOf(body)).toBe(''));
});

describe('words beside listed reagents', () => {
  const cadmium =
    'reagents: [{ reagent: { name: cadmium chloride, formula: CdCl2 }, amount: 3 g }, ' +
    '{ reagent: { name: sodium sulfide, formula: Na2S·9H2O }, amount: 4 g }]';
  const zinc = 'reagents: [{ reagent: { name: zinc dust, formula: Zn }, amount: 12 g }]';
  const sal = 'reagents: [{ reagent: { name: sal ammoniac, formula: NH4Cl }, amount: 8 g }]';
  it.each([
    ['The sulphide jug is crusted; a splash of brick acid swilled round in it takes it off.', cadmium, /H2S/],
    ['A capful of brick and patio cleaner swilled round in the jug takes the crust off.', cadmium, /H2S/],
    ['Afterwards I soaked the crusted pot in strong bleach overnight.', sal, /NCl3|NH2Cl/],
    ['I shook in three spoons of the granules we shock the pool with, on the crust in the box.', sal, /NCl3/],
    ['To test it I dripped hydrochloric acid on a spoonful of the cake.', cadmium, /H2S/],
    ['x', `${zinc}\nsamples: [{ sample: B, differs: stirred dry with flowers of sulphur and lit }]`, /zinc, magnes/],
    ['x', `${cadmium}\nsamples: [{ sample: B, note: rinsed with muriatic acid }]`, /H2S/],
  ])('put things to what is left: %s', (body, matter, danger) => expect(dangersOf(body, matter)).toMatch(danger));
  it.each([
    ['The jug was rinsed with water; the brick acid is for the path.', cadmium],
    ['Wiped the window with bleach while the cake dried.', zinc],
    ['x', `${cadmium}\nsamples: [{ sample: B, differs: with half the water }]`],
    ['x', `${zinc}\nsamples: [{ sample: B, note: rinsed with rain water and dried }]`],
  ])('and not what is elsewhere or harmless: %s', (body, matter) =>
    expect(dangersOf(body, matter)).toBe(dangersOf('x', matter.split('\n')[0]!)),
  );
});

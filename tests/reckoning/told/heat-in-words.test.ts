// Heat that words tell, by itself and beside what an entry's keys say.
import { describe, expect, it } from 'vitest';
import { heatsIn, heatWordsOf } from '../../../src/reckoning/told/heat-in-words.js';
import { reckonDangers } from '../../../src/reckoning/dangers/dangers.js';
import { entry, shelf } from '../entries.js';

const context = { settings: {}, shelf, lot: () => undefined, reading: () => undefined } as never;

/** Common practice, no source, but for degrees, marks and cones, which heat-words.csv has its sources for. */
const judged: readonly (readonly [words: string, celsius: number])[] = [
  ['heated to 250 °C', 250],
  ['held at 900 °C for 1 h', 900],
  ['Kiln, 900 °C for 1 h', 900],
  ['up to 900 °C over an hour', 900],
  ['Fired at 1,000 °C', 1000],
  ['1 000 °C', 1000],
  ['at 250-300 °C', 300],
  ['from 20 to 250 °C', 250],
  ['900 ± 10 °C', 910],
  ['product to 1650 °F', 899],
  ['1650 degrees F', 899],
  ['Muffelofen, 900 Grad', 900],
  ['cocido en horno a 900 ºC', 900],
  ['held at 250 C', 250],
  ['at 5 °C/min to 900 °C', 900],
  ['until it melts at 320 °C', 320],
  ['gas mark 4', 195],
  ['cone 06', 999],
  ['Dried on the hob until it stopped smoking brown', 750],
  ['over the gas flame', 1550],
  ['Blowtorch till red', 1900],
  ['bunsen burner', 1550],
  ['hotplate', 550],
  ['microwave', 250],
  ['on the radiator', 65],
  ['Then the raku kiln', 1000],
  ['glowing red in the crucible', 850],
  ['Boiled it dry', 180],
  ['evaporated the ammonium nitrate to dryness', 180],
  ['Im Ofen geglüht', 1000],
  ['auf der Herdplatte', 750],
  ['zur Trockne eingedampft', 180],
  ['Au four', 250],
  ['chauffé au rouge', 850],
  ['En el horno', 250],
  ['Dry in the oven below 60 °C', 60],
  ['Stir on the hotplate at 60 °C', 60],
  ['Warm on the hotplate until dissolved', 110],
  ['Dried at 60 °C, then into the kiln.', 1000],
];

const deeds = [
  'Heated strongly till it was black',
  'heated until red',
  'manganese nitrate heated in a pan till black',
  'Roasted in a pan',
  'stark erhitzt',
  'fused with saltpetre',
];

const none = [
  'cooled from 250 °C',
  'once it has cooled to 140 °C',
  'kept below 160 °C',
  'not above 250 °C',
  'do not let it go above 250 °C',
  'without going over 250 °C',
  'water at 80 °C',
  'in 80 °C water',
  'melting point 801 °C',
  'it decomposes above 300 °C',
  'dried at room temperature',
  'never boil it',
  'without firing',
  'Not in the oven',
  'no naked flame',
  'a red precipitate',
  'boiled water',
  'kalzinierte Soda',
  '12 °dH',
  '20 °Bé',
  'boiling stones',
  'four of them',
  'Set in the kiln for the dust alone; the kiln was cold and unplugged',
  'Not heated at all, at 300 °C it would go brown',
];

describe('heat in words', () => {
  it.each(judged)('%s: judged at %i °C', (words, celsius) => {
    const told = heatsIn(words).filter(({ says }) => says !== 'deed');
    expect(Math.max(...told.map((one) => one.celsius))).toBe(celsius);
  });
  it.each(deeds)('%s: a deed that does not say how hot', (words) =>
    expect(heatsIn(words).map(({ says }) => says)).toEqual(['deed']),
  );
  it('of a kiln that was cold only when it was loaded is one', () =>
    expect(heatsIn('The kiln was cold when it went in; three hours in the kiln.')).not.toEqual([]));
  it.each(none)('%s: none', (words) => expect(heatsIn(words)).toEqual([]));
});

describe('heat of an entry', () => {
  // Cobalt nitrate gives off nitrogen dioxide well below 250 °C.
  const nitrate = 'reagents: [{ reagent: { name: cobalt nitrate, formula: Co(NO3)2·6H2O }, amount: 3 g }]\n';
  const look = (matter: string) => reckonDangers(entry(14, nitrate + matter), context);
  const gasesOf = (matter: string): string =>
    look(matter)
      .dangers.foreseen!.flatMap(({ severity, gas }) => (severity === 'danger' ? (gas ?? []) : []))
      .join();
  it.each([
    ['heating: [{ to: 60 °C }]\nsteps: ["Kiln, 900 °C for 1 h"]'],
    ['heating: [{ to: on the radiator }]\nsteps: [Then on the hob.]'],
    ['heating: [{ of: water, to: 60 °C }]\nsteps: [raku kiln]'],
    ['steps: [dried at 250 °C]'],
    ['heating: [{ to: 60 °C }]\nsamples: [{ sample: A, differs: 1000 °C }]'],
    ['samples: [{ sample: A, differs: 60 °C }, { sample: B, differs: gas mark 9 }]'],
    ['firing: cone 6'],
    ['temperature: 900 °C'],
    ['heating: [{ to: 60 °C }]\nfiring: 900 °C'],
    ['ofenprogramm: 900 Grad'],
    ['procedure: [Dry it., "Hob, until it is dry."]'],
  ])('is the hottest of what is told anywhere: %s', (matter) => expect(gasesOf(matter)).toContain('NO2'));
  it.each([
    ['heating: [{ to: 60 °C }]\nsteps: [Dried in the oven.]'],
    ['heating: [{ to: 60 °C }]\nsteps: ["Dried, not above 250 °C."]'],
    ['samples: [{ sample: A, differs: 5 °C }]'],
  ])('is one where the words are of the same stage, and none where they take it back: %s', (matter) =>
    expect(gasesOf(matter)).toBe(''),
  );
  it('is told at its key', () => {
    const { findings } = look('heating: [{ to: 60 °C }]\nofenprogramm: 900 Grad');
    expect(findings.find(({ rule }) => rule === 'heat-of-steps')).toMatchObject({ where: ['ofenprogramm'] });
  });
  it('is said to be not judged where a deed is told beside a milder heating', () => {
    const matter = 'heating: [{ to: 60 °C }]\nsteps: [Heated strongly till it was black.]';
    expect(look(matter).dangers.cautions!.join(' ')).toMatch(/‘Heated strongly’ is told.*NOT judged.*nitrate/);
    expect(look(matter).findings.map(({ rule }) => rule)).toContain('heat-without-heating');
    const told = look('heating: [{ to: 900 °C }]\nsteps: [Heated strongly till it was black.]');
    expect(told.findings.map(({ rule }) => rule)).not.toContain('heat-without-heating');
  });
  it('is of the pot as it is at its step', () => {
    const steps =
      'steps: [{ do: "Dry the chalk at 250 °C", with: [chalk] }, { do: Then the nitrate., with: [cobalt nitrate] }]';
    const chalk = nitrate.replace(' }]\n', ' }, { reagent: { name: chalk, formula: CaCO3 }, amount: 3 g }]\n');
    const { foreseen } = reckonDangers(entry(14, chalk + steps), context).dangers;
    expect(foreseen!.map(({ gas }) => gas).join()).not.toContain('NO2');
  });
});

describe('the write-up', () => {
  const nitrate = 'reagents: [{ reagent: { name: copper nitrate, formula: Cu(NO3)2·3H2O }, amount: 5.00 g }]\n';
  const notJudged = (body: string, more = ''): string | undefined =>
    reckonDangers({ ...entry(14, `${nitrate}${more}`), body }, context).dangers.byWords?.find((one) =>
      one.includes('NOT judged'),
    );
  it.each([
    'I heated the dish to 450 °C for an hour.',
    'Then it was brought up to 450 °C and kept there.',
    'Das Schälchen wurde auf 450 Grad erhitzt.',
    'Le creuset fut chauffé à 450 °C.',
    'Se ha calentado a 450 °C.',
  ])('tells of degrees with which something was done: %s', (body) => {
    expect(heatWordsOf(body).map(({ celsius }) => celsius)).toEqual([450]);
    expect(notJudged(body)).toContain('copper nitrate heated');
    expect(notJudged(body, 'heating: [{ of: product, to: 50 °C }]\n')).toContain('copper nitrate heated');
    expect(notJudged(body, 'heating: [{ of: mixture, to: 450 °C }]\n')).toBeUndefined();
  });
  it.each([
    'The book says it goes black at 450 °C.',
    'Next time it should be heated to 450 °C.',
    'It melts at 450 °C.',
    'It was cooled from 450 °C.',
    'It was not heated at all.',
  ])('tells of none: %s', (body) => expect(notJudged(body)).toBeUndefined());
});

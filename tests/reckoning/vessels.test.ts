// What stands together: vessels, what is kept apart, washes; which heat each thing gets; what brings water.
// Expected values follow from the words of the format (vessel, separately, role, heating); common practice, no source.
import { describe, expect, it } from 'vitest';
import { resolveNamed, resolveText } from '../../src/reagents/index.js';
import {
  bringsWater,
  heatingOf,
  heatOfVessel,
  inBaseUnit,
  itemOf,
  byVessel,
  severityRank,
  speaksOfVessel,
  type VesselItem,
} from '../../src/reckoning/vessels.js';

const item = (id: string, use: Record<string, unknown> = {}, text = id): VesselItem => {
  const read = resolveText(text);
  if (!read.ok) throw new Error(read.fault.message);
  return { id, path: ['reagents', 0], use: use as unknown as VesselItem['use'], reagent: read.value };
};
const ids = (items: readonly VesselItem[]): string[] => items.map(({ id }) => id);

describe('the vessels of a sample', () => {
  const pots = (...items: VesselItem[]) => {
    const { main, apart, washes } = byVessel(items);
    return { main: ids(main), apart: apart.map(ids), washes: ids(washes) };
  };
  it('hold everything together unless something else is said', () =>
    expect(pots(item('soda'), item('alum'))).toEqual({ main: ['soda', 'alum'], apart: [], washes: [] }));
  it('are one for each vessel that is named', () =>
    expect(
      pots(item('soda', { vessel: 'b' }), item('alum'), item('salt', { vessel: 'b' }), item('sugar', { vessel: 'c' })),
    ).toEqual({ main: ['alum'], apart: [['soda', 'salt'], ['sugar']], washes: [] }));
  it('are one for each thing that is kept apart, and a vessel goes before that', () =>
    expect(
      pots(
        item('soda', { separately: true }),
        item('alum', { separately: true }),
        item('salt', { separately: true, vessel: 'b' }),
        item('sugar', { vessel: 'b' }),
      ),
    ).toEqual({ main: [], apart: [['soda'], ['alum'], ['salt', 'sugar']], washes: [] }));
  it('do not hold the washes', () =>
    expect(pots(item('soda'), item('vinegar', { role: 'wash' }), item('water', { role: 'solvent' }))).toEqual({
      main: ['soda', 'water'],
      apart: [],
      washes: ['vinegar'],
    }));
});

describe('heat', () => {
  const heats = (list: readonly { of: string; to: string }[], ...items: VesselItem[]) =>
    heatingOf(list as Parameters<typeof heatingOf>[0], items);
  it.each(['product', 'pigment', 'Precipitate', 'SOLID'])('of the %s is the product’s', (of) =>
    expect(heats([{ of, to: '600 °C' }])).toEqual([{ of: 'product', toCelsius: 600 }]),
  );
  it.each(['mixture', 'paste', 'filtrate', 'the product', 'solids'])('of the %s is the whole mixture’s', (of) =>
    expect(heats([{ of, to: '60 °C' }])).toEqual([{ of: 'mixture', toCelsius: 60 }]),
  );
  it('of one thing, by its id or its name, is that thing’s', () => {
    const alum = item('a1', {}, 'potash alum 1 g');
    const named = [{ of: alum.reagent.name, toCelsius: 92 }];
    expect(heats([{ of: 'A1', to: '92 °C' }], item('soda'), alum)).toEqual(named);
    expect(heats([{ of: 'Potash Alum', to: '92 °C' }], item('soda'), alum)).toEqual(named);
  });
  it('is the top of a range, in °C whatever the unit', () => {
    expect(heats([{ of: 'mixture', to: '60-70 °C' }])).toEqual([{ of: 'mixture', toCelsius: 70 }]);
    expect(heats([{ of: 'mixture', to: '373.15 K' }])).toEqual([{ of: 'mixture', toCelsius: 100 }]);
  });
  it('in words is the top of what they mean, and a firing where they say nothing of heat', () =>
    expect(
      heats([
        { of: 'mixture', to: 'cherry red' },
        { of: 'mixture', to: 'until it is done' },
        { of: 'mixture', to: '50 °C' },
      ]),
    ).toEqual([750, 1300, 50].map((toCelsius) => ({ of: 'mixture', toCelsius }))));
});

describe('a vessel beside the main one', () => {
  const group = [item('soda', { vessel: 'Beaker 1' }), item('alum', { vessel: 'Beaker 1' })];
  it.each([
    ['beaker 1', true],
    ['Heat (the beaker 1) gently.', true],
    ['beaker  1', true],
    ['beaker 12', false],
    ['an old beaker', false],
    ['', false],
  ])('is spoken of: %s %s', (words, isSpokenOf) => expect(speaksOfVessel(words, group)).toBe(isSpokenOf));
  it('without a name is not spoken of', () =>
    expect(speaksOfVessel('undefined', [item('soda', { separately: true })])).toBe(false));

  const [mixture, product, alum, ofMixture, ofProduct] = [
    { of: 'mixture', toCelsius: 90 },
    { of: 'product', toCelsius: 60 },
    { of: 'alum', toCelsius: 40 },
    { of: 'mixture', to: '90 °C' },
    { of: 'product', to: '60 °C' },
  ];
  const heats = (beside: VesselItem[], mainIsEmpty: boolean, own: readonly { of: string; to: string }[] = []) =>
    heatOfVessel(
      beside,
      [...own, ofMixture, ofProduct] as Parameters<typeof heatOfVessel>[1],
      [mixture, product, alum],
      mainIsEmpty,
    );
  it('is as hot as what stands in it and as it is said to be', () => {
    expect(heats(group, false)).toEqual([alum]);
    expect(heats(group, false, [{ of: 'beaker 1', to: '70 °C' }])).toEqual([alum, { of: 'mixture', toCelsius: 70 }]);
  });
  it('is as hot as the mixture where the main one is empty, and as a product that nothing precipitates', () => {
    expect(heats(group, true)).toEqual([alum, mixture, { of: 'mixture', toCelsius: 60 }]);
    expect(heats([...group, item('water 10 mL', { vessel: 'Beaker 1' })], true)).toEqual([alum, mixture]);
  });
});

describe('water', () => {
  it.each([
    ['water 10 mL', {}, true],
    ['citric acid 1 g', { role: 'solvent' }, true],
    ['acetic acid 60 % 10 mL', {}, true],
    ['citric acid 1 g', {}, false],
    ['sodium nitrite 1 g', { role: 'reactant' }, false],
  ])('%s %j brings it: %s', (text, use, brings) => expect(bringsWater(item('x', use, text))).toBe(brings));
});

describe('figures of pots', () => {
  it('are in base units, as text', () => {
    expect(inBaseUnit('0.25 kg')).toEqual({ value: '250', dimension: 'mass' });
    expect(inBaseUnit('2 L')).toEqual({ value: '2000', dimension: 'volume' });
    expect(inBaseUnit('a lot')).toBeUndefined();
    expect(inBaseUnit(undefined)).toBeUndefined();
  });
  it('weigh the pure substance where it is known, else the stuff, else nothing', () => {
    const grams = (text: string): number | undefined => {
      const { reagent } = item('x', {}, text);
      return itemOf({ id: 'x', use: {}, path: ['reagents', 0], reagent } as unknown as Parameters<typeof itemOf>[0])
        .grams;
    };
    // 10 g of 60 % acid hold 6 g.
    expect(grams('acetic acid 60 % 10 g')).toBeCloseTo(6, 6);
    expect(grams('sodium nitrite 2 g')).toBeCloseTo(2, 6);
    expect(grams('dragon’s blood 3 g')).toBeCloseTo(3, 6);
    expect(grams('sodium nitrite')).toBeUndefined();
    const bare = itemOf({
      id: 'x',
      use: {},
      path: ['reagents', 1],
      reagent: resolveNamed('sodium nitrite'),
    } as unknown as Parameters<typeof itemOf>[0]);
    expect(Object.keys(bare).sort()).toEqual(['id', 'path', 'reagent', 'use']);
  });
  it('rank danger before warning before note', () =>
    expect(
      Object.entries(severityRank)
        .sort(([, a], [, b]) => a - b)
        .map(([name]) => name),
    ).toEqual(['danger', 'warning', 'note']));
});

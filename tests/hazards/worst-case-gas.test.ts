// The sum of gas at worst by itself, and the gas that a reaction names. Expected values: worked examples of
// tests/reference/mixing/worked-gas-examples.md (24.4654 mL/mmol), limits as printed in
// src/hazards/exposure-limits.csv, the rest by hand from those.
import { describe, expect, it } from 'vitest';
import { exact } from '../../src/chemistry/index.js';
import { gasFacts, gasFormulae, gasLimits, gasNamed } from '../../src/hazards/foresee/gases.js';
import { byProductsOf, reactionGasHazards } from '../../src/hazards/foresee/reaction-gas.js';
import type { Foreseen } from '../../src/hazards/foresee/contracts.js';
import {
  aboveDangerLevel,
  litresPerMole,
  strictestTimes,
  timesBesideVessel,
  timesShortTermLimit,
  twoFigures,
  worstCase,
} from '../../src/hazards/foresee/worst-case-gas.js';
import { ingredientOf } from './ingredients.js';

const gas = (formula: string, mol: string) => ({ formula, mol: exact(mol) });
const of = (formula: string, mol: string, room?: string, extraction?: boolean) =>
  worstCase([gas(formula, mol)], 'the salt', { roomCubicMetres: room, extraction });
/** Multiples of limits by the limit's value in ppm. */
const multiples = (bound: ReturnType<typeof worstCase>): Record<string, number> =>
  Object.fromEntries(bound.limits.map(({ name, times }) => [name, Number(times)]));

describe('several gases at once', () => {
  // 0.0503 mol of each: 1.2306 L, 41.02 ppm in 30 m3, 82.0 together. SO2: EU IOELV short-term 1 ppm. SO3 has no limit on
  // short stays: sulfuric acid mist 0.05 mg/m3 over a day, 0.0125 ppm as printed: 41.02 / 0.01247 = 3290.
  const both = () => worstCase([gas('SO2', '0.0503'), gas('SO3', '0.0503')], 'copperas', { roomCubicMetres: '30' });
  it('are told as a sum, and the multiple of a limit with how much of it is the gas of that limit', () => {
    expect(both().words).toMatch(/that is about 82 ppm; .* Of it 41 ppm are sulfur trioxide .*: about 3300 times a/);
  });
  it('are each held against their own limits: one without a limit on short stays is not left out', () => {
    expect(strictestTimes(both())).toBeGreaterThan(3000);
    expect(both().limits.map((one) => one.gas)).toEqual(expect.arrayContaining(['SO2', 'SO3']));
  });
  it('that are told as one amount are so said of one gas alone', () => {
    expect(of('SO2', '0.0503', '30').words).toMatch(
      /that is about 41 ppm; .* That is about 41 times a published limit/,
    );
  });
});

describe('an amount of gas in a room', () => {
  // Worked example 2: 20.818 mmol H2S, 509.3 mL, 20.4 ppm in 25 m3; ratios 2.04, 1.02, 0.204.
  const sulfide = () => of('H2S', '0.020818', '25');
  it('is told in mol, litres and ppm', () => {
    expect(sulfide()).toMatchObject({ mol: '0.020818', room: '25', roomStated: true, limiting: 'the salt' });
    expect(Number(sulfide().litres)).toBeCloseTo(0.5093, 4);
    expect(Number(sulfide().roomPpm)).toBeCloseTo(20.37, 2);
  });
  it('is held against every published limit in ppm', () => {
    const ratios = multiples(sulfide());
    expect(ratios['NIOSH REL ceiling, hydrogen sulfide (10-minute)']).toBeCloseTo(2.037, 3);
    expect(ratios['OSHA PEL ceiling, hydrogen sulfide (50 ppm 10-minute maximum peak)']).toBeCloseTo(1.0186, 3);
    expect(ratios['IDLH, hydrogen sulfide']).toBeCloseTo(0.2037, 3);
    expect(
      sulfide()
        .limits.filter(({ immediatelyDangerous }) => immediatelyDangerous)
        .map(({ ppm }) => ppm),
    ).toEqual(['100']);
    for (const limit of sulfide().limits) {
      expect(Object.keys(limit).filter((key) => key === 'short' || key === 'ratio')).toEqual([]);
      expect('immediatelyDangerous' in limit).toBe(limit.name.startsWith('IDLH'));
    }
  });
  it('says whether the source of a limit was seen', () => {
    // In the table the NIOSH rows of hydrogen sulfide were read, the directive's row of chlorine was not.
    const sourceOf = (formula: string, kind: string) =>
      of(formula, '0.01').limits.find(({ name }) => name.startsWith(kind))?.source;
    expect(sourceOf('Cl2', 'EU IOELV short-term')).toBe('from memory: Directive 2006/15/EC');
    expect(sourceOf('H2S', 'NIOSH REL ceiling')).toMatch(/^NIOSH Pocket Guide/);
  });
  it('leaves out limits by mass, which are for dust', () => {
    // Arsine's NIOSH ceiling is 0.002 mg/m3; 0.05 and 3 ppm remain.
    expect(
      of('AsH3', '0.001')
        .limits.map(({ ppm }) => ppm)
        .sort(),
    ).toEqual(expect.arrayContaining(['0.05', '3']));
    expect(of('AsH3', '0.001').limits.map(({ ppm }) => ppm)).not.toContain('0.002');
  });
  it('of a gas without limits, or one that is not known, has none', () => {
    expect(of('N2', '0.01').limits).toEqual([]);
    expect(of('H2', '0.01').limits).toEqual([]);
    expect(of('XeF2', '0.01').limits).toEqual([]);
    expect(of('XeF2', '0.01').words).toContain('of XeF2.');
  });
  it('is held against limits in mg/m³ too, and against the strictest of them all', () => {
    // Mercury vapour, ACGIH 0.025 mg/m3 over a day: 0.025 x 24.45 / 200.59 = 0.00305 ppm; a umol in 24.4654 m3 is 0.001.
    const mercury = of('Hg', '0.001', '24.4654');
    expect(Math.max(...Object.values(multiples(mercury)))).toBeCloseTo(328, 0);
    expect(mercury.words).toContain('times a published limit, 0.00305 ppm (ACGIH TLV TWA, mercury vapour (0.025 mg/m³');
    // Nitrogen trichloride has a proposal only: 0.3 mg/m3 x 24.45 / 120.36 = 0.0609 ppm.
    expect(of('NCl3', '0.001').words).toMatch(
      /limit, 0\.0609 ppm \(Swiss pool study TWA, nitrogen trichloride \(proposed; /,
    );
    // Arsine: the NIOSH ceiling of 0.002 mg/m3 is in the table as 0.0006 ppm and is not told twice.
    expect(of('AsH3', '0.001', '24.4654').words).toContain('about 1700 times a published limit, 0.0006 ppm (');
    // Lead counts as the element: 0.03 mg/m3 x 24.45 / 207.2 of lead (EU) are 0.00354 ppm of lead oxide fume.
    expect(gasLimits('PbO').map(({ limit, ppm }) => [limit.value, ppm.toFixed(5)])).toContainEqual(['0.05', '0.00590']);
  });
  it('names what stands in for a gas without a limit of its own', () => {
    const names = of('NH2Cl', '0.001').limits.map(({ name }) => name);
    expect(names.length).toBeGreaterThan(0);
    for (const name of names) expect(name).toContain('chlorine, in place of monochloramine');
    // Sulfur trioxide is measured as mist of sulfuric acid: 1 mg/m3 x 24.45 / 98.08 = 0.249 ppm.
    expect(gasLimits('SO3').map(({ ppm }) => ppm.toFixed(3))).toContain('0.249');
  });
  it('is not held against a day’s limit where there is one for a short time', () => {
    // Stibine has no limit on short stays: 0.1 ppm over a day counts, not the 5 ppm of danger to life.
    expect(of('SbH3', '0.001', '24.4654').words).toContain('times a published limit, 0.1 ppm (');
  });
  it('of two gases adds up, and each has its own limits', () => {
    const bound = worstCase([gas('NO', '0.01'), gas('NO2', '0.03')], 'nitrite', { roomCubicMetres: '24.4654' });
    // 0.04 mol is 978.6 mL, 40.0 ppm in 24.4654 m3; 10 ppm of NO against 25 and 100, 30 of NO2 against 1.
    expect(bound.mol).toBe('0.04');
    expect(Number(bound.roomPpm)).toBeCloseTo(40, 3);
    const ratios = multiples(bound);
    expect(ratios['NIOSH REL TWA, nitric oxide']).toBeCloseTo(0.4, 4);
    expect(ratios['IDLH, nitric oxide']).toBeCloseTo(0.1, 4);
    expect(ratios['NIOSH REL STEL, nitrogen dioxide']).toBeCloseTo(30, 3);
    expect(bound.words).toContain('of nitric oxide and nitrogen dioxide.');
  });
});

describe('the limit that counts', () => {
  const times = (bound: ReturnType<typeof worstCase>): (number | undefined)[] => [
    strictestTimes(bound),
    timesShortTermLimit(bound),
  ];
  // 1 ppm in 24.4654 m³ is 1 mmol.
  const ppm = (formula: string, of: number) =>
    worstCase([gas(formula, `${of / 1000}`)], '', { roomCubicMetres: '24.4654' });

  it('a mole fills 24.4654 L at 25 °C and 101.325 kPa', () => expect(litresPerMole.toFixed(4)).toBe('24.4654'));
  it('is that on a short stay, not that of a day: hydrogen sulfide 10 ppm, not 5', () => {
    const [strictest, short] = times(ppm('H2S', 20));
    expect(strictest).toBeCloseTo(2, 4);
    expect(short).toBeCloseTo(2, 4);
    // Each limit says of itself whether it is one.
    const kinds = ppm('H2S', 20).limits.map(({ ppm: limit, shortTerm, immediatelyDangerous }) => [
      limit,
      shortTerm ?? false,
      immediatelyDangerous ?? false,
    ]);
    expect(kinds).toEqual(
      expect.arrayContaining([
        ['10', true, false],
        ['20', true, false],
        ['100', false, true],
        ['5', false, false],
      ]),
    );
  });
  it('is that of a day, not the level immediately dangerous: stibine 0.1 ppm, not 5', () => {
    const [strictest, short] = times(ppm('SbH3', 10));
    expect(strictest).toBeCloseTo(100, 3);
    expect(short).toBe(0);
  });
  it('is that of a day where there is no other: nitrous oxide, NIOSH REL 25 ppm', () => {
    expect(
      ppm('N2O', 50).limits.every(({ shortTerm, immediatelyDangerous }) => !shortTerm && !immediatelyDangerous),
    ).toBe(true);
    expect(strictestTimes(ppm('N2O', 50))).toBeCloseTo(2, 4);
    expect(ppm('N2O', 50).words).toContain('That is about 2 times a published limit, 25 ppm (');
  });
  it('is none where none is published', () => expect(times(ppm('H2', 50))).toEqual([undefined, 0]));
  it('leaves out values for an emergency of one hour', () =>
    expect(
      ppm('SbH3', 10)
        .limits.map(({ name }) => name)
        .join(' '),
    ).not.toContain('ERPG'));
  it('beside the vessel is reckoned in its litres of air, by what is immediately dangerous', () => {
    // 24.4654 m³ in 100 L: 244.654 times as much; 20 ppm are 0.2 of 100 ppm.
    expect(timesBesideVessel(ppm('H2S', 20), 100)).toBeCloseTo(0.2 * 244.654, 2);
  });
  it('or by a twenty-fifth of how often the strictest is passed, where nothing is immediately dangerous', () => {
    expect(timesBesideVessel(ppm('N2O', 50), 100)).toBeCloseTo((2 / 25) * 244.654, 2);
    expect(timesBesideVessel(ppm('H2', 50), 100)).toBe(Infinity);
  });
});

describe('its sentences', () => {
  it('give two figures, in millilitres below a litre and litres from there', () => {
    // 24.4654 L/mol: 0.04 mol is 978.6 mL, 0.0409 mol 1.0006 L.
    expect(of('H2S', '0.04').words).toMatch(
      /^If all of it reacted and all of the gas left at once: up to about 980 mL of hydrogen sulfide\. Spread evenly through a closed room of 30 m³ /,
    );
    expect(of('H2S', '0.0409').words).toContain('up to about 1 L of');
    expect(of('H2S', '0.05').words).toContain('up to about 1.2 L of');
    expect(twoFigures(exact(0))).toBe('0');
    expect(of('H2S', '0').words).toContain('about 0 mL of hydrogen sulfide');
  });
  it('say the room, and whether it was assumed', () => {
    expect(of('H2S', '0.04', '12.5').words).toContain('a closed room of 12.5 m³ that is about 78 ppm; beside');
    expect(of('H2S', '0.04').words).toContain('30 m³ (no room volume was given) that is about 33 ppm; beside');
    expect(of('H2S', '0.04')).toMatchObject({ room: '30', roomStated: false });
  });
  it('name the short-term limit that is passed furthest', () => {
    // Chlorine, 41.1 ppm in 20 m3 (worked example 4): the ceiling of 0.5 ppm is passed 82 times, the highest multiple.
    const { words } = of('Cl2', '0.033585', '20');
    expect(words).toContain('That is about 82 times a published limit, 0.5 ppm (');
    expect(words).not.toContain('all-clear');
    // Carbon monoxide, 244.654 ppm: a day's mean of 20 ppm is passed 12 times, but the short-term 100 ppm is told: 2.4.
    expect(of('CO', '0.1', '10').words).toContain('That is about 2.4 times a published limit, 100 ppm (');
  });
  it('call nothing safe that lies under a limit', () => {
    const under = of('Cl2', '0.0001', '30').words;
    expect(under).toContain('Lying under a published limit in this sum is no all-clear.');
    expect(under).not.toContain('times a published limit');
  });
  it('say nothing of limits where there are none for a short time', () => {
    expect(of('H2', '0.01').words).not.toContain('limit');
  });
  it('say that extraction is not counted only where there is some', () => {
    expect(of('H2S', '0.04', '30', true).words).toContain('Extraction is not counted in this sum.');
    expect(of('H2S', '0.04', '30', false).words).not.toContain('Extraction');
  });
  it('always end as a bound', () =>
    expect(of('H2', '0.01').words).toMatch(/ A worst-case bound, not an exposure assessment\.$/));
});

describe('the level that is immediately dangerous', () => {
  it('is passed or not by the gas that has one', () => {
    // Chlorine's is 10 ppm: in 24.4654 m3 a mmol is 1 ppm.
    expect(aboveDangerLevel(of('Cl2', '0.0101', '24.4654'))).toBe(true);
    expect(aboveDangerLevel(of('Cl2', '0.0099', '24.4654'))).toBe(false);
    // 0.99 ppm of chlorine passes the ceilings of 0.5 ppm, which are not that level.
    expect(aboveDangerLevel(of('H2', '10'))).toBe(false);
    const bound = of('Cl2', '0.01', '24.4654');
    const at = (times: string) => ({
      ...bound,
      limits: [{ ...bound.limits[0]!, immediatelyDangerous: true as const, times }],
    });
    expect([at('1'), at('0.999999')].map(aboveDangerLevel)).toEqual([true, false]);
  });
});

describe('gases by how a rule writes them', () => {
  it('splits what is shown', () => {
    expect(gasFormulae('NO + NO2')).toEqual(['NO', 'NO2']);
    expect(gasFormulae('HCN; (CN)2')).toEqual(['HCN', '(CN)2']);
    expect(gasFormulae('As2O3 fume')).toEqual(['As2O3']);
    expect(gasFormulae('HCN;(CN)2 ; H2')).toEqual(['HCN', '(CN)2', 'H2']);
    expect(gasFormulae('')).toEqual([]);
  });
  it('finds the vapour of a solid, and nothing for what is no gas', () => {
    expect(gasNamed('As2O3')?.formula).toBe('As4O6');
    expect(gasNamed('H2S')?.name).toBe('hydrogen sulfide');
    expect(gasNamed('NaCl')).toBeUndefined();
  });
  it('tells what is published of each, and where from', () => {
    // NIOSH Pocket Guide: the smell of hydrogen sulfide deadens the nose; bromine's row was not seen.
    const [sulfide, bromine, ...rest] = gasFacts('H2S + Br2 + NaCl');
    expect(sulfide).toMatchObject({ formula: 'H2S', name: 'hydrogen sulfide', smell: 'rotten eggs' });
    expect(sulfide!.smellWarns).toMatch(/^no/);
    expect(sulfide!.source).not.toBe('from memory');
    expect(bromine!.source).toBe('from memory');
    expect(rest).toEqual([]);
    expect(Object.keys(sulfide!).sort()).toEqual(['formula', 'late', 'name', 'smell', 'smellWarns', 'source']);
  });
});

describe('the gas that a reaction names', () => {
  const sulfide = ingredientOf({ name: 'sodium sulfide', formula: 'Na2S', amount: '0.010 mol' });
  const acid = (mol: string) => ingredientOf({ name: 'muriatic acid', formula: 'HCl', amount: `${mol} mol` });
  const reaction = 'Na2S + 2 HCl -> 2 NaCl + H2S';
  const found = (changes: Partial<Parameters<typeof reactionGasHazards>[0]>, already: readonly Foreseen[] = []) =>
    reactionGasHazards({ ingredients: [sulfide, acid('0.006')], reaction, ...changes }, already);

  it('is told with its name, its partners and its worst', () => {
    const [hazard, ...rest] = found({ roomCubicMetres: '25' });
    expect(rest).toEqual([]);
    expect(hazard).toMatchObject({
      rule: 'reaction-gives-hydrogen-sulfide',
      severity: 'danger',
      title: 'the reaction as written gives hydrogen sulfide',
      consequence: 'toxic gas',
      partners: ['HCl', 'Na2S'],
      gas: 'H2S',
      gases: [{ formula: 'H2S' }],
      equation: reaction,
      basis: 'reaction',
      source: 'the reaction as written',
      // Two acid for one sulfide: 0.006 mol of acid give 0.003 mol of gas.
      worstCase: { mol: '0.003', limiting: 'muriatic acid', room: '25', roomStated: true },
    });
    expect(hazard!.answers).toEqual(expect.arrayContaining(['h2s', 'hydrogen sulfide', 'rotten egg']));
    expect(hazard!.condition).toMatch(/products of the reaction/);
    expect(hazard!.precaution).toMatch(/Ventilate/);
  });
  it('is limited by the sulfide where the acid is ample, and multiplied by its own coefficient', () => {
    expect(found({ ingredients: [sulfide, acid('1')] })[0]!.worstCase).toMatchObject({
      mol: '0.01',
      limiting: 'sodium sulfide',
    });
    const nitrate = ingredientOf({ name: 'copper nitrate', formula: 'Cu(NO3)2·3H2O', amount: '0.010 mol' });
    // 2 Cu(NO3)2 give 4 NO2: twice as much gas as salt (worked example 5).
    const gases = reactionGasHazards(
      {
        ingredients: [nitrate],
        reaction: '2 Cu(NO3)2 -> 2 CuO + 4 NO2 + O2',
        heating: [{ of: 'mixture', toCelsius: 400 }],
      },
      [],
    );
    expect(gases.map(({ gas, worstCase: worst }) => [gas, worst?.mol])).toEqual([
      ['NO2', '0.02'],
      ['O2', '0.005'],
    ]);
    expect(gases.map(({ consequence }) => consequence)).toEqual(['toxic gas', 'gas pressure']);
  });
  it('is told without a sum where no amount is known', () => {
    const bare = ingredientOf({ name: 'sodium sulfide', formula: 'Na2S' });
    const [hazard] = found({ ingredients: [bare, ingredientOf({ name: 'HCl', formula: 'HCl' })] });
    expect(hazard!.gas).toBe('H2S');
    expect(hazard).not.toHaveProperty('worstCase');
  });
  it('says foaming of carbon dioxide, fire of hydrogen', () => {
    const consequence = (text: string) =>
      found({ ingredients: [], reaction: text }).map((one) => [one.gas, one.consequence]);
    expect(consequence('CaCO3 + 2 HCl -> CaCl2 + H2O + CO2')).toEqual([['CO2', 'foaming']]);
    expect(consequence('Zn + 2 HCl -> ZnCl2 + H2')).toEqual([['H2', 'flammable gas']]);
    expect(consequence('NH4Cl + NaOH -> NaCl + H2O + NH3')).toEqual([['NH3', 'gas pressure']]);
  });
  it('is not said twice, unless what was said is less grave', () => {
    const said = found({})[0]!;
    expect(found({}, [{ ...said, rule: 'sulfide-strong-acid' }])).toEqual([]);
    expect(found({}, [{ ...said, severity: 'warning' }])).toHaveLength(1);
    expect(found({}, [{ ...said, gas: 'HCN' }])).toHaveLength(1);
    expect(found({}, [{ ...said, gas: 'HCN + H2S' }])).toEqual([]);
    expect(found({}, [{ ...said, gas: undefined }])).toHaveLength(1);
    const mild = { ...said, gas: 'CO2', severity: 'danger' as const };
    expect(found({ reaction: 'CaCO3 + 2 HCl -> CaCl2 + H2O + CO2' }, [mild])).toEqual([]);
  });
  it('stays in the liquid where it dissolves, until it boils or is written as a gas', () => {
    const salt = 'NaCl + H2SO4 -> NaHSO4 + HCl';
    const heated = (of: string, toCelsius: number) =>
      found({ ingredients: [], reaction: salt, heating: [{ of, toCelsius }] });
    expect(found({ ingredients: [], reaction: salt })).toEqual([]);
    expect(heated('mixture', 99)).toEqual([]);
    expect(heated('product', 300)).toEqual([]);
    expect(heated('mixture', 100).map(({ gas: formula }) => formula)).toEqual(['HCl']);
    expect(found({ ingredients: [], reaction: salt.replace(/HCl$/, 'HCl(g)') })).toHaveLength(1);
  });
  it('is none where the product is a solid or liquid at room temperature', () => {
    expect(found({ ingredients: [], reaction: 'PbCO3 -> PbO + CO2' }).map(({ gas: formula }) => formula)).toEqual([
      'CO2',
    ]);
    expect(found({ ingredients: [], reaction: 'CdCO3 -> CdO + CO2' }).map(({ gas: formula }) => formula)).toEqual([
      'CO2',
    ]);
    expect(found({ ingredients: [], reaction: 'HgS + O2 -> Hg + SO2' }).map(({ gas: formula }) => formula)).toEqual([
      'SO2',
    ]);
    expect(found({ ingredients: [], reaction: '2 KI + Cl2 -> 2 KCl + I2' })).toEqual([]);
  });
  it('is none without a reaction, or with one that cannot be read', () => {
    expect(found({ reaction: undefined })).toEqual([]);
    expect(found({ reaction: 'Na2S and acid' })).toEqual([]);
  });
});

describe('what the reaction leaves in the vessel', () => {
  const made = (reaction: string | undefined, ...formulae: string[]) =>
    byProductsOf({
      ...(reaction !== undefined && { reaction }),
      ingredients: formulae.map((formula) => ingredientOf({ name: formula, formula })),
    }).map(({ reagent: { name }, made: as }) => `${name} ${as}`);
  it('is every product but water, ions, gases and what was there before', () => {
    expect(made('3 CoCl2 + 2 Na2HPO4 -> Co3(PO4)2 + 4 NaCl + 2 HCl', 'CoCl2', 'Na2HPO4')).toEqual([
      'Co3(PO4)2 by-product',
      'NaCl by-product',
      'HCl by-product',
    ]);
    expect(made('CaCO3 + 2 HCl -> CaCl2 + H2O + CO2', 'CaCO3')).toEqual(['CaCl2 by-product']);
    expect(made('CaCO3 + 2 HCl -> CaCl2 + H2O + CO2', 'CaCO3', 'CaCl2')).toEqual([]);
    expect(made('CO3^2- + 2 H^+ -> H2O + CO2')).toEqual([]);
    expect(made('Zn + Cu^2+ -> Zn^2+ + Cu')).toEqual(['Cu by-product']);
  });
  it('is nothing without a reaction that can be read', () => {
    expect(made(undefined, 'NaCl')).toEqual([]);
    expect(made('stir well', 'NaCl')).toEqual([]);
  });
});

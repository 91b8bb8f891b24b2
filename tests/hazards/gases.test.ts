// Gas at worst, against the worked examples of tests/reference/mixing/worked-gas-examples.md (own scenario numbers,
// printed from R = 8.314462618 J/(mol K), 298.15 K, 101325 Pa; its own tolerance for tests is 0.5 %).
import { beforeAll, describe, expect, it } from 'vitest';
import type { WorstCase } from '../../src/hazards/foresee/contracts.js';
import { foresee } from '../../src/hazards/foresee/foresee.js';
import { gases, gasFacts, gasFormulae, gasLimits, gasNamed, strictestPpm } from '../../src/hazards/foresee/gases.js';
import { litresPerMole, twoFigures } from '../../src/hazards/foresee/worst-case-gas.js';
import { exact } from '../../src/chemistry/index.js';
import { referenceText } from '../reference/read.js';
import { ingredientOf, reading } from './ingredients.js';

interface Example {
  readonly of: string;
  readonly ingredients: readonly string[];
  readonly heat?: number;
  readonly room: string;
  readonly rule: string;
  readonly ppm?: number;
  readonly times: Readonly<Record<string, number>>;
}
// Ingredients and room restate the scenario line of each section; millilitres, ppm and multiples are read from the
// text below.
const examples: readonly Example[] = [
  {
    of: '## 1.',
    ingredients: ['sodium nitrite NaNO2 3.45 g', 'CH3COOH 40.0 mL 1.00 mol/L'],
    room: '30',
    rule: 'nitrite-weak-acid',
    times: {},
  },
  {
    of: '## 2.',
    ingredients: ['Na2S.9H2O 5.00 g', 'HCl 12.0 mL 6.00 mol/L'],
    room: '25',
    rule: 'sulfide-strong-acid',
    times: {},
  },
  {
    of: '## 3.',
    ingredients: ['potash alum 25.0 g', 'Na2CO3 10.0 g', 'water 500 mL'],
    room: '30',
    rule: 'carbonate-acidic-salt',
    times: {},
  },
  {
    of: '## 4.',
    ingredients: ['bleach [NaClO] 50.0 mL 5.0 % w/v', 'HCl 60.0 mL 2.00 mol/L'],
    room: '20',
    rule: 'hypochlorite-strong-acid',
    times: {},
  },
  {
    of: '## 5.',
    ingredients: ['Cu(NO3)2.3H2O 10.0 g'],
    heat: 400,
    room: '40',
    rule: 'copper-nitrate-heated',
    times: {},
  },
  {
    of: '## 6.',
    ingredients: ['K4Fe(CN)6.3H2O 4.22 g', 'H2SO4 25.0 mL 4.00 mol/L'],
    heat: 100,
    room: '30',
    rule: 'ferrocyanide-strong-acid',
    times: {},
  },
  {
    of: '## Extra.',
    ingredients: ['As2O3 0.100 g', 'Zn 10 g', 'HCl 100 mL 6 mol/L'],
    room: '30',
    rule: 'arsenic-metal-acid',
    times: {},
  },
];

const text = referenceText('mixing/worked-gas-examples.md');
const sectionOf = (heading: string): string => {
  const from = text.indexOf(heading);
  return text.slice(from, text.indexOf('\n## ', from + 4));
};
const within = (value: number, published: number, tolerance = 0.005): boolean =>
  Math.abs(value - published) <= tolerance * published;

describe.each(examples.map((example) => [sectionOf(example.of).split('\n')[0]!.slice(3), example] as const))(
  '%s',
  (_title, example) => {
    const section = sectionOf(example.of);
    // Judged within the tests, so that a fault in the judging fails them rather than their gathering.
    let bound: WorstCase | undefined;
    beforeAll(() => {
      const foresight = foresee({
        ingredients: example.ingredients.map(reading),
        ...(example.heat && { heating: [{ of: 'mixture', toCelsius: example.heat }] }),
        roomCubicMetres: example.room,
      });
      bound = foresight.foreseen.find(({ rule }) => rule === example.rule)?.worstCase;
    });
    it('gives the published volume of gas', () => {
      const published = Number(/= \*\*([\d.]+) mL\*\*/.exec(section)![1]);
      // 0.5 %, or half of the last printed digit where that is coarser
      expect(
        bound && Math.abs(Number(bound.litres) * 1000 - published) <= Math.max(0.005 * published, 0.05),
        `${bound?.litres} L against ${published} mL`,
      ).toBe(true);
    });
    it('gives the published room concentration', () => {
      const [, published] = /evenly mixed: [\d.]+ \/ \d+ = \*\*([\d.]+) ppm\*\*/.exec(section)!;
      const half = published!.includes('.') ? 0.05 : 0.5;
      expect(
        bound && Math.abs(Number(bound.roomPpm) - Number(published)) <= Math.max(0.005 * Number(published), half),
      ).toBe(true);
    });
    it('gives the published multiples of each limit that is in our table', () => {
      const ratios = [...section.matchAll(/- (.+?) ([\d.]+) ppm \(.*?\): ratio [\d.]+ \/ [\d.]+ = ([\d.]+)/g)];
      expect(ratios.length).toBeGreaterThan(1);
      let compared = 0;
      for (const [, , ppm, ratio] of ratios) {
        const ours = bound?.limits.filter((limit) => Number(limit.ppm) === Number(ppm)) ?? [];
        for (const limit of ours) {
          compared += 1;
          expect(
            within(Number(limit.times), Number(ratio), 0.02),
            `${limit.name}: ${limit.times} against ${ratio}`,
          ).toBe(true);
        }
      }
      expect(compared).toBeGreaterThan(0);
    });
  },
);

describe('the sum', () => {
  it('fills 24.4654 L with a mole at 25 °C and 101.325 kPa', () => expect(litresPerMole.toFixed(4)).toBe('24.4654'));
  it('shows two significant figures', () =>
    expect([exact('0.0333'), exact('978.6'), exact('1.944'), exact('12345')].map(twoFigures)).toEqual([
      '0.033',
      '980',
      '1.9',
      '12000',
    ]));
  it('reckons for 30 m³ where no room is given, and says so', () => {
    const bound = foresee({
      ingredients: [
        ingredientOf({ name: 'sodium sulfide', formula: 'Na2S', amount: '1 g' }),
        ingredientOf({ name: 'HCl', formula: 'HCl', amount: '0.1 mol' }),
      ],
    }).foreseen[0]!.worstCase!;
    expect([bound.room, bound.roomStated]).toEqual(['30', false]);
    expect(bound.words).toContain('no room volume was given');
    expect(bound.words).toContain('not an exposure assessment');
  });
  it('lets a limiting acid limit, and counts every proton of every acid in the pot', () => {
    const of = (...acids: { name: string; formula: string; amount: string }[]): string | undefined =>
      foresee({
        ingredients: [{ name: 'nitrite', formula: 'NaNO2', amount: '0.010 mol' }, ...acids].map(ingredientOf),
      }).foreseen.find(({ rule }) => rule === 'nitrite-strong-acid')?.worstCase?.mol;
    expect(of({ name: 'HCl', formula: 'HCl', amount: '0.002 mol' })).toBe('0.002');
    expect(
      of(
        { name: 'sulfuric', formula: 'H2SO4', amount: '0.002 mol' },
        { name: 'acetic', formula: 'CH3COOH', amount: '0.001 mol' },
      ),
    ).toBe('0.005');
    expect(of({ name: 'sulfuric', formula: 'H2SO4', amount: '1 mol' })).toBe('0.01');
  });
});

describe('the table of gases', () => {
  it('holds for each formula its name, what the nose tells, what comes late, and whence that is known', () => {
    expect(gases().get('HCN')).toMatchObject({
      formula: 'HCN',
      name: 'hydrogen cyanide',
      severity: 'danger',
      dissolves: false,
      limitsOf: 'hydrogen cyanide',
      smell: expect.stringContaining('almond'),
      smellWarns: expect.stringMatching(/^no/),
      source: expect.stringMatching(/^Hydrogen cyanide/),
      aliases: expect.arrayContaining(['prussic acid']),
    });
    expect(gases().get('HCN')!.late).toMatch(/minutes/);
    expect(gases().get('HF')!.source).toBe('from memory');
    expect(gases()).toBe(gases());
  });
  it('has for gases that burn the percentage from which they do', () => {
    // Source: NIOSH Pocket Guide: lower explosive limits of hydrogen 4 %, acetylene 2.5 %, from memory.
    expect(gases().get('H2')!.lowerFlammablePercent).toBe(4);
    expect(gases().get('C2H2')!.lowerFlammablePercent).toBe(2.5);
    expect(gases().get('Cl2')).not.toHaveProperty('lowerFlammablePercent');
  });
  it('finds the vapour by the usual formula of the solid, and nothing for no gas', () => {
    expect(gasNamed('As2O3')!.formula).toBe('As4O6');
    expect(gasNamed('H2S')!.formula).toBe('H2S');
    expect(gasNamed('Qq')).toBeUndefined();
  });
  it('reads a column of gases: several by + or ;, a fume by its solid', () => {
    expect(gasFormulae('NO + NO2')).toEqual(['NO', 'NO2']);
    expect(gasFormulae('HCN; (CN)2')).toEqual(['HCN', '(CN)2']);
    expect(gasFormulae('HCN;(CN)2 ')).toEqual(['HCN', '(CN)2']);
    expect(gasFormulae('As2O3 fume')).toEqual(['As2O3']);
    expect(gasFormulae('')).toEqual([]);
  });
  it('gives of them what is published, and leaves out what is no gas of the table', () => {
    expect(gasFacts('As2O3 fume; Qq')).toEqual([
      expect.objectContaining({ formula: 'As4O6', name: 'arsenic trioxide fume', smellWarns: 'no', late: 'yes' }),
    ]);
    expect(Object.keys(gasFacts('H2S')[0]!).sort()).toEqual(
      ['formula', 'late', 'name', 'smell', 'smellWarns', 'source'].sort(),
    );
  });
  it('knows the strictest limit of each kind, and none where none is published', () => {
    // Source: NIOSH Pocket Guide (IDLH of hydrogen cyanide 50 ppm, STEL 4.7 ppm) and Directive (EU) 2017/164 (TWA 0.9 ppm).
    expect(strictestPpm('HCN')).toBe(0.9);
    expect(strictestPpm('Qq')).toBe(Infinity);
    expect(strictestPpm('N2')).toBe(Infinity);
    // Of each kind alone the lowest is found: phosgene's is a TWA, hydrogen azide's a ceiling.
    expect(strictestPpm('COCl2')).toBe(0.02);
    expect(strictestPpm('HN3')).toBeLessThanOrEqual(0.1);
  });
});

describe('the limits of a gas', () => {
  // Values from exposure-limits.csv, which names its sources; converted by hand with 24.45 L/mol.
  const told = (formula: string): string[] =>
    gasLimits(formula).map(
      ({ limit: { authority, kind }, ppm }) => `${authority} ${kind} ${ppm.toSignificantDigits(3).toFixed()}`,
    );
  it('in mg/m³ are counted in ppm of the gas: mercury 0.1 mg/m³ is 0.1 · 24.45/200.59 ppm', () => {
    expect(told('Hg')).toEqual(['OSHA TWA 0.0122', 'ACGIH TWA 0.00305']);
  });
  it('that count one element only count its share: arsenic in As4O6, 0.002 · 24.45/(4 · 74.92)', () =>
    expect(told('As4O6')).toContain('NIOSH ceiling 0.000163'));
  it('that count an element in one state count that element: chromium(VI), 0.001 · 24.45/52.00', () =>
    expect(told('CrO2Cl2')).toContain('NIOSH TWA 0.00047'));
  it('are told once where an authority prints them in both units: arsine, NIOSH ceiling', () => {
    expect(told('AsH3').filter((one) => one.startsWith('NIOSH ceiling'))).toEqual(['NIOSH ceiling 0.0006']);
    // Another authority, or another kind of its own, is another limit.
    expect(told('AsH3')).toEqual(
      expect.arrayContaining(['OSHA TWA 0.05', 'NIOSH IDLH 3', 'ACGIH TWA 0.005', 'NIOSH ceiling 0.0006']),
    );
    expect(told('NO2')).toEqual(
      expect.arrayContaining(['NIOSH STEL 1', 'EU (IOELV) STEL 1', 'EU (IOELV) TWA 0.5', 'NIOSH IDLH 13']),
    );
  });
  it('are those in force, neither superseded nor for an emergency of one hour', () => {
    expect(told('NO2').filter((one) => one.startsWith('NIOSH IDLH'))).toEqual(['NIOSH IDLH 13']);
    expect(told('CrO2Cl2')).not.toContain('ACGIH TWA 0.025');
    expect(told('Hg').filter((one) => one.includes('ERPG'))).toEqual([]);
  });
  it('are none where the table names none, and the same list when asked again', () => {
    expect(gasLimits('O2')).toEqual([]);
    expect(gasLimits('Qq')).toEqual([]);
    expect(gasLimits('HCN')).toBe(gasLimits('HCN'));
  });
});

describe('the most harmful gas comes first', () => {
  // Limits from exposure-limits.csv, which names its sources.
  const pots = [
    ['burning charcoal in a small closed room', 'KCN', 'HCl'],
    ['Na2S', 'HCl', 'bleach', 'NH3 25 %'],
  ];
  it.each(pots)('in %s and what meets it', (...pot) => {
    const { foreseen } = foresee({ ingredients: pot.map(reading) });
    const gassing = foreseen.filter(
      ({ gases = [], consequence }) => gases.length > 0 && !/^explosion/.test(consequence),
    );
    for (const severity of ['danger', 'warning', 'note']) {
      const least = gassing
        .filter((one) => one.severity === severity)
        .map(({ gases = [] }) => Math.min(...gases.map(({ formula }) => strictestPpm(formula))));
      expect(least).toEqual([...least].sort((a, b) => (a === b ? 0 : a - b)));
    }
  });
  it('hydrogen cyanide before carbon monoxide, within one hazard too', () => {
    const { foreseen } = foresee({ ingredients: ['burning pvc pipe'].map(reading) });
    const formulae = foreseen.find(({ rule }) => rule === 'plastic-burning')?.gases?.map(({ formula }) => formula);
    expect(formulae?.indexOf('HCN')).toBe(0);
    expect(formulae).toContain('CO');
  });
});

// Equations: balanced coefficients against published ones, what is off in words, and any conserved equation.
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  balance,
  balancedOrAfresh,
  exact,
  imbalances,
  imbalanceSentence,
  nullSpace,
  parseEquation,
  printEquation,
  type Equation,
} from '../../src/chemistry/index.js';
import { referenceRows } from '../reference/read.js';

const equation = (text: string): Equation => {
  const outcome = parseEquation(text);
  if (!outcome.ok) throw new Error(outcome.fault.message);
  return outcome.value;
};
const rows = referenceRows('chem/balance.csv');
const outcomeOf = { 'zero-coefficient': 'no-solution', unbalanceable: 'no-solution' } as const;

describe('balancing', () => {
  test.each(rows.map((row) => [row.id, row.unbalanced, row] as const))('%s: %s', (_, text, row) => {
    const outcome = balance(text!);
    if (row.status === 'unique') {
      expect(outcome.ok && outcome.value.text).toBe(row.balanced_smallest_integers);
      if (row.published_check === 'published matches') {
        const { reactants, products } = outcome.ok ? outcome.value.equation : { reactants: [], products: [] };
        const ours = [...reactants, ...products].map(({ coefficient }) => coefficient.toNumber());
        const theirs = row.published_coefficients!.split(' ').map(Number);
        // A source may print a multiple of the smallest coefficients.
        expect(theirs.map((n) => n / (theirs[0]! / ours[0]!))).toEqual(ours);
      }
    } else if (row.status!.startsWith('underdetermined')) {
      const ways = /\((\d+)\)/.exec(row.status!)![1];
      expect(!outcome.ok && outcome.fault).toMatchObject({
        code: 'underdetermined',
        message: expect.stringContaining(`${ways} independent`),
      });
    } else {
      expect(!outcome.ok && outcome.fault.code).toBe(outcomeOf[row.status as keyof typeof outcomeOf]);
    }
  });

  test('every row of the table was run', () => expect(rows.length).toBe(95));

  test('a published solution of an open case conserves everything', () => {
    for (const row of rows.filter(
      ({ status, published_coefficients: given }) => status!.startsWith('underdetermined') && given,
    )) {
      const parsed = equation(row.unbalanced!);
      const coefficients = row.published_coefficients!.split(' ');
      const put = (side: Equation['reactants'], from: number) =>
        side.map((term, index) => ({ ...term, coefficient: exact(coefficients[from + index]!) }));
      expect(
        imbalances({ reactants: put(parsed.reactants, 0), products: put(parsed.products, parsed.reactants.length) }),
      ).toEqual([]);
    }
  });

  test('an answer that was printed wrong does not conserve charge', () => {
    // Source: OpenStax Chemistry 2e, Exercise 19-19(b), whose printed coefficients are 4 1 8 -> 4 1 4 12.
    expect(imbalanceSentence(imbalances(equation('4 TiCl3 + CrO4^2- + 8 H^+ -> 4 Ti^4+ + Cr + 4 H2O + 12 Cl^-')))).toBe(
      'The charge is off by 2: +6 on the left, +4 on the right.',
    );
  });

  test('a substance that can take no part is named', () => {
    const outcome = balance('Cu + CH3COOH + O2 -> Cu(CH3COO)2·H2O + H2O');
    expect(!outcome.ok && outcome.fault.message).toBe(
      'The equation balances only if H2O takes no part: 2 Cu + 4 CH3COOH + O2 -> 2 Cu(CH3COO)2·H2O.',
    );
  });
  test('a substance that is written twice is one substance', () => {
    const outcome = balance('H2 + O2 + 5 H2 -> 7 H2O');
    expect(outcome.ok && outcome.value.text).toBe('2 H2 + O2 -> 2 H2O');
  });
  test('thirds that do not end are no imbalance', () =>
    expect(imbalances(equation('1/3 N2 + H2 -> 2/3 NH3'))).toEqual([]));
  test('a part of an atom is an imbalance', () =>
    expect(imbalances(equation('H2 + 0.6 O2 -> H2O'))).toMatchObject([{ what: 'O' }]));
  test('a number close to an adduct is a coefficient where only so it balances', () => {
    const outcome = balance('2CuSO4·5H2O -> Cu2(SO4)2·10H2O');
    expect(outcome.ok && outcome.value.text).toBe('2 CuSO4·5H2O -> Cu2(SO4)2·10H2O');
    // So too where the number that was written is not the one that balances.
    const wrong = balance('3CuSO4·5H2O -> Cu2(SO4)2·10H2O');
    expect(wrong.ok && wrong.value.text).toBe('2 CuSO4·5H2O -> Cu2(SO4)2·10H2O');
  });
  test('of several ways to balance, the smallest are shown', () => {
    // 3 + 2 -> 2 + 1 is the smallest in which both oxides of carbon stand, 4 + 3 -> 2 + 2 the next; by trial.
    const outcome = balance('C + O2 -> CO + CO2');
    expect(!outcome.ok && outcome.fault.message).toContain(
      'for example 3 C + 2 O2 -> 2 CO + CO2; 4 C + 3 O2 -> 2 CO + 2 CO2',
    );
  });
  test('a substance on the wrong side is named', () => {
    const outcome = balance('CuSO4 + Na2SO4 -> Cu(OH)2 + NaOH');
    expect(!outcome.ok && outcome.fault).toMatchObject({
      code: 'no-solution',
      message: expect.stringContaining('on the other side'),
    });
  });
  test('where as many would change sides either way, what was written first stays', () => {
    // The reduction of iron ore, as every textbook has it.
    const outcome = balance('Fe2O3 + CO2 -> Fe + CO');
    expect(!outcome.ok && outcome.fault.correction).toBe('Fe2O3 + 3 CO -> 2 Fe + 3 CO2');
  });
  test('the element that no product holds is named', () => {
    const outcome = balance('CuSO4 + Na2CO3 -> CuCO3 + NaCl');
    expect(!outcome.ok && outcome.fault.message).toContain('No product holds S');
  });
  test.each([
    // Conservation is checked here; the long one goes round among teachers, from memory.
    ['K4[Fe(CN)6] + KMnO4 + H2SO4 -> KHSO4 + Fe2(SO4)3 + MnSO4 + HNO3 + CO2 + H2O', 9],
    [
      [
        'H2 + Ca(CN)2 + NaAlF4 + FeSO4 + MgSiO3 + KI + H3PO4 + PbCrO4 + BrCl + CF2Cl2 + SO2',
        'PbBr2 + CrCl3 + MgCO3 + KAl(OH)4 + Fe(SCN)3 + PI3 + Na2SiO3 + CaF2 + H2O',
      ].join(' -> '),
      20,
    ],
  ])('many substances balance exactly: %s', (text, species) => {
    const outcome = balance(text);
    expect(outcome.ok && outcome.value.equation.reactants.length + outcome.value.equation.products.length).toBe(
      species,
    );
    expect(outcome.ok && imbalances(outcome.value.equation)).toEqual([]);
  });
});

describe('reading an equation', () => {
  test.each([
    ['2Na+Cl2->2NaCl', '2 Na + Cl2 -> 2 NaCl'],
    ['Ag+ + Cl- -> AgCl', 'Ag+ + Cl- -> AgCl'],
    ['Fe^3++SCN^-→FeSCN^2+', 'Fe^3+ + SCN^- -> FeSCN^2+'],
    ['H+ (aq) + OH-(aq) ⇌ H2O(l)', 'H+ + OH- -> H2O'],
    ['½ O2 + H2 = H2O', '0.5 O2 + H2 -> H2O'],
    ['MnO4- + 8H+ + 5e- -> Mn^2+ + 4H2O', 'MnO4- + 8 H+ + 5 e- -> Mn^2+ + 4 H2O'],
    ['3 2PbCO3·Pb(OH)2 -> 6 PbCO3 + 3 Pb(OH)2', '3 2PbCO3·Pb(OH)2 -> 6 PbCO3 + 3 Pb(OH)2'],
    ['2(NH4)2CO3 -> 4NH3 + 2CO2 + 2H2O', '2 (NH4)2CO3 -> 4 NH3 + 2 CO2 + 2 H2O'],
  ])('%s', (text, printed) => {
    expect(printEquation(equation(text))).toBe(printed);
    expect(imbalances(equation(text))).toEqual([]);
  });

  test('a number glued to a hydrate is its own multiplier, unless only a coefficient balances; that is said', () => {
    expect(equation('3CdSO4·8H2O -> 3 CdSO4 + 8 H2O').doubts).toEqual([]);
    const glued = equation('2CuSO4·5H2O + 2Na2CO3 -> CuCO3·Cu(OH)2 + 2Na2SO4 + CO2 + 9H2O');
    expect(imbalances(glued)).toEqual([]);
    expect(glued.doubts).toMatchObject([{ code: 'glued-coefficient' }]);
  });

  test('what is off is said in words', () => {
    expect(imbalanceSentence(imbalances(equation('H2 + O2 -> H2O')))).toBe(
      'Oxygen (O) is off by 1: 2 on the left, 1 on the right.',
    );
    expect(imbalanceSentence(imbalances(equation('Fe^2+ -> Fe^3+')))).toBe(
      'The charge is off by 1: +2 on the left, +3 on the right.',
    );
  });

  test.each([
    ['H2 + O2', 'arrow', 8],
    ['H2 -> H2O -> O', 'arrow', 10],
    ['H2 + -> H2O', 'empty-term', 5],
    ['H2O + Xy -> O2', 'unknown-element', 7],
    ['CuSO4·nH2O -> CuSO4 + H2O', 'unknown-count', 1],
    ['Na8-10S -> Na + S', 'range', 1],
    ['0 H2 -> H2', 'coefficient', 3],
    [' -> H2', 'empty-term', 1],
  ])('%s is refused: %s at column %i', (text, code, column) => {
    const outcome = parseEquation(text);
    expect(!outcome.ok && [outcome.fault.code, outcome.fault.column]).toEqual([code, column]);
  });

  test('a reaction that does not balance as written is balanced afresh only if that can be done in one way', () => {
    const afresh = balancedOrAfresh(equation('Fe + O2 -> Fe2O3'));
    expect(afresh.ok && [printEquation(afresh.value.equation), afresh.value.afresh]).toEqual([
      '4 Fe + 3 O2 -> 2 Fe2O3',
      true,
    ]);
    expect(balancedOrAfresh(equation('KClO3 -> KCl + KClO4 + O2')).ok).toBe(false);
    const open = balancedOrAfresh(equation('4 KClO3 -> KCl + 3 KClO4'));
    expect(open.ok && open.value.afresh).toBe(false);
  });

  test.each([
    ['only plus signs', '+'.repeat(3000), 'arrow'],
    ['seven hundred terms', `${'H2 + '.repeat(700)}O2 -> H2O`, 'too-many'],
    ['only arrows', '->'.repeat(1500), 'arrow'],
    ['a coefficient of two thousand digits', `${'9'.repeat(2000)} H2 -> H2`, 'coefficient'],
    ['a hundred thousand characters', `H2 -> ${'H'.repeat(100_000)}`, 'too-long'],
  ])('a hostile equation is refused: %s', (_, text, code) => {
    const outcome = parseEquation(text);
    expect(!outcome.ok && outcome.fault.code).toBe(code);
  });
});

describe('for any conserved equation', () => {
  const atoms = ['H', 'C', 'N', 'O', 'Na', 'S', 'Cl', 'Fe', 'Cu', 'Pb'];
  /** Reactants of their own elements joined into one product: one solution, known beforehand. */
  const conserved = fc
    .integer({ min: 2, max: 6 })
    .chain((size) =>
      fc.tuple(
        fc.array(fc.array(fc.integer({ min: 0, max: 6 }), { minLength: size, maxLength: size }), {
          minLength: size,
          maxLength: size,
        }),
        fc.array(fc.integer({ min: 1, max: 9 }), { minLength: size, maxLength: size }),
      ),
    )
    .map(([matrix, coefficients]) => {
      const reactants = matrix.map((row, index) => row.map((n, column) => (column === index ? n + 7 : n)));
      const product = atoms
        .slice(0, coefficients.length)
        .map((_, column) => reactants.reduce((sum, row, index) => sum + row[column]! * coefficients[index]!, 0));
      const text = (row: readonly number[]): string =>
        row.map((n, column) => (n === 0 ? '' : `${atoms[column]}${n === 1 ? '' : n}`)).join('');
      return { text: `${reactants.map(text).join(' + ')} -> ${text(product)}`, coefficients };
    });
  test('the smallest whole coefficients are found, and conserve everything', () => {
    fc.assert(
      fc.property(conserved, ({ text, coefficients }) => {
        const outcome = balance(text);
        // Two reactants may happen to be alike, or dependent; then there is no single answer.
        fc.pre(outcome.ok);
        const { reactants, products } = (outcome as Extract<typeof outcome, { ok: true }>).value.equation;
        expect(imbalances({ reactants, products })).toEqual([]);
        const found = [...reactants, ...products].map(({ coefficient }) => coefficient.toNumber());
        const common = (a: number, b: number): number => (b === 0 ? a : common(b, a % b));
        expect(found.reduce(common)).toBe(1);
        const ratio = found[0]! / coefficients[0]!;
        expect(found.slice(0, -1)).toEqual(coefficients.map((n) => n * ratio));
      }),
      { numRuns: 300 },
    );
  });
  test('the null space really is annihilated', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 6, maxLength: 6 }), {
          minLength: 1,
          maxLength: 6,
        }),
        (matrix) => {
          const rows = matrix.map((row) => row.map(BigInt));
          for (const vector of nullSpace(rows))
            for (const row of rows)
              expect(row.reduce((sum, value, index) => sum + value * vector[index]!, 0n)).toBe(0n);
        },
      ),
      { numRuns: 300 },
    );
  });
});

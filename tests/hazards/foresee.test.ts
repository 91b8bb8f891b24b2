// What foreseeing promises whatever the pot: nothing is lost by adding, order is nothing, unknown is never an
// all-clear.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foresee } from '../../src/hazards/foresee/foresee.js';
import { parseQuantity } from '../../src/chemistry/index.js';
import type { Mixture, MixedReagent } from '../../src/hazards/foresee/contracts.js';
import { heatRules, pairRules } from '../../src/hazards/foresee/rules.js';
import { contentsOf, isWater, resolveReagent, resolveText, unreadReagent } from '../../src/reagents/index.js';
import { ingredientOf, reading } from './ingredients.js';

const reagents: readonly MixedReagent[] = [
  ...new Set(
    [...pairRules(), ...heatRules()]
      .flatMap(({ fires, quiet }) => [...fires, ...quiet])
      .flatMap((example) => example.split(' @ ')[0]!.split(' + ')),
  ),
].map(reading);

/** The same with so much of it, or with an amount of which nothing is known. */
function withMol({ reagent, ...rest }: MixedReagent, mol: string | undefined): MixedReagent {
  const { amount: _, ...written } = reagent.written;
  const quantity = mol === undefined ? undefined : parseQuantity(`${mol} mol`);
  return {
    ...rest,
    reagent: resolveReagent({
      ...written,
      ...(quantity?.ok && { amount: { kind: 'measured', quantity: quantity.value } }),
    }),
  };
}
const amount = fc.option(
  fc.integer({ min: 1, max: 500 }).map((milli) => `${milli / 1000}`),
  { nil: undefined },
);
const ingredient = fc.tuple(fc.constantFrom(...reagents), amount).map(([one, mol]): MixedReagent => withMol(one, mol));
const pot = fc
  .record({
    ingredients: fc.array(ingredient, { minLength: 1, maxLength: 5 }),
    heat: fc.constantFrom(20, 60, 100, 180, 400, 900),
  })
  .map(({ ingredients, heat }): Mixture => ({ ingredients, heating: [{ of: 'mixture', toCelsius: heat }] }));
const rank = { danger: 2, warning: 1, note: 0 };
const isWateryItself = ({ strength, substance, state }: MixedReagent['reagent']): boolean =>
  strength.basis !== 'undiluted' || (substance !== undefined && isWater(substance.parsed)) || state.length > 0;
/** Water is among what its words tell, too: `damp`, `electrolysis of water`. */
const isWatery = ({ reagent }: MixedReagent): boolean =>
  isWateryItself(reagent) ||
  contentsOf(reagent).contents.some((content) => content.variant === 'water' || isWateryItself(content.reagent));

describe('properties', () => {
  it('one more reagent never takes a foreseen hazard away', () => {
    fc.assert(
      fc.property(pot, ingredient, (before, more) => {
        const rules = new Set(
          foresee({ ...before, ingredients: [...before.ingredients, more] }).foreseen.map(({ rule }) => rule),
        );
        expect(
          foresee(before)
            .foreseen.map(({ rule }) => rule)
            .filter((rule) => !rules.has(rule)),
        ).toEqual([]);
      }),
      { numRuns: 400 },
    );
  });
  it('one more dry reagent of unknown amount never makes a hazard less serious', () => {
    fc.assert(
      fc.property(pot, fc.constantFrom(...reagents.filter((one) => !isWatery(one))), (before, more) => {
        const plain: Mixture = { ...before, ingredients: before.ingredients.map((one) => withMol(one, undefined)) };
        const after = new Map(
          foresee({ ...plain, ingredients: [...plain.ingredients, more] }).foreseen.map(({ rule, severity }) => [
            rule,
            severity,
          ]),
        );
        for (const { rule, severity } of foresee(plain).foreseen)
          expect(rank[after.get(rule)!], rule).toBeGreaterThanOrEqual(rank[severity]);
      }),
      { numRuns: 300 },
    );
  });
  it('the order of reagents changes nothing', () => {
    fc.assert(
      fc.property(pot, fc.integer({ min: 0, max: 4 }), (given, turn) => {
        const turned = [...given.ingredients.slice(turn), ...given.ingredients.slice(0, turn)].reverse();
        expect(foresee({ ...given, ingredients: turned })).toEqual(foresee(given));
      }),
      { numRuns: 300 },
    );
  });
  it('an unknown name stays unknown whatever else is there, and is named', () => {
    fc.assert(
      fc.property(
        pot,
        fc.constantFrom('dragon dust', 'Krypto 7 medium', 'unobtainium nitrate', 'grandmother’s mordant', ''),
        (given, name) => {
          expect(foresee({ ...given, ingredients: [...given.ingredients, ingredientOf({ name })] }).unknown).toContain(
            name,
          );
        },
      ),
      { numRuns: 100 },
    );
  });
  it('whatever is written, it is read or called unknown, and nothing throws', () => {
    const line = fc.oneof(
      fc.string({ maxLength: 60 }),
      fc.string({ unit: fc.constantFrom(...'NaClHSO4(25)[] %.·-gmL^+xConitreacd'), maxLength: 40 }),
      fc.constantFrom('[', '(', 'K3[', 'x (', 'NaNO2 5', '5 g', 'HCl %', ' '.repeat(500), '('.repeat(300)),
    );
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 3 }), (lines) => {
        const ingredients = lines.map((text): MixedReagent => {
          const read = resolveText(text);
          return { reagent: read.ok ? read.value : unreadReagent(text) };
        });
        const { foreseen, unknown } = foresee({ ingredients, reaction: lines.join(' -> ') });
        expect(Array.isArray(foreseen) && Array.isArray(unknown)).toBe(true);
      }),
      { numRuns: 500 },
    );
  });
  it('ten times of everything gives ten times the gas', () => {
    fc.assert(
      fc.property(pot, (given) => {
        const grown: Mixture = {
          ...given,
          ingredients: given.ingredients.map((one) => {
            const mol = one.reagent.taken.molAtMost;
            return mol ? withMol(one, mol.times(10).toFixed()) : one;
          }),
        };
        const large = new Map(foresee(grown).foreseen.map((one) => [one.rule, one.worstCase]));
        for (const { rule, worstCase } of foresee(given).foreseen) {
          if (worstCase && large.get(rule))
            expect(Number(large.get(rule)!.litres) / Number(worstCase.litres), rule).toBeCloseTo(10, 3);
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('a pot', () => {
  const rulesOf = (...lines: string[]): string[] =>
    foresee({
      ingredients: lines.map(reading),
    }).foreseen.map(({ rule, severity }) => `${rule} ${severity}`);
  it('takes an acid of no stated strength as concentrated', () => {
    expect(rulesOf('sulfuric acid', 'water')).toContain('concentrated-sulfuric-water danger');
    expect(rulesOf('dilute sulfuric acid', 'water')).toEqual([]);
    expect(rulesOf('sulfuric acid 10 %', 'water')).toEqual([]);
  });
  it('is judged by what is done with one thing alone, in one breath or in two', () => {
    const told = (...lines: string[]) => rulesOf(...lines).map((one) => one.split(' ')[0]);
    for (const [thing, deed, rule] of [
      ['ammonia 25 % 500 mL', 'knocked over', 'ammonia-spilt'],
      ['nitric acid 65 % 500 mL', 'spilt', 'nitric-spilt'],
      ['acetone', 'spilt', 'solvent-spilt'],
      ['mercury', 'spilled', 'mercury-spilt'],
      ['aluminium powder', 'sucked up with the vacuum cleaner', 'metal-vacuumed'],
      ['steel wool', 'in the microwave', 'microwave-metal'],
    ] as const) {
      expect(told(`${thing}, ${deed}`), thing).toContain(rule);
      expect(told(thing, deed), thing).toContain(rule);
      expect(told(thing), thing).not.toContain(rule);
    }
  });
  it('names the contents of a product worst first, by what they threaten in this pot', () => {
    const takenIn = (...lines: string[]): string =>
      foresee({ ingredients: lines.map(reading) }).cautions.find((one) => one.startsWith('drain opener: taken as'))!;
    // Acid frees chlorine from bleach; vinegar frees it from the kind that is bleach.
    expect(takenIn('drain opener 50 mL', 'bleach 100 mL')).toMatch(/taken as sulfuric acid \(H2SO4\)/);
    expect(takenIn('drain opener 50 mL', 'vinegar 200 mL')).toMatch(/taken as hypochlorite bleach \(NaClO\)/);
  });
  it('knows a salt by its name as well as by its formula', () => {
    expect(rulesOf('potassium sulfite', 'hydrochloric acid 10 %')).toEqual(rulesOf('K2SO3', 'HCl 10 %'));
  });
  it('finds what only a name tells', () => {
    expect(rulesOf('bleach', 'vinegar')).toContain('hypochlorite-weak-acid danger');
    expect(rulesOf('wood ash', 'sal ammoniac')).toContain('ammonium-mild-base warning');
  });
  it('does not let a substance meet itself, unless it holds both halves of a danger', () => {
    expect(rulesOf('HNO2')).toEqual([]);
    expect(rulesOf('HNO2', 'NaNO2')).toContain('nitrite-weak-acid danger');
    expect(rulesOf('(NH4)2Cr2O7')).toContain('chromate-ammonium danger');
  });
  it('counts the acid that the reaction sets free', () => {
    const foresight = foresee({
      ingredients: [
        ingredientOf({ name: 'nitrite', formula: 'NaNO2' }),
        ingredientOf({ name: 'sulfur dioxide', formula: 'SO2' }),
      ],
      reaction: '2 NaNO2 + SO2 + H2O -> Na2SO4 + 2 HNO2',
    });
    expect(foresight.foreseen.map(({ rule }) => rule)).toContain('nitrite-weak-acid');
    const free = foresee({
      ingredients: [
        ingredientOf({ name: 'ultramarine', formula: 'Na7Al6Si6O24S3' }),
        ingredientOf({ name: 'cobalt chloride', formula: 'CoCl2' }),
        ingredientOf({ name: 'phosphate', formula: 'Na2HPO4' }),
      ],
      reaction: '3 CoCl2 + 2 Na2HPO4 -> Co3(PO4)2 + 4 NaCl + 2 HCl',
    });
    expect(free.foreseen.map(({ rule }) => rule)).toContain('metal-sulfide-strong-acid');
  });
  it('tells a gas that the reaction itself names', () => {
    const { foreseen } = foresee({
      ingredients: [
        ingredientOf({ name: 'barium nitrate', formula: 'Ba(NO3)2', amount: '0.1 mol' }),
        ingredientOf({ name: 'manganese dioxide', formula: 'MnO2', amount: '0.1 mol' }),
      ],
      reaction: 'Ba(NO3)2 + MnO2 -> BaMnO4 + 2 NO2',
    });
    expect(foreseen.map(({ rule, severity, worstCase }) => [rule, severity, worstCase?.mol])).toContainEqual([
      'reaction-gives-nitrogen-dioxide',
      'danger',
      '0.2',
    ]);
  });
});

// What a first reaction makes meets a third thing: chains whose danger no pair of the ingredients tells.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Foreseen, MixedReagent, Mixture } from '../../src/hazards/foresee/contracts.js';
import { foresee } from '../../src/hazards/foresee/foresee.js';
import { groups } from '../../src/hazards/foresee/groups.js';
import { heatRules, pairRules } from '../../src/hazards/foresee/rules.js';
import { madeOnTheWayTable } from '../../src/tables/compiled/hazards/foresee/made-on-the-way.js';
import { referenceRows } from '../reference/read.js';
import { reading } from './ingredients.js';

const potOf = (reagents: readonly string[], celsius: string | undefined): Mixture => ({
  ingredients: reagents.map(reading),
  ...(celsius && { heating: [{ of: 'mixture', toCelsius: Number(celsius) }] }),
});
const found = (mixture: Mixture, rule: string): Foreseen | undefined =>
  foresee(mixture).foreseen.find((one) => one.rule === rule);

// source: tests/reference/mixing/made-on-the-way.csv, each row with its sum and where the chain is known from
describe('chains of reactions', () => {
  const rows = referenceRows('mixing/made-on-the-way.csv').map((row) => [`${row.id} ${row.reagents}`, row] as const);
  it.each(rows)('%s', (_title, row) => {
    const one = found(potOf(row.reagents!.split('; '), row.celsius), row.rule!);
    const told = one?.severity ?? 'none';
    // A note and silence are wanted exactly; a danger or a warning at least.
    if (row.severity === 'warning') expect(['warning', 'danger']).toContain(told);
    else expect(told).toBe(row.severity);
    if (row.mol) expect(Math.abs(Number(one!.worstCase!.mol) / Number(row.mol) - 1)).toBeLessThan(0.02);
  });
  it('say what is made, and by what', () => {
    const { ingredients } = potOf(['sodium hypochlorite 5 % 100 g', 'hydrochloric acid 10 % 100 g', 'NH3 10 %'], '');
    const one = found({ ingredients }, 'ammonia-halogen')!;
    expect(one.condition).toMatch(/^chlorine is made on the way, by hydrochloric acid with sodium hypochlorite; /);
    expect(one.partners).toEqual(['NH3', 'hydrochloric acid', 'sodium hypochlorite']);
  });
});

describe('the table of what is made', () => {
  const known = new Map([...pairRules(), ...heatRules()].map((rule) => [rule.id, rule]));
  it('names rules and groups that exist', () => {
    for (const row of madeOnTheWayTable()) {
      const rules = [...row.by, ...row.only_with].map(({ rule }) => rule);
      expect(
        rules.filter((rule) => !known.has(rule)),
        row.name,
      ).toEqual([]);
      expect(
        row.groups.filter((group) => !groups().has(group)),
        row.name,
      ).toEqual([]);
    }
  });
  it('says how much where the rule itself does not', () => {
    for (const { makes, by } of madeOnTheWayTable())
      for (const { rule, perUnit } of by)
        expect(
          perUnit ?? known.get(rule)!.gases.find(({ formula }) => formula === makes),
          `${makes} of ${rule}`,
        ).toBeDefined();
  });
});

describe('promises', () => {
  const makers = new Set(madeOnTheWayTable().flatMap(({ by }) => by.map(({ rule }) => rule)));
  const meets = new Set(madeOnTheWayTable().flatMap(({ only_with }) => only_with.map(({ rule }) => rule)));
  const examples = (ids: ReadonlySet<string>): readonly string[] =>
    [...pairRules(), ...heatRules()].filter(({ id }) => ids.has(id)).flatMap(({ fires }) => fires);
  const linesOf = (example: string): readonly string[] => example.split(' @ ')[0]!.split(' + ');
  const first = fc.constantFrom(...examples(makers));
  const third = fc.constantFrom(...examples(meets).flatMap(linesOf)).map(reading);
  const mixtureOf = (example: string, more: readonly MixedReagent[]): Mixture => {
    const { ingredients, ...rest } = potOf(linesOf(example), example.split(' @ ')[1]);
    return { ...rest, ingredients: [...ingredients, ...more] };
  };
  const rulesOf = (mixture: Mixture): readonly string[] => foresee(mixture).foreseen.map(({ rule }) => rule);

  it('a further ingredient takes nothing away of what is made on the way', () => {
    fc.assert(
      fc.property(first, third, third, (example, one, more) => {
        const after = new Set(rulesOf(mixtureOf(example, [one, more])));
        expect(rulesOf(mixtureOf(example, [one])).filter((rule) => !after.has(rule))).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });
  it('the order of ingredients changes nothing', () => {
    fc.assert(
      fc.property(first, third, third, (example, one, more) => {
        const given = mixtureOf(example, [one, more]);
        const turned = { ...given, ingredients: [...given.ingredients].reverse() };
        expect(foresee(turned)).toEqual(foresee(given));
      }),
      { numRuns: 150 },
    );
  });
  it('nothing is told of what is made that no ingredient stands behind', () => {
    fc.assert(
      fc.property(first, third, (example, one) => {
        const given = mixtureOf(example, [one]);
        const names = new Set(given.ingredients.map(({ reagent }) => reagent.name));
        for (const { partners } of foresee(given).foreseen)
          expect(partners.filter((name) => !names.has(name))).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });
});

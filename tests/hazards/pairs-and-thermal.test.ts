// The rules of mixing and heating: each row of the tables is tried on its own examples, and its equation is proven.
import { describe, expect, it } from 'vitest';
import { balance, imbalances, parseEquation } from '../../src/chemistry/index.js';
import { answeredBy, nameToAnswer } from '../../src/hazards/foresee/answers.js';
import { foresee } from '../../src/hazards/foresee/foresee.js';
import { groups } from '../../src/hazards/foresee/groups.js';
import { gases, gasFormulae } from '../../src/hazards/foresee/gases.js';
import { heatRules, pairRules } from '../../src/hazards/foresee/rules.js';
import { namedMaterialsTable } from '../../src/tables/compiled/reagents/named-materials.js';
import type { Mixture } from '../../src/hazards/foresee/contracts.js';
import { reading } from './ingredients.js';

/** `KNO3 + S @ 300`: reagents of an example, and how hot. */
function pot(example: string): Mixture {
  const [reagents = '', heat] = example.split(' @ ');
  const ingredients = reagents.split(' + ').map(reading);
  return { ingredients, ...(heat && { heating: [{ of: 'mixture', toCelsius: Number(heat) }] }) };
}
const told = (example: string) => {
  const foresight = foresee(pot(example));
  expect(foresight.unknown, example).toEqual([]);
  return foresight.foreseen;
};
const rules = [...pairRules(), ...heatRules()];

describe.each(rules.map((rule) => [rule.id, rule] as const))('%s', (id, rule) => {
  it('fires on each of its own examples, at its own severity', () => {
    expect(rule.fires.length).toBeGreaterThan(0);
    for (const example of rule.fires)
      expect(
        told(example)
          .filter((one) => one.rule === id)
          .map((one) => one.severity),
        example,
      ).toEqual([rule.severity]);
  });
  it('keeps quiet, or only notes, on each of its traps', () => {
    expect(rule.quiet.length).toBeGreaterThan(0);
    for (const example of rule.quiet) {
      const found = told(example).find((one) => one.rule === id);
      const noted = 'otherwise' in rule && rule.otherwise !== undefined && found?.severity === rule.otherwise;
      expect(
        found === undefined || noted || (found.severity === 'note' && rule.severity !== 'note'),
        `${example}: ${found?.severity}`,
      ).toBe(true);
    }
  });
  it('is answered by the name that its own remark offers', () => {
    for (const example of rule.fires) {
      const foreseen = told(example);
      const at = foreseen.findIndex((one) => one.rule === id);
      expect(answeredBy(nameToAnswer(foreseen[at]!), foreseen), example).toContain(at);
    }
  });
  it('names a source, a precaution and groups that exist', () => {
    expect(rule.source).not.toBe('');
    expect(rule.precaution).not.toBe('');
    const named = 'of' in rule ? rule.of : rule.groups.flatMap(({ any }) => any);
    expect(named.filter((group) => !groups().has(group))).toEqual([]);
  });
  it('gives gases that are in the table of gases', () => {
    expect(
      [
        ...rule.gases.map(({ formula }) => formula),
        ...gasFormulae(rule.gas).map((formula) => ({ As2O3: 'As4O6', Sb4O6: 'As4O6', ZnO: 'CdO' })[formula] ?? formula),
      ].filter((formula) => !gases().has(formula)),
    ).toEqual([]);
  });
});

describe('every equation of the tables', () => {
  it.each(rules.filter(({ equation }) => equation !== '').map(({ id, equation }) => [id, equation]))(
    '%s balances: %s',
    (_id, equation) => {
      const read = parseEquation(equation);
      if (!read.ok) throw new Error(read.fault.message);
      expect(imbalances(read.value)).toEqual([]);
      const afresh = balance(equation);
      expect(afresh.ok || afresh.fault.code === 'underdetermined').toBe(true);
    },
  );
});

it('no two rules share a name', () => {
  const ids = rules.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
});

it('every group serves a rule, a named material or another group', () => {
  const used = new Set(rules.flatMap((rule) => ('of' in rule ? rule.of : rule.groups.flatMap(({ any }) => any))));
  // What the condition `a may be fine` asks for.
  used.add('metal_ware');
  for (const row of namedMaterialsTable()) for (const group of row.groups) used.add(group);
  for (const { test } of groups().values())
    if (test.startsWith('parts ')) for (const group of test.split(' ').slice(1)) used.add(group);
  expect([...groups().keys()].filter((group) => !used.has(group))).toEqual([]);
});

describe('an answer to one dust', () => {
  const foreseen = () => foresee(pot('quartz powder 50 g, dust cloud + BaCO3 50 g')).foreseen;
  const answered = (against: string): readonly string[] =>
    answeredBy(against, foreseen()).map((at) => foreseen()[at]!.rule);

  it('is none to the dust of something else, and one that names it is', () => {
    expect(foreseen().map(({ rule }) => rule)).toEqual(expect.arrayContaining(['silica-dust', 'harmful-dust']));
    expect(answered('silica dust')).toContain('silica-dust');
    expect(answered('silica dust')).not.toContain('harmful-dust');
    expect(answered('barium carbonate dust')).toContain('harmful-dust');
    expect(answered('barium carbonate dust')).not.toContain('silica-dust');
  });

  it('is none to the fume of what stands beside it', () => {
    const of = (example: string, id: string) => foresee(pot(example)).foreseen.find(({ rule }) => rule === id)!;
    const dust = of('CuSO4 50 g, dust cloud', 'copper-dust');
    const fume = of('acetic acid 60 % 50 mL + in a closed room', 'fuming-acid-indoors');
    expect(fume.severity).not.toBe(dust.severity);
    expect(answeredBy('copper salt or copper stone in dust', [dust, fume])).toEqual([0]);
    expect(answeredBy('acid fumes', [dust, fume])).toEqual([1]);
  });
});

it.each(['Lappen mit Leinöl', 'chiffons huilés', 'trapos con aceite', 'stracci unti'])(
  'a precaution names what it answers in the words of its journal: %s',
  (against) => {
    const { foreseen } = foresee(pot('linseed oil + cotton rags'));
    const at = foreseen.findIndex(({ rule }) => rule === 'drying-oil-rags');
    expect(answeredBy(against, foreseen)).toContain(at);
    expect(answeredBy('Säure und Bleiche', foreseen)).toEqual([]);
  },
);

// Mixtures: every published generic limit at its edge, and the worked examples of the UN GHS and others.
import { describe, expect, test } from 'vitest';
import {
  classifyMixture,
  groundText,
  labelCodesOf,
  type Ingredient,
  type IngredientClassification,
  type MixtureClassification,
  type SpecificLimit,
} from '../../../src/hazards/ghs/index.js';
import { labelOf, readClassification } from '../../../src/hazards/ghs/hazard-classes.js';
import { referenceRows } from '../../reference/read.js';

const nothing: IngredientClassification = {
  name: 'nothing',
  unknown: false,
  classes: [],
  supplementary: [],
  limits: [],
  estimates: [],
  acuteMFactor: 1,
  chronicMFactor: 1,
};

const limitPattern = /^(?:(?<low>[\d.]+)%<=C<(?<high>[\d.]+)%|C>=(?<from>[\d.]+)%) (?:(?<gives>.+) )?(?<code>\S+)$/;

/** `C>=25% Skin Corr. 1B H314`, `10%<=C<25% Eye Irrit. 2 H319`, `C>=5% EUH031`. */
function limitOf(written: string): SpecificLimit {
  const { low, high, from, gives, code = '' } = limitPattern.exec(written)!.groups!;
  const held = gives === undefined ? undefined : readClassification(gives, code)[0];
  return { low: (low ?? from)!, lowIncluded: true, code, ...(high && { high }), ...(held && { gives: held }) };
}

/** `oral 1737` and `vapour 11`: an estimate; `M 10 1`: the factors; `limit …`; `also EUH071`. */
function withFact(known: IngredientClassification, fact: string): IngredientClassification {
  const [word, value = '', more = ''] = fact.split(' ');
  if (word === 'limit') return { ...known, limits: [...known.limits, limitOf(fact.slice('limit '.length))] };
  if (word === 'also') return { ...known, supplementary: [...known.supplementary, value] };
  if (word === 'M') return { ...known, acuteMFactor: Number(value), chronicMFactor: Number(more) };
  const estimate: IngredientClassification['estimates'][number] =
    word === 'oral' || word === 'dermal'
      ? { route: word, value }
      : { route: 'inhalation', value, form: word as 'vapour' };
  return { ...known, estimates: [...known.estimates, estimate] };
}

/** `4 % Acute Tox. 4 (oral) = H302; oral 1737`, `96 % nothing`, `11 % unknown`. */
function ingredientOf(written: string, at: number): Ingredient {
  const [percent = '', rest = ''] = written.split(' % ');
  const name = `ingredient ${at + 1}`;
  if (rest === 'nothing') return { percent, classification: { ...nothing, name } };
  if (rest === 'unknown') return { percent, classification: { ...nothing, name, unknown: true } };
  const [classified = '', ...facts] = rest.split('; ');
  const [classes = '', codes = ''] = classified.split(/ = ?/);
  const known = {
    ...nothing,
    name,
    classes: readClassification(classes.replaceAll(' + ', '; '), codes.replaceAll(' + ', '; ')),
  };
  return { percent, classification: facts.reduce(withFact, known) };
}

const codesOf = ({ classes, supplementary }: MixtureClassification): readonly string[] =>
  labelCodesOf([...new Set([...classes, ...supplementary].map((one) => one.code))].filter((code) => code !== ''));
const sorted = (codes: readonly string[]): readonly string[] => [...codes].sort();
const list = (cell: string): readonly string[] => cell.split('; ').filter((part) => part !== '');

describe('every generic limit, from its percentage on and not below', () => {
  const rows = referenceRows('hazards/generic-limits.csv');
  const gives = (row: Readonly<Record<string, string>>, percent: number): boolean => {
    const ingredient = ingredientOf(`${percent} % ${row['class']} = ${row['code']}`, 0);
    return classifyMixture([ingredient, { percent: '1', classification: nothing }]).classes.some(
      (held) => held.code === row['gives'],
    );
  };
  test.each(rows.map((row) => [`${row['percent']} % ${row['class']} gives ${row['gives']}`, row] as const))(
    '%s',
    (_, row) => {
      const limit = Number(row['percent']);
      expect(gives(row, limit)).toBe(true);
      expect(gives(row, Number((limit * 0.99).toPrecision(6)))).toBe(false);
    },
  );
});

describe('worked examples', () => {
  test.each(referenceRows('hazards/worked-mixtures.csv').map((row) => [row['id']!, row] as const))('%s', (_, row) => {
    const ingredients = row['ingredients']!.split(' | ').map(ingredientOf);
    const result = classifyMixture(ingredients);
    expect(sorted(codesOf(result)), row['source']).toEqual(sorted(list(row['codes']!)));
    const grounds = result.classes.flatMap((held) => held.grounds);
    const figures = row['figures']!;
    if (figures.startsWith('Skin'))
      expect(result.classes.map((held) => `${held.hazardClass} ${held.category}`)).toContain(figures);
    else if (figures !== '') {
      const [figure, part] = figures.split(', ');
      const told = grounds.map((ground) => {
        if (ground.rule === 'acute-toxicity-estimate') return `${ground.estimate} ${ground.unit}`;
        return ground.rule === 'aquatic-sum' ? ground.weightedPercent : '';
      });
      expect(told).toContain(figure);
      expect(grounds.some((ground) => ground.rule === 'acute-toxicity-estimate' && ground.partUnknown)).toBe(
        part === 'part unknown',
      );
    }
    for (const extra of result.supplementary)
      expect([extra.from, extra.sensitiser]).toEqual([
        'ingredient 1',
        extra.code === 'EUH208' ? 'ingredient 1' : undefined,
      ]);
    for (const ground of grounds) expect(groundText(ground).length).toBeGreaterThan(10);
    for (const held of result.classes) expect(labelOf(held), held.hazardClass).toBeDefined();
    if (row['from'] === '') return;
    const [code, ...places] = row['from']!.split(' ');
    const from = result.classes.find((held) => held.code === code)!.from;
    expect(from).toEqual(places.map((place) => `ingredient ${place}`));
  });
});

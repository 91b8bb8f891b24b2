// The lineage: lots generation by generation, running down into the sample. The preparations here are invented.
import { describe, expect, test } from 'vitest';
import { lineageDrawing, type LineageStep } from '../../templates/pictures/lineage.js';
import { named, words } from './tree.js';

const bought = (name: string): LineageStep => ({ name, from: [] });
const lot = (
  entry: number,
  name: string,
  from: readonly LineageStep[],
  more: Partial<LineageStep> = {},
): LineageStep => ({
  name,
  lot: `${entry}/A`,
  entry,
  sample: 'A',
  taken: '1.00 g',
  yield: '90 %',
  from,
  ...more,
});

describe('the lineage of a sample', () => {
  const yellow = lot(2, 'Mars yellow', [bought('copperas'), bought('soda')]);
  const red = lot(3, 'Mars red', [yellow]);
  const white = lot(21, 'zinc white', [bought('zinc sulfate')]);
  const root: LineageStep = { name: 'zinc ferrite', from: [red, white, bought('water')] };
  const tree = lineageDrawing({ title: 'Sample A', root });
  const generations = named(tree, 'li').map((one) => named(one, 'div').map(words));

  test('has a line for each generation, the earliest first and the sample last', () => {
    expect(generations).toEqual([
      ['2/A Mars yellowfrom copperas, soda; yield 90 %; 1.00 g into 3/A'],
      ['3/A Mars redyield 90 %; 1.00 g taken', '21/A zinc whitefrom zinc sulfate; yield 90 %; 1.00 g taken'],
      ['Sample A: zinc ferritefrom water'],
    ]);
  });

  test('leads to the sample that each lot is', () => {
    expect(named(tree, 'a').map(({ properties }) => properties.href)).toEqual(['../2/#A', '../3/#A', '../21/#A']);
  });

  test('says where earlier lots are not shown', () => {
    const cut = lineageDrawing({ title: 'This', root: { name: 'x', from: [{ ...yellow, further: true }] } });
    expect(words(cut)).toContain('made from earlier lots');
  });

  test('stays short, however wide the pedigree', () => {
    const many = (depth: number): LineageStep =>
      lot(depth, `lot ${depth}`, depth === 0 ? [] : [many(depth - 1), many(depth - 1), many(depth - 1)]);
    expect(named(lineageDrawing({ title: 'This', root: many(7) }), 'div').length).toBeLessThanOrEqual(41);
  });
});

// Long lists are cut into leaves, so that no page grows with the journal.
import { toHtml } from 'hast-util-to-html';
import { describe, expect, it } from 'vitest';
import { leafAddress, leafLinks, leavesOf } from '../../templates/leaves.js';

describe('a long list', () => {
  it('is cut into leaves that hold every item once', () => {
    const items = Array.from({ length: 601 }, (_, at) => at);
    const leaves = leavesOf(items, 250);
    expect(leaves.map(({ number, of, items: some }) => [number, of, some.length])).toEqual([
      [1, 3, 250],
      [2, 3, 250],
      [3, 3, 101],
    ]);
    expect(leaves.flatMap((leaf) => leaf.items)).toEqual(items);
  });
  it('is one leaf, without links, when it is short or empty', () => {
    expect(leavesOf([], 250)).toEqual([{ number: 1, of: 1, items: [] }]);
    expect(leafLinks({ base: '' } as never, '/results/', leavesOf([1], 2)[0]!)).toBeNull();
  });
  it('has its first leaf at its own address, and links to the others', () => {
    expect(leafAddress('/results/', 1)).toBe('/results/');
    const html = toHtml(leafLinks({ base: '/journal' } as never, '/results/', { number: 2, of: 12, items: [] })!);
    expect([...html.matchAll(/href="([^"]+)"/g)].map((match) => match[1])).toEqual([
      '/journal/results/',
      '/journal/results/3/',
      '/journal/results/4/',
      '/journal/results/12/',
    ]);
    expect(html).toContain('aria-current="page"');
  });
});

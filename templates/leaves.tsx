// Long lists are laid out in leaves: pages of one list, each linked to the others.
import type { Element } from 'hast';
import { href, type SiteContext } from './frame.js';

/** One leaf of a long list. */
export interface Leaf<T> {
  /** From 1. */
  readonly number: number;
  readonly of: number;
  readonly items: readonly T[];
}

/** Address of a leaf: `/results/`, `/results/2/`. */
export const leafAddress = (address: string, number: number): string =>
  number === 1 ? address : `${address}${number}/`;

/**
 * Cuts a list into leaves; an empty list is one empty leaf.
 * @example leavesOf([1, 2, 3], 2).map(({ items }) => items) // [[1, 2], [3]]
 */
export const leavesOf = <T,>(items: readonly T[], most: number): Leaf<T>[] =>
  leafNumbers(items.length, most).map((number) => leafOf(items, most, number));

/** Numbers of the leaves of a list of so many. @example leafNumbers(3, 2) // [1, 2] */
export const leafNumbers = (count: number, most: number): number[] =>
  Array.from({ length: Math.max(1, Math.ceil(count / most)) }, (_, at) => at + 1);

/** One leaf of a list. */
export const leafOf = <T,>(items: readonly T[], most: number, number: number): Leaf<T> => ({
  number,
  of: leafNumbers(items.length, most).length,
  items: items.slice((number - 1) * most, number * most),
});

/** Links between the leaves, or nothing where there is only one. */
export function leafLinks(site: SiteContext, address: string, { number, of }: Leaf<unknown>): Element | null {
  if (of === 1) return null;
  const near = Array.from({ length: of }, (_, at) => at + 1).filter(
    (one) => one === 1 || one === of || Math.abs(one - number) < 3,
  );
  return (
    <nav class="leaves" aria-label="Leaves of this list">
      <p>
        {`Leaf ${number} of ${of}: `}
        {near.flatMap((one, at) => [
          at > 0 && one - near[at - 1]! > 1 ? ' … ' : ' ',
          one === number ? (
            <strong aria-current="page">{String(one)}</strong>
          ) : (
            <a href={href(site, leafAddress(address, one))}>{String(one)}</a>
          ),
        ])}
      </p>
    </nav>
  ) as Element;
}

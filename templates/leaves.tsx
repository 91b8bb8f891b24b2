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
export function leavesOf<T>(items: readonly T[], most: number): Leaf<T>[] {
  const of = Math.max(1, Math.ceil(items.length / most));
  return Array.from({ length: of }, (_, at) => ({
    number: at + 1,
    of,
    items: items.slice(at * most, (at + 1) * most),
  }));
}

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

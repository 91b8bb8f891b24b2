// The maker's shelf and what was made earlier, as the place where a name is looked up first.
import { jarAsAssayed } from './assayed-jar.js';
import type { Cupboard, LotProduct, ShelfFacts } from './contracts.js';

const asAssayed = (jar: ShelfFacts | undefined): ShelfFacts | undefined => jar && jarAsAssayed(jar);

/**
 * A cupboard of jars by their ids; a name that is no id finds the jar that is called so.
 * @param shelf jars by id, in the order of the shelf
 * @param lot the product of a sample by its name, `9/A`
 * @example cupboardOf(new Map([['b1', { name: 'blue vitriol', formula: 'CuSO4·5H2O' }]]), () => undefined)
 *   .shelf('Blue vitriol')?.formula // 'CuSO4·5H2O'
 */
export function cupboardOf(
  shelf: ReadonlyMap<string, ShelfFacts>,
  lot: (name: string) => LotProduct | undefined,
): Cupboard {
  let byName: Map<string, ShelfFacts> | undefined;
  let byLot: Map<string, ShelfFacts> | undefined;
  const named = (): ReadonlyMap<string, ShelfFacts> => {
    if (byName) return byName;
    byName = new Map();
    for (const jar of shelf.values())
      for (const name of [jar.name, ...(jar['also-called'] ?? [])])
        if (!byName.has(name.toLowerCase())) byName.set(name.toLowerCase(), jar);
    return byName;
  };
  const holding = (): ReadonlyMap<string, ShelfFacts> => {
    if (byLot) return byLot;
    byLot = new Map();
    for (const jar of shelf.values()) if (jar.lot !== undefined && !byLot.has(jar.lot)) byLot.set(jar.lot, jar);
    return byLot;
  };
  return {
    shelf: (id) => asAssayed(shelf.get(id) ?? named().get(id.toLowerCase())),
    jarOf: (name) => asAssayed(holding().get(name)),
    lot,
  };
}

// Checks amounts that stand in a journal: each key wants one kind of quantity, with its unit.
import type { Wrong } from './values.js';

export type QuantityKind = 'mass' | 'volume' | 'amount' | 'temperature' | 'time' | 'density' | 'strength' | 'purity' | 'percent' | 'price' | 'oil-absorption';

export function quantityFault(text: string, kind: QuantityKind): Wrong | undefined {
  void text; void kind;
  return undefined;
}

// Where mixtures are judged to stand.
import { roomOf } from '../../chemistry/quantity/index.js';
import type { Mixture } from './contracts.js';

export type Workspace = Pick<Mixture, 'roomCubicMetres' | 'placeUntold' | 'extraction'>;

/**
 * The room in which somebody works, as a mixture is told of it; where no volume is told, that nobody said where it is.
 * @example workspaceOf({ volume: '12 m3', extraction: true }) // { roomCubicMetres: '12', extraction: true }
 * @example workspaceOf() // { placeUntold: true }
 */
export function workspaceOf({
  volume,
  extraction,
}: {
  readonly volume?: string | undefined;
  readonly extraction?: boolean | undefined;
} = {}): Workspace {
  const roomCubicMetres = volume === undefined ? undefined : roomOf(volume);
  return {
    ...(roomCubicMetres === undefined ? { placeUntold: true } : { roomCubicMetres }),
    ...(extraction !== undefined && { extraction }),
  };
}

// The colour of one entry's samples: Lab under each lamp, swatches, family, differences, opacity.
import type { Entry } from '../journal/entry.js';
import type { Remark } from '../journal/remarks.js';
import type { ReckoningContext } from './context.js';

export interface Swatch {
  /** In-gamut sRGB, `#rrggbb`. */
  readonly hex: string;
  /** The colour lies outside sRGB and was mapped into it. */
  readonly mapped: boolean;
  /** The same film over black, where opacity is known. */
  readonly overBlack?: string;
}

export interface SampleAppearance {
  readonly sample: string;
  /** CIELAB under D65, 10° unless `observer` says 2. */
  readonly lab?: readonly [number, number, number];
  readonly observer?: 2 | 10;
  readonly swatch?: Swatch;
  readonly family?: string;
}

export interface AppearanceReckoning {
  readonly samples: readonly SampleAppearance[];
  readonly family?: string;
  readonly familyBasis?: 'measured' | 'declared';
}

export function reckonAppearance(entry: Entry, context: ReckoningContext): { appearance: AppearanceReckoning; remarks: Remark[] } {
  void context;
  return { appearance: { samples: entry.samples.map(({ sample }) => ({ sample })) }, remarks: [] };
}

// An assay as a maker writes it.
/** An assay as it is written: what was measured, or in words what it came to (`0.3–0.4 mol/L`). */
export type AssayWritten = AssayMeasured | string;

/** What was measured. */
export interface AssayMeasured {
  readonly by: 'titration' | 'gravimetric' | 'density' | 'ignition';
  readonly taken?: string;
  readonly titrant?: string;
  readonly standard?: string;
  readonly used?: string;
  readonly weighed?: string;
  readonly density?: string;
  readonly before?: string;
  readonly after?: string;
  readonly equation?: string;
  readonly indicator?: string;
}

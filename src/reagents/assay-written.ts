// An assay as a maker writes it.
/** An assay as it is written. */
export interface AssayWritten {
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

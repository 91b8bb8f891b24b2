// The rows of a table of curves: their values at wavelengths that some of them has.

type Points = readonly (readonly [nm: number, value: number])[];

/** Whether all have their values at the same wavelengths, one above the other. */
const areAlike = (curves: readonly Points[]): boolean =>
  curves[0]!.every(([nm], at, all) => at === 0 || nm > all[at - 1]![0]) &&
  curves.every(
    (points) => points.length === curves[0]!.length && points.every(([nm], at) => nm === curves[0]![at]![0]),
  );

/** The same curves with values at all wavelengths that any has, in order; a value that is not known is no number. */
function atAllWavelengths(curves: readonly Points[]): readonly Points[] {
  const all = [...new Set(curves.flatMap((points) => points.map(([nm]) => nm)))].sort((a, b) => a - b);
  return curves.map((points) => {
    const known = new Map(points);
    return all.map((nm) => [nm, known.get(nm) ?? Number.NaN] as const);
  });
}

/**
 * A row for each wavelength that is shown, with a cell for each curve.
 * @param isShown whether there is a row, of the wavelength, the first and the number of them
 * @param cellOf a value as words; what is no number is not known
 */
export function curveRows(
  given: readonly Points[],
  isShown: (nm: number, first: number, count: number) => boolean,
  cellOf: (value: number) => string,
): string[][] {
  if (given.length === 0) return [];
  const curves = areAlike(given) ? given : atAllWavelengths(given);
  const places = curves[0]!;
  const rows: string[][] = [];
  for (const [at, [nm]] of places.entries())
    if (isShown(nm, places[0]![0], places.length))
      rows.push([String(nm), ...curves.map((points) => cellOf(points[at]![1]))]);
  return rows;
}

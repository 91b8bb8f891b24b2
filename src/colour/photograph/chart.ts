// Charts of known colours: the classic one of 24 patches, or what a file gives.
import { bad, good, type Outcome } from '../../outcome.js';
import { classicChartsTable } from '../../tables/compiled/colour/photograph/classic-charts.js';
import { adapt } from '../adaptation.js';
import { readAllReadings } from '../instruments/read.js';
import { plainNumber, type ReadingsFile, type ValueReading } from '../instruments/reading.js';
import { isIlluminant, type Illuminant, type Observer, type Triple } from '../numbers.js';
import { atTableWavelengths } from '../spectrum.js';
import { checkLab, checkXyz } from '../surface.js';
import { labFromXyz, whiteOf, xyzFromLab, xyzFromTableValues } from '../tristimulus.js';
import type { Grid } from './geometry.js';

/** One patch of a chart: its colour in daylight (D65, 2°). */
export interface ChartPatch {
  readonly name: string;
  readonly xyz: Triple;
  readonly lab: Triple;
}

export interface Chart {
  readonly name: string;
  readonly grid: Grid;
  /** Row by row from the first patch. */
  readonly patches: readonly ChartPatch[];
  readonly notes: readonly string[];
}

/** The charts that are known by name. */
export const chartNames = ['classic-24', 'classic-24-2014'] as const;
export type ChartName = (typeof chartNames)[number];

const isChartName = (name: string): name is ChartName => (chartNames as readonly string[]).includes(name);

/** A colour under its illuminant as an eye used to each sees it in daylight; the observer is taken as it stands. */
function patch(name: string, xyz: Triple, illuminant: Illuminant, observer: Observer): ChartPatch {
  const daylight = whiteOf('D65', 2);
  const here = illuminant === 'D65' && observer === 2 ? xyz : adapt(xyz, whiteOf(illuminant, observer), daylight);
  return { name, xyz: here, lab: labFromXyz(here, daylight) };
}

/**
 * The classic chart of 24 patches by its published colours, D50 carried to D65 by CAT16.
 * @example namedChart('classic-24')?.patches.length // 24
 */
export function namedChart(name: string): Chart | undefined {
  if (!isChartName(name)) return undefined;
  const rows = classicChartsTable().filter(({ chart }) => chart === name);
  return {
    name,
    grid: { columns: 6, rows: 4 },
    patches: rows.map((row) =>
      patch(
        row.name,
        xyzFromLab([row.L, row.a, row.b], whiteOf(row.illuminant, row.observer)),
        row.illuminant,
        row.observer,
      ),
    ),
    notes:
      name === 'classic-24'
        ? [
            'The chart’s colours are the published average; charts made after November 2014 are ' +
              'classic-24-2014, and differ by ΔE76 1.2 on average.',
          ]
        : [],
  };
}

const wrongCount = (found: number, { columns, rows }: Grid): Outcome<never> =>
  bad({
    code: 'chart-patches',
    message: `The chart file has ${found} patches; a grid of ${columns}x${rows} has ${columns * rows}.`,
    expected: `${columns * rows} patches, row by row from the first`,
    cure: 'Give the grid of the chart (columns x rows), or the missing patches.',
  });

function patchesFromSpectra({ spectra }: ReadingsFile): ChartPatch[] {
  return spectra.map(({ name, spectrum }, i) =>
    patch(name ?? String(i + 1), xyzFromTableValues(atTableWavelengths(spectrum), 'D65', 2), 'D65', 2),
  );
}

function patchesFromValues(values: readonly ValueReading[]): Outcome<ChartPatch[]> {
  const patches: ChartPatch[] = [];
  for (const [i, { name, space, value, illuminant, observer = 2 }] of values.entries()) {
    if (illuminant === undefined || !isIlluminant(illuminant))
      return bad({
        code: 'chart-without-illuminant',
        message: `The chart file does not say under which illuminant its ${space === 'lab' ? 'Lab' : 'XYZ'} are.`,
        expected: 'illuminant D50 or D65, in a column or keyword',
        cure: 'Add the illuminant: most charts are published for D50.',
      });
    const xyz = space === 'xyz' ? value : xyzFromLab(value, whiteOf(illuminant, observer));
    patches.push(patch(name ?? String(i + 1), xyz, illuminant, observer));
  }
  return good(patches);
}

/**
 * The rows of a file headed `patch,L,a,b` or `patch,X,Y,Z`, with `illuminant` and `observer` where they stand;
 * undefined for other files.
 */
function valueRows(text: string): Outcome<ValueReading[]> | undefined {
  const lines = text.split(/\r\n|\n|\r/).filter((line) => line.trim() !== '' && !line.startsWith('#'));
  const separator = [';', '\t', ','].find((sign) => lines[0]?.includes(sign));
  if (separator === undefined) return undefined;
  const cells = (line: string): string[] => line.split(separator).map((cell) => cell.trim().replace(/^"(.*)"$/, '$1'));
  const head = cells(lines[0]!).map((cell) => cell.replace(/[*\s]/g, '').toLowerCase());
  const space = (['lab', 'xyz'] as const).find((names) => [...names].every((name) => head.includes(name)));
  if (!space) return undefined;
  const at = (names: readonly string[]): number => head.findIndex((name) => names.includes(name));
  const columns = { name: at(['patch', 'name', 'sample']), illuminant: at(['illuminant']), observer: at(['observer']) };
  const rows: ValueReading[] = [];
  for (const line of lines.slice(1)) {
    const row = cells(line);
    const numbers = [...space].map(
      (name) => plainNumber(row[head.indexOf(name)]?.replace(',', '.') ?? '') ?? Number.NaN,
    );
    const value = space === 'lab' ? checkLab(numbers) : checkXyz(numbers);
    if (!value.ok) return value;
    const illuminant = row[columns.illuminant]?.toUpperCase();
    rows.push({
      space,
      value: value.value,
      name: row[columns.name] ?? String(rows.length + 1),
      ...(illuminant ? { illuminant } : {}),
      observer: row[columns.observer]?.startsWith('10') ? 10 : 2,
    });
  }
  return good(rows);
}

/**
 * A chart that is known by its name, with the grid that was given beside it, if any.
 * @returns undefined for a file's name; a fault where the chart has another grid
 */
export function chartByName(name: string, given: Grid | undefined): Outcome<Chart> | undefined {
  const chart = namedChart(name);
  if (!chart) return undefined;
  const { columns, rows } = chart.grid;
  if (!given || (given.columns === columns && given.rows === rows)) return good(chart);
  return bad({
    code: 'grid',
    message: `${name} has ${columns}x${rows} patches, not ${given.columns}x${given.rows}.`,
    expected: `${columns}x${rows}`,
    cure: 'Leave the grid out and give the corners from its first patch on, or name the file of another chart.',
  });
}

/**
 * A chart from the text of a file: rows `patch,L,a,b` or `patch,X,Y,Z` with their illuminant, CGATS, or spectra (CSV,
 * CGATS, CxF); patches row by row from the first.
 * @param illuminant what Lab or XYZ without an illuminant are for
 */
export function chartFromFile(name: string, text: string, grid: Grid, illuminant?: Illuminant): Outcome<Chart> {
  const patches = patchesOf(text, illuminant);
  if (!patches.ok) return patches;
  if (patches.value.length !== grid.columns * grid.rows) return wrongCount(patches.value.length, grid);
  return good({ name, grid, patches: patches.value, notes: [] });
}

function patchesOf(text: string, illuminant: Illuminant | undefined): Outcome<ChartPatch[]> {
  const stated = (values: readonly ValueReading[]): readonly ValueReading[] =>
    illuminant ? values.map((value) => ({ illuminant, ...value })) : values;
  const rows = valueRows(text);
  if (rows) return rows.ok ? patchesFromValues(stated(rows.value)) : rows;
  const file = readAllReadings(text);
  if (!file.ok) return file;
  if (file.value.spectra.length > 0) return good(patchesFromSpectra(file.value));
  return patchesFromValues(stated(file.value.values));
}

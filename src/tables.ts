// The one reader of data tables (CSV files that lie beside the code that reads them) and of other files of the package.
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';

export type Row = Readonly<Record<string, string>>;

/** Folder that holds package.json, whether the code runs from src/ or from dist/. */
export const packageFolder: string = (() => {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'package.json'))) folder = dirname(folder);
  return folder;
})();

const read = new Map<string, readonly Row[]>();

/**
 * Rows of a CSV table with a header line, as text; read once.
 * @param table path below src/, e.g. `chemistry/atomic-weights.csv`
 * @example readTable('chemistry/atomic-weights.csv')[0]?.symbol // 'H'
 */
export function readTable(table: string): readonly Row[] {
  let rows = read.get(table);
  if (!rows) {
    rows = parse(readFileSync(join(packageFolder, 'src', table)), {
      columns: true,
      bom: true,
      skip_empty_lines: true,
      comment: '',
      relax_quotes: false,
    }) as Row[];
    read.set(table, rows);
  }
  return rows;
}

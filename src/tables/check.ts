// Checks one table against its schema: its header, and every cell.
import { CsvError, parse } from 'csv-parse/sync';
import type { z } from 'zod';

/** What is wrong in a table, and where; line and column count from 1. */
export interface TableFault {
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

export interface CheckedTable {
  /** Rows as the schema makes them, plain data; of use only where there are no faults. */
  readonly rows: readonly unknown[];
  readonly faults: readonly TableFault[];
}

interface Line {
  readonly cells: readonly string[];
  readonly raw: string;
  readonly line: number;
}

/** Rows of a CSV text as they stand, or the fault that makes it no CSV. */
function readLines(csv: string): readonly Line[] | TableFault {
  try {
    const read = parse(csv, { bom: true, info: true, raw: true, skip_empty_lines: true }) as unknown as {
      readonly record: readonly string[];
      readonly raw: string;
      readonly info: { readonly lines: number };
    }[];
    return read.map(({ record, raw, info }) => {
      const bare = raw.replace(/\r?\n$/, '');
      return { cells: record, raw: bare, line: info.lines - (bare.match(/\n/g) ?? []).length };
    });
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return { line: Number(error['lines'] ?? 1), column: 1, message: error.message };
  }
}

/** Where a cell begins in the text of its line, which may run over several. */
function placeOf({ raw, line }: Line, cell: number): { readonly line: number; readonly column: number } {
  let commas = 0;
  let quoted = false;
  let at = 0;
  for (; at < raw.length && commas < cell; at += 1) {
    if (raw[at] === '"') quoted = !quoted;
    else if (raw[at] === ',' && !quoted) commas += 1;
  }
  const before = raw.slice(0, at);
  return { line: line + (before.match(/\n/g) ?? []).length, column: at - before.lastIndexOf('\n') };
}

function headerFaults(header: Line, columns: readonly string[]): readonly TableFault[] {
  const faults: TableFault[] = [];
  header.cells.forEach((name, at) => {
    if (!columns.includes(name))
      faults.push({ ...placeOf(header, at), message: `the schema has no column '${name}': ${columns.join(', ')}` });
    else if (header.cells.indexOf(name) !== at)
      faults.push({ ...placeOf(header, at), message: `the column '${name}' stands twice` });
  });
  for (const name of columns)
    if (!header.cells.includes(name))
      faults.push({ line: header.line, column: header.raw.length + 1, message: `the column '${name}' is missing` });
  return faults;
}

/**
 * Checks a CSV text with a header line against the schema of its rows.
 * @returns the rows, each cell as its schema makes it, and every fault in the order of the text
 * @example checkTable('symbol,Z\nH,one', table({ symbol, Z: wholeNumber })).faults
 * // [{ line: 2, column: 3, message: "Z: must be a whole number; it is 'one'" }]
 */
export function checkTable(csv: string, schema: z.ZodObject): CheckedTable {
  const lines = readLines(csv);
  if (!Array.isArray(lines)) return { rows: [], faults: [lines as TableFault] };
  const [header, ...body] = lines as readonly Line[];
  if (!header || body.length === 0)
    return { rows: [], faults: [{ line: 1, column: 1, message: 'the table has no rows' }] };
  const wrongHeader = headerFaults(header, Object.keys(schema.shape));
  if (wrongHeader.length > 0) return { rows: [], faults: wrongHeader };
  const rows: unknown[] = [];
  const faults: TableFault[] = [];
  for (const line of body) {
    const checked = schema.safeParse(Object.fromEntries(header.cells.map((name, at) => [name, line.cells[at]])));
    if (checked.success) rows.push(checked.data);
    else
      for (const { path, message } of checked.error.issues) {
        const name = String(path[0] ?? header.cells[0]);
        const at = Math.max(0, header.cells.indexOf(name));
        faults.push({ ...placeOf(line, at), message: `${name}: ${message}; it is '${line.cells[at]}'` });
      }
  }
  return { rows, faults };
}

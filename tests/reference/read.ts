// Reads published check values: CSV files beside this one, each row naming its source.
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';

export const referenceText = (path: string): string =>
  readFileSync(fileURLToPath(new URL(path, import.meta.url)), 'utf8');

/** Rows of `tests/reference/<path>`, as text. */
export const referenceRows = (path: string): Record<string, string>[] =>
  parse(referenceText(path), { columns: true, bom: true, skip_empty_lines: true });

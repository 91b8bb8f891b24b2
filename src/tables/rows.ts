// The type of a table's rows, taken from its schema; nothing of it is left at run time.
import type { z } from 'zod';

export type RowOf<Schema extends z.ZodType> = Readonly<z.output<Schema>>;
export type RowsOf<Schema extends z.ZodType> = readonly RowOf<Schema>[];

// The kinds of cell that a data table can have: each checks what is written and turns it into what the code reads.
// Used by the `tables.schema.ts` of each room when the tables are compiled; no command loads it.
import { z } from 'zod';

const decimalText = /^-?\d+(?:\.\d+)?(?:e-?\d+)?$/;

/** The columns of a table, in any order; each must be there, and no other. */
export const table = <Columns extends z.core.$ZodLooseShape>(columns: Columns): z.ZodObject<Columns, z.core.$strict> =>
  z.strictObject(columns);

/** Words, at least one. */
export const text = z.string().regex(/^\S(?:.*\S)?$/s, 'must not be empty, nor begin or end with a space');

/** Words, or nothing: the empty text. */
export const textOrNone = z.string().regex(/^(?:\S(?:.*\S)?)?$/s, 'must not begin or end with a space');

/** Where a row comes from; a row without it cannot be checked by anyone. */
export const source = text;

/** The address of a source, or nothing. */
export const urlOrNone = z.string().regex(/^(?:https?:\/\/\S+)?$/, 'must be an http or https address, or empty');

/** A number for sums in binary floating point. */
export const number = z.string().regex(decimalText, 'must be a number').transform(Number);

/** A number that stays text, for exact decimal arithmetic. */
export const decimal = z.string().regex(decimalText, 'must be a decimal number');

export const wholeNumber = z
  .string()
  .regex(/^-?\d+$/, 'must be a whole number')
  .transform(Number);

/** Must say which. */
export const yesOrNo = z.enum(['yes', 'no'], { error: "must be 'yes' or 'no'" }).transform((cell) => cell === 'yes');

/** `yes`, or empty for no. */
export const yesOrEmpty = z.enum(['yes', ''], { error: "must be 'yes' or empty" }).transform((cell) => cell === 'yes');

/** One of these words. */
export const oneOf = <const Words extends readonly string[]>(...words: Words) =>
  z.enum(words, { error: `must be one of: ${words.map((word) => (word === '' ? 'empty' : word)).join(', ')}` });

/** The cell may be empty: then its value is undefined. */
export const optional = <Value>(cell: z.ZodType<Value, string>) =>
  z
    .string()
    .transform((written) => (written === '' ? undefined : written))
    .pipe(cell.optional());

const parts = (mark: string) =>
  z.string().transform((cell) => (cell === '' ? [] : cell.split(mark).map((part) => part.trim())));

/** Parts with a mark between them, or nothing: the empty list. */
export const list = <Value>(mark: string, part: z.ZodType<Value, string>) => parts(mark).pipe(z.array(part)).readonly();

/** The same with at least one part. */
export const filledList = <Value>(mark: string, part: z.ZodType<Value, string>) =>
  parts(mark).pipe(z.array(part).min(1, 'must not be empty')).readonly();

const inBrackets = (written: string): boolean => {
  const open: string[] = [];
  for (const sign of written) {
    if ('([{'.includes(sign)) open.push(sign);
    else if (')]}'.includes(sign) && open.pop() !== '([{'[')]}'.indexOf(sign)]) return false;
  }
  return open.length === 0;
};

/** A chemical formula, by its spelling: symbols, counts, brackets that match, dots of hydrates, a charge. */
export const formula = z
  .string()
  .regex(/^\d*[A-Z([{][A-Za-z0-9()[\]{}.,·*+^-]*$/, 'must be a chemical formula')
  .refine(inBrackets, 'must be a chemical formula: its brackets do not match');

/** The symbol of an element. */
export const symbol = z.string().regex(/^[A-Z][a-z]?$/, 'must be the symbol of an element');

const hasCheckDigit = (written: string): boolean => {
  const digits = [...written.replaceAll('-', '')].reverse().map(Number);
  return digits.slice(1).reduce((sum, digit, place) => sum + digit * (place + 1), 0) % 10 === digits[0];
};

/** A CAS registry number, its check digit included. */
export const cas = z
  .string()
  .regex(/^\d{2,7}-\d{2}-\d$/, 'must be a CAS number')
  .refine(hasCheckDigit, 'must be a CAS number: its check digit is wrong');

/** The code of a hazard statement, or several joined by `+`. */
export const hazardCode = z
  .string()
  .regex(/^(?:EUH|H)\d{3}[A-Za-z]{0,2}(?:\+(?:EUH|H)\d{3}[A-Za-z]{0,2})*$/, 'must be the code of an H statement');

/** The code of a precautionary statement, or several joined by `+`. */
export const precautionCode = z
  .string()
  .regex(/^P\d{3}(?:\+P\d{3})*(?:\[\+P\d{3}\])?$/, 'must be the code of a P statement');

export const pictogram = z.string().regex(/^GHS0[1-9]$/, 'must be a pictogram: GHS01 to GHS09');

export const signalWordOrNone = oneOf('Danger', 'Warning', '');

/** Says of a row that these of its columns must be filled, for what stands in another of its columns. */
export function mustBeFilled<Row extends object>(
  row: z.core.ParsePayload<Row>,
  columns: readonly (keyof Row & string)[],
  why: string,
): void {
  for (const column of columns) {
    const cell = row.value[column];
    if (cell === undefined || cell === '')
      row.issues.push({ code: 'custom', input: row.value, path: [column], message: `must not be empty ${why}` });
  }
}

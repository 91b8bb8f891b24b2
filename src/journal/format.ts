// What zod tells of the journal's format, as far as the check asks: what may stand at a path, and what it must be.
import { globalRegistry, type z } from 'zod';
import type { Path } from '../remarks/findings.js';

export type Schema = z.core.$ZodType;

/** What zod tells of a schema, as far as it is used here. */
interface Definition {
  readonly type: string;
  readonly shape?: Readonly<Record<string, Schema>>;
  readonly element?: Schema;
  readonly innerType?: Schema;
  readonly out?: Schema;
  readonly valueType?: Schema;
  readonly options?: readonly Schema[];
  readonly items?: readonly Schema[];
  readonly entries?: Readonly<Record<string, string>>;
}

const definition = (schema: Schema): Definition => schema._zod.def as unknown as Definition;

/** The schema behind `optional`, defaults and readings of text. */
function bare(schema: Schema): Schema {
  const { type, innerType, out } = definition(schema);
  if ((type === 'optional' || type === 'default' || type === 'nullable') && innerType) return bare(innerType);
  if (type === 'pipe' && out) return bare(out);
  return schema;
}

/** The schema one step below an object, list or record. */
function below({ type, shape = {}, element, valueType, items }: Definition, step: string | number): Schema | undefined {
  switch (type) {
    case 'object':
      return Object.hasOwn(shape, step) ? shape[step] : undefined;
    case 'array':
      return element;
    case 'record':
      return valueType;
    case 'tuple':
      return items?.[Number(step)];
    default:
      return undefined;
  }
}

/** The schemas that may stand at a path (several where there is a choice). */
export function schemasAt(schema: Schema, path: Path): Schema[] {
  const here = bare(schema);
  const described = definition(here);
  if (described.type === 'union' && described.options)
    return described.options.flatMap((option) => schemasAt(option, path));
  const [step, ...rest] = path;
  if (step === undefined) return [here];
  const next = below(described, step);
  return next ? schemasAt(next, rest) : [];
}

const keysOf = (schema: Schema): string[] => Object.keys(definition(schema).shape ?? {});

/** The keys that may stand at a path. */
export const keysAt = (schema: Schema, path: Path): string[] => [...new Set(schemasAt(schema, path).flatMap(keysOf))];

/** Where else in the format a key stands: `obtained` → `samples`. */
export function homeOf(schema: Schema, key: string): string | undefined {
  const { shape = {} } = definition(bare(schema));
  return Object.keys(shape).find((name) => {
    const content = bare(shape[name]!);
    const { type, element } = definition(content);
    return keysOf(type === 'array' ? bare(element!) : content).includes(key);
  });
}

/** What may stand at a path: its kind, its keys, examples for editors. */
export interface Described {
  readonly type: string;
  readonly keys: readonly string[];
  readonly examples: readonly unknown[];
  /** How many values a list must have, where that is fixed. */
  readonly length?: number;
}

export function describeAt(schema: Schema, path: Path): Described {
  const schemas = schemasAt(schema, path);
  const [first] = schemas;
  const examples = schemas.flatMap(
    (one) => (globalRegistry.get(one as never)?.['examples'] as unknown[] | undefined) ?? [],
  );
  const length = first && definition(first).items?.length;
  return {
    type: first ? definition(first).type : 'unknown',
    keys: schemas.flatMap(keysOf),
    examples,
    ...(length !== undefined && { length }),
  };
}

/** The ends between which a number at a path may lie. */
export function limitsAt(schema: Schema, path: Path): { readonly minimum?: number; readonly maximum?: number } {
  const { checks = [] } = (schemasAt(schema, path)[0]?._zod.def ?? {}) as {
    checks?: readonly { _zod: { def: { check: string; value?: number } } }[];
  };
  const of = (kind: string) => checks.find((one) => one._zod.def.check === kind)?._zod.def.value;
  return { minimum: of('greater_than'), maximum: of('less_than') };
}

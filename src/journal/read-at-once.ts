// The journal's format for what the build puts together (short commands, publication): what fits is read without zod.
// Zod is loaded only where something does not fit, and then says what. The build puts `z` in the place of zod's.
import type { z as Zod, ZodType } from 'zod';

/** What the format uses of zod's exports. */
type ZodModule = Pick<typeof import('zod'), 'z' | 'globalRegistry'>;

let zod: ZodModule | undefined;
let loadZod: (() => ZodModule) | undefined;
/** Says how zod is loaded, where it is needed. */
export function takeZodFrom(load: () => ZodModule): void {
  loadZod = load;
}
function zodModule(): ZodModule {
  if (!loadZod) throw new Error('nobody said where zod is');
  return (zod ??= loadZod());
}

/** What does not fit, or needs a closer look. */
const misfit: unique symbol = Symbol('misfit');
type Read = (value: unknown) => unknown;

/** An array's length, a text's, or a number itself. */
const sizeOf = (value: unknown): number => (typeof value === 'number' ? value : (value as string).length);

/** A schema that reads what fits as zod's would read it; anything else is zod's. */
class Reader {
  private made: ZodType | undefined;

  constructor(
    readonly read: Read,
    private readonly make: (z: typeof Zod) => ZodType,
    readonly description?: string,
    /** Of an object with keys. */
    readonly shape?: Readonly<Record<string, Reader>>,
  ) {}

  /** The schema in zod. */
  get inZod(): ZodType {
    return (this.made ??= this.make(zodModule().z));
  }
  get _zod() {
    return this.inZod._zod;
  }
  safeParse(value: unknown) {
    const data = this.read(value);
    return data === misfit ? this.inZod.safeParse(value) : { success: true, data };
  }

  private where(fits: (value: unknown) => boolean, make: () => ZodType): Reader {
    const read: Read = (value) => {
      const data = this.read(value);
      return data !== misfit && fits(data) ? data : misfit;
    };
    return new Reader(read, make, this.description, this.shape);
  }
  min(least: number): Reader {
    return this.where(
      (value) => sizeOf(value) >= least,
      () => (this.inZod as Zod.ZodNumber).min(least),
    );
  }
  max(most: number): Reader {
    return this.where(
      (value) => sizeOf(value) <= most,
      () => (this.inZod as Zod.ZodNumber).max(most),
    );
  }
  superRefine(check: (value: unknown, context: Zod.RefinementCtx) => void): Reader {
    const fits = (value: unknown): boolean => {
      let found = false;
      check(value, { addIssue: () => void (found = true) } as unknown as Zod.RefinementCtx);
      return !found;
    };
    return this.where(fits, () => this.inZod.superRefine(check));
  }
  optional(): Reader {
    const read: Read = (value) => (value === undefined ? undefined : this.read(value));
    return new Reader(read, () => this.inZod.optional());
  }
  default(value: unknown): Reader {
    const read: Read = (given) => {
      if (given !== undefined) return this.read(given);
      return Array.isArray(value) ? [...value] : value;
    };
    return new Reader(read, () => this.inZod.default(value as never));
  }
  meta(about: Zod.core.GlobalMeta): Reader {
    return new Reader(this.read, () => this.inZod.meta(about));
  }
  /** Tells editors what a key is for. */
  describe(description: string): Reader {
    return new Reader(this.read, () => this.inZod.describe(description), description, this.shape);
  }
}

const inZod = (readers: readonly Reader[]): ZodType[] => readers.map((reader) => reader.inZod);

function isPlainObject(value: unknown): value is Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null) return false;
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}

/** Every item read; a misfit where one is. */
function readEach(values: readonly unknown[], readOf: (at: number) => Read): unknown {
  const data: unknown[] = [];
  for (const [at, value] of values.entries()) {
    const read = readOf(at)(value);
    if (read === misfit) return misfit;
    data.push(read);
  }
  return data;
}

function strictObject(shape: Readonly<Record<string, Reader>>): Reader {
  const fields = Object.entries(shape);
  const read: Read = (value) => {
    if (!isPlainObject(value)) return misfit;
    const data: Record<string, unknown> = {};
    let known = 0;
    for (const [key, field] of fields) {
      const isThere = Object.hasOwn(value, key);
      const content = field.read(isThere ? value[key] : undefined);
      if (content === misfit) return misfit;
      if (isThere) known += 1;
      if (isThere || content !== undefined) data[key] = content;
    }
    return known === Object.keys(value).length ? data : misfit;
  };
  const make = (z: typeof Zod): ZodType =>
    z.strictObject(Object.fromEntries(fields.map(([key, field]) => [key, field.inZod] as const)));
  return new Reader(read, make, undefined, shape);
}

function record(key: Reader, content: Reader): Reader {
  const read: Read = (value) => {
    if (!isPlainObject(value)) return misfit;
    const data: Record<string, unknown> = {};
    for (const [name, one] of Object.entries(value)) {
      const inside = name === '__proto__' || key.read(name) === misfit ? misfit : content.read(one);
      if (inside === misfit) return misfit;
      data[name] = inside;
    }
    return data;
  };
  return new Reader(read, (z) => z.record(key.inZod as Zod.ZodString, content.inZod));
}

function union(choices: readonly Reader[]): Reader {
  const read: Read = (value) => {
    for (const choice of choices) {
      const data = choice.read(value);
      if (data !== misfit) return data;
    }
    return misfit;
  };
  return new Reader(read, (z) => z.union(inZod(choices)));
}

const fitting = (fits: (value: unknown) => boolean, make: (z: typeof Zod) => ZodType): Reader =>
  new Reader((value) => (fits(value) ? value : misfit), make);

const oneOf = (choices: readonly unknown[], make: (z: typeof Zod) => ZodType): Reader =>
  fitting((value) => choices.includes(value), make);

/** In the place of zod's `z`, as far as the format uses it. */
export const z = {
  string: () =>
    fitting(
      (value) => typeof value === 'string',
      (zod) => zod.string(),
    ),
  number: () => fitting(Number.isFinite, (zod) => zod.number()),
  int: () => fitting(Number.isSafeInteger, (zod) => zod.int()),
  boolean: () =>
    fitting(
      (value) => typeof value === 'boolean',
      (zod) => zod.boolean(),
    ),
  literal: (choices: readonly number[]) => oneOf(choices, (zod) => zod.literal(choices)),
  enum: (choices: readonly string[]) => oneOf(choices, (zod) => zod.enum(choices)),
  array: (item: Reader) =>
    new Reader(
      (value) => (Array.isArray(value) ? readEach(value, () => item.read) : misfit),
      (zod) => zod.array(item.inZod),
    ),
  tuple: (items: readonly Reader[]) =>
    new Reader(
      (value) =>
        Array.isArray(value) && value.length === items.length ? readEach(value, (at) => items[at]!.read) : misfit,
      (zod) => zod.tuple(inZod(items) as [ZodType, ...ZodType[]]),
    ),
  preprocess: (prepare: (value: unknown) => unknown, then: Reader) =>
    new Reader(
      (value) => then.read(prepare(value)),
      (zod) => zod.preprocess(prepare, then.inZod),
    ),
  strictObject,
  record,
  union,
  toJSONSchema: (schema: Reader, options: Parameters<typeof Zod.toJSONSchema>[1]) =>
    zodModule().z.toJSONSchema(schema.inZod, options),
};

/** In the place of zod's registry of what is said of schemas. */
export const globalRegistry = {
  get: (schema: ZodType | Reader) => zodModule().globalRegistry.get(schema instanceof Reader ? schema.inZod : schema),
};

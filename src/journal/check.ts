// Checks values against the journal's format, and turns what does not fit into remarks in our own words.
import { closest, distance } from 'fastest-levenshtein';
import { globalRegistry, type z } from 'zod';
import type { Path } from './place.js';
import { remark, type Place, type Remark } from './remarks.js';

export interface Checked<T> {
  /** What could be understood; missing when something indispensable is wrong. */
  readonly value?: T;
  readonly remarks: Remark[];
}

type Issue = z.core.$ZodIssue;
type Schema = z.core.$ZodType;

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

/** The schemas that may stand at a path (several where there is a choice). */
function schemasAt(schema: Schema, path: Path): Schema[] {
  const here = bare(schema);
  const { type, shape, element, valueType, options, items } = definition(here);
  if (type === 'union' && options) return options.flatMap((option) => schemasAt(option, path));
  const [step, ...rest] = path;
  if (step === undefined) return [here];
  const next =
    type === 'object'
      ? Object.hasOwn(shape ?? {}, step)
        ? shape?.[step]
        : undefined
      : type === 'array'
        ? element
        : type === 'record'
          ? valueType
          : type === 'tuple'
            ? items?.[Number(step)]
            : undefined;
  return next ? schemasAt(next, rest) : [];
}

const keysAt = (schema: Schema, path: Path): string[] => [
  ...new Set(schemasAt(schema, path).flatMap((one) => Object.keys(definition(one).shape ?? {}))),
];

/** Where else in the format a key stands: `obtained` → `samples`. */
function homeOf(schema: Schema, key: string): string | undefined {
  const here = bare(schema);
  const { shape } = definition(here);
  for (const [name, inner] of Object.entries(shape ?? {})) {
    const content = bare(inner);
    const item = definition(content).type === 'array' ? bare(definition(content).element as Schema) : content;
    if (Object.hasOwn(definition(item).shape ?? {}, key)) return name;
  }
  return undefined;
}

function valueAt(data: unknown, path: Path): unknown {
  let value = data;
  for (const step of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string | number, unknown>)[step];
  }
  return value;
}

const brief = (text: string): string => (text.length > 60 ? `${text.slice(0, 59)}…` : text).replace(/\s+/g, ' ');
const nameOf = (value: unknown): string =>
  Array.isArray(value)
    ? 'a list'
    : typeof value === 'object' && value !== null
      ? 'keys of its own'
      : value === null || value === ''
        ? 'nothing'
        : `'${brief(String(value))}'`;

/** The key that a path ends in, as a sentence begins with it. */
function subjectOf(path: Path, what: string): string {
  const last = path.at(-1);
  if (last === undefined) return `The ${what}`;
  if (last === '') return 'An empty key';
  if (typeof last === 'string') return `\`${brief(last)}\``;
  const list = path.findLast((step) => typeof step === 'string');
  return list === undefined ? `Item ${last + 1}` : `Item ${last + 1} of \`${brief(String(list))}\``;
}

const quoted = (list: readonly string[]): string => list.map((one) => `\`${one}\``).join(', ');
/** The nearest of some names, if one is near enough to have been meant. */
export function nearest(name: string, known: readonly string[]): string | undefined {
  if (known.length === 0 || name.length > 80) return undefined;
  const found = closest(name.toLowerCase(), [...known]);
  return distance(name.toLowerCase(), found.toLowerCase()) <= Math.max(2, Math.floor(name.length / 3))
    ? found
    : undefined;
}

interface Said {
  readonly rule: string;
  readonly found: string;
  readonly expected?: readonly string[];
  readonly actual?: string;
  readonly cure: string;
  /** Path whose place is shown. */
  readonly path: Path;
  readonly at?: 'key' | 'value';
}

const describe = (schemas: readonly Schema[]): { type: string; keys: string[]; examples: unknown[] } => {
  const [first] = schemas;
  const examples = schemas.flatMap(
    (schema) => (globalRegistry.get(schema as never)?.['examples'] as unknown[] | undefined) ?? [],
  );
  return {
    type: first ? definition(first).type : 'unknown',
    keys: schemas.flatMap((schema) => Object.keys(definition(schema).shape ?? {})),
    examples,
  };
};

const wordFor: Readonly<Record<string, string>> = {
  string: 'words',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list',
  object: 'keys of its own',
  record: 'keys of its own',
};

function say(issue: Issue, schema: Schema, data: unknown, what: string, above: Path = []): Said[] {
  const path: Path = [...above, ...issue.path.map((step) => (typeof step === 'symbol' ? String(step) : step))];
  const subject = subjectOf(path, what);
  const value = valueAt(data, path);
  const missing = value === undefined;
  switch (issue.code) {
    case 'custom': {
      const { rule, expected, cure } = (issue.params ?? {}) as { rule?: string; expected?: string[]; cure?: string };
      return [
        {
          rule: rule ?? 'value',
          found: `${subject} ${issue.message}.`,
          expected,
          actual: typeof value === 'string' ? value : undefined,
          cure: cure ?? '',
          path,
        },
      ];
    }
    case 'unrecognized_keys':
      return issue.keys.map((key) => {
        const known = keysAt(schema, path);
        const near = nearest(key, known);
        const home = near === undefined && path.length === 0 ? homeOf(schema, key) : undefined;
        const where =
          path.length === 0 ? `in ${/^[aeiou]/.test(what) ? 'an' : 'a'} ${what}` : `under ${subjectOf(path, what)}`;
        return {
          rule: 'unknown-key',
          found: `${key === '' ? 'An empty key' : `\`${brief(key)}\``} is not a key ${where}.`,
          actual: key,
          expected: known,
          path: [...path, key],
          at: 'key' as const,
          cure:
            near !== undefined
              ? `Did you mean \`${near}\`?`
              : home !== undefined
                ? `It belongs under \`${home}\`.`
                : `Take it out; the keys here are ${quoted(known)}.`,
        };
      });
    case 'invalid_type': {
      const { type, keys, examples } = describe(schemasAt(schema, path));
      const wanted =
        issue.expected === 'number' && type === 'literal' ? 'a number' : (wordFor[issue.expected] ?? issue.expected);
      const key = String(path.at(-1));
      const example = examples.length > 0 ? String(examples[0]) : undefined;
      if (missing && typeof path.at(-1) === 'string') {
        const parent = path.slice(0, -1);
        const whole = parent.length === 0 ? `The ${what}` : subjectOf(parent, what);
        return [
          {
            rule: 'missing-key',
            found: `${whole} has no \`${key}\`.`,
            expected: [key],
            cure: `Add ${key}: ${example ?? examplesOf[key] ?? '…'}`,
            path: parent,
          },
        ];
      }
      if (missing && typeof path.at(-1) === 'number') return [listLength(schema, data, path.slice(0, -1), what)];
      if (missing || value === null || value === '')
        return [
          {
            rule: 'empty',
            found: `${subject} is empty.`,
            expected: [wanted],
            cure: `Write ${wanted} there, or take it out.`,
            path,
          },
        ];
      const cure =
        issue.expected === 'array'
          ? `Begin each item with a hyphen on a line of its own, or write [ … ] around them.`
          : issue.expected === 'object'
            ? `Write its keys below it, indented: ${keys
                .slice(0, 3)
                .map((one) => `${one}: …`)
                .join(', ')}`
            : issue.expected === 'string'
              ? Array.isArray(value)
                ? 'Write one text, without hyphens or [ ].'
                : 'Write one text; if it has a colon in it, put it in quotes.'
              : issue.expected === 'boolean'
                ? 'Write true or false.'
                : issue.expected === 'int'
                  ? 'Write a whole number, without unit or words.'
                  : 'Write a plain number, with a decimal point and without unit or words.';
      return [
        {
          rule: 'wrong-type',
          found: `${subject} is ${nameOf(value)}, where ${wanted} should stand.`,
          actual: typeof value === 'string' ? value : undefined,
          expected: [wanted],
          cure,
          path,
        },
      ];
    }
    case 'invalid_value': {
      const choices = issue.values.map(String);
      if (missing && typeof path.at(-1) === 'string') {
        const parent = path.slice(0, -1);
        return [
          {
            rule: 'missing-key',
            found: `${parent.length === 0 ? `The ${what}` : subjectOf(parent, what)} has no \`${String(path.at(-1))}\`.`,
            expected: choices,
            cure: `Add ${String(path.at(-1))}: ${choices.join(' or ')}`,
            path: parent,
          },
        ];
      }
      const near = typeof value === 'string' ? nearest(value, choices) : undefined;
      return [
        {
          rule: 'choice',
          found: `${subject} is ${nameOf(value)}, which is not one of its words.`,
          actual: typeof value === 'string' ? value : undefined,
          expected: choices,
          cure:
            near !== undefined
              ? `Did you mean ${near}? It can be ${choices.join(', ')}.`
              : `Write one of: ${choices.join(', ')}.`,
          path,
        },
      ];
    }
    case 'too_small':
    case 'too_big': {
      if (issue.origin === 'string')
        return [{ rule: 'empty', found: `${subject} is empty.`, cure: 'Write something there, or take it out.', path }];
      if (issue.origin === 'array') return [listLength(schema, data, path, what)];
      const { minimum, maximum } = limitsOf(schemasAt(schema, path)[0]);
      return [
        {
          rule: 'range',
          found: `${subject} is ${nameOf(value)}, which is too ${issue.code === 'too_small' ? 'small' : 'large'}.`,
          actual: String(value),
          expected: [`${minimum ?? 'any'} to ${maximum ?? 'any'}`],
          cure: `Write a number from ${minimum ?? '…'} to ${maximum ?? '…'}.`,
          path,
        },
      ];
    }
    case 'invalid_union': {
      // The choice whose own kind fits what is there says what is wrong inside it.
      const fitting = issue.errors.filter(
        (errors) => !errors.some((error) => error.code === 'invalid_type' && error.path.length === 0),
      );
      const [inside] = fitting;
      if (inside) return inside.flatMap((error) => say(error, schema, data, what, path));
      const wanted = issue.errors.flatMap((errors) =>
        errors.flatMap((error) => (error.code === 'invalid_type' ? [wordFor[error.expected] ?? error.expected] : [])),
      );
      return [
        {
          rule: 'wrong-type',
          found: `${subject} is ${nameOf(value)}, where ${wanted.join(' or ')} should stand.`,
          expected: wanted,
          cure: `Write ${wanted.join(', or ')}.`,
          path,
        },
      ];
    }
    default:
      return [
        {
          rule: 'value',
          found: `${subject} is ${nameOf(value)}, which does not fit here.`,
          cure: 'See the README for what may stand here.',
          path,
        },
      ];
  }
}

/** A list that must have a certain number of values and has another. */
function listLength(schema: Schema, data: unknown, path: Path, what: string): Said {
  const value = valueAt(data, path);
  const length = Array.isArray(value) ? value.length : 0;
  const [list] = schemasAt(schema, path);
  const wanted = (list && definition(list).items?.length) ?? 'another number of';
  const { examples } = describe(list ? [list] : []);
  return {
    rule: 'list-length',
    found: `${subjectOf(path, what)} has ${length} value${length === 1 ? '' : 's'}, where ${wanted} should stand.`,
    expected: [`${wanted} values`],
    cure: `Write ${wanted} values${examples.length > 0 ? `: ${JSON.stringify(examples[0])}` : ''}.`,
    path,
  };
}

/** What to write for keys that can't do without. */
const examplesOf: Readonly<Record<string, string>> = {
  number: '14',
  title: 'Malachite green, cold against warm',
  address: 'https://example.org/',
  author: 'your name',
  name: 'what it is called',
  to: '60 °C',
};

/** The ends between which a number may lie. */
function limitsOf(schema: Schema | undefined): { minimum?: number; maximum?: number } {
  const { checks = [] } = (schema?._zod.def ?? {}) as {
    checks?: readonly { _zod: { def: { check: string; value?: number } } }[];
  };
  const of = (kind: string) => checks.find((one) => one._zod.def.check === kind)?._zod.def.value;
  return { minimum: of('greater_than'), maximum: of('less_than') };
}

/** Takes wrong values out, so that the rest can be understood. */
function without(data: unknown, issues: readonly Issue[]): unknown {
  const copy: unknown = structuredClone(data);
  const doomed: Path[] = issues.flatMap((issue) => {
    const path = issue.path.map((step) => (typeof step === 'symbol' ? String(step) : step));
    if (issue.code === 'unrecognized_keys') return issue.keys.map((key) => [...path, key]);
    if (issue.code === 'invalid_union') {
      const inside = issue.errors.find(
        (errors) => !errors.some((error) => error.code === 'invalid_type' && error.path.length === 0),
      );
      return inside
        ? inside.flatMap((error) =>
            error.code === 'unrecognized_keys'
              ? error.keys.map((key) => [...path, ...error.path, key] as Path)
              : [[...path, ...error.path] as Path],
          )
        : [path];
    }
    // A missing key takes with it what can't do without.
    return valueAt(data, path) === undefined && path.length > 1 ? [path.slice(0, -1)] : [path];
  });
  // Last items of lists first, so that the others keep their places until they are looked at.
  const ordered = [...new Map(doomed.map((path) => [JSON.stringify(path), path])).values()].sort((a, b) => {
    for (let at = 0; at < Math.min(a.length, b.length); at += 1) {
      const [one, other] = [a[at], b[at]];
      if (one !== other) return typeof one === 'number' && typeof other === 'number' ? other - one : 0;
    }
    return b.length - a.length;
  });
  for (const path of ordered) {
    const parent = valueAt(copy, path.slice(0, -1));
    const last = path.at(-1);
    if (last === undefined) return undefined;
    // A value in a short list of numbers is nothing without the others.
    if (Array.isArray(parent) && typeof last === 'number') parent.splice(last, 1);
    else if (typeof parent === 'object' && parent !== null) delete (parent as Record<string | number, unknown>)[last];
  }
  return copy;
}

const remarksAtMost = 25;
const attempts = 12;

/**
 * Checks data against a schema of the format.
 * @param what name of the thing as a sentence has it: `entry`, `shelf`
 * @param placeAt finds the place of a path in the file
 */
export function check<S extends z.ZodType>(
  schema: S,
  data: unknown,
  what: string,
  placeAt: (path: Path, at: 'key' | 'value') => Place,
): Checked<z.infer<S>> {
  const first = schema.safeParse(data);
  if (first.success) return { value: first.data, remarks: [] };
  const said = first.error.issues.slice(0, 4 * remarksAtMost).flatMap((issue) => say(issue, schema, data, what));
  const remarks = said
    .slice(0, remarksAtMost)
    .map(({ rule, found, expected, actual, cure, path, at }) =>
      remark({ place: placeAt(path, at ?? 'value'), severity: 'error', rule, found, expected, actual, cure }),
    );
  if (said.length > remarksAtMost || first.error.issues.length > 4 * remarksAtMost) {
    remarks.push(
      remark({
        place: placeAt([], 'value'),
        severity: 'error',
        rule: 'many-remarks',
        found: `There is more that does not fit; the first ${remarksAtMost} findings are shown.`,
        cure: 'Mend these first, then look again.',
      }),
    );
  }
  let rest: unknown = data;
  let issues: readonly Issue[] = first.error.issues;
  for (let attempt = 0; attempt < attempts && rest !== undefined; attempt += 1) {
    rest = without(rest, issues);
    const again = schema.safeParse(rest);
    if (again.success) return { value: again.data, remarks };
    issues = again.error.issues;
    if (
      issues.some(
        (issue) =>
          issue.path.length <= 1 &&
          valueAt(rest, issue.path as Path) === undefined &&
          issue.code !== 'unrecognized_keys',
      )
    )
      break;
  }
  return { remarks };
}

/** Takes out keys that have nothing after them; they count as left out. */
export function withoutEmpty(data: unknown, onEmpty: (path: Path) => void, path: Path = []): unknown {
  if (Array.isArray(data)) {
    let changed = false;
    const list = data.map((item, index) => {
      const kept = withoutEmpty(item, onEmpty, [...path, index]);
      if (kept !== item) changed = true;
      return kept;
    });
    return changed ? list : data;
  }
  if (typeof data !== 'object' || data === null) return data;
  let copy: Record<string, unknown> | undefined;
  for (const [key, value] of Object.entries(data)) {
    if (value === null || value === '' || value === '~' || value === 'null') {
      onEmpty([...path, key]);
      copy ??= { ...data };
      delete copy[key];
    } else if (typeof value === 'object') {
      const kept = withoutEmpty(value, onEmpty, [...path, key]);
      if (kept !== value) {
        copy ??= { ...data };
        copy[key] = kept;
      }
    }
  }
  return copy ?? data;
}

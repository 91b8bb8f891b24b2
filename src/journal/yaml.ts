// YAML as the journal uses it: every scalar stays the text that was written, nothing runs, nothing grows without end.
// Well-formed text is read by js-yaml, which is quick; whatever it refuses, or what holds anchors, aliases or tags,
// is read by `yaml`, which knows places and says what is wrong.
import { FAILSAFE_SCHEMA, YAMLException, load } from 'js-yaml';
import { found, type Findings, type Found } from '../remarks/findings.js';
import { LineCounter, isPair, isScalar, parseDocument, visit, type Document } from 'yaml';
import { readByBlocks } from './yaml-blocks.js';

/** What is wrong with YAML text, at a place in that text (1-based). */
export type YamlFault = Found & { readonly line: number; readonly column: number };

export type YamlReading =
  | { readonly ok: true; readonly value: unknown }
  | {
      readonly ok: false;
      readonly faults: readonly YamlFault[];
      /** What can be made of it all the same, lists under a key that stands twice put together. */
      readonly inPart?: unknown;
    };

/** Characters of front matter that are read at most; an entry's has a few thousand. */
export const matterLimit = 128 * 1024;
/** Characters of a YAML file of its own (the shelf) that are read at most. */
export const yamlFileLimit = 512 * 1024;
/** How deep lists and keys may stand in one another; the journal's format needs seven. */
const depthLimit = 20;
const aliasLimit = 50;
/** More are not looked at, and no more are told than are of use before the first is mended. */
const faultsAtMost = 100;
const faultsShown = 3;

/** Options under which `yaml` reads a journal's text; the same for values and for places. */
export const yamlOptions = {
  version: '1.2',
  schema: 'failsafe',
  merge: false,
  uniqueKeys: false,
  strict: true,
  prettyErrors: false,
  keepSourceTokens: false,
  logLevel: 'silent',
} as const;

/** Anchors, aliases, tags and keys that are not plain words: rare, and read by the slower and stricter of the two. */
const uncommon = /(?:^|[\s,[{:?-])(?:!|[&*]\S|\?(?:\s|$))|(?:^|[,[{])[ \t]*:(?:[\s,\]}]|$)|[\]}][ \t]*:/m;

/**
 * Brackets open in one another, or dashes in a row, as a parser would have to follow them down; an upper estimate.
 * Keeps hostile text away from parsers that descend once for each.
 */
function depthAtMost(text: string): number {
  let depth = 0;
  let deepest = 0;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === 0x5b || code === 0x7b) {
      depth += 1;
      if (depth > deepest) deepest = depth;
    } else if ((code === 0x5d || code === 0x7d) && depth > 0) depth -= 1;
    else if (code === 0x0a && depth > 0 && text.charCodeAt(at + 1) > 0x20) depth = 0;
  }
  if (/^[ \t]*(?:[-?:][ \t]+){20}/m.test(text)) deepest = Math.max(deepest, 1000);
  return deepest;
}

/** Depth of lists and keys in a value, counted no further than `limit` + 1. */
function depthOf(value: unknown, limit: number): number {
  if (typeof value !== 'object' || value === null) return 0;
  if (limit < 0) return 1;
  let deepest = 0;
  for (const part of Array.isArray(value) ? value : Object.values(value)) {
    const depth = depthOf(part, limit - 1);
    if (depth > deepest) deepest = depth;
  }
  return deepest + 1;
}

const atTheTop = { line: 1, column: 1 } as const;
const tooDeep: YamlFault = { ...found('yaml-depth', { atMost: depthLimit }), ...atTheTop };
const kilobytes = (characters: number): number => Math.round(characters / 1024);
const failed = (...faults: readonly YamlFault[]): YamlReading => ({ ok: false, faults });

/** A value, unless lists and keys stand too deep in one another. */
const read = (value: unknown): YamlReading =>
  depthOf(value, depthLimit) > depthLimit ? failed(tooDeep) : { ok: true, value: value ?? null };

/**
 * Reads YAML text. Scalars come back as text, also numbers; an empty value is null.
 * @param limit characters that are read at most
 * @example readYaml('obtained: 2.00 g') // { ok: true, value: { obtained: '2.00 g' } }
 */
export function readYaml(text: string, limit = matterLimit): YamlReading {
  if (text.length > limit) {
    const facts = { kilobytes: kilobytes(text.length), atMost: kilobytes(limit) };
    return failed({ ...found('yaml-size', facts), ...atTheTop });
  }
  if (depthAtMost(text) > 4 * depthLimit) return failed(tooDeep);
  const long = text.length > matterLimit;
  if (uncommon.test(text))
    return long ? failed({ ...found('yaml-aliases', { how: 'long-file' }), ...atTheTop }) : readStrictly(text);
  try {
    return read(load(text, { schema: FAILSAFE_SCHEMA }));
  } catch (error) {
    // Short text is read again by the parser that says more clearly what is wrong.
    return long ? failed(quickFault(error)) : readStrictly(text);
  }
}

/** What the quick parser found wrong. */
function quickFault(error: unknown): YamlFault {
  if (!(error instanceof YAMLException)) return { ...found('yaml', { sentence: 'it is too deep' }), ...atTheTop };
  const { line = 0, column = 0 } = error.mark ?? {};
  return { ...found('yaml', { sentence: error.reason }), line: line + 1, column: column + 1 };
}

/** Reads with the slower and stricter parser, which knows places. */
function readStrictly(text: string): YamlReading {
  try {
    return readSlowly(text);
  } catch (error) {
    if (error instanceof RangeError) return failed(tooDeep);
    throw error;
  }
}

function readSlowly(text: string): YamlReading {
  const lines = new LineCounter();
  const document = parseDocument(text, { ...yamlOptions, lineCounter: lines });
  const at: At = (offset) => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(line, 1), column: Math.max(col, 1) };
  };
  const faults = [...document.errors, ...document.warnings].slice(0, faultsAtMost).map((error): YamlFault => {
    if (error.code === 'RESOURCE_EXHAUSTION') return tooDeep;
    const sentence = error.message.split('\n', 1)[0]!.slice(0, 200);
    const missing = /end with a ([\]}])/.exec(sentence)?.[1];
    if (missing !== undefined)
      return {
        ...found('yaml', { code: 'UNCLOSED', sentence, missing }),
        ...at(openedAt(text, error.pos[0], missing)),
      };
    const colon = colonInBraces(text, at(error.pos[0]).line);
    if (colon) return colon;
    const place = error.code === 'BLOCK_AS_IMPLICIT_KEY' ? placeOfColon(text, at(error.pos[0])) : at(error.pos[0]);
    return { ...found('yaml', { code: codeByLine(text, place.line) ?? error.code, sentence }), ...place };
  });
  const twice = faults.length > 0 ? [] : keyFaults(document, at);
  const all = [...faults, ...twice.slice(0, faultsAtMost)];
  if (all.length > 0) return { ok: false, faults: all, inPart: inPartOf(text) };
  // As the quick parser has it: what stands for nothing is nothing, and no text without letters.
  visit(document, {
    Scalar(_, scalar) {
      if (scalar.type === 'PLAIN' && scalar.source === '') scalar.value = null;
    },
  });
  try {
    return read(document.toJS({ maxAliasCount: aliasLimit }));
  } catch (error) {
    if (error instanceof ReferenceError) return failed({ ...found('yaml-aliases', { how: 'repeats' }), ...atTheTop });
    throw error;
  }
}

/** What is wrong with a line that the parser stumbles over, by signs that makers stumble over. */
const stumbling: readonly (readonly [code: string, line: RegExp])[] = [
  ['COMMENT_IN_KEY', /^\s*(?:- +)*[^\s"'#:{[][^"'#:{[]*\s#[^:]*:(?:\s|$)/],
  ['TEXT_BEHIND_QUOTE', /^\s*(?:- +)*[^\s"'#:{[][^"'#:{[]*:\s+(?:"[^"\\]*"|'[^']*')\s*[^\s#,}\]]/],
  ['QUESTION_MARK', /[:,[{]\s*\?+\s*(?=[,}\]]|$)/],
];

function codeByLine(text: string, line: number): string | undefined {
  const written = text.split('\n')[line - 1]?.replace(/\r$/, '') ?? '';
  return stumbling.find(([, signs]) => signs.test(written))?.[0];
}

/** A value in braces with a second colon in it: `for: 2 h: 30`. */
const withColon = /(?<=[{,][ \t]*[\p{L}-]+:[ \t]+)[^\s"',{}[\]&*!|>][^"',{}[\]]*?:[ \t][^"',{}[\]]*?(?=[ \t]*[,}])/u;

function colonInBraces(text: string, line: number): YamlFault | undefined {
  const value = withColon.exec(text.split('\n')[line - 1] ?? '');
  if (!value) return undefined;
  const facts = { code: 'COLON_IN_BRACES', sentence: 'a value has a second colon in it', value: value[0] };
  return { ...found('yaml', facts), line, column: value.index + 1 };
}

const secondColon = /^\s*(?:- +)*[^\s"'#:{[][^:]*:[ \t]+[^\s"'{[].*:(?:\s|$)/;

/** Where a second colon stands: on the line of the key, or on one below that its text goes on in. */
function placeOfColon(text: string, place: Pick<YamlFault, 'line' | 'column'>): Pick<YamlFault, 'line' | 'column'> {
  const lines = text.split('\n').slice(place.line - 1);
  const own = lines[0] ?? '';
  if (secondColon.test(own)) return place;
  const indent = own.search(/[^\s-]/);
  const below = lines.slice(1).findIndex((line) => line.search(/\S/) > indent && /:(?:\s|$)/.test(line));
  const colon = lines[below + 1]?.search(/:(?:\s|$)/) ?? 0;
  return below < 0 ? place : { line: place.line + below + 1, column: colon + 1 };
}

/** Where the bracket was opened that is not closed up to a place. */
function openedAt(text: string, upTo: number, missing: string): number {
  const opens = missing === ']' ? '[' : '{';
  let closed = 0;
  for (let at = upTo - 1; at >= 0; at -= 1) {
    if (text[at] === missing) closed += 1;
    else if (text[at] === opens && closed === 0) return at;
    else if (text[at] === opens) closed -= 1;
  }
  return upTo;
}

/** A value of text that is well formed, keys that stand twice aside; undefined for any other. */
function wellFormed(text: string): unknown {
  if (depthAtMost(text) > 4 * depthLimit) return undefined;
  const document = parseDocument(text, yamlOptions);
  if (document.errors.length > 0) return undefined;
  const value: unknown = document.toJS({ maxAliasCount: aliasLimit });
  return depthOf(value, depthLimit) > depthLimit ? undefined : value;
}

/** What text with faults says, as far as it can be made out. */
function inPartOf(text: string): unknown {
  try {
    return readByBlocks(text, wellFormed);
  } catch {
    return undefined;
  }
}

type At = (offset: number) => { readonly line: number; readonly column: number };

/** Keys that stand twice in one place, or are no plain words. */
function keyFaults(document: Document.Parsed, at: At): YamlFault[] {
  const faults: YamlFault[] = [];
  visit(document, {
    Map(_, map) {
      const first = new Map<string, number>();
      for (const pair of map.items) {
        if (!isPair(pair) || !isScalar(pair.key)) {
          faults.push({
            ...found('yaml', { code: 'NON_STRING_KEY', sentence: 'a key is no plain word' }),
            ...atTheTop,
          });
          continue;
        }
        const key = String(pair.key.value);
        const offset = pair.key.range?.[0] ?? 0;
        const before = first.get(key);
        if (before === undefined) {
          first.set(key, offset);
          continue;
        }
        const linesAbove = at(offset).line - at(before).line;
        faults.push({ ...found('duplicate-key', { key, linesAbove, actual: key }), ...at(offset) });
      }
    },
  });
  return faults;
}

/** Faults of YAML that begins on a line of its file. */
export function takeYamlFaults(
  file: string,
  faults: readonly YamlFault[],
  firstLine: number,
  findings: Findings,
): void {
  for (const { line, column, ...fault } of faults.slice(0, faultsShown))
    findings.take({ ...fault, where: { file, line: line + firstLine - 1, column } });
}

// YAML as the journal uses it: every scalar stays the text that was written, nothing runs, nothing grows without end.
// Well-formed text is read by js-yaml, which is quick; whatever it refuses, or what holds anchors, aliases or tags,
// is read by `yaml`, which knows places and says what is wrong.
import { FAILSAFE_SCHEMA, YAMLException, load } from 'js-yaml';
import { LineCounter, isMap, isPair, isScalar, parseDocument, visit, type Document } from 'yaml';

/** What is wrong with YAML text, at a place in that text (1-based). */
export interface YamlFault {
  readonly rule: string;
  readonly line: number;
  readonly column: number;
  readonly found: string;
  readonly actual?: string;
  readonly cure: string;
}

export type YamlReading =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly faults: readonly YamlFault[] };

/** Characters of front matter that are read at most; an entry's has a few thousand. */
export const matterLimit = 128 * 1024;
/** Characters of a YAML file of its own (the shelf) that are read at most. */
export const yamlFileLimit = 512 * 1024;
/** How deep lists and keys may stand in one another; the journal's format needs seven. */
const depthLimit = 20;
const aliasLimit = 50;
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

/** Words and cure for what `yaml` finds; its own sentence is used where there is none here. */
const sayings: Readonly<Record<string, { readonly found?: string; readonly cure: string }>> = {
  BAD_ALIAS: {
    found: 'An alias (*name) refers to an anchor that does not exist.',
    cure: 'Write the value out, or put quotes around text that begins with an asterisk.',
  },
  BAD_DIRECTIVE: { cure: 'Put quotes around text that begins with a per cent sign.' },
  BAD_DQ_ESCAPE: {
    found: 'A backslash inside double quotes is followed by something that is not an escape.',
    cure: 'Use single quotes, in which a backslash is only a backslash.',
  },
  BAD_INDENT: { cure: 'Line this up with the lines beside it: the same number of spaces for keys of one thing.' },
  BAD_SCALAR_START: { cure: 'Put quotes around text that begins with @ or a backtick.' },
  BLOCK_AS_IMPLICIT_KEY: {
    found: 'There is a second colon followed by a space on this line.',
    cure: 'Put quotes around the text after the first colon: title: "Green: a second try".',
  },
  BLOCK_IN_FLOW: { cure: 'Inside [ ] and { } use commas, not lines that begin with a hyphen.' },
  KEY_OVER_1024_CHARS: { cure: 'Shorten the key; a key is one of the words of the format.' },
  MISSING_CHAR: { cure: 'Close the quote or bracket, or put a colon and a space after the key.' },
  MULTILINE_IMPLICIT_KEY: {
    found: 'A line without `key: value` stands among the keys.',
    cure: 'Put a colon and a space after the key, or indent the line if it goes on from the one above.',
  },
  MULTIPLE_DOCS: {
    found: 'A second YAML document begins here.',
    cure: 'Keep one document: take out the line of hyphens or dots.',
  },
  NON_STRING_KEY: { cure: 'Write a plain word before the colon.' },
  TAB_AS_INDENT: { found: 'A tab stands where the line is indented.', cure: 'Indent with spaces.' },
  TAG_RESOLVE_FAILED: {
    found: 'There is a tag (!…) here, which the journal does not use.',
    cure: 'Take the tag out, or put quotes around text that begins with an exclamation mark.',
  },
  UNEXPECTED_TOKEN: { cure: 'Put quotes around text with : # [ ] { } , & * ! | > % @ in it.' },
};

/** Anchors, aliases, tags and keys that are not plain words: rare, and read by the slower and stricter of the two. */
const uncommon = /(?:^|[\s,[{:?-])(?:!|[&*]\S|\?(?:\s|$))|(?:^|[,[{])[ \t]*:(?:[\s,\]}]|$)|[\]}][ \t]*:/m;

/**
 * Brackets open in one another, or dashes in a row, as a parser would have to follow them down; an upper estimate.
 * Keeps hostile text away from parsers that descend once for each.
 */
function steepness(text: string): number {
  let depth = 0;
  let steepest = 0;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === 0x5b || code === 0x7b) {
      depth += 1;
      if (depth > steepest) steepest = depth;
    } else if ((code === 0x5d || code === 0x7d) && depth > 0) depth -= 1;
    else if (code === 0x0a && depth > 0 && text.charCodeAt(at + 1) > 0x20) depth = 0;
  }
  if (/^[ \t]*(?:[-?:][ \t]+){20}/m.test(text)) steepest = Math.max(steepest, 1000);
  return steepest;
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

const tooDeep: YamlFault = {
  rule: 'yaml-depth',
  line: 1,
  column: 1,
  found: `Lists and keys stand in one another more than ${depthLimit} deep.`,
  cure: 'Write it flatter, as the format has it.',
};

/**
 * Reads YAML text. Scalars come back as text, also numbers; an empty value is null.
 * @param limit characters that are read at most
 * @example readYaml('obtained: 2.00 g') // { ok: true, value: { obtained: '2.00 g' } }
 */
export function readYaml(text: string, limit = matterLimit): YamlReading {
  const fault = (found: YamlFault): YamlReading => ({ ok: false, faults: [found] });
  if (text.length > limit) {
    return fault({
      rule: 'yaml-size',
      line: 1,
      column: 1,
      found: `There are ${Math.round(text.length / 1024)} kB of YAML here; at most ${limit / 1024} kB are read.`,
      cure: 'Move what is long into the body, or into a file of its own.',
    });
  }
  if (steepness(text) > 4 * depthLimit) return fault(tooDeep);
  const long = text.length > matterLimit;
  try {
    if (!uncommon.test(text)) {
      const value = load(text, { schema: FAILSAFE_SCHEMA });
      return depthOf(value, depthLimit) > depthLimit ? fault(tooDeep) : { ok: true, value: value ?? null };
    }
    if (long)
      return fault({
        rule: 'yaml-aliases',
        line: 1,
        column: 1,
        found: 'Anchors, aliases and tags (&name, *name, !name) are not read in a file as long as this.',
        cure: 'Write the values out.',
      });
  } catch (error) {
    // Short text is read again below, by the parser that says more clearly what is wrong.
    if (long) {
      const { line = 0, column = 0 } = error instanceof YAMLException ? (error.mark ?? {}) : {};
      return fault({
        rule: 'yaml',
        line: line + 1,
        column: column + 1,
        found: `The YAML can’t be read: ${error instanceof YAMLException ? error.reason : 'it is too deep'}.`,
        cure: 'Look at this line and the one above: quotes, colons, brackets and indentation.',
      });
    }
  }
  try {
    return readSlowly(text);
  } catch (error) {
    if (error instanceof RangeError) return fault(tooDeep);
    throw error;
  }
}

function readSlowly(text: string): YamlReading {
  const lines = new LineCounter();
  const document = parseDocument(text, { ...yamlOptions, lineCounter: lines });
  const at = (offset: number) => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(line, 1), column: Math.max(col, 1) };
  };
  const faults: YamlFault[] = [...document.errors, ...document.warnings].slice(0, faultsShown).map((error) => {
    if (error.code === 'RESOURCE_EXHAUSTION') return tooDeep;
    const saying = sayings[error.code];
    return {
      rule: 'yaml',
      ...at(error.pos[0]),
      found:
        saying?.found ??
        `The YAML can’t be read: ${error.message.split('\n', 1)[0]?.slice(0, 200)}.`.replace(/\.\.$/, '.'),
      cure: saying?.cure ?? 'Look at this line and the one above: quotes, colons, brackets and indentation.',
    };
  });
  if (faults.length > 0) return { ok: false, faults };
  faults.push(...duplicateKeys(document, at));
  if (faults.length > 0) return { ok: false, faults: faults.slice(0, faultsShown) };
  try {
    const value: unknown = document.toJS({ maxAliasCount: aliasLimit });
    if (depthOf(value, depthLimit) > depthLimit) return { ok: false, faults: [tooDeep] };
    return { ok: true, value };
  } catch (error) {
    if (error instanceof ReferenceError) {
      return {
        ok: false,
        faults: [
          {
            rule: 'yaml-aliases',
            line: 1,
            column: 1,
            found: 'Aliases (*name) would repeat far more than they say.',
            cure: 'Write the values out instead of repeating them with aliases.',
          },
        ],
      };
    }
    throw error;
  }
}

function duplicateKeys(
  document: Document.Parsed,
  at: (offset: number) => { line: number; column: number },
): YamlFault[] {
  const faults: YamlFault[] = [];
  visit(document, {
    Map(_, map) {
      if (!isMap(map)) return;
      const first = new Map<string, number>();
      for (const pair of map.items) {
        if (!isPair(pair) || !isScalar(pair.key)) {
          faults.push({
            rule: 'yaml',
            line: 1,
            column: 1,
            found: 'A key is a list or holds other keys.',
            cure: 'Write a plain word before the colon.',
          });
          continue;
        }
        const key = String(pair.key.value);
        const offset = pair.key.range?.[0] ?? 0;
        const before = first.get(key);
        if (before === undefined) first.set(key, offset);
        else
          faults.push({
            rule: 'duplicate-key',
            ...at(offset),
            found: `\`${key}\` stands here a second time; the first is ${at(before).line === at(offset).line ? 'on the same line' : `${at(offset).line - at(before).line} lines above`}.`,
            actual: key,
            cure: 'Keep one of the two.',
          });
      }
    },
  });
  return faults;
}

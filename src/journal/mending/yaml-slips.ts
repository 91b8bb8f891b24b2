// Slips of the hand in YAML that can only mean one thing: a tab where spaces indent, another dash where a list has its
// hyphen, a bracket of a formula or a bare @ without quotes. They are put right before the text is read.
import { readYaml } from '../yaml.js';
import { decimalsInBrackets } from './decimals-in-brackets.js';

/** What kind of slip it is. */
export type SlipKind = 'tab' | 'dash' | 'bracket' | 'sign' | 'comma' | 'decimal';

/** Text without a kind of slip. */
export interface WithoutSlip {
  readonly kind: SlipKind;
  /** Where the first of them is, from 1. */
  readonly line: number;
  readonly column: number;
  /** What of that line was taken, and what it is read as. */
  readonly written: string;
  readonly meant: string;
  readonly count: number;
}

type OfLine = (line: string) => string;

const tabsAs =
  (width: number): OfLine =>
  (line) =>
    line
      .replace(/^[ \t]*/, (indent) => indent.replaceAll('\t', ' '.repeat(width)))
      .replace(/^( *-)\t/, `$1${' '.repeat(width - 1)}`);

/** A value in braces with a formula's square brackets in it: `formula: Fe4[Fe(CN)6]3`. */
const bracketed =
  /(?<=[{,][ \t]*[\p{L}-]+:[ \t]+)(?:[A-Z(][^\s"',{}[\]]*\[[^[\]{}"',]*\][^,{}"'[\]]*?|\[[A-Z][^[\]{}"',\s]*\][^\s,{}"'[\]]+)(?=[ \t]*[,}])/gu;
const bracketsQuoted: OfLine = (line) =>
  line.includes('[') && line.includes('{') ? line.replace(bracketed, (value) => `"${value}"`) : line;

/** A value that begins with a sign which YAML keeps for itself. */
const signed = /^(\s*(?:- +)*(?:[\p{L}][\p{L}\p{N} _-]*:[ \t]+)?)([@`%][^"]*?)([ \t]*)$/u;
const signsQuoted: OfLine = (line) =>
  signed.test(line) && /[@`%]/.test(line)
    ? line.replace(
        signed,
        (_, before: string, value: string, after: string) => `${before}"${bareOfTicks(value)}"${after}`,
      )
    : line;
const bareOfTicks = (value: string): string => (value.startsWith('`') ? value.replaceAll('`', '') : value);

/** Brackets with numbers after commas in them, which braces would take apart: `rgb(181, 129, 58)`. */
const listed =
  /(?<=[{,][ \t]*[\p{L}-]+:[ \t]+)[A-Za-z][^\s"',{}[\]()]*\([^(){}[\]"']*,\s*\d+%?\s*[,)][^,{}[\]"']*(?=[,}])/gu;
const listsQuoted: OfLine = (line) =>
  line.includes('(') && line.includes('{') ? line.replace(listed, (value) => `"${value.trimEnd()}"`) : line;

const bullet = /^([ \t]*)(?:[–—•‣·*]\s*|-)(?=[\p{L}{"“'`(])/u;
const keyAlone = /^([ \t]*)(?:- +)*[\p{L}][\p{L}\p{N} _-]*[ \t]*:[ \t]*$/u;

/** Items behind a key with nothing after it that begin with another dash, or with a hyphen and no space. */
function dashesAsHyphens(lines: readonly string[]): readonly string[] {
  let indent: number | undefined;
  let begun = false;
  return lines.map((line) => {
    const key = keyAlone.exec(line);
    const isItem = bullet.test(line);
    if (isItem && indent !== undefined && line.search(/\S/) >= indent) {
      begun = true;
      return line.replace(bullet, '$1- ');
    }
    const ofItem = begun && indent !== undefined && line.search(/\S/) > indent;
    if (key) [indent, begun] = [key[1]!.length, false];
    else if (line.trim() !== '' && !ofItem) indent = undefined;
    return line;
  });
}

const byLine =
  (ofLine: OfLine) =>
  (lines: readonly string[]): readonly string[] =>
    lines.map(ofLine);

interface Mending {
  readonly kind: SlipKind;
  readonly may: RegExp;
  /** Whether it is looked for in text that can be read, too. */
  readonly always?: true;
  readonly mends: readonly ((lines: readonly string[]) => readonly string[])[];
}

const mendings: readonly Mending[] = [
  { kind: 'tab', may: /^ *-?\t/m, mends: [2, 4, 8].map((width) => byLine(tabsAs(width))) },
  { kind: 'dash', may: /^[ \t]*(?:[–—•‣·*]|-[A-Za-zÀ-ɏ])/m, always: true, mends: [dashesAsHyphens] },
  { kind: 'comma', may: /\([^()\n]*,\s*\d+%?\s*[,)]/, always: true, mends: [byLine(listsQuoted)] },
  {
    kind: 'decimal',
    may: /\[[^\]]*\d,\d/,
    always: true,
    mends: [(lines) => decimalsInBrackets(lines.join('\n')).split('\n')],
  },
  { kind: 'bracket', may: /[\w)]\[|\]\w/, mends: [byLine(bracketsQuoted)] },
  { kind: 'sign', may: /[@`%]/, mends: [byLine(signsQuoted)] },
];

const faultsOf = (text: string): number => {
  const read = readYaml(text);
  return read.ok ? 0 : read.faults.length;
};

function toldOf(kind: SlipKind, before: readonly string[], after: readonly string[]): WithoutSlip | undefined {
  const changed = before.flatMap((line, at) => (line === after[at] ? [] : [at]));
  const [first] = changed;
  if (first === undefined) return undefined;
  const [from, to] = [before[first]!, after[first]!];
  const differs = [...from].findIndex((letter, at) => letter !== to[at]) + 1;
  // What is written anew is the line.
  const column = kind === 'tab' ? differs : from.search(/\S/) + 1;
  return { kind, line: first + 1, column, written: from.trim(), meant: to.trim(), count: changed.length };
}

/**
 * YAML text without slips that can only mean one thing, and what they were; undefined where there are none, or where
 * the text is no better for it.
 * @param isRead whether it can be read as it is
 * @example withoutSlips('pigment: { name: blue, formula: Fe4[Fe(CN)6]3 }', false)?.slips[0].kind // 'bracket'
 */
export function withoutSlips(
  text: string,
  isRead: boolean,
): { readonly text: string; readonly slips: readonly WithoutSlip[] } | undefined {
  let now = text;
  let faults = isRead ? 0 : undefined;
  const slips: WithoutSlip[] = [];
  for (const { kind, may, always, mends } of mendings) {
    if ((faults === 0 && always === undefined) || !may.test(now)) continue;
    faults ??= faultsOf(now);
    if (faults === 0 && always === undefined) continue;
    const before = now.split('\n');
    const tried = mends.flatMap((mend) => {
      const after = mend(before);
      const told = toldOf(kind, before, after);
      return told === undefined ? [] : [{ told, text: after.join('\n') }];
    });
    const counted = tried.map((one) => ({ ...one, faults: faultsOf(one.text) }));
    const [best] = counted.sort((one, other) => one.faults - other.faults);
    if (best === undefined || best.faults > faults || (best.faults === faults && faults > 0 && always === undefined))
      continue;
    now = best.text;
    faults = best.faults;
    slips.push(best.told);
  }
  return slips.length === 0 ? undefined : { text: now, slips };
}

// What a maker does with a cure: pastes what it says in the place of what stands there, and proofs again.
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { readEntry } from '../../src/journal/index.js';
import type { ExampleFile } from '../../src/remarks/rule.js';
import { bytesOf } from '../../src/remarks/example.js';
import { formatRules } from '../../src/remarks/rules/format.js';
import { valueRules } from '../../src/remarks/rules/values.js';
import { yamlRules } from '../../src/remarks/rules/yaml.js';
import { severityOf, type Paste, type Remark } from '../../src/remarks/remark.js';
import { proof } from '../../src/site/proof.js';

export type Files = Readonly<Record<string, ExampleFile>>;

/** What a maker says where a cure leaves a gap for own words. */
const ownWords = '"Outdoors with the wind behind, in small portions, nobody near."';

/** Signs and a key that may stand between the place of a remark and what is replaced. */
const before = /^[\s"'“”„‘’«{[-]*(?:[\p{L}\p{N}-]+:\s*)?["'“”„‘’«{[]*$/u;

const bracketsOf: readonly (readonly [string, string])[] = [
  ['"', '"'],
  ["'", "'"],
  ['“', '”'],
  ['„', '“'],
  ['‘', '’'],
];

function withLinesAdded(text: string, { with: lines, under }: Paste): string {
  const all = text.split('\n');
  const end = all.indexOf('---', 1);
  const at = under === undefined ? -1 : all.findIndex((line) => new RegExp(`^${under}:\\s*$`).test(line));
  const told = lines.replaceAll('…', ownWords).split('\n');
  if (lines.startsWith('{')) return text.replace(new RegExp(`^(${under}:\\s*\\[)`, 'm'), `$1${told[0]!}, `);
  if (at >= 0) all.splice(at + 1, 0, ...told);
  else all.splice(end < 0 ? all.length : end, 0, ...(under === undefined ? told : [`${under}:`, ...told]));
  return all.join('\n');
}

/** Text with a cure pasted; undefined where what it replaces does not stand at its place. */
export function pasted(text: string, { line, column, paste }: Pick<Remark, 'line' | 'column' | 'paste'>) {
  if (paste?.instead === undefined) return paste && withLinesAdded(text, paste);
  const all = text.split('\n');
  const here = all[line - 1] ?? '';
  const from = here.indexOf(paste.instead, column - 1);
  if (from < 0 || !before.test(here.slice(column - 1, from))) return undefined;
  let [head, tail] = [here.slice(0, from), here.slice(from + paste.instead.length)];
  const around: readonly (readonly [string, string])[] = paste.with.startsWith('{')
    ? [...bracketsOf, ['{ ', ' }'], ['{', '}']]
    : bracketsOf;
  const pair = around.find(([opens, closes]) => head.endsWith(opens) && tail.startsWith(closes));
  if (pair) [head, tail] = [head.slice(0, -pair[0].length), tail.slice(pair[1].length)];
  const indent = /^(\s*)- $/.exec(head)?.[1];
  const told = paste.with.replaceAll('…', ownWords);
  const asItem = indent === undefined ? told : told.replaceAll(/\n\s*/g, `\n${indent}`);
  const begins = asItem.startsWith('\n') ? head.replace(/\s*(?:- )?$/, '') : head;
  all[line - 1] = `${begins}${asItem}${tail}`.replace(/^\n/, '');
  return all.join('\n');
}

export interface Failure {
  readonly remark: Remark;
  readonly why: string;
}

/** Cures that were pasted, of which rules, and which did not hold. */
export interface Tried {
  readonly shown: number;
  readonly rules: readonly string[];
  readonly failures: readonly Failure[];
}

const formRules: ReadonlySet<string> = new Set([yamlRules, formatRules, valueRules].flatMap(Object.keys));
const graveness = { note: 0, warning: 1, error: 2 } as const;
const gravenessOf = (one: Remark): number => graveness[severityOf(one)];

/** Remarks that there are more of than before, by rule and file. */
function newAmong(after: readonly Remark[], first: readonly Remark[]): readonly Remark[] {
  const keyOf = (one: Remark): string => `${one.file} ${one.ruleId} ${severityOf(one)}`;
  const counts = new Map<string, number>();
  for (const one of first) counts.set(keyOf(one), (counts.get(keyOf(one)) ?? 0) + 1);
  return after.filter((one) => {
    const left = (counts.get(keyOf(one)) ?? 0) - 1;
    counts.set(keyOf(one), left);
    return left < 0;
  });
}

/** Whether a remark that came with a cure is worse than what was cured: graver, or as grave and of form. */
function isWorse(one: Remark, cured: Remark): boolean {
  const [now, before] = [gravenessOf(one), gravenessOf(cured)];
  return formRules.has(one.ruleId) ? now >= Math.min(before, 1) : now > 0 && now >= before;
}

/** What an entry says, whatever way it is written in. */
function saidIn(file: string, text: string): string {
  const { entry, inPart } = readEntry(file, text);
  const asWritten: ReadonlySet<string> = new Set(['matter', 'written', 'matterLine', 'bodyLine']);
  return JSON.stringify(Object.entries(entry ?? inPart ?? {}).filter(([key]) => !asWritten.has(key)));
}

/** Rules that say how something is read: pasting that changes nothing of what is read. */
const tellsReading: ReadonlySet<string> = new Set([
  'read-as',
  'another-word',
  'comma-in-braces',
  'colon-in-text',
  'curly-quotes',
  'yaml-slip',
]);

/** A journal in a folder, which cures are pasted into one by one. */
export class Desk {
  constructor(
    private readonly folder: string,
    private readonly files: Files,
  ) {
    for (const [file, content] of Object.entries(files)) this.write(file, content);
  }

  private write(file: string, content: ExampleFile): void {
    const bytes = bytesOf(content);
    if (!bytes) return;
    mkdirSync(dirname(join(this.folder, file)), { recursive: true });
    writeFileSync(join(this.folder, file), bytes);
  }

  /** The remarks on the journal as it is. */
  async remarks(): Promise<readonly Remark[]> {
    return (await proof(this.folder, { drafts: true })).remarks;
  }

  /** Pastes every cure that can be, each by itself, and tells how many there were and which of them do not hold. */
  async tried(): Promise<Tried> {
    const first = await this.remarks();
    const curable = first.filter(({ paste, file }) => paste !== undefined && typeof this.files[file] === 'string');
    const failures: Failure[] = [];
    for (const remark of curable) {
      const why = await this.whyNot(remark, first);
      if (why !== undefined) failures.push({ remark, why });
    }
    return { shown: curable.length, rules: curable.map(({ ruleId }) => ruleId), failures };
  }

  private async whyNot(remark: Remark, first: readonly Remark[]): Promise<string | undefined> {
    const { file, ruleId, reason, paste } = remark;
    const text = String(this.files[file]);
    const after = pasted(text, remark);
    if (after === undefined) return `'${paste!.instead!}' does not stand at ${remark.line}:${remark.column}`;
    if (tellsReading.has(ruleId) && file.endsWith('.md') && saidIn(file, text) !== saidIn(file, after))
      return 'it is read otherwise afterwards';
    this.write(file, after);
    const now = await this.remarks();
    this.write(file, text);
    const same = (all: readonly Remark[]) =>
      all.filter((one) => one.ruleId === ruleId && one.reason === reason && one.file === file).length;
    if (same(now) >= same(first)) return 'the remark stays';
    const worse = newAmong(now, first).find((one) => isWorse(one, remark));
    return worse && `now there is ${worse.ruleId}, ${worse.reason}`;
  }
}

// Reads one entry from the text of its file.
import { Findings, remarksFrom, type Finding, type Path } from '../remarks/findings.js';
import type { Remark } from '../remarks/remark.js';
import { rejoined } from './mending/braces.js';
import { checkAsFar, withoutEmpty, type LeftOut, type StandIns } from './check.js';
import { straightened } from './mending/curly-quotes.js';
import { differInSeveral } from './differ-in-several.js';
import { statusesWithReason, type Entry } from './entry.js';
import { nearest } from './nearest.js';
import { namedPhotographs, photographsOf } from './photographs.js';
import { asInFile, placesIn, remarksOn } from './place.js';
import { valueAt } from './mending/mending.js';
import { findPointsBetweenThousands, isDecimalComma } from './mending/points-between-thousands.js';
import { notRead, type QuantityKind } from './quantities.js';
import { entrySchema } from './schema.js';
import { split, splitAsFar, splitByOtherFences, type Split } from './split.js';
import { usesInBody } from './uses-in-body.js';
import { secondsOf } from './values.js';
import { withoutSlips } from './mending/yaml-slips.js';
import { readYaml, takeYamlFaults } from './yaml.js';

export interface EntryReading {
  /** Missing when number, title, date or status could not be read. */
  readonly entry?: Entry;
  /**
   * In its place, as far as it could be read, so that its dangers are told all the same: something stands in for what
   * is missing.
   */
  readonly inPart?: Entry;
  readonly remarks: Remark[];
}

/** The number that a file is named by; undefined where it is named by none. */
const numberInName = (file: string): number | undefined => {
  const named = /(?:^|\/)0*(\d+)[^/]*$/.exec(file)?.[1];
  return named === undefined || Number(named) > greatestInName ? undefined : Number(named);
};

/** What stands in for what no entry can do without. */
const standInsFor = (file: string): StandIns => ({
  number: String(numberInName(file) ?? greatestInName),
  title: 'without a title',
  date: '1970-01-01',
  status: 'planned',
});

const secondColon = /^(\s*(?:- +)*[\p{L}\p{N}][\p{L}\p{N} _-]*:[ \t]+)([^\s"'[{|>&*!#@`%].*\S)[ \t]*\r?$/u;

const questionMark = /([:,[{][ \t]*)\?(\?*)(?=[ \t]*(?:[,}\]]|\r?$))/gm;

/** Front matter in which `obtained: ?` is left blank, where it keeps the rest from being read. */
function withoutQuestionMarks(parts: Split): Split {
  if (parts.yaml.ok || !parts.matter.includes('?')) return parts;
  const matter = parts.matter.replace(
    questionMark,
    (_, before: string, more: string) => `${before}~${' '.repeat(more.length)}`,
  );
  const yaml = matter === parts.matter ? parts.yaml : readYaml(matter);
  return yaml.ok ? { ...parts, matter, yaml } : parts;
}

/** `title: Batch #2 of the bismuth yellow`: a text that goes on behind a sign which begins a comment. */
const cutText =
  /^(\s*(?:- +)*(?:([\p{L}][\p{L}\p{N} _-]*):[ \t]+)?)([^\s"'[{|>&*!#@`%-][^"'{}[\]]*?)[ \t]#(?=[^\s#])(.*\S)\s*$/u;
/** Keys behind which nobody says more than a word or a figure, so that what follows is a comment. */
const oneWordKeys: ReadonlySet<string | undefined> = new Set(['number', 'date', 'status', 'sample', 'lot', 'family']);

function findCutTexts({ matter, matterLine }: Split, file: string, findings: Findings): void {
  if (!/[ \t]#[^\s#]/.test(matter)) return;
  for (const [at, line] of matter.split('\n').entries()) {
    const [, before = '', key, text = '', lost = ''] = cutText.exec(line) ?? [];
    if (text === '' || oneWordKeys.has(key)) continue;
    const whole = `${before.trim()} ${JSON.stringify(`${text} #${lost}`)}`.trim();
    const facts = { line: line.trim(), text, lost: `#${lost}`, whole };
    findings.add('text-cut-by-comment', { file, line: at + matterLine, column: 1 }, facts);
  }
}

/** Front matter with straight quotes around its values, where curly ones stand there; what was found is said. */
function withStraightQuotes(file: string, parts: Split, findings: Findings): Split {
  const straight = straightened(parts.matter);
  if (!straight) return parts;
  const { text, line, column, ...facts } = straight;
  findings.add(
    'curly-quotes',
    { file, line: line + parts.matterLine - 1, column },
    { ...facts, actual: facts.written },
  );
  return { ...parts, matter: text, yaml: readYaml(text) };
}

/** Front matter without slips of the hand that can only mean one thing; each kind of them is said once. */
function withoutSlipsOf(file: string, parts: Split, findings: Findings): Split {
  const mended = withoutSlips(parts.matter, parts.yaml.ok);
  if (!mended) return parts;
  for (const { line, column, ...facts } of mended.slips)
    findings.add('yaml-slip', { file, line: line + parts.matterLine - 1, column }, { ...facts, actual: facts.written });
  return { ...parts, matter: mended.text, yaml: readYaml(mended.text) };
}

/**
 * Front matter with a text in quotes wherever a second colon keeps it from being read, which is said; as it is where
 * that does not help.
 */
function withColonsQuoted(file: string, parts: Split, findings: Findings): Split {
  const { yaml, matter, matterLine } = parts;
  if (yaml.ok) return parts;
  const lines = matter.split('\n');
  const mended: { readonly at: number; readonly line: string; readonly whole: string }[] = [];
  for (const { line, rule, facts } of yaml.faults) {
    if (rule !== 'yaml' || facts.code !== 'BLOCK_AS_IMPLICIT_KEY') continue;
    const [, key, text] = secondColon.exec(lines[line - 1] ?? '') ?? [];
    if (key === undefined || text === undefined || !/:(?:\s|$)/.test(text)) continue;
    const whole = `${key}${JSON.stringify(text)}`;
    mended.push({ at: line + matterLine - 1, line: lines[line - 1]!.trim(), whole: whole.trim() });
    lines[line - 1] = whole;
  }
  if (mended.length === 0) return parts;
  const quoted = lines.join('\n');
  const again = readYaml(quoted);
  if (!again.ok && again.faults.length >= yaml.faults.length) return parts;
  for (const { at, ...facts } of mended) findings.add('colon-in-text', { file, line: at, column: 1 }, facts);
  return { ...parts, matter: quoted, yaml: again };
}

/**
 * Reads the text of one entry's file: front matter, body, and all that can be checked without the rest of the journal.
 * Pure: reads nothing, so it can run in a worker thread. An entry with errors comes back without its wrong values.
 * @param file path below the journal, `entries/014-malachite.md`
 * @example readEntry('1.md', '---\nnumber: 1\ntitle: X\ndate: 2026-01-02\nstatus: planned\n---').entry.title // 'X'
 */
export function readEntry(file: string, text: string): EntryReading {
  const findings = new Findings();
  const asWritten = split(text);
  const other = asWritten.ok || asWritten.fault.rule !== 'no-front-matter' ? undefined : splitByOtherFences(text);
  if (other) findings.add('other-fence', { file, line: 1, column: 1 }, { opening: other.opening });
  const parts = other ? { ok: true as const, split: other.split } : asWritten;
  if (!parts.ok) {
    const { line, ...found } = parts.fault;
    findings.take({ ...found, where: { file, line, column: 1 } });
    const asFar = withStraightQuotes(file, splitAsFar(text), new Findings());
    return { ...inPartOf(file, asFar), remarks: remarksFrom(findings.all) };
  }
  const bySlips = withoutSlipsOf(file, withStraightQuotes(file, parts.split, findings), findings);
  const straight = withoutQuestionMarks(bySlips);
  const asRead = withoutQuestionMarks(withColonsQuoted(file, straight, findings));
  const written = parts.split.matter;
  const read = asRead.matter === written ? asRead : { ...asRead, written };
  const { matter, matterLine, body, bodyLine, yaml } = read;
  if (!yaml.ok) {
    takeYamlFaults(file, yaml.faults, matterLine, findings);
    return { ...inPartOf(file, read), remarks: remarksFrom(findings.all) };
  }
  findCutTexts(read, file, findings);
  const whole = rejoined(entrySchema, yaml.value ?? {}, matter, ({ path, ...facts }) => {
    findings.add('comma-in-braces', path, { ...facts, actual: facts.left, expected: [facts.whole] });
  });
  const empty: Path[] = [];
  const data = withoutEmpty(whole, (path) => empty.push(path));
  findEmpty(empty, matter, findings);
  const before = asInFile(remarksFrom(findings.all, placesIn(file, read)), read);
  const onForm = new Findings();
  const { value: checked, stoodIn, leftOut } = checkAsFar(entrySchema, data, 'entry', onForm, standInsFor(file));
  // What is told of decimal commas waits until it is said what the full stops are: pasted first, it would change that.
  const within = new Findings();
  const unclear = checked ? findPointsBetweenThousands(checked, onForm.all, within) : [];
  const named = onForm.all
    .filter((one) => within.all.length === 0 || !isDecimalComma(one))
    .map((one) => withNumberOfFile(blankThere(one, empty), file));
  const { matter: renamed, findings: placed } = withKeysAsMeant(file, read, named);
  const meant = { matter: renamed, matterLine, ...(renamed !== written && { written }) };
  const remarks = [...before, ...asInFile(remarksFrom(placed, placesIn(file, meant)), meant)];
  if (!checked) return { ...inPartOf(file, read), remarks };
  const all = [...leftOut, ...unclear, ...leftInBody(checked, body)];
  const lacks = all.length > 0 && { leftOut: all };
  // In the order in which an entry that was kept comes back.
  const entry: Entry = { ...checked, ...lacks, file, ...meant, body, bodyLine };
  findWithin(entry, within);
  // Of a status that could not be read nothing tells whether its reason fits.
  if (!stoodIn.includes('status')) findStatus(entry, within);
  findInBody(entry, within);
  const told = [...remarks, ...asInFile(remarksOn(entry, within.all), entry)];
  return { ...(stoodIn.length > 0 ? { inPart: entry } : { entry }), remarks: told };
}

/** What went in by the write-up alone, where no key says anything of it: it is judged by its words. */
function leftInBody({ reagents }: Pick<Entry, 'reagents'>, body: string): readonly LeftOut[] {
  const uses = reagents.length > 0 ? [] : usesInBody({ body });
  return uses.length === 0 ? [] : [{ path: ['reagents'], value: uses.map(({ text }) => text) }];
}

function findInBody(entry: Entry, findings: Findings): void {
  const { file, reagents, body, bodyLine } = entry;
  const [first, ...others] = reagents.length > 0 ? [] : usesInBody({ body });
  if (!first) return;
  const facts = { first: first.text, count: others.length + 1, actual: first.text };
  findings.add('reagents-in-body', { file, line: bodyLine + first.line, column: 1 }, facts);
}

/** The words that a file is named by: `oxalato de hierro` of `004-oxalato-de-hierro.md`; undefined without any. */
const wordsInName = (file: string): string | undefined => {
  const words = /(?:^|\/)(?:\d+[-_. ]*)?([^/]*)\.[^./]*$/.exec(file)?.[1]?.replace(/[-_]+/g, ' ').trim();
  return words !== undefined && /^[0-9A-Za-z\u00c0-\uffff ]{2,}$/.test(words) && !/^\d+$/.test(words)
    ? words
    : undefined;
};

/** A key that is missing because what stands behind it says nothing: `title: TODO`. */
function blankThere(one: Finding, empty: readonly Path[]): Finding {
  if (one.rule !== 'missing-key' || !Array.isArray(one.where)) return one;
  const path = [...(one.where as Path), one.facts.key];
  const stands = empty.some((other) => other.length === path.length && other.every((step, at) => step === path[at]));
  return stands ? { ...one, where: { key: path }, facts: { ...one.facts, standsBlank: true } } : one;
}

/** A number or a title that is missing is that of the file's name, where it has one. */
function withNumberOfFile(one: Finding, file: string): Finding {
  if (one.rule !== 'missing-key') return one;
  const { inWords: _, ...facts } = one.facts;
  const ofName: Readonly<Record<string, (name: string) => string | number | undefined>> = {
    number: numberInName,
    title: wordsInName,
  };
  const own = ofName[facts.key]?.(file);
  return own === undefined ? one : { ...one, facts: { ...facts, example: String(own) } };
}

/** What of an entry can be read all the same whose front matter is not well formed, or not where it belongs. */
function inPartOf(file: string, { matter, matterLine, body, bodyLine, yaml }: Split): Pick<EntryReading, 'inPart'> {
  const data = yaml.ok ? yaml.value : yaml.inPart;
  // Where there are no keys, the write-up at least is looked through.
  const isKeys = typeof data === 'object' && data !== null && !Array.isArray(data);
  const bare = isKeys ? withoutEmpty(data, () => undefined) : {};
  const { value, leftOut } = checkAsFar(entrySchema, bare, 'entry', new Findings(), standInsFor(file));
  const all = value ? [...leftOut, ...leftInBody(value, body)] : leftOut;
  const lacks = all.length > 0 && { leftOut: all };
  return value ? { inPart: { ...value, ...lacks, file, matter, matterLine, body, bodyLine } } : {};
}

/** What was left blank; said once where it is a form that was not filled in. */
function findEmpty(paths: readonly Path[], matter: string, findings: Findings): void {
  const [first] = paths;
  const keys = paths.map((path) => String(path.findLast((step) => typeof step === 'string') ?? ''));
  if (first !== undefined && paths.length > 2)
    findings.add('empty-key', { key: first }, { key: keys[0]!, others: [...new Set(keys.slice(1))] });
  else
    for (const [at, path] of paths.entries()) {
      const comment = commentBehind(keys[at]!, matter);
      findings.add('empty-key', { key: path }, { key: keys[at]!, ...(comment !== undefined && { comment }) });
    }
}

/** `colour: #2a7f62`: what a sign that begins a comment was written to begin. */
function commentBehind(key: string, matter: string): string | undefined {
  const named = key.replace(/[^\w-]/g, '.');
  return new RegExp(`(?:^|[\\s{,])${named}\\s*:\\s+(#[\\w-]+)`, 'm').exec(matter)?.[1];
}

/** Text with a key in another spelling at a place. */
function withKey(matter: string, line: number, column: number, written: string, meant: string): string {
  const lines = matter.split('\n');
  const text = lines[line] ?? '';
  if (text.startsWith(written, column - 1))
    lines[line] = `${text.slice(0, column - 1)}${meant}${text.slice(column - 1 + written.length)}`;
  return lines.join('\n');
}

/**
 * Front matter in which keys stand as they are read, so that what stands under them has its place; and what was found
 * of those keys at the places that they have in the file.
 */
function withKeysAsMeant(
  file: string,
  read: Split,
  findings: readonly Finding[],
): { readonly matter: string; readonly findings: readonly Finding[] } {
  let { matter } = read;
  const placed = findings.map((one): Finding => {
    if (one.rule !== 'another-word' || one.facts.what !== 'key' || !('key' in one.where)) return one;
    const where = placesIn(file, { ...read, matter, written: read.written ?? read.matter })(one.where.key, 'key');
    const here = placesIn(file, { matter, matterLine: read.matterLine })(one.where.key, 'key');
    matter = withKey(matter, here.line - read.matterLine, here.column, one.facts.written, one.facts.meant);
    return { ...one, where };
  });
  return { matter, findings: placed };
}

type Use = Entry['reagents'][number];

/** How an entry refers to what it uses: lot, shelf id, or the name of what is described in place. */
const nameOfUse = ({ lot, reagent }: Use): string | undefined =>
  lot ?? (typeof reagent === 'string' ? reagent : reagent?.name);

const namesOfUses = (uses: readonly Use[]): string[] => uses.flatMap((use) => nameOfUse(use) ?? []);

/** Looks for what needs no more than the entry itself. */
function findWithin(entry: Entry, findings: Findings): void {
  findTwins(entry, findings);
  const several = differInSeveral(entry);
  if (several) {
    const at = entry.samples.findIndex(({ sample }) => sample === several.other);
    findings.add('differ-in-several', ['samples', at, 'differs'], { ...several, answered: entry.answer !== undefined });
  }
  const used = new Set(namesOfUses(entry.reagents));
  for (const [index, { of }] of entry.heating.entries()) findHeating(of, ['heating', index, 'of'], used, findings);
  for (const index of entry.samples.keys()) findInSample(entry, index, used, findings);
  if (entry.control !== undefined) findSample(entry, entry.control, ['control'], findings);
  for (const [index, { sample }] of entry.incidents.entries())
    if (sample !== undefined) findSample(entry, sample, ['incidents', index, 'sample'], findings);
  findMoments(entry, findings);
  findInPhotographs(entry, findings);
  findNumber(entry, findings);
  findAmounts(entry, findings);
  findDates(entry, findings);
}

const yearInMilliseconds = 366 * 24 * 3600 * 1000;

/** A date without its day, one that is words, and one that is far off yet. */
function findDates({ date, status, corrections }: Entry, findings: Findings): void {
  if (date.length === 7) findings.add('date-as-it-is-known', ['date'], { written: date, lacks: 'day' });
  for (const [index, one] of corrections.entries())
    if (!/^\d/.test(one.date))
      findings.add('date-as-it-is-known', ['corrections', index, 'date'], { written: one.date, lacks: 'date' });
  const farOff = Date.parse(date) > Date.now() + yearInMilliseconds;
  if (farOff && status !== 'planned') findings.add('date-to-come', ['date'], { date, status, actual: date });
}

type Written = readonly [path: Path, kind: QuantityKind, written: string | undefined];

const amountsOf = (uses: readonly Use[], at: Path): readonly Written[] =>
  uses.map(({ amount }, index) => [[...at, index, 'amount'], 'amount', amount]);
const heatingsOf = (heating: Entry['heating'], at: Path): readonly Written[] =>
  heating.flatMap((one, index): readonly Written[] => [
    [[...at, index, 'to'], 'temperature', one.to],
    [[...at, index, 'for'], 'time', one.for],
  ]);

/** Amounts, times and heats that begin with a number and are kept as words. */
function findAmounts(entry: Entry, findings: Findings): void {
  const ofSamples = entry.samples.flatMap((sample, index): readonly Written[] => {
    const at = ['samples', index];
    return [
      [[...at, 'obtained'], 'obtained', sample.obtained],
      ...amountsOf(sample.add ?? [], [...at, 'add']),
      ...amountsOf(sample.change ?? [], [...at, 'change']),
      ...heatingsOf(sample.heating ?? [], [...at, 'heating']),
    ];
  });
  const all = [...amountsOf(entry.reagents, ['reagents']), ...heatingsOf(entry.heating, ['heating']), ...ofSamples];
  for (const [path, kind, written] of all) {
    const unread = written === undefined ? undefined : notRead(written, kind);
    if (unread) findings.add('amount-not-read', path, { ...unread, key: String(path.at(-1)), actual: written });
  }
}

/** Samples whose ids are the same but for capitals. */
function findTwins({ samples }: Entry, findings: Findings): void {
  const first = new Map<string, string>();
  for (const [index, { sample }] of samples.entries()) {
    const before = first.get(sample.toLowerCase());
    if (before === undefined) first.set(sample.toLowerCase(), sample);
    else findings.add('duplicate-sample', ['samples', index, 'sample'], { sample, before, actual: sample });
  }
}

/** A sample that is named and not there. */
function findSample({ samples }: Entry, sample: string, path: Path, findings: Findings): void {
  const known = samples.map((one) => one.sample);
  if (known.includes(sample)) return;
  // Of ids of one letter each is as near as the other.
  const near =
    sample.length > 1 ? nearest(sample, known) : known.find((one) => one.toLowerCase() === sample.toLowerCase());
  const facts = { sample, ...(near !== sample && { near }), samples: known };
  findings.add('unknown-sample', path, { ...facts, actual: sample, expected: known });
}

/** Something that is named and not among what the entry uses. */
function findUse(name: string, key: string, path: Path, used: ReadonlySet<string>, findings: Findings): void {
  if (used.has(name)) return;
  const known = [...used];
  const facts = { key, name, near: nearest(name, known), used: known };
  findings.add('not-used', path, { ...facts, actual: name, expected: known });
}

function findHeating(of: string, path: Path, used: ReadonlySet<string>, findings: Findings): void {
  const known = ['product', 'mixture', ...used];
  if (known.includes(of)) return;
  findings.add('heating-of', path, { name: of, near: nearest(of, known), actual: of, expected: known });
}

function findInSample(entry: Entry, index: number, used: ReadonlySet<string>, findings: Findings): void {
  const sample = entry.samples[index]!;
  const path: Path = ['samples', index];
  const here = new Set([...used, ...namesOfUses(sample.add ?? [])]);
  sample.omit?.forEach((name, at) => findUse(name, 'omit', [...path, 'omit', at], used, findings));
  sample.change?.forEach((use, at) => {
    const key = use.lot === undefined ? 'reagent' : 'lot';
    findUse(nameOfUse(use) ?? '', 'change', [...path, 'change', at, key], used, findings);
  });
  sample.heating?.forEach(({ of }, at) => findHeating(of, [...path, 'heating', at, 'of'], here, findings));
  const original = sample['replicate-of'];
  const originalPath = [...path, 'replicate-of'];
  if (original === sample.sample)
    findings.add('unknown-sample', originalPath, { sample: original, itself: true, actual: original });
  else if (original !== undefined) findSample(entry, original, originalPath, findings);
}

/** Photographs without words, of samples that are not there, at moments that no video has. */
function findInPhotographs(entry: Entry, findings: Findings): void {
  const { videos } = entry;
  const moments = videos.flatMap((video) => video.moments.map(({ at }) => at));
  for (const { path, sample, shows, file } of photographsOf(entry))
    if (shows === undefined)
      findings.add('photo-without-words', path, {
        ...(sample !== undefined && { sample }),
        ...(typeof valueAt(entry, path) === 'string' && { file }),
      });
  for (const { path, sample, moment } of namedPhotographs(entry)) {
    if (sample !== undefined && path[0] === 'photos') findSample(entry, sample, [...path, 'sample'], findings);
    // With one video a time is enough; with several only a moment that is named tells which of them is meant.
    if (moment !== undefined && videos.length !== 1 && !moments.includes(moment))
      findings.add('no-such-moment', [...path, 'moment'], { at: moment, actual: moment, expected: moments });
  }
}

function findMoments({ videos }: Entry, findings: Findings): void {
  for (const [index, { moments }] of videos.entries()) {
    for (const [at, moment] of moments.entries()) {
      const before = moments[at - 1]?.at;
      if (before === undefined || secondsOf(moment.at) > secondsOf(before)) continue;
      findings.add('moment-order', ['videos', index, 'moments', at, 'at'], {
        at: moment.at,
        before,
        actual: moment.at,
      });
    }
  }
}

function findStatus(entry: Entry, findings: Findings): void {
  const { status } = entry;
  const elsewhere = statusesWithReason.filter((key) => key !== status && entry[key] !== undefined);
  for (const key of elsewhere) findings.add('status-reason', { key: [key] }, { key, status });
  for (const key of statusesWithReason)
    if (entry[key] === undefined && status === key && elsewhere.length === 0)
      findings.add('status-reason', ['status'], { key });
}

/** Files are numbered up to this; a greater number in a name (a year, a date) is none. */
const greatestInName = 9_999;

function findNumber({ file, number }: Entry, findings: Findings): void {
  const named = numberInName(file);
  if (named === undefined || named === number) return;
  findings.add('number-and-file', ['number'], { number, named: String(named), actual: String(number) });
}

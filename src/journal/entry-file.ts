// Reads one entry from the text of its file.
import type { Entry } from './entry.js';
import { check, nearest, withoutEmpty } from './check.js';
import { placeInFile, type Path } from './place.js';
import { remark, type Remark, type Severity } from './remarks.js';
import { entrySchema } from './schema.js';
import { split } from './split.js';
import { secondsOf } from './values.js';

export interface EntryReading {
  /** Missing when number, title, date or status could not be read. */
  readonly entry?: Entry;
  readonly remarks: Remark[];
}

/**
 * Reads the text of one entry's file: front matter, body, and all that can be checked without the rest of the journal.
 * Pure: reads nothing, so it can run in a worker thread. An entry with errors comes back without its wrong values.
 * @param file path below the journal, `entries/014-malachite.md`
 * @example readEntry('entries/001-x.md', '---\nnumber: 1\ntitle: X\ndate: 2026-01-02\nstatus: planned\n---\n').entry?.number // 1
 */
export function readEntry(file: string, text: string): EntryReading {
  const parts = split(text);
  if (!parts.ok) {
    const { rule, line, column, found, cure } = parts.fault;
    return { remarks: [remark({ place: { file, line, column }, severity: 'error', rule, found, cure })] };
  }
  const { matter, matterLine, body, bodyLine, yaml } = parts.split;
  if (!yaml.ok) {
    return {
      remarks: yaml.faults.map(({ rule, line, column, found, actual, cure }) =>
        remark({ place: { file, line: line + matterLine - 1, column }, severity: 'error', rule, found, actual, cure }),
      ),
    };
  }
  const placeAt = (path: Path, at: 'key' | 'value' = 'value') => {
    const place = placeInFile(file, matter, path, at);
    return { ...place, line: place.line + matterLine - 1 };
  };
  const remarks: Remark[] = [];
  const data = withoutEmpty(yaml.value ?? {}, (path) => {
    remarks.push(
      remark({
        place: placeAt(path, 'key'),
        severity: 'note',
        rule: 'empty-key',
        found: `\`${String(path.at(-1))}\` has nothing after it, and counts as left out.`,
        cure: 'Fill it in, or take the line out.',
      }),
    );
  });
  const checked = check(entrySchema, data, 'entry', placeAt);
  remarks.push(...checked.remarks);
  if (!checked.value) return { remarks };
  const entry: Entry = { ...checked.value, file, matter, matterLine, body, bodyLine };
  const add = (
    severity: Severity,
    path: Path,
    rule: string,
    found: string,
    cure: string,
    more: { actual?: string; expected?: readonly string[]; at?: 'key' | 'value' } = {},
  ) => {
    remarks.push(
      remark({
        place: placeAt(path, more.at ?? 'value'),
        severity,
        rule,
        found,
        cure,
        actual: more.actual,
        expected: more.expected,
      }),
    );
  };
  checkWithin(entry, add);
  return { entry, remarks };
}

type Add = (
  severity: Severity,
  path: Path,
  rule: string,
  found: string,
  cure: string,
  more?: { actual?: string; expected?: readonly string[]; at?: 'key' | 'value' },
) => void;

/** How an entry refers to what it uses: shelf id, lot, or the name of what is described in place. */
function usedNames(entry: Entry): Set<string> {
  const names = new Set<string>();
  const take = (use: Entry['reagents'][number]) => {
    if (use.lot !== undefined) names.add(use.lot);
    if (typeof use.reagent === 'string') names.add(use.reagent);
    else if (use.reagent !== undefined) names.add(use.reagent.name);
  };
  entry.reagents.forEach(take);
  return names;
}

/** Checks that need no more than the entry itself. */
function checkWithin(entry: Entry, add: Add): void {
  const ids = new Map<string, number>();
  for (const [index, { sample }] of entry.samples.entries()) {
    const first = ids.get(sample.toLowerCase());
    if (first !== undefined) {
      const before = entry.samples[first]?.sample ?? '';
      add(
        'error',
        ['samples', index, 'sample'],
        'duplicate-sample',
        before === sample
          ? `There are two samples ${sample}.`
          : `Samples ${before} and ${sample} differ only in capitals.`,
        'Give each sample an id of its own; its address ends in it.',
        { actual: sample },
      );
    } else ids.set(sample.toLowerCase(), index);
  }
  const samples = entry.samples.map(({ sample }) => sample);
  const knowsSample = (sample: string, path: Path) => {
    if (samples.includes(sample)) return;
    const near = nearest(sample, samples);
    add(
      'error',
      path,
      'unknown-sample',
      `There is no sample ${sample} in this entry.`,
      near !== undefined && near !== sample
        ? `Did you mean ${near}?`
        : samples.length > 0
          ? `Its samples are ${samples.join(', ')}.`
          : 'This entry has no samples yet.',
      { actual: sample, expected: samples },
    );
  };
  const used = usedNames(entry);
  const knowsUse = (name: string, path: Path, key: string, known: ReadonlySet<string>) => {
    if (known.has(name)) return;
    const near = nearest(name, [...known]);
    add(
      'error',
      path,
      'not-used',
      `\`${key}\` names '${name}', which is not among what the entry uses.`,
      near !== undefined
        ? `Did you mean ${near}?`
        : known.size > 0
          ? `The entry uses ${[...known].join(', ')}.`
          : 'Put it among the entry’s `reagents` first.',
      { actual: name, expected: [...known] },
    );
  };
  const heatable = (of: string, path: Path, known: ReadonlySet<string>) => {
    if (of === 'product' || of === 'mixture' || known.has(of)) return;
    const near = nearest(of, ['product', 'mixture', ...known]);
    add(
      'warning',
      path,
      'heating-of',
      `\`of\` names '${of}', which is neither product, mixture nor anything the entry uses.`,
      near !== undefined ? `Did you mean ${near}?` : 'Write product, mixture or the id of a reagent.',
      { actual: of, expected: ['product', 'mixture', ...known] },
    );
  };
  for (const [index, heating] of entry.heating.entries()) heatable(heating.of, ['heating', index, 'of'], used);
  for (const [index, sample] of entry.samples.entries()) {
    const path: Path = ['samples', index];
    const here = new Set([...used, ...usedNames({ ...entry, reagents: sample.add ?? [] })]);
    sample.omit?.forEach((name, at) => knowsUse(name, [...path, 'omit', at], 'omit', used));
    sample.change?.forEach((use, at) =>
      knowsUse(
        use.lot ?? (typeof use.reagent === 'string' ? use.reagent : (use.reagent?.name ?? '')),
        [...path, 'change', at, use.lot === undefined ? 'reagent' : 'lot'],
        'change',
        used,
      ),
    );
    sample.heating?.forEach((heating, at) => heatable(heating.of, [...path, 'heating', at, 'of'], here));
    const original = sample['replicate-of'];
    if (original === sample.sample)
      add(
        'error',
        [...path, 'replicate-of'],
        'unknown-sample',
        `Sample ${sample.sample} is said to repeat itself.`,
        'Name the sample that it repeats.',
        { actual: original },
      );
    else if (original !== undefined) knowsSample(original, [...path, 'replicate-of']);
    if (sample.photo !== undefined && sample['photo-shows'] === undefined)
      add(
        'warning',
        [...path, 'photo'],
        'photo-without-words',
        `The photo of sample ${sample.sample} has no words for those who can’t see it.`,
        'Add photo-shows: with a sentence on what is seen.',
      );
  }
  for (const [index, incident] of entry.incidents.entries()) {
    if (incident.sample !== undefined) knowsSample(incident.sample, ['incidents', index, 'sample']);
  }
  for (const [index, video] of entry.videos.entries()) {
    for (const [at, moment] of video.moments.entries()) {
      const before = video.moments[at - 1];
      if (before && secondsOf(moment.at) <= secondsOf(before.at)) {
        add(
          'error',
          ['videos', index, 'moments', at, 'at'],
          'moment-order',
          `${moment.at} does not come after ${before.at}.`,
          'Put the moments in the order in which they are seen.',
          { actual: moment.at },
        );
      }
    }
  }
  if (entry.withdrawn !== undefined && entry.status !== 'withdrawn')
    add(
      'warning',
      ['withdrawn'],
      'withdrawn',
      `\`withdrawn\` gives a reason, but the status is ${entry.status}.`,
      'Write status: withdrawn, or take the reason out.',
      { at: 'key' },
    );
  if (entry.withdrawn === undefined && entry.status === 'withdrawn')
    add(
      'note',
      ['status'],
      'withdrawn',
      'The entry is withdrawn and does not say why.',
      'Add withdrawn: with a sentence on why.',
    );
  const named = /(?:^|\/)0*(\d+)[^/]*$/.exec(entry.file)?.[1];
  if (named !== undefined && Number(named) !== entry.number && Number(named) < 10_000)
    add(
      'warning',
      ['number'],
      'number-and-file',
      `The number is ${entry.number}, but the file’s name begins with ${named}.`,
      'Rename the file, so that it is found by its number.',
      { actual: String(entry.number) },
    );
}

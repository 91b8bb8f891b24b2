// What the page that compares samples is told of each entry's samples, below /compare/: its strip as it is painted
// elsewhere, its curve as a path, its figures as words.
import { toHtml } from 'hast-util-to-html';
import { bestYieldWords } from '../../templates/parts/findings.js';
import { apartWords, samplesByEntry } from '../../templates/parts/listed.js';
import { sampleName } from '../../templates/parts/strips.js';
import { straight, type Point } from '../../templates/pictures/hand.js';
import { swatchNotes, swatchStrip } from '../../templates/pictures/swatch-strip.js';
import type { JournalModel, SampleRow } from '../crosslinks/model.js';
import type { ReckonedEntry } from '../reckoning/contracts.js';
import { liesAbove100 } from '../reckoning/figures.js';
import type { MadeFile, SiteFile } from './assets.js';

/** The field that curves are drawn on: 400 to 700 nm across, all light at the top. */
export const curveField = { width: 300, height: 160, from: 400, to: 700 } as const;

/** One sample as it is compared. */
export interface ComparedSample {
  readonly sample: string;
  readonly differs?: string;
  readonly pigment?: string;
  readonly family?: string;
  /** The painted strip as HTML, and what it leaves open. */
  readonly strip?: string;
  readonly notes: readonly string[];
  /** L*, a*, b* in daylight (D65), and for which observer. */
  readonly lab?: readonly [number, number, number];
  readonly observer?: number;
  /** The colour stands for the reading only roughly. */
  readonly roughly?: true;
  /** Path on `curveField`. */
  readonly curve?: string;
  readonly yield?: string;
  readonly covering?: string;
  readonly lamplight?: string;
}

function pathOf(curve: NonNullable<SampleRow['curve']> = []): string | undefined {
  const { width, height, from, to } = curveField;
  const points = curve.filter(({ nm }) => nm >= from && nm <= to);
  if (points.length < 2) return undefined;
  return straight(
    points.map(({ nm, r }): Point => [((nm - from) * width) / (to - from), height * (1 - r)]),
    'M',
  );
}

function yieldOf({ sample, amounts }: SampleRow): string | undefined {
  const percent = amounts?.percentYield;
  if (percent === undefined) return undefined;
  const { text, value } = percent;
  const over = liesAbove100(percent);
  return over ? bestYieldWords({ samples: [sample], text, percent: Number(value), over }) : text;
}

function comparedSample(row: SampleRow, curve: SampleRow['curve']): ComparedSample {
  const { sample, pigment, family, appearance } = row;
  const swatch = appearance?.swatch;
  return {
    sample,
    differs: apartWords(row),
    pigment,
    family,
    strip: swatch && toHtml(swatchStrip(swatch, sampleName(row, `${row.entry.number}/${sample}`))),
    notes: swatch ? swatchNotes(swatch) : [],
    lab: appearance?.lab,
    observer: appearance?.lab && (appearance.observer ?? 10),
    roughly: appearance?.labApproximate || swatch?.approximate ? true : undefined,
    curve: pathOf(curve),
    yield: yieldOf(row),
    covering: appearance?.opacity?.word,
    lamplight: appearance?.lampMove?.text,
  };
}

/** What the page is told of the samples of an entry. */
export function comparedText(rows: readonly SampleRow[], { appearance }: Pick<ReckonedEntry, 'appearance'>): string {
  const { number, title, date, status } = rows[0]!.entry;
  const curveOf = (row: SampleRow): SampleRow['curve'] =>
    appearance.samples.find(({ sample }) => sample === row.sample)?.curve;
  return JSON.stringify({ number, title, date, status, samples: rows.map((row) => comparedSample(row, curveOf(row))) });
}

/** `/compare/14.json` of each entry that has samples, with what it is made of. */
export const comparedMade = (model: JournalModel): readonly (Omit<MadeFile, 'make'> & { readonly number: number })[] =>
  [...samplesByEntry(model)].map(([number, rows]) => ({ number, address: `/compare/${number}.json`, inputs: rows }));

export function comparedFiles(model: JournalModel): SiteFile[] {
  const byNumber = new Map(model.entries.map((one) => [one.entry.number, one]));
  return [...samplesByEntry(model)].map(([number, rows]) => ({
    address: `/compare/${number}.json`,
    content: comparedText(rows, byNumber.get(number)!),
  }));
}

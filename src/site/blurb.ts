// Text for a video's description: the answer first, links that stay, one honest line of hazards, chapters.
import { yieldsOf } from '../crosslinks/best-yield.js';
import type { JournalModel, SampleRow } from '../crosslinks/model.js';
import { othersDifferShort } from '../reckoning/label.js';
import { isDraft, type Entry } from '../journal/entry.js';
import { noEntry } from '../journal/no-entry.js';
import type { Status } from '../journal/schema.js';
import { secondsOf } from '../journal/values.js';
import { bad, good, type Outcome } from '../outcome.js';
import type { ForeseenInEntry, ReckonedEntry } from '../reckoning/contracts.js';
import { bestYieldWords, listed } from '../../templates/parts/findings.js';
import { apartWords, samplesByEntry } from '../../templates/parts/listed.js';
import { splitAddress } from './context.js';

export interface Blurb {
  readonly address: string;
  readonly text: string;
  readonly chapters: Chapters;
  /** Parts that were left out to keep within a length, by their names. */
  readonly leftOut: readonly PartName[];
}

export interface BlurbAsked {
  /** Which of the entry's videos, from 1; default 1. */
  readonly video?: number;
  /** Most characters that the text may have; parts are left out, in the order of `leavesFirst`, until it fits. */
  readonly length?: number;
  /** A comment's length instead of a description's: title, answer, address, hazards. */
  readonly comment?: boolean;
}

/** Moments of a video as a host's chapters, or why a host would not take them as such. */
export interface Chapters {
  readonly lines: readonly string[];
  readonly taken: boolean;
  readonly why?: string;
}

/** One row of the table of addresses: a video, and where what it shows is written up for good. */
export interface VideoAddress {
  readonly entry: number;
  readonly title: string;
  readonly video: string;
  readonly address: string;
  readonly samples: readonly { readonly sample: string; readonly address: string }[];
}

/**
 * What may be left out where room is short, in this order. The hazards always stay; their line ends in the address
 * under which they are told in full, with the cautions, of which the shortest stays too.
 */
export const leavesFirst = [
  'pigment',
  'earlier entries',
  'support',
  'series',
  'samples',
  'chapters',
  'address',
  'cautions',
  'answer',
] as const;
type Dispensable = (typeof leavesFirst)[number];
export type PartName = Dispensable | 'hazards';

interface Part {
  readonly name: PartName;
  readonly text: string;
}

const fewestChapters = 3;
const shortestChapter = 10;

/**
 * Moments as chapters. Hosts take them where they begin at 0:00, are at least three and stand ten seconds apart or more
 * (common practice, no source); a beginning is added where none is named.
 * @example chaptersOf([{ at: '3:40', shows: 'first precipitate' }]).why // why these are too few
 */
export function chaptersOf(moments: readonly { readonly at: string; readonly shows: string }[]): Chapters {
  if (moments.length === 0) return { lines: [], taken: false, why: 'the entry names no moments of this video' };
  const sorted = [...moments].sort((a, b) => secondsOf(a.at) - secondsOf(b.at));
  const all = secondsOf(sorted[0]!.at) === 0 ? sorted : [{ at: '0:00', shows: 'Beginning' }, ...sorted];
  const lines = all.map(({ at, shows }) => `${at} ${shows}`);
  const close = all.findIndex(
    (one, index) => index > 0 && secondsOf(one.at) - secondsOf(all[index - 1]!.at) < shortestChapter,
  );
  if (close > 0)
    return {
      lines,
      taken: false,
      why: `${all[close - 1]!.at} and ${all[close]!.at} are less than ${shortestChapter} seconds apart`,
    };
  if (all.length < fewestChapters)
    return {
      lines,
      taken: false,
      why: `there are ${all.length}, the beginning included, and ${fewestChapters} are needed`,
    };
  return { lines, taken: true };
}

type At = (address: string) => string;

const addressOf =
  (model: JournalModel): At =>
  (address) => {
    const { origin, base } = splitAddress(model.journal.settings.address);
    return `${origin}${base}${address}`;
  };

/** `toxic gas: chlorine (higher metal oxide with hydrochloric acid)` */
export function foreseenWords({ consequence, gases = [], title }: ForeseenInEntry): string {
  const names = gases.map(({ name }) => name).join(', ');
  return `${consequence}${names === '' ? '' : `: ${names}`} (${title})`;
}

/** Hazards in one line: nothing softened, what is unknown said, and where all of it stands. */
function hazardLine({ dangers, entry }: ReckonedEntry, at: At): string {
  const { box, foreseen = [] } = dangers;
  const differ = othersDifferShort(box);
  const grave = foreseen.filter(({ severity }) => severity !== 'note');
  const said = [
    ...(box.signalWord ? [`signal word ${box.signalWord} (${box.statements.map(({ code }) => code).join(' ')})`] : []),
    ...(differ === undefined ? [] : [differ]),
    ...(grave.length > 0 ? [`foreseen ${grave.map(foreseenWords).join(', ')}`] : []),
    ...(box.unknown.length > 0 ? [`no hazard data for ${box.unknown.join(', ')}, to be treated as hazardous`] : []),
  ];
  const what = said.length > 0 ? said.join('; ') : 'none is named here, which does not make it safe';
  return `Hazards: ${what}. In full: ${at(`/${entry.number}/`)}`;
}

const followNot =
  'not a procedure to follow: read the safety data sheets, keep to your local rules, ' +
  'and leave to licensed practice what is licensed.';

/** What a description is of: what was done, what is not done yet, what is under way. */
const describedAs: Readonly<Partial<Record<Status, string>>> = {
  planned: 'A plan of what is not done yet, and',
  running: 'A record of what is being done,',
};
/** That it is no procedure to follow, in the words for what is planned, running or done. */
export const recordWords = ({ status }: Entry): string =>
  `${describedAs[status] ?? 'A record of what was done,'} ${followNot}`;

/** One line a sample; repeats of one recipe have one yield, their mean, which stands with the first of them. */
function sampleLines(rows: readonly SampleRow[], at: At): readonly string[] {
  const yields = yieldsOf(rows.flatMap(({ amounts }) => amounts ?? []));
  return rows.map((row) => {
    const apart = apartWords(row);
    const best = yields.find(({ samples }) => samples[0] === row.sample);
    const of = best && best.samples.length > 1 ? ` of ${listed(best.samples)}` : '';
    const words =
      best &&
      `, ${bestYieldWords(best)
        .replace(/^best /, '')
        .replace(/^yield/, `yield${of}`)}`;
    return (
      `Sample ${row.sample}${apart === undefined ? '' : ` (${apart})`}${words ?? ''}: ` +
      at(`/${row.entry.number}/#${row.sample}`)
    );
  });
}

function answerOf({ entry }: ReckonedEntry): string {
  const undone: Readonly<Record<string, string>> = {
    planned: 'Planned, not yet done.',
    running: 'Not finished yet.',
    failed: 'It failed: this did not give what was wanted.',
    abandoned: 'Not done: given up.',
    withdrawn: 'Withdrawn: its results should not be used.',
  };
  return [entry.title, [undone[entry.status], entry.question, entry.answer].filter(Boolean).join(' ')]
    .filter(Boolean)
    .join('\n');
}

/** Where it stands; a draft has its address already, and no page there. */
const addressLine = (entry: Entry, address: string): string =>
  isDraft(entry)
    ? `Plan and amounts, at this address once the entry is published: ${address}`
    : `Write-up, amounts and results: ${address}`;

/** Every part of a description, in the order in which it is read. */
function partsOf(model: JournalModel, reckoned: ReckonedEntry, chapters: Chapters): readonly Part[] {
  const at = addressOf(model);
  const { entry, elements } = reckoned;
  const { settings } = model.journal;
  const links = model.links.get(entry.number);
  const earlier = [
    ...(links?.follows ?? []).map((one) => `Follows ${one.title}: ${at(`/${one.number}/`)}`),
    ...(links?.repeats ?? []).map((one) => `Repeats ${one.title}: ${at(`/${one.number}/`)}`),
  ];
  const series = elements.map((symbol) => {
    const name = model.series.find((one) => one.element === symbol)?.name ?? symbol;
    return `Series: ${name} across the colours: ${at(`/series/${symbol}/`)}`;
  });
  const pigment = entry.pigment
    ? 'Pigment: ' +
      `${[entry.pigment.name, entry.pigment.formula, entry.pigment['colour-index']].filter(Boolean).join(', ')}`
    : '';
  const support = settings['support-link'];
  const parts: Part[] = [
    { name: 'answer', text: answerOf(reckoned) },
    { name: 'address', text: addressLine(entry, at(`/${entry.number}/`)) },
    {
      name: 'samples',
      text: sampleLines(samplesByEntry(model).get(entry.number) ?? [], at).join('\n'),
    },
    { name: 'hazards', text: hazardLine(reckoned, at) },
    { name: 'cautions', text: [recordWords(entry), ...settings.cautions].join('\n') },
    { name: 'chapters', text: chapters.lines.join('\n') },
    { name: 'series', text: series.join('\n') },
    { name: 'earlier entries', text: earlier.join('\n') },
    { name: 'pigment', text: pigment },
    { name: 'support', text: support ? `${support.name}: ${support.url}` : '' },
  ];
  return parts.filter(({ text }) => text !== '');
}

const joined = (parts: readonly Part[]): string => parts.map(({ text }) => text).join('\n\n');
const lengthOf = (text: string): number => [...text].length;

/** What stands for the cautions where there is no room for them. */
const shortCaution = 'A record, not instructions: safety data sheets come first.';

/** The parts without one; a short caution stands for the cautions. */
const without = (parts: readonly Part[], name: PartName): readonly Part[] =>
  parts.flatMap((part): readonly Part[] => {
    if (part.name !== name) return [part];
    return name === 'cautions' ? [{ name, text: shortCaution }] : [];
  });

/** The parts that fit in a length; whole ones are left out, never a piece of one. */
function fitted(parts: readonly Part[], length: number | undefined): Outcome<Pick<Blurb, 'text' | 'leftOut'>> {
  let kept = parts;
  const leftOut: PartName[] = [];
  for (const name of leavesFirst) {
    if (length === undefined || lengthOf(joined(kept)) <= length) break;
    if (!kept.some((part) => part.name === name)) continue;
    kept = without(kept, name);
    leftOut.push(name);
  }
  const text = joined(kept);
  if (length === undefined || lengthOf(text) <= length) return good({ text, leftOut });
  return bad({
    code: 'too-short',
    message: `Hazards and a caution take ${lengthOf(text)} characters, and ${length} are allowed.`,
    cure: `They are never cut: allow at least ${lengthOf(text)}.`,
  });
}

const commentParts = new Set<PartName>(['answer', 'address', 'hazards']);

/**
 * The blurb of an entry.
 * Errors: `no-entry`, `no-video`, and `too-short` where what must stay does not fit in the length asked for.
 */
export function blurb(
  model: JournalModel,
  number: number,
  { video = 1, length, comment }: BlurbAsked = {},
): Outcome<Blurb> {
  const reckoned = model.entries.find(({ entry }) => entry.number === number);
  if (!reckoned) return bad(noEntry(number, model.journal));
  const { videos } = reckoned.entry;
  if (videos.length > 0 && !videos[video - 1])
    return bad({
      code: 'no-video',
      message: `Entry ${number} has ${videos.length} ${videos.length === 1 ? 'video' : 'videos'}.`,
      cure: `Give --video a number from 1 to ${videos.length}.`,
    });
  const chapters = chaptersOf(videos[video - 1]?.moments ?? []);
  const all = partsOf(model, reckoned, chapters);
  const fits = fitted(comment ? all.filter(({ name }) => commentParts.has(name)) : all, length);
  return fits.ok ? good({ address: addressOf(model)(`/${number}/`), chapters, ...fits.value }) : fits;
}

/** Every video of the journal with the addresses that its description can link to, by entry. */
export function videoAddresses(model: JournalModel): readonly VideoAddress[] {
  const at = addressOf(model);
  const samples = samplesByEntry(model);
  return [...model.entries]
    .sort((a, b) => a.entry.number - b.entry.number)
    .flatMap(({ entry }) =>
      entry.videos.map((video) => ({
        entry: entry.number,
        title: entry.title,
        video: video.url,
        address: at(`/${entry.number}/`),
        samples: (samples.get(entry.number) ?? []).map(({ sample }) => ({
          sample,
          address: at(`/${entry.number}/#${sample}`),
        })),
      })),
    );
}

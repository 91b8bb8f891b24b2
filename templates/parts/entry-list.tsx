// Entries and samples as they stand in lists: number, date, title, question, painted swatches, best yield.
import type { Element, ElementContent } from 'hast';
import type { EntryLink, SampleRow } from '../../src/crosslinks/model.js';
import { longDate } from '../dates.js';
import { href, type SiteContext } from '../frame.js';
import { mappedMark, swatchStrip } from '../pictures/swatch-strip.js';
import { statusMark, statusWord } from './status.js';

export interface ListedEntry {
  readonly entry: EntryLink;
  readonly question?: string;
  readonly pigment?: string;
  readonly samples: readonly SampleRow[];
}

/** How many entries there are, in words. @example entryCount({ entries: [one] }) // '1 entry' */
export const entryCount = ({ entries: { length } }: { readonly entries: readonly unknown[] }): string =>
  `${length} ${length === 1 ? 'entry' : 'entries'}`;

/** What is drawn of a sample's colour in lists, and whether it was moved; nothing if it is not known. */
function swatchOf({ appearance }: SampleRow): ElementContent[] | null {
  const swatch = appearance?.swatch;
  return swatch
    ? [swatchStrip(swatch), ...(swatch.mapped ? [{ type: 'text' as const, value: mappedMark }] : [])]
    : null;
}

/**
 * The small swatch of a sample, linked to it (by its id alone on its own page), or nothing if its colour is not
 * known.
 */
export function sampleSwatch(site: SiteContext, row: SampleRow, onItsPage = false): Element | null {
  const drawn = swatchOf(row);
  if (!drawn) return null;
  return (
    <a
      class="sample-swatch"
      href={onItsPage ? `#${row.sample}` : href(site, `/${row.entry.number}/#${row.sample}`)}
      aria-label={
        onItsPage
          ? `Sample ${row.sample}`
          : `Sample ${row.sample} of entry ${row.entry.number}${row.pigment ? `, ${row.pigment}` : ''}`
      }
    >
      {drawn}
    </a>
  ) as Element;
}

/** The same where the sample's name beside it is the link. */
export function plainSwatch(row: SampleRow): Element | null {
  const drawn = swatchOf(row);
  return drawn && ((<span class="sample-swatch">{drawn}</span>) as Element);
}

/** A link to an entry: `14 Malachite green, cold against warm`, `31 A black … (not done)`. */
export function entryLink(site: SiteContext, entry: EntryLink): Element {
  const word = statusWord(entry);
  return (
    <a href={href(site, `/${entry.number}/`)}>
      <b>{String(entry.number)}</b>
      {` ${entry.title}${word === '' ? '' : ` (${word})`}`}
    </a>
  ) as Element;
}

/** One entry of a list, and what was folded into it. */
function entryItem(
  site: SiteContext,
  { entry, question, pigment, samples }: ListedEntry,
  level: 2 | 3,
  folded: readonly ListedEntry[] = [],
): Element {
  const link = <a href={href(site, `/${entry.number}/`)}>{entry.title}</a>;
  return (
    <li>
      <p class="entry-list-number" aria-hidden="true">
        {String(entry.number)}
      </p>
      <div>
        {level === 2 ? <h2>{link}</h2> : <h3>{link}</h3>}
        <p class="kicker">
          <span class="no">{`No. ${entry.number}, `}</span>
          <time dateTime={entry.date}>{longDate(entry.date)}</time>
          {pigment ? `, ${pigment}` : ''}
          {statusMark(entry) ? <strong>{`, ${statusMark(entry)}`}</strong> : ''}
        </p>
        {question ? <p class="question">{question}</p> : null}
        {folded.length > 0 ? (
          <details class="repeats">
            <summary>{`${folded.length} more of ${pigment ?? 'it'} this year`}</summary>
            <ul>
              {folded.map((one) => (
                <li>
                  {entryLink(site, one.entry)}
                  <span class="quiet small">{`, ${longDate(one.entry.date)}`}</span>
                  {statusMark(one.entry) ? <strong class="small">{`, ${statusMark(one.entry)}`}</strong> : ''}
                </li>
              ))}
            </ul>
          </details>
        ) : null}
      </div>
      <div class="entry-list-swatches">{samples.map((row) => sampleSwatch(site, row))}</div>
    </li>
  ) as Element;
}

/** A list of entries, each with its swatches, under a heading of the level above `level`. */
export const entryList = (site: SiteContext, entries: readonly ListedEntry[], level: 2 | 3 = 3): Element =>
  (
    <ol class="entry-list" reversed={false}>
      {entries.map((one) => entryItem(site, one, level))}
    </ol>
  ) as Element;

/** Entries of one pigment: the first of the list, then the others of it. */
function byPigment(entries: readonly ListedEntry[]): [ListedEntry, ...ListedEntry[]][] {
  const groups = new Map<string, [ListedEntry, ...ListedEntry[]]>();
  for (const one of entries) {
    const key = one.pigment ?? `${one.entry.number}`;
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return [...groups.values()];
}

/** The years of entries, in the order in which they come. */
export const yearsOf = (entries: readonly ListedEntry[]): string[] => [
  ...new Set(entries.map(({ entry }) => entry.date.slice(0, 4))),
];

/** Entries under a heading a year, those of one pigment folded into the first. */
export const entriesByYear = (site: SiteContext, entries: readonly ListedEntry[]): Element[] =>
  yearsOf(entries).map(
    (year) =>
      (
        <section aria-labelledby={`y${year}`}>
          <h2 id={`y${year}`}>{year}</h2>
          <ol class="entry-list" reversed={false}>
            {byPigment(entries.filter(({ entry }) => entry.date.startsWith(year))).map(([first, ...folded]) =>
              entryItem(site, first, 3, folded),
            )}
          </ol>
        </section>
      ) as Element,
  );

// The way through the years: every entry as a mark of its colours, by month, newest year first.
import type { Element, Root } from 'hast';
import { monthName } from './dates.js';
import { href, page, type SiteContext } from './frame.js';
import type { ListedEntry } from './parts/entry-list.js';
import { statusMark } from './parts/status.js';
import { paint } from './pictures/hand.js';
import { shape } from './pictures/shapes.js';

/** An entry on the timeline: all that its mark shows. */
export interface TimelineMark {
  readonly number: number;
  readonly title: string;
  readonly date: string;
  /** What became of the work, where it is not simply finished. */
  readonly state?: string;
  /** Masstones of its samples. */
  readonly colours: readonly string[];
}

export const timelineMarks = (entries: readonly ListedEntry[]): TimelineMark[] =>
  entries.map(({ entry, samples }) => ({
    number: entry.number,
    title: entry.title,
    date: entry.date,
    ...(statusMark(entry) && { state: statusMark(entry) }),
    colours: samples.flatMap(({ appearance }) => paint(appearance?.swatch?.hex) ?? []),
  }));

/** Breadth of a mark, and so many colours of one entry at most. */
const mark = { width: 40, height: 24, most: 6 } as const;

/** The colours of an entry side by side; an empty frame where none is known. */
function colours({ colours: all }: TimelineMark): Element {
  const shown = all.slice(0, mark.most);
  const each = mark.width / Math.max(1, shown.length);
  const blocks = shown.map((fill, at) => shape('rect', { x: at * each, width: each, height: mark.height, fill }));
  const empty = shape('rect', {
    x: 0.5,
    y: 0.5,
    width: mark.width - 1,
    height: mark.height - 1,
    fill: 'none',
    stroke: 'currentColor',
    strokeDashArray: '3 2',
  });
  return shape(
    'svg',
    {
      className: ['dab', 'mark'],
      viewBox: `0 0 ${mark.width} ${mark.height}`,
      preserveAspectRatio: 'none',
      ariaHidden: 'true',
    },
    shown.length > 0 ? blocks : [empty],
  );
}

const markLink = (site: SiteContext, one: TimelineMark): Element =>
  (
    <li>
      <a href={href(site, `/${one.number}/`)} title={`${one.number}: ${one.title}${one.state ? `, ${one.state}` : ''}`}>
        {colours(one)}
        <span aria-hidden="true">{String(one.number)}</span>
      </a>
    </li>
  ) as Element;

/** Marks by a part of their date, in the order in which they come. */
function grouped(marks: readonly TimelineMark[], length: number): [string, TimelineMark[]][] {
  const groups = new Map<string, TimelineMark[]>();
  for (const one of marks) {
    const key = one.date.slice(0, length);
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return [...groups];
}

const counted = (count: number): string => `${count} ${count === 1 ? 'entry' : 'entries'}`;

function year(site: SiteContext, [name, marks]: [string, TimelineMark[]]): Element {
  return (
    <section aria-labelledby={`y${name}`}>
      <h2 id={`y${name}`}>
        {name} <span class="small quiet">{counted(marks.length)}</span>
      </h2>
      <ul class="months">
        {grouped(marks, 7).map(([month, own]) => (
          <li>
            <h3 id={`m${month}`}>{monthName(month)}</h3>
            <ul class="marks">{own.map((one) => markLink(site, one))}</ul>
          </li>
        ))}
      </ul>
    </section>
  ) as Element;
}

/** Links to the years of a page, where there are several. */
export function yearLinks(names: readonly string[]): Element | null {
  if (names.length < 2) return null;
  return (
    <nav class="years" aria-label="Years">
      <ul>
        {names.map((name) => (
          <li>
            <a href={`#y${name}`}>{name}</a>
          </li>
        ))}
      </ul>
    </nav>
  ) as Element;
}

export function timelinePage(site: SiteContext, marks: readonly TimelineMark[]): Root {
  const newestFirst = [...marks].sort((x, y) => y.date.localeCompare(x.date) || y.number - x.number);
  const years = grouped(newestFirst, 4);
  return page(site, {
    title: 'Timeline',
    description: 'Every entry by month, as the colours it gave.',
    address: '/timeline/',
    part: '/',
    swatches: true,
    main: [
      <h1>Timeline</h1>,
      <p>
        Every entry by month, as the colours it gave; an empty frame is one without a reading.{' '}
        <a href={href(site, '/entries/')}>The same as a list</a>.
      </p>,
      yearLinks(years.map(([name]) => name)),
      years.map((one) => year(site, one)),
    ].flat() as never,
  });
}

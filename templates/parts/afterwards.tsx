// What follows the work on an entry's page: what went wrong, waste, ideas, sources, related entries.
import type { Element, ElementContent } from 'hast';
import type { EntryLink, EntryLinks } from '../../src/crosslinks/model.js';
import type { Entry } from '../../src/journal/entry.js';
import { longDate } from '../dates.js';
import type { SiteContext } from '../frame.js';
import { entryLink } from './entry-list.js';

const list = (items: readonly (ElementContent | ElementContent[] | string)[], className?: string): Element =>
  (
    <ul class={className}>
      {items.map((item) => (
        <li>{item}</li>
      ))}
    </ul>
  ) as Element;

/** What was put right later, the newest last. */
export const correctionsOf = ({ corrections }: Entry): Element[] =>
  corrections.length === 0
    ? []
    : [
        (
          <ul class="corrections">
            {corrections.map(({ date, what }) => (
              <li>
                <time dateTime={date}>{longDate(date)}</time>
                {`: ${what}`}
              </li>
            ))}
          </ul>
        ) as Element,
      ];

export const incidentsOf = ({ incidents }: Entry): Element[] =>
  incidents.length === 0
    ? []
    : [
        (
          <ul class="incidents">
            {incidents.map((incident) => (
              <li>
                <p>
                  {incident.sample ? <b>{`Sample ${incident.sample}. `}</b> : null}
                  {incident.what}
                </p>
                {incident.learned ? (
                  <p>
                    <b>Learned. </b>
                    {incident.learned}
                  </p>
                ) : null}
              </li>
            ))}
          </ul>
        ) as Element,
      ];

export const wasteOf = ({ waste }: Entry): Element[] => (waste ? [(<p>{waste}</p>) as Element] : []);

export const ideasOf = ({ ideas }: Entry): Element[] => (ideas.length > 0 ? [list(ideas)] : []);

export const sourcesOf = ({ sources }: Entry): Element[] =>
  sources.length === 0
    ? []
    : [
        list(
          sources.map(({ cite, url }) =>
            url
              ? ((
                  <a href={url} rel="external">
                    {cite}
                  </a>
                ) as Element)
              : cite,
          ),
        ),
      ];

/** Every entry this one has to do with, once, with how. */
export function relatedTo(site: SiteContext, links: EntryLinks): Element[] {
  const known = new Map<number, { entry: EntryLink; how: string[] }>();
  const add = (entry: EntryLink, how: string): void => {
    const one = known.get(entry.number);
    if (one) one.how.push(how);
    else known.set(entry.number, { entry, how: [how] });
  };
  for (const entry of links.follows) add(entry, 'this follows it');
  for (const entry of links.repeats) add(entry, 'this repeats it');
  for (const { from, sample } of links.lotsUsed) add(from, `its sample ${sample} is used here`);
  for (const entry of links.followedBy) add(entry, 'follows this');
  for (const entry of links.repeatedBy) add(entry, 'repeats this');
  for (const { sample, by } of links.lotsTaken) add(by, `uses sample ${sample}`);
  for (const entry of links.mentionedBy) if (!known.has(entry.number)) add(entry, 'mentions this');
  if (known.size === 0) return [];
  const sorted = [...known.values()].sort((x, y) => x.entry.number - y.entry.number);
  return [
    list(
      sorted.map(({ entry, how }) => [
        entryLink(site, entry),
        (<span class="quiet">{`: ${how.join(', ')}`}</span>) as Element,
      ]),
      'links',
    ),
  ];
}

// Pages that gather one thing from all entries: incidents, ideas, elements.
import type { Element, ElementContent, Root } from 'hast';
import { toString } from 'hast-util-to-string';
import type { Gap, GapsAtHand } from '../src/crosslinks/gaps.js';
import type { IdeaRow, IncidentRow, Series } from '../src/crosslinks/model.js';
import { cautionLine, href, ownLanguage, page, type PageFrame, type SiteContext } from './frame.js';
import { leafAddress, leafLinks, type Leaf } from './leaves.js';
import { formulaWords } from './parts/formula.js';
import { entryLink } from './parts/entry-list.js';

export function incidentList(site: SiteContext, incidents: readonly IncidentRow[]): Element {
  return (
    <ul class="incidents">
      {incidents.map((incident) => (
        <li>
          <p>{incident.what}</p>
          {incident.learned ? (
            <p>
              <strong>Learned: </strong>
              {incident.learned}
            </p>
          ) : null}
          <p class="small">{entryLink(site, incident.entry)}</p>
        </li>
      ))}
    </ul>
  ) as Element;
}

/** How many incidents one leaf of their page shows. */
export const incidentsOnLeaf = 25;

export function incidentsPage(site: SiteContext, leaf: Leaf<IncidentRow>): Root {
  const incidents = leaf.items;
  return page(site, {
    title: leaf.number === 1 ? 'Incidents' : `Incidents, leaf ${leaf.number}`,
    description: 'What went wrong or nearly did, and what was learned.',
    address: leafAddress('/incidents/', leaf.number),
    main: [
      <h1>Incidents</h1>,
      <p>What went wrong or nearly did, and what was learned, gathered from every entry.</p>,
      cautionLine(),
      leafLinks(site, '/incidents/', leaf),
      incidents.length > 0 ? (
        incidentList(site, incidents)
      ) : (
        <p>None has been written down. That is not proof that none happened.</p>
      ),
      leafLinks(site, '/incidents/', leaf),
    ] as never,
  });
}

const enumerated = (links: readonly Element[]): ElementContent[] =>
  links.flatMap((link, at): ElementContent[] => (at > 0 ? [{ type: 'text', value: ', ' }, link] : [link]));

/** An idea with its number, where it comes from, and who took it up. */
function ideaItem(site: SiteContext, { number, idea, entry, takenUpBy, closed }: IdeaRow): Element {
  return (
    <li class="idea">
      <span class="idea-number">{String(number)}</span>
      <div>
        <p>{idea}</p>
        <p class="small">
          {entryLink(site, entry)}
          {takenUpBy.length > 0
            ? [
                closed ? ': answered in ' : ': taken up in ',
                ...enumerated(takenUpBy.map((one) => entryLink(site, one))),
              ]
            : null}
        </p>
      </div>
    </li>
  ) as Element;
}

const ideaList = (site: SiteContext, ideas: readonly IdeaRow[]): Element =>
  (<ul class="ideas">{ideas.map((one) => ideaItem(site, one))}</ul>) as Element;

const dangersOnPage = 4;

/** A pigment that the journal lacks: its dangers first, then what is at hand and what is not. */
function gapItem(site: SiteContext, gap: Gap): Element {
  const { pigment, formula, colourIndex, family, dangers, have, lack, tried } = gap;
  const more = dangers.length - dangersOnPage;
  return (
    <li>
      <p>
        <b>{pigment}</b> {formulaWords(formula)}
        {[colourIndex, family].map((part) => (part === undefined ? '' : `, ${part}`)).join('')}
      </p>
      <ul>
        {dangers.slice(0, dangersOnPage).map((sentence) => (
          <li>{sentence}</li>
        ))}
        {more > 0 ? <li>{`${more} more; masstone next tells them all.`}</li> : null}
      </ul>
      <p class="small">
        {have.length > 0
          ? [
              'On the shelf: ',
              ...enumerated(have.map((id) => (<a href={href(site, `/reagents/${id}/`)}>{id}</a>) as Element)),
              '. ',
            ]
          : 'Nothing of it is on the shelf. '}
        {lack.length > 0 ? `Missing: ${lack.join(', ')}. ` : 'Nothing is missing. '}
        {tried.length > 0
          ? [
              'Tried before: ',
              ...enumerated(
                tried.map((number) => (<a href={href(site, `/${number}/`)}>{`no. ${number}`}</a>) as Element),
              ),
              '.',
            ]
          : null}
      </p>
    </li>
  ) as Element;
}

/** How many ideas one leaf of their page shows. */
export const ideasOnLeaf = 40;

/** Ideas as their leaves show them: open ones first, each kind newest first. */
export function ideasInOrder(ideas: readonly IdeaRow[]): readonly IdeaRow[] {
  const newestFirst = [...ideas].sort(
    (a, b) => b.entry.date.localeCompare(a.entry.date) || b.entry.number - a.entry.number,
  );
  return [...newestFirst.filter((one) => !one.closed), ...newestFirst.filter((one) => one.closed)];
}

/** Open ideas by the year of the entry that had them; one year needs no heading. */
function ideasByYear(site: SiteContext, open: readonly IdeaRow[]): Element[] {
  const years = [...new Set(open.map(({ entry }) => entry.date.slice(0, 4)))];
  if (years.length < 2) return [ideaList(site, open)];
  return years.flatMap((year) => [
    (<h2 id={`y${year}`}>{year}</h2>) as Element,
    ideaList(
      site,
      open.filter(({ entry }) => entry.date.startsWith(year)),
    ),
  ]);
}

const gapList = (site: SiteContext, groups: readonly GapsAtHand[]): Element[] =>
  groups.length === 0
    ? []
    : [
        (<h2>What the series lack</h2>) as Element,
        (
          <p>
            Pigments that the trade knows and this journal has not made, set against its shelf, dangers first. A gap is
            no proposal, and nothing here is a procedure.
          </p>
        ) as Element,
        (
          <details class="behind">
            <summary>{`${groups.reduce((sum, { gaps }) => sum + gaps.length, 0)} pigments`}</summary>
            {groups.flatMap((group) => [
              <p>{group.words}</p>,
              <ul class="ideas gaps">{group.gaps.map((gap) => gapItem(site, gap))}</ul>,
            ])}
          </details>
        ) as Element,
      ];

export function ideasPage(site: SiteContext, leaf: Leaf<IdeaRow>, gaps: readonly GapsAtHand[]): Root {
  const [open, closed] = [leaf.items.filter((one) => !one.closed), leaf.items.filter((one) => one.closed)];
  const first = leaf.number === 1;
  return page(site, {
    title: first ? 'Ideas' : `Ideas, leaf ${leaf.number}`,
    description: 'Ideas for next time, from every entry, and what the series lack.',
    address: leafAddress('/ideas/', leaf.number),
    main: [
      <h1>Ideas for next time</h1>,
      cautionLine(),
      leafLinks(site, '/ideas/', leaf),
      ...(open.length > 0 ? ideasByYear(site, open) : []),
      first && open.length === 0 ? <p>None is open.</p> : null,
      closed.length > 0 ? (
        <details class="behind">
          <summary>{leaf.of === 1 ? `Answered: ${closed.length}` : `Answered, on this leaf: ${closed.length}`}</summary>
          {ideaList(site, closed)}
        </details>
      ) : null,
      ...(first ? gapList(site, gaps) : []),
      leafLinks(site, '/ideas/', leaf),
    ] as never,
  });
}

export function elementsPage(site: SiteContext, series: readonly Series[]): Root {
  return page(site, {
    title: 'Elements',
    description: 'Colour-giving elements and the colours this journal has made of each.',
    address: '/elements/',
    main: [
      <h1>Elements</h1>,
      <p>The elements that give the colour, and in which colours this journal has made them.</p>,
      <div tabIndex={0} role="region" aria-label="Elements">
        <table class="wide">
          <thead>
            <tr>
              <th scope="col">Element</th>
              <th scope="col">Symbol</th>
              <th scope="col">Colours made</th>
              <th scope="col">Known, not made</th>
              <th scope="col" class="number">
                Entries
              </th>
            </tr>
          </thead>
          <tbody>
            {series.map((one) => (
              <tr>
                <th scope="row">
                  <a href={href(site, `/series/${one.element}/`)}>{one.name}</a>
                </th>
                <td>{one.element}</td>
                <td>
                  {one.cells
                    .filter((cell) => cell.entries.length > 0)
                    .map((cell) => cell.family)
                    .join(', ')}
                </td>
                <td>
                  {[...new Set(one.cells.flatMap((cell) => cell.notMade.map((pigment) => pigment.names[0])))].join(
                    '; ',
                  )}
                </td>
                <td class="number">{String(one.entries.length)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>,
    ] as never,
  });
}

/** The first paragraph of a maker's words, cut after a word where it is long; nothing where there is none. */
function firstWords(body: readonly ElementContent[]): Pick<PageFrame, 'description'> {
  const first = body.find((one): one is Element => one.type === 'element' && one.tagName === 'p');
  const words = first ? toString(first).replaceAll(/\s+/g, ' ').trim() : '';
  if (words === '') return {};
  return { description: words.length <= 200 ? words : `${words.slice(0, 200).replace(/\s+\S*$/, '')} …` };
}

/** Another page of the journal: about, safety. */
export function otherPage(site: SiteContext, title: string, address: string, body: readonly ElementContent[]): Root {
  return page(site, {
    title,
    ...firstWords(body),
    address,
    main: [
      <article class="write-up" lang={ownLanguage(site)}>
        <h1>{title}</h1>
        {[...body]}
      </article>,
    ] as never,
  });
}

/** Where a page was before it had another name: who comes here is sent on, by hand where the browser does not. */
export function movedPage(site: SiteContext, from: string, to: string, title: string): Root {
  return page(site, {
    title: `${title} has moved`,
    address: from,
    noIndex: true,
    movedTo: to,
    main: [
      <h1>This page has moved</h1>,
      <p>
        It is at <a href={href(site, to)}>{title}</a> now.
      </p>,
    ] as never,
  });
}

/** A series or a colour that was published, and that no entry shows any more. */
export function emptiedPage(site: SiteContext, address: string): Root {
  const [, above = '', name = ''] = address.split('/');
  return page(site, {
    title: `Nothing of ${name} any more`,
    address,
    noIndex: true,
    main: [
      <h1>Nothing of {name} any more</h1>,
      <p>
        Entries that stood here were corrected or withdrawn. Here are all <a href={href(site, `/${above}/`)}>{above}</a>
        .
      </p>,
    ] as never,
  });
}

/** What a host shows for an address that is not there. */
export function missingPage(site: SiteContext): Root {
  return page(site, {
    title: 'No page here',
    address: '/404.html',
    noIndex: true,
    main: [
      <h1>No page here</h1>,
      <p>
        Entries keep their numbers for ever, so the address may be mistyped. <a href={href(site, '/search/')}>Search</a>
        , or start from the <a href={href(site, '/')}>newest entries</a>.
      </p>,
    ] as never,
  });
}

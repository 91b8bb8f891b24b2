// Pages that gather one thing from all entries: incidents, ideas, elements.
import type { Element, ElementContent, Root } from 'hast';
import type { IdeaRow, IncidentRow, Series } from '../src/crosslinks/model.js';
import { cautionLine, href, page, type SiteContext } from './frame.js';
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

export function incidentsPage(site: SiteContext, incidents: readonly IncidentRow[]): Root {
  return page(site, {
    title: 'Incidents',
    description: 'What went wrong or nearly did, and what was learned.',
    address: '/incidents/',
    main: [
      <h1>Incidents</h1>,
      <p>What went wrong or nearly did, and what was learned, gathered from every entry.</p>,
      cautionLine(),
      incidents.length > 0 ? (
        incidentList(site, incidents)
      ) : (
        <p>None has been written down. That is not proof that none happened.</p>
      ),
    ] as never,
  });
}

export function ideasPage(site: SiteContext, ideas: readonly IdeaRow[]): Root {
  return page(site, {
    title: 'Ideas',
    description: 'Ideas for next time, from every entry.',
    address: '/ideas/',
    main: [
      <h1>Ideas for next time</h1>,
      cautionLine(),
      ideas.length > 0 ? (
        <ul class="ideas">
          {ideas.map(({ entry, idea }) => (
            <li>
              <p>{idea}</p>
              <p class="small">{entryLink(site, entry)}</p>
            </li>
          ))}
        </ul>
      ) : (
        <p>None yet.</p>
      ),
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
      <div class="scroll" tabIndex={0} role="region" aria-label="Elements">
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

/** Another page of the journal: about, safety. */
export function otherPage(site: SiteContext, title: string, address: string, body: readonly ElementContent[]): Root {
  return page(site, {
    title,
    address,
    main: [
      <article class="write-up">
        <h1>{title}</h1>
        {[...body]}
      </article>,
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

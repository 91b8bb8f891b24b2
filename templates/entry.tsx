// The page of one entry, in the order in which a reader asks: what colour, did it work, may I trust it, how was it made
// and what nearly went wrong; then the apparatus.
import type { Element, Root } from 'hast';
import { cautionLine, href, inOwnLanguage, page, type SiteContext } from './frame.js';
import { correctionsOf, incidentsOf, ideasOf, relatedTo, sourcesOf, wasteOf } from './parts/afterwards.js';
import { amountsContent, lineageContent, stockContent } from './parts/amounts.js';
import { appearanceContent } from './parts/appearance.js';
import { citing } from './parts/cite.js';
import { colourMethodAddress } from './colour-method.js';
import { yieldMethodAddress } from './yield-method.js';
import { curvesAddress } from './entry-curves.js';
import { contentsList } from './parts/contents.js';
import type { EntryPageData } from './parts/entry-data.js';
import { entryShared } from './parts/entry-facts.js';
import { entryHead, statusBand } from './parts/entry-head.js';
import { entryLink } from './parts/entry-list.js';
import { dangersBeforeWork, foreseenInFull } from './parts/foreseen.js';
import { hazardBox } from './parts/hazard-box.js';
import { entryPart, type EntryPart } from './parts/heading.js';
import { contactSheet } from './parts/photograph.js';
import { heldWords, looksContent } from './parts/looks.js';
import { namesOf, stepsList } from './parts/steps.js';
import { videoLines } from './parts/video.js';
import { whatIfForm } from './what-if.js';

/** Anchors of the page's own parts, which no heading of a write-up may take. */
export const ownAnchors = [
  'main',
  'dangers',
  'steps',
  'write-up',
  'incidents',
  'corrections',
  'photographs',
  'colour',
  'amounts',
  'hazards',
  'waste',
  'ideas',
  'sources',
  'related',
  'cite',
] as const;

/** Where there are several, all of them stand side by side: those of the head and of the write-up too. */
function photographs(site: SiteContext, { reckoned, photographs: all }: EntryPageData): Element[] {
  return all.length < 2 ? [] : [contactSheet(site, all, reckoned.entry)];
}

function notesOnSamples({ reckoned: { entry, amounts } }: EntryPageData): Element[] {
  const names = namesOf(amounts.samples);
  const noted = entry.samples
    .map((one) => ({ sample: one.sample, words: [one.note, ...heldWords(one, names)].filter(Boolean).join(' ') }))
    .filter(({ words }) => words !== '');
  if (noted.length === 0) return [];
  return [
    (
      <ul>
        {noted.map(({ sample, words }) => (
          <li>
            <b>{`${sample}: `}</b>
            {words}
          </li>
        ))}
      </ul>
    ) as Element,
  ];
}

function dangers(site: SiteContext, { reckoned }: EntryPageData): EntryPart {
  return {
    id: 'dangers',
    title: 'Before mixing',
    className: 'foreseen',
    content: [
      ...dangersBeforeWork(reckoned.dangers, reckoned.entry),
      ...[whatIfForm(site, reckoned.entry.number)].filter((one) => one !== null),
      cautionLine(),
    ],
  };
}

/** Videos, and what is said of the samples, stand first in the write-up. */
function writeUp(site: SiteContext, data: EntryPageData): EntryPart[] {
  const { entry } = data.reckoned;
  const before = [...videoLines(entry, data.placedMoments), ...notesOnSamples(data)];
  if (data.writeUp.length === 0)
    return before.length > 0 ? [{ id: 'write-up', title: 'What was done', content: before }] : [];
  return data.writeUp.map(({ id, title, content }, at) => ({
    id,
    title,
    className: 'write-up',
    content: [...(at === 0 ? before : []), ...inOwnLanguage(site, content)],
  }));
}

function hazards(site: SiteContext, { reckoned }: EntryPageData): EntryPart {
  return {
    id: 'hazards',
    title: 'Hazards in full',
    className: 'foreseen',
    content: [
      hazardBox(reckoned.dangers.box, { pictogramsAt: site.pictograms, deferring: true }),
      ...foreseenInFull(reckoned.dangers),
      ...(site.cautions.length > 0 ? [(<p>{site.cautions.join(' ')}</p>) as Element] : []),
    ],
  };
}

function procedureOf({ reckoned: { entry, amounts } }: EntryPageData): Element[] {
  const list = stepsList(entry, amounts.samples);
  return list ? [list] : [];
}

/** The parts of the page below its head, in reading order; those without content are left out. */
function partsOf(site: SiteContext, data: EntryPageData): EntryPart[] {
  const { reckoned, links } = data;
  const { entry } = reckoned;
  const all: EntryPart[] = [
    dangers(site, data),
    { id: 'steps', title: 'The procedure, step by step', content: procedureOf(data) },
    ...writeUp(site, data),
    { id: 'incidents', title: 'Incidents, and what was learned', content: incidentsOf(entry) },
    { id: 'corrections', title: 'Corrections', className: 'minor', content: correctionsOf(entry) },
    { id: 'photographs', title: 'Photographs', content: photographs(site, data) },
    {
      id: 'colour',
      title: 'Colour',
      className: 'appearance',
      content: [
        ...looksContent(entry),
        ...appearanceContent(
          reckoned.appearance,
          href(site, colourMethodAddress),
          data.curves ? href(site, curvesAddress(entry.number)) : undefined,
        ),
      ],
    },
    {
      id: 'amounts',
      title: 'Amounts and yields',
      className: 'amounts',
      content: amountsContent(reckoned.amounts, href(site, yieldMethodAddress), data.said),
    },
    hazards(site, data),
    { id: 'waste', title: 'Waste', className: 'minor', content: wasteOf(entry) },
    { id: 'ideas', title: 'Ideas for next time', className: 'minor', content: ideasOf(entry) },
    {
      id: 'related',
      title: 'Related entries',
      className: 'minor',
      content: [...lineageContent(reckoned.amounts), ...relatedTo(site, links), ...stockContent(reckoned.amounts)],
    },
    { id: 'sources', title: 'Sources', className: 'minor', content: sourcesOf(entry) },
  ];
  return all.filter(({ content }) => content.length > 0);
}

function beforeAndAfter(site: SiteContext, data: EntryPageData): Element {
  const {
    reckoned: { entry },
    links,
  } = data;
  return (
    <nav class="previous-next" aria-label="Entries before and after">
      {links.previous ? <p class="previous">Previous: {entryLink(site, links.previous)}</p> : null}
      {links.next ? <p class="next">Next: {entryLink(site, links.next)}</p> : null}
      {data.benchSheet ? (
        <p class="sheets">
          <a href={href(site, `/${entry.number}/bench/`)}>Bench sheet to print</a>
        </p>
      ) : null}
      {(site.reading || site.labels) && entry.samples.length > 0 ? (
        <p class="sheets">
          <a href={href(site, `/${entry.number}/labels/`)}>Labels to print</a>
        </p>
      ) : null}
    </nav>
  ) as Element;
}

export function entryPage(site: SiteContext, data: EntryPageData): Root {
  const { entry } = data.reckoned;
  const parts = partsOf(site, data);
  const main = [
    <article class="entry">
      {statusBand(data)}
      {entryHead(site, data)}
      <div class="entry-body">
        {contentsList(parts)}
        <div class="entry-parts">
          {data.lead.length > 0 ? <div class="lead">{[...data.lead]}</div> : null}
          {parts.map(entryPart)}
          {citing(site, entry)}
        </div>
      </div>
    </article>,
    beforeAndAfter(site, data),
  ];
  return page(site, {
    title: entry.title,
    description: [entry.question, entry.answer].filter(Boolean).join(' ') || entry.pigment?.name,
    address: `/${entry.number}/`,
    ofEntry: true,
    shared: entryShared(site, data.reckoned),
    swatches: data.rows.some(({ appearance }) => appearance?.swatch !== undefined),
    main: main as never,
  });
}

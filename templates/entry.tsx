// The page of one entry: what, how dangerous, the samples, the write-up, the reckoning, and how it hangs together.
import type { Element, ElementContent, Root } from 'hast';
import type { EntryLink, EntryLinks, SampleRow } from '../src/crosslinks/model.js';
import type { ReckonedEntry } from '../src/reckoning/contracts.js';
import { longDate } from './dates.js';
import { cautionBox, fileHref, href, page, type SiteContext } from './frame.js';
import { amountsSection } from './parts/amounts.js';
import { appearanceSection } from './parts/appearance.js';
import { entryLink, sampleSwatch } from './parts/entry-list.js';
import { foreseenSection } from './parts/foreseen.js';
import type { Typeset } from '../src/chemistry/index.js';
import { formula } from './parts/formula.js';
import { familyBasisWords, familyRemark } from './parts/family-basis.js';
import { hazardBox } from './parts/hazard-box.js';
import { swatchFigure } from './parts/swatch-figure.js';

export interface EntryPageData {
  readonly reckoned: ReckonedEntry;
  readonly links: EntryLinks;
  readonly rows: readonly SampleRow[];
  /** The write-up, already turned from Markdown into a tree. */
  readonly body: readonly ElementContent[];
  readonly formula?: Typeset;
  /** Names of the colour-giving elements, by symbol. */
  readonly elementNames: Readonly<Record<string, string>>;
}

const statusSentence: Readonly<Record<string, string>> = {
  planned: 'Planned: nothing on this page has been done yet.',
  running: 'Running: this work is not finished, and what stands here may change.',
  withdrawn:
    'Withdrawn: this entry is kept so that links to it still lead somewhere, but its results should not be used.',
};

function facts(site: SiteContext, data: EntryPageData): Element {
  const { entry, appearance, elements } = data.reckoned;
  const pigment = entry.pigment;
  const family = appearance.family;
  const rows: [string, ElementContent | string | null][] = [
    ['Pigment', pigment?.name ?? null],
    ['Formula', data.formula ? formula(data.formula) : null],
    ['Colour Index', pigment?.['colour-index'] ?? null],
    [
      'Element',
      elements.length > 0
        ? ((
            <span>
              {elements.flatMap((symbol, at) => [
                at > 0 ? ', ' : '',
                data.elementNames[symbol] === undefined ? (
                  symbol
                ) : (
                  <a href={href(site, `/series/${symbol}/`)}>{data.elementNames[symbol]}</a>
                ),
              ])}
            </span>
          ) as Element)
        : null,
    ],
    [
      'Colour',
      family
        ? ((
            <span>
              <a href={href(site, `/colours/${family}/`)}>{family}</a>
              {familyBasisWords[appearance.familyBasis ?? 'declared']}
            </span>
          ) as Element)
        : null,
    ],
  ];
  return (
    <dl class="facts">
      {rows
        .filter(([, value]) => value !== null)
        .map(([name, value]) => (
          <div>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
    </dl>
  ) as Element;
}

function sampleCards(site: SiteContext, data: EntryPageData): Element | null {
  const { entry } = data.reckoned;
  if (entry.samples.length === 0) return null;
  const incidentsOf = (sample: string) => entry.incidents.filter((incident) => incident.sample === sample).length;
  return (
    <section class="samples" aria-labelledby="samples">
      <h2 id="samples">{entry.samples.length === 1 ? 'The sample' : 'The samples'}</h2>
      <div class="sample-cards">
        {entry.samples.map((sample) => {
          const row = data.rows.find((one) => one.sample === sample.sample);
          const swatch = row?.appearance?.swatch;
          const lab = row?.appearance?.lab;
          return (
            <article class="sample-card" id={sample.sample}>
              {swatch ? swatchFigure(swatch, `Sample ${sample.sample}`) : <p class="no-swatch">Colour not measured</p>}
              <h3>{`Sample ${sample.sample}`}</h3>
              {sample.differs ? <p class="differs">{sample.differs}</p> : null}
              <dl class="figures">
                {row?.amounts?.obtained ? (
                  <div>
                    <dt>Obtained</dt>
                    <dd>{row.amounts.obtained.text}</dd>
                  </div>
                ) : null}
                {row?.amounts?.percentYield ? (
                  <div>
                    <dt>Yield</dt>
                    <dd>{row.amounts.percentYield.text}</dd>
                  </div>
                ) : null}
                {row?.family ? (
                  <div>
                    <dt>Colour</dt>
                    <dd>
                      {row.family}
                      {familyRemark(row.familyBasis)}
                    </dd>
                  </div>
                ) : null}
                {lab ? (
                  <div>
                    <dt>{`L* a* b* (D65, ${row?.appearance?.observer ?? 10}°)`}</dt>
                    <dd>{lab.map((one) => one.toFixed(1).replace('-', '−')).join(', ')}</dd>
                  </div>
                ) : null}
              </dl>
              {sample.note ? <p class="small">{sample.note}</p> : null}
              {incidentsOf(sample.sample) > 0 ? (
                <p class="small">
                  <a href="#incidents">An incident happened with this sample</a>
                </p>
              ) : null}
              {sample.photo ? (
                <img
                  src={fileHref(site, sample.photo)}
                  alt={sample['photo-shows'] ?? `Photograph of sample ${sample.sample}`}
                  loading="lazy"
                />
              ) : null}
            </article>
          );
        })}
      </div>
    </section>
  ) as Element;
}

function section(id: string, title: string, children: ElementContent[]): Element {
  return (
    <section>
      <h2 id={id}>{title}</h2>
      {children}
    </section>
  ) as Element;
}

/** What followed from the work: incidents, waste, ideas. */
function afterwards(data: EntryPageData): ElementContent[] {
  const { entry } = data.reckoned;
  const parts: ElementContent[] = [];
  if (entry.incidents.length > 0) {
    parts.push(
      section('incidents', 'What went wrong, and what was learned', [
        (
          <ul class="incidents">
            {entry.incidents.map((incident) => (
              <li>
                <p>{incident.what}</p>
                {incident.learned ? (
                  <p>
                    <strong>Learned: </strong>
                    {incident.learned}
                  </p>
                ) : null}
              </li>
            ))}
          </ul>
        ) as Element,
      ]),
    );
  }
  if (entry.waste) parts.push(section('waste', 'Waste', [(<p>{entry.waste}</p>) as Element]));
  if (entry.ideas.length > 0)
    parts.push(
      section('ideas', 'Ideas for next time', [
        (
          <ul>
            {entry.ideas.map((idea) => (
              <li>{idea}</li>
            ))}
          </ul>
        ) as Element,
      ]),
    );
  return parts;
}

/** What stands beside the write-up: videos and sources. */
function beside(data: EntryPageData): ElementContent[] {
  const { entry } = data.reckoned;
  const parts: ElementContent[] = [];
  if (entry.videos.length > 0) {
    parts.push(
      section(
        'videos',
        'On video',
        entry.videos.map(
          (video) =>
            (
              <div class="video">
                <p>
                  <a href={video.url} rel="noopener external">
                    {video.title ?? entry.title}
                  </a>
                  {video.published ? <span class="quiet">{`, ${longDate(video.published)}`}</span> : null}
                </p>
                {video.moments.length > 0 ? (
                  <dl class="moments">
                    {video.moments.map((moment) => (
                      <div>
                        <dt>{moment.at}</dt>
                        <dd>{moment.shows}</dd>
                      </div>
                    ))}
                  </dl>
                ) : null}
              </div>
            ) as Element,
        ),
      ),
    );
  }
  if (entry.sources.length > 0) {
    parts.push(
      section('sources', 'Sources', [
        (
          <ul>
            {entry.sources.map((source) => (
              <li>
                {source.url ? (
                  <a href={source.url} rel="noopener external">
                    {source.cite}
                  </a>
                ) : (
                  source.cite
                )}
              </li>
            ))}
          </ul>
        ) as Element,
      ]),
    );
  }
  return parts;
}

/** Every entry this one has to do with, once, with how. */
function together(site: SiteContext, links: EntryLinks): Element | null {
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
  if (known.size === 0) return null;
  return (
    <section class="together" aria-labelledby="together">
      <h2 id="together">Related entries</h2>
      <ul class="links">
        {[...known.values()]
          .sort((x, y) => x.entry.number - y.entry.number)
          .map(({ entry, how }) => (
            <li>
              {entryLink(site, entry)}
              <span class="quiet">{`: ${how.join(', ')}`}</span>
            </li>
          ))}
      </ul>
    </section>
  ) as Element;
}

export function entryPage(site: SiteContext, data: EntryPageData): Root {
  const { reckoned, links } = data;
  const { entry } = reckoned;
  const painted = data.rows.slice(0, 8).flatMap((row) => sampleSwatch(site, row, true) ?? []);
  const main = [
    <header class={painted.length > 0 ? 'entry-head shown' : 'entry-head'}>
      <p class="entry-figure" aria-hidden="true">
        {String(entry.number)}
      </p>
      <div>
        <p class="kicker">
          {`No. ${entry.number}, `}
          <time dateTime={entry.date}>{longDate(entry.date)}</time>
          {`, ${entry.status}`}
        </p>
        <h1>{entry.title}</h1>
        {entry.question ? <p class="question">{entry.question}</p> : null}
        {entry.answer ? (
          <p class="answer">
            <strong>Answer: </strong>
            {entry.answer}
          </p>
        ) : null}
        {facts(site, data)}
        {entry.status === 'withdrawn' ? null : (
          <p class="sheets">
            <a href={href(site, `/${entry.number}/bench/`)}>Bench sheet to print</a>
          </p>
        )}
      </div>
      {painted.length > 0 ? (
        <ul class={painted.length > 3 ? 'head-swatches many' : 'head-swatches'} aria-label="Colours of the samples">
          {painted.map((swatch) => (
            <li>{swatch}</li>
          ))}
        </ul>
      ) : null}
    </header>,
    statusSentence[entry.status] ? (
      <p class="note">
        {statusSentence[entry.status]}
        {entry.withdrawn ? ` Reason: ${entry.withdrawn}` : ''}
      </p>
    ) : null,
    foreseenSection(reckoned.dangers, entry),
    hazardBox(reckoned.dangers.box, { pictogramsAt: site.pictograms }),
    cautionBox(site),
    sampleCards(site, data),
    <div class="entry-columns">
      <div>
        {data.body.length > 0 ? (
          <section class="write-up" aria-label="Write-up">
            {[...data.body]}
          </section>
        ) : null}
        {afterwards(data)}
      </div>
      <aside aria-label="Beside the write-up">
        {beside(data)}
        {together(site, links)}
      </aside>
    </div>,
    amountsSection(reckoned.amounts),
    appearanceSection(reckoned.appearance),
    <nav class="previous-next" aria-label="Entries before and after">
      {links.previous ? <p class="previous">Previous: {entryLink(site, links.previous)}</p> : null}
      {links.next ? <p class="next">Next: {entryLink(site, links.next)}</p> : null}
    </nav>,
  ];
  return page(site, {
    title: entry.title,
    description: entry.question ?? entry.pigment?.name,
    address: `/${entry.number}/`,
    ofEntry: true,
    main: main as never,
  });
}

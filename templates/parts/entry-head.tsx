// The head of an entry's page answers, on the first screen: what colour is it, did it work, may I trust it, what is
// dangerous?
import type { Element, ElementContent } from 'hast';
import type { AppearanceReckoning } from '../../src/reckoning/appearance/appearance-contracts.js';
import { longDate } from '../dates.js';
import { href, ownLanguage, type SiteContext } from '../frame.js';
import type { EntryPageData } from './entry-data.js';
import { dangerStrip } from './danger-strip.js';
import { familyBasisWords } from './family-basis.js';
import { findings } from './findings.js';
import { formula } from './formula.js';
import { photographFigure } from './photograph.js';
import { statusBandWords } from './status.js';
import { strips } from './strips.js';

/** The band above everything; null for finished work. */
export function statusBand({ reckoned: { entry } }: EntryPageData): Element | null {
  const words = statusBandWords(entry.status);
  const reasons: Readonly<Record<string, string | undefined>> = {
    failed: entry.failed,
    abandoned: entry.abandoned,
    withdrawn: entry.withdrawn,
  };
  const reason = reasons[entry.status];
  if (!words) return null;
  return (
    <p class="band" role="note">
      <b>{words}</b>
      {reason ? ` Reason: ${reason}` : ''}
    </p>
  ) as Element;
}

const separated = (parts: readonly (ElementContent | string)[]): (ElementContent | string)[] =>
  parts.flatMap((part, at) => (at > 0 ? [' · ', part] : [part]));

/** The family with its page, on which this entry's samples stand; without one it has no page, or not for them. */
const familyLink = (
  site: SiteContext,
  family: string,
  { reckoned: { gist } }: EntryPageData,
): ElementContent | string =>
  gist.samples.some((one) => one.family === family)
    ? ((<a href={href(site, `/colours/${family}/`)}>{family}</a>) as Element)
    : family;

/** Where it comes from; a photograph that shows another colour than what was declared is told beside it. */
function familyInWords({ family, familyBasis = 'declared', samples }: AppearanceReckoning): string {
  if (familyBasis === 'measured') return '';
  const seen = samples.flatMap((one) => (one.family && one.basis === 'photograph' ? [one.family] : []));
  if (familyBasis !== 'declared' || seen.length === 0) return familyBasisWords[familyBasis];
  const others = [...new Set(seen.filter((one) => one !== family))];
  return others.length === 0 ? familyBasisWords.photograph : ` (declared; ${others.join(', ')} in a photograph)`;
}

/** What it is: pigment, formula, Colour Index name, elements and colour, the last two with their pages. */
function identity(site: SiteContext, data: EntryPageData): Element | null {
  const { entry, appearance, elements } = data.reckoned;
  const { pigment } = entry;
  const { family } = appearance;
  const parts: (ElementContent | string)[] = [
    ...(pigment ? [pigment.name] : []),
    ...(data.formula ? [formula(data.formula)] : []),
    ...(pigment?.['colour-index'] ? [pigment['colour-index']] : []),
    ...elements.map((symbol) =>
      data.elementNames[symbol] === undefined
        ? symbol
        : ((<a href={href(site, `/series/${symbol}/`)}>{data.elementNames[symbol]}</a>) as Element),
    ),
    ...(family
      ? [
          (
            <span>
              {familyLink(site, family, data)}
              {familyInWords(appearance)}
            </span>
          ) as Element,
        ]
      : []),
  ];
  return parts.length > 0 ? ((<p class="identity">{separated(parts)}</p>) as Element) : null;
}

/** The first photograph stands on the first screen. */
function photograph(site: SiteContext, { reckoned: { entry }, photographs: [first] }: EntryPageData): Element | null {
  return first ? photographFigure(site, first, entry, { lazy: false }) : null;
}

function answer({ entry }: EntryPageData['reckoned']): Element | null {
  if (!entry.question && !entry.answer) return null;
  return (
    <p class="question">
      {entry.question ? <i>{entry.question}</i> : null}
      {entry.question && entry.answer ? ' ' : null}
      {entry.answer ?? null}
    </p>
  ) as Element;
}

export function entryHead(site: SiteContext, data: EntryPageData): Element {
  const { reckoned, rows } = data;
  const { entry } = reckoned;
  const found = findings(reckoned.amounts, reckoned.appearance, data.bestYield);
  return (
    <header class="entry-head">
      <p class="entry-figure" aria-hidden="true">
        {String(entry.number)}
      </p>
      <div>
        <p class="kicker">
          <span class="said-number">
            <span class="hidden-label">Entry </span>
            {`${entry.number} · `}
          </span>
          <time dateTime={entry.date}>{longDate(entry.date)}</time>
          {` · ${entry.status}`}
        </p>
        <h1 lang={ownLanguage(site)}>{entry.title}</h1>
        {answer(reckoned)}
        {rows.length > 0 ? strips(rows.map((row) => ({ row, id: row.sample }))) : null}
        {found.length > 0 ? <p class="findings">{separated(found)}</p> : null}
        {identity(site, data)}
        {dangerStrip(reckoned.dangers, entry, { pictogramsAt: site.pictograms, links: true })}
        {photograph(site, data)}
      </div>
    </header>
  ) as Element;
}

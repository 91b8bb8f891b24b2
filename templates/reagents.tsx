// Reagent pages: what it is, its hazards, where it was used, what went wrong with it.
import type { Element, Root } from 'hast';
import type { ReagentPage } from '../src/crosslinks/model.js';
import type { HazardBox } from '../src/hazards/ghs/index.js';
import type { JarStock } from '../src/reckoning/shelf-stock.js';
import { longDate } from './dates.js';
import { cautionBox, cautionLine, href, page, type SiteContext } from './frame.js';
import { leftWords } from './parts/amounts.js';
import { entryLink } from './parts/entry-list.js';
import type { Typeset } from '../src/chemistry/index.js';
import { formula } from './parts/formula.js';
import { hazardBox } from './parts/hazard-box.js';
import { reagentRules, type RuleShown } from './parts/reagent-rules.js';
import { incidentList } from './lists.js';

/** How many uses a reagent's page lists, newest first, and how many of them stand open. */
const mostUses = 200;
const usesOpen = 8;
const incidentsOpen = 3;
/** So many reagents stand in one table; of more, each letter has its own, folded. */
const mostInTable = 80;

export interface ReagentPageData {
  readonly reagent: ReagentPage;
  readonly typeset?: Typeset;
  readonly box: HazardBox;
  /** Foreseen-hazard rules that this reagent takes part in. */
  readonly rules: readonly RuleShown[];
}

/** What is left of a jar, what was used since it was bought, and what that cost. */
function stockWords({ bought, since, used, planned, left, unknownIn, costUsed, costLeft }: JarStock): string {
  const more = Number(left.value) < 0;
  const worth = costLeft ? ` (${costLeft.text})` : '';
  const spent = costUsed ? ` (${costUsed.text})` : '';
  return [
    more ? `${left.text.replace('−', '')} more used than there was` : `${left.text} left${worth}`,
    `${used.text} used${spent} of ${bought.text} since ${longDate(since)}`,
    ...(planned ? [`${planned.text} planned`] : []),
    ...(unknownIn.length > 0 ? [`less by what entries ${unknownIn.join(', ')} took, which is not known`] : []),
  ].join('; ');
}

/** The rest of a list behind a fold, or nothing. */
function fold<T>(rest: readonly T[], word: string, show: (rest: readonly T[]) => Element): Element | null {
  if (rest.length === 0) return null;
  return (
    <details class="behind">
      <summary>{`${rest.length} ${word}${rest.length === 1 ? '' : 's'}`}</summary>
      {show(rest)}
    </details>
  ) as Element;
}

function usesTable(site: SiteContext, uses: ReagentPage['uses'], label: string): Element {
  return (
    <div tabIndex={0} role="region" aria-label={label}>
      <table>
        <thead>
          <tr>
            <th scope="col">Entry</th>
            <th scope="col">Sample</th>
            <th scope="col" class="number">
              Amount
            </th>
            <th scope="col">As</th>
          </tr>
        </thead>
        <tbody>
          {uses.map((use) => (
            <tr>
              <td>{entryLink(site, use.entry)}</td>
              <td>{use.sample ? `${use.sample}${use.instead ? ', instead' : ', added'}` : 'all'}</td>
              <td class="number">{use.amount ?? ''}</td>
              <td>{use.role}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  ) as Element;
}

export function reagentPage(site: SiteContext, data: ReagentPageData): Root {
  const { id, reagent, uses, incidents, assayed, stock, lotStock } = data.reagent;
  const facts: [string, unknown][] = [
    ['Formula', data.typeset ? formula(data.typeset) : null],
    ['CAS', reagent.cas],
    ['Strength', reagent.strength],
    ['Purity', reagent.purity],
    ['By assay', assayed?.text],
    ['Density', reagent.density],
    ['Grade', reagent.grade],
    ['Also called', reagent['also-called']?.join(', ')],
    ['Supplier', reagent.supplier],
    ['Price', reagent.price],
    ['On the shelf', stock && stockWords(stock)],
    [
      'Made here',
      reagent.lot ? (
        <span>
          <a href={href(site, `/${reagent.lot.split('/')[0]}/#${reagent.lot.split('/')[1]}`)}>{`lot ${reagent.lot}`}</a>
          {assayed || reagent.purity || reagent.strength ? '' : ', as if pure: it has no assay'}
          {lotStock?.left ? leftWords(lotStock).replace(/\.$/, '') : ''}
        </span>
      ) : null,
    ],
  ];
  return page(site, {
    title: reagent.name,
    description: `${reagent.name}: hazards, and where this journal used it.`,
    address: `/reagents/${id}/`,
    part: '/reagents/',
    main: [
      <h1 class="capital">{reagent.name}</h1>,
      <dl class="facts">
        {facts
          .filter(([, value]) => value)
          .map(([name, value]) => (
            <div>
              <dt>{name}</dt>
              <dd>{value as never}</dd>
            </div>
          ))}
      </dl>,
      reagent.note ? <p>{reagent.note}</p> : null,
      hazardBox(data.box, { pictogramsAt: site.pictograms }),
      cautionBox(site),
      reagentRules(site, data.rules, data.reagent.foreseen),
      <section aria-labelledby="used">
        <h2 id="used">Where it was used</h2>
        {uses.length === 0 ? <p>Not used in any entry yet.</p> : usesTable(site, uses.slice(0, usesOpen), 'Uses')}
        {fold(uses.slice(usesOpen, mostUses), 'earlier use', (rest) => usesTable(site, rest, 'Earlier uses'))}
        {uses.length > mostUses ? (
          <p class="small">
            {`The newest ${mostUses} of ${uses.length} uses. `}
            <a href={href(site, `/search/?q=${encodeURIComponent(reagent.name)}`)}>Search finds all</a>.
          </p>
        ) : null}
      </section>,
      incidents.length > 0 ? (
        <section aria-labelledby="incidents">
          <h2 id="incidents">Incidents in entries that used it</h2>
          {incidentList(site, incidents.slice(0, incidentsOpen))}
          {fold(incidents.slice(incidentsOpen, mostUses), 'earlier incident', (rest) => incidentList(site, rest))}
        </section>
      ) : null,
    ] as never,
  });
}

/** A reagent in the list: signal word and use beside its name, so that a phone shows them without a scroll. */
function reagentRow(site: SiteContext, { reagent: { id, reagent, uses }, typeset, box }: ReagentPageData): Element {
  return (
    <tr>
      <th scope="row">
        <a href={href(site, `/reagents/${id}/`)}>{reagent.name}</a>
      </th>
      <td>
        {box.unknown.length > 0 ? (
          <strong>no hazard data: treat as hazardous</strong>
        ) : (
          (box.signalWord ?? 'no signal word in our table')
        )}
      </td>
      <td class="number">{String(new Set(uses.map((use) => use.entry.number)).size)}</td>
      <td>{typeset ? formula(typeset) : ''}</td>
      <td>{[reagent.strength, reagent.purity].filter(Boolean).join(', ')}</td>
    </tr>
  ) as Element;
}

function reagentTable(site: SiteContext, reagents: readonly ReagentPageData[], label: string): Element {
  return (
    <div tabIndex={0} role="region" aria-label={label}>
      <table class="reagent-table">
        <thead>
          <tr>
            <th scope="col">Reagent</th>
            <th scope="col">Signal word</th>
            <th scope="col" class="number">
              Entries
            </th>
            <th scope="col">Formula</th>
            <th scope="col">Strength, purity</th>
          </tr>
        </thead>
        <tbody>{reagents.map((one) => reagentRow(site, one))}</tbody>
      </table>
    </div>
  ) as Element;
}

/** The letter under which a reagent stands: `bismuth(III) nitrate` under B, `2-propanol` under P. */
const letterOf = (name: string): string =>
  /\p{L}/u.exec(name.normalize('NFD').replace(/^[^\p{L}]*\b[a-z]-/u, ''))?.[0].toUpperCase() ?? 'Others';

function byLetter(site: SiteContext, reagents: readonly ReagentPageData[]): Element[] {
  const letters = new Map<string, ReagentPageData[]>();
  for (const one of reagents) {
    const letter = letterOf(one.reagent.reagent.name);
    letters.set(letter, [...(letters.get(letter) ?? []), one]);
  }
  return [...letters]
    .sort(([a], [b]) => a.localeCompare(b, 'en'))
    .map(([letter, some]) => {
      const unknown = some.filter(({ box }) => box.unknown.length > 0).length;
      return (
        <details class="letter" id={`letter-${letter}`}>
          <summary>
            <b>{letter}</b>
            {` ${some.length} ${some.length === 1 ? 'reagent' : 'reagents'}`}
            {unknown > 0 ? <strong>{`; ${unknown} without hazard data`}</strong> : ''}
          </summary>
          {reagentTable(site, some, `Reagents under ${letter}`)}
        </details>
      ) as Element;
    });
}

export function reagentsPage(site: SiteContext, reagents: readonly ReagentPageData[]): Root {
  return page(site, {
    title: 'Reagents',
    description: 'Every reagent on the shelf: its hazards, and where it was used.',
    address: '/reagents/',
    part: '/reagents/',
    main: [
      <h1>Reagents on the shelf</h1>,
      cautionLine(),
      reagents.length > mostInTable ? (
        <p>
          {`${reagents.length} reagents, by letter. `}
          <a href={href(site, '/search/')}>Search</a> finds them by formula, CAS number and household name too.
        </p>
      ) : null,
      ...(reagents.length > mostInTable ? byLetter(site, reagents) : [reagentTable(site, reagents, 'Reagents')]),
    ] as never,
  });
}

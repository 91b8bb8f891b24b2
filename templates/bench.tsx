// The bench sheet, printed and taken to the bench: on sheet one what the hand needs, in order; on sheet two what the
// eye needs later. The entry's number and the sheet's stand on every page, however long a sheet becomes.
import type { Element, ElementContent, Root } from 'hast';
import type { Entry } from '../src/journal/entry.js';
import type { IngredientAmounts, ReckonedEntry, SampleAmounts } from '../src/reckoning/contracts.js';
import { cautionLine, href, page, type SiteContext } from './frame.js';
import { madeOnce, ofManyPages } from './of-many-pages.js';
import { reactionLine } from './parts/amounts.js';
import { dangerStrip } from './parts/danger-strip.js';
import { precaution } from './parts/hazard-box.js';
import { stepsList } from './parts/steps.js';
import { withStop } from './parts/sentence.js';
import { severityLabel } from './parts/severity.js';

/**
 * A box to tick and room to write, for a pen on paper: what each is for is said by the words and heads beside it. In
 * lists and cells, of which a sheet has dozens, the style sheet draws them.
 */
const tick = ofManyPages((<span class="tick"></span>) as Element);
const blank = ofManyPages((<i></i>) as Element);

const upper = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

const statusBands: Readonly<Record<string, string>> = {
  running: 'This work is under way: what stands here may change.',
  failed: 'This failed as it stands here. It is no preparation to be followed.',
};

const heading = madeOnce((id: string, title: string) => (<h2 id={id}>{title}</h2>) as Element);

/** A part of a sheet; null where it has nothing to say. */
function part(id: string, title: string, content: readonly (ElementContent | null)[], className?: string) {
  const shown = content.filter((one) => one !== null);
  if (shown.length === 0) return null;
  return (
    <section class={className}>
      {heading(id, title)}
      {shown}
    </section>
  ) as Element;
}

/** A sheet of paper; its head stands again on each page that it runs over. */
function sheet(site: SiteContext, entry: Entry, number: 1 | 2, content: readonly (ElementContent | null)[]): Element {
  return (
    <div class="sheet">
      <div class="sheet-head">
        <p>
          <b>{String(entry.number)}</b>
          <span>{entry.title}</span>
          <a href={href(site, `/${entry.number}/`)}>{`${site.address}/${entry.number}/`.replace(/^https?:\/\//, '')}</a>
          <span>{`sheet ${number} of 2`}</span>
        </p>
      </div>
      <div class="sheet-body">{content.filter((one) => one !== null)}</div>
    </div>
  ) as Element;
}

/** A table that scrolls in its own frame on a narrow screen. */
const wide = (label: string, table: unknown): Element =>
  (
    <div tabIndex={0} role="region" aria-label={label}>
      {table as Element}
    </div>
  ) as Element;

// Sheet one

const namedIn = ({ dangers }: ReckonedEntry): Element | null =>
  (dangers.notJudged ?? []).length > 0
    ? ((
        <p class="unknown">
          {`Not recognised: ${dangers.notJudged!.join(', ')}. What it does when mixed or heated cannot be foreseen.`}
        </p>
      ) as Element)
    : null;

/** What was judged only by words, or not at all. */
const byWords = ({ dangers: { byWords: said = [] } }: ReckonedEntry): Element[] =>
  said.map((words) => (<p class="unknown">{words}</p>) as Element);

/** What each serious hazard comes from and what our list advises; the maker's own answers stand in the strip above. */
function foreseen({ dangers }: ReckonedEntry): Element | null {
  const serious = (dangers.foreseen ?? []).filter(
    ({ severity, answered }) => severity !== 'note' && answered.length > 0,
  );
  if (serious.length === 0) return null;
  return (
    <ul class="foreseen-lines">
      {serious.map(({ severity, consequence, title, partners, precaution }) => (
        <li>
          {severityLabel(severity)}
          {` ${upper(consequence)}: ${title}, from ${partners.join(', ')}. ${withStop(upper(precaution))}`}
        </li>
      ))}
    </ul>
  ) as Element;
}

function ifItGoesWrong(entry: Entry): Element | null {
  if (!entry['if-it-goes-wrong']) return null;
  return (
    <p class="if-wrong">
      <b>If it goes wrong. </b>
      {entry['if-it-goes-wrong']}
    </p>
  ) as Element;
}

function possible({ amounts }: ReckonedEntry): Element | null {
  const known = amounts.samples.filter(({ theoreticalYield }) => theoreticalYield);
  if (known.length === 0) return null;
  const same = known.every(({ theoreticalYield }) => theoreticalYield!.text === known[0]!.theoreticalYield!.text);
  const figures = same
    ? `${known[0]!.theoreticalYield!.text}${known.length > 1 ? ' each' : ''}`
    : known.map(({ sample, theoreticalYield }) => `${sample} ${theoreticalYield!.text}`).join(', ');
  return (<p>{`Possible: ${figures}.`}</p>) as Element;
}

/** The other measure of an ingredient, beside what is written: `(54.2 g)`. */
function otherMeasure({ mass, volume, written }: IngredientAmounts): string {
  const other = [mass, volume].find((figure) => figure && figure.text !== written);
  return other ? `(${other.text})` : '';
}

const lineOf = (one: IngredientAmounts): string => [one.id, one.role].join('\n');

/** Every ingredient of any sample once, in the order of the first sample that has it. */
function allIngredients(samples: readonly SampleAmounts[]): IngredientAmounts[] {
  const found = new Map<string, IngredientAmounts>();
  for (const one of samples.flatMap(({ ingredients }) => ingredients))
    if (!found.has(lineOf(one))) found.set(lineOf(one), one);
  return [...found.values()];
}

function weighingCell(one: IngredientAmounts | undefined): Element {
  if (!one) return (<td class="without">none</td>) as Element;
  return (
    <td>
      <span>
        <b>{one.written ?? 'not stated'}</b>
        {otherMeasure(one)}
      </span>
    </td>
  ) as Element;
}

const differing = (entry: Entry, sample: string): string | undefined =>
  entry.samples.find((one) => one.sample === sample)?.differs;

/** So many samples stand side by side; of more, the next stand in a table of their own. */
const mostAbreast = 3;

function weighingTable(entry: Entry, samples: readonly SampleAmounts[]): Element {
  return wide(
    'What to weigh',
    <table class="weighing">
      <thead>
        <tr>
          <td></td>
          {samples.map(({ sample }) => (
            <th>
              {sample === '' ? 'Amount' : sample}
              {differing(entry, sample) ? <span>{differing(entry, sample)}</span> : null}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {allIngredients(samples).map((one) => (
          <tr>
            <th>
              {one.name}
              {one.role === 'reactant' ? null : <span>{one.role}</span>}
            </th>
            {samples.map(({ ingredients }) => weighingCell(ingredients.find((own) => lineOf(own) === lineOf(one))))}
          </tr>
        ))}
      </tbody>
    </table>,
  );
}

/** Whether every sample has the same ingredients in the same amounts. */
const areAlike = (samples: readonly SampleAmounts[]): boolean =>
  new Set(
    samples.map(({ ingredients }) => ingredients.map((one) => [lineOf(one), one.written].join('\n')).join('\n\n')),
  ).size === 1;

/** Many samples with the same amounts: each amount once, then a box and room to write for each sample. */
function alikeTable(entry: Entry, samples: readonly SampleAmounts[]): Element {
  return wide(
    'What to weigh',
    <table class="weighing alike">
      <thead>
        <tr>
          <td></td>
          <th>Each</th>
          {samples.map(({ sample }) => (
            <th>
              {sample}
              {differing(entry, sample) ? <span>{differing(entry, sample)}</span> : null}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {samples[0]!.ingredients.map((one) => (
          <tr>
            <th>
              {one.name}
              {one.role === 'reactant' ? null : <span>{one.role}</span>}
            </th>
            <td>
              <b>{one.written ?? 'not stated'}</b>
              {` ${otherMeasure(one)}`}
            </td>
            {samples.map(() => (
              <td>
                <span></span>
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>,
  );
}

function weighing({ entry, amounts }: ReckonedEntry): Element[] {
  const known = amounts.samples.filter(({ ingredients }) => ingredients.length > 0);
  if (known.length === 0) return [(<p>No amounts are written down for this entry yet.</p>) as Element];
  if (known.length > mostAbreast && areAlike(known)) return [alikeTable(entry, known)];
  const tables: Element[] = [];
  for (let at = 0; at < known.length; at += mostAbreast)
    tables.push(weighingTable(entry, known.slice(at, at + mostAbreast)));
  return tables;
}

/** Numbered lists of the write-up are its steps. */
const stepsOf = (body: readonly ElementContent[]): ElementContent[] =>
  body.filter((node) => node.type === 'element' && node.tagName === 'ol');

const lines = madeOnce(
  (count: number, words: string) =>
    (
      <div class="ruled" role="img" aria-label={words}>
        {Array.from({ length: count }, () => (
          <i></i>
        ))}
      </div>
    ) as Element,
);

/** Room for steps that are not written down yet: a box and a line each. */
const stepsToWrite = madeOnce(
  (count: number) =>
    (
      <ol class="to-write">
        {Array.from({ length: count }, () => (
          <li></li>
        ))}
      </ol>
    ) as Element,
);

const sheetLine = ofManyPages(
  (
    <p class="sheet-line">
      Date {blank} Begun {blank} By {blank}
    </p>
  ) as Element,
);

function firstSheet(site: SiteContext, reckoned: ReckonedEntry, body: readonly ElementContent[]): Element {
  const { entry, dangers } = reckoned;
  const written = stepsList(entry, reckoned.amounts.samples);
  const steps = written ? [written] : stepsOf(body);
  const band = statusBands[entry.status];
  return sheet(site, entry, 1, [
    (<h1>{`Bench sheet ${entry.number}: ${entry.title}`}</h1>) as Element,
    band ? ((<p class="band">{band}</p>) as Element) : null,
    sheetLine,
    dangerStrip(dangers, entry, { pictogramsAt: site.pictograms }),
    namedIn(reckoned),
    ...byWords(reckoned),
    foreseen(reckoned),
    ifItGoesWrong(entry),
    cautionLine(),
    part('weigh', 'Weigh out', [reactionLine(reckoned.amounts), possible(reckoned), ...weighing(reckoned)]),
    part('steps', 'Steps', [
      steps.length > 0
        ? ((<div class="steps">{steps}</div>) as Element)
        : stepsToWrite(Math.max(3, 8 - allIngredients(reckoned.amounts.samples).length)),
    ]),
  ]);
}

// Sheet two

function heating({ entry }: ReckonedEntry): Element | null {
  const all = [
    ...entry.heating.map((one) => ({ ...one, sample: '' })),
    ...entry.samples.flatMap(({ sample, heating: own = [] }) => own.map((one) => ({ ...one, sample }))),
  ];
  if (all.length === 0) return null;
  const words = ({ of, to, for: time, in: where, note, sample }: (typeof all)[number]): string =>
    [
      `${sample ? `${sample}: ` : ''}${upper(of)} to ${to}${time ? ` for ${time}` : ''}`,
      where ? `, ${where}` : '',
      note ? `. ${note}` : '',
    ].join('');
  return (
    <ul class="boxes">
      {all.map((one) => (
        <li>
          {words(one)}
          <span class="from-to">
            {' from '}
            {blank}
            {' to '}
            {blank}
          </span>
        </li>
      ))}
    </ul>
  ) as Element;
}

/** What the work asks, and by what a gas would be noticed. */
function lookFor({ entry, dangers }: ReckonedEntry): Element | null {
  const gases = new Map((dangers.foreseen ?? []).flatMap(({ gases: own = [] }) => own.map((gas) => [gas.name, gas])));
  const smells = [...gases.values()].map(
    ({ name, smell, smellWarns }) => `${upper(name)}: ${smell ? `smell ${smell}; ` : ''}does smell warn? ${smellWarns}`,
  );
  const all = [...(entry.question ? [entry.question] : []), ...smells];
  if (all.length === 0) return null;
  return (
    <ul>
      {all.map((one) => (
        <li>{one}</li>
      ))}
    </ul>
  ) as Element;
}

const weighed = ['empty dish', 'dish and product', 'the same, dried again', 'product'];

const toFill = ofManyPages((<td></td>) as Element);

const weighedHead = ofManyPages(
  (
    <thead>
      <tr>
        <td></td>
        {weighed.map((one) => (
          <th>{`${upper(one)}, g`}</th>
        ))}
      </tr>
    </thead>
  ) as Element,
);

function weighings(entry: Entry): Element {
  const samples = entry.samples.length > 0 ? entry.samples.map(({ sample }) => sample) : [''];
  return wide(
    'Weighings',
    <table class="to-fill">
      {weighedHead}
      <tbody>
        {samples.map((sample) => (
          <tr>
            <th>{sample || 'Product'}</th>
            {weighed.map(() => toFill)}
          </tr>
        ))}
      </tbody>
    </table>,
  );
}

/** The washing as it is planned: `planned: 3 times 200 mL of water, by decanting.` */
function plannedWashes(washes: Entry['washes']): string {
  if (washes === undefined) return '';
  if (typeof washes === 'string') return `planned: ${washes.replace(/\.$/, '')}. `;
  const each = washes.map(({ with: liquid, volume, times: count, by }) => {
    const often = count === 1 ? 'once' : `${count} times`;
    return `${often} ${volume} of ${liquid}${by === undefined ? '' : `, by ${by}`}`;
  });
  return `planned: ${each.join('; ')}. `;
}

function washing(entry: Entry): Element {
  const samples = entry.samples.length > 0 ? entry.samples.map(({ sample }) => sample) : [''];
  return (
    <ul class="boxes">
      {samples.map((sample, at) => (
        <li>
          {plannedWashes(entry.samples[at]?.washes ?? entry.washes)}
          {`${sample ? `${sample}: ` : ''}washed with `}
          {blank}
          {' times '}
          {blank}
          {' until '}
          {blank}
        </li>
      ))}
    </ul>
  ) as Element;
}

const wasteOf = ({ waste }: Entry): Element | null =>
  waste
    ? ((
        <p>
          {tick}
          {waste}
        </p>
      ) as Element)
    : null;

/** The statements whole: names of substances after the hazards, precautions by their first words. */
function statements({ dangers: { box } }: ReckonedEntry): Element | null {
  if (box.statements.length === 0 && box.precautionary.length === 0) return null;
  return (
    <div class="statements-small">
      <ul>
        {box.statements.map(({ code, text, from }) => (
          <li>
            <b>{code}</b>
            {` ${text} (${from.join(', ')})`}
          </li>
        ))}
      </ul>
      <ul>{box.precautionary.map(precaution)}</ul>
    </div>
  ) as Element;
}

function secondSheet(site: SiteContext, reckoned: ReckonedEntry): Element {
  const { entry } = reckoned;
  const { statements: hazards, precautionary } = reckoned.dangers.box;
  // So many lines to write on as the statements leave room for.
  const room = Math.min(6, Math.max(3, 8 - Math.ceil((hazards.length + precautionary.length) / 7)));
  return sheet(site, entry, 2, [
    part('heat', 'Heating', [heating(reckoned)]),
    part('look', 'What to look for', [lookFor(reckoned)]),
    part('seen', 'Seen and done, with the time', [lines(room, 'ruled lines to write on')]),
    part('wash', 'Washing', [washing(entry)]),
    part('got', 'What the balance showed', [weighings(entry)]),
    part('waste', 'Waste', [wasteOf(entry)]),
    part('statements', 'Hazard statements', [statements(reckoned)]),
  ]);
}

export function benchPage(site: SiteContext, reckoned: ReckonedEntry, body: readonly ElementContent[]): Root {
  const { entry } = reckoned;
  return page(site, {
    title: `Bench sheet ${entry.number}: ${entry.title}`,
    address: `/${entry.number}/bench/`,
    noIndex: true,
    beside: { address: `/${entry.number}/`, title: `Entry ${entry.number}` },
    main: [
      (
        <article class="bench">
          {firstSheet(site, reckoned, body)}
          {secondSheet(site, reckoned)}
        </article>
      ) as Element,
    ],
  });
}

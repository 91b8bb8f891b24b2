// The bench sheet: the page that is printed and taken to the bench, with room to write on.
import type { Element, ElementContent, Root } from 'hast';
import type { Sample } from '../src/journal/schema.js';
import type { IngredientAmounts, ReckonedEntry } from '../src/reckoning/contracts.js';
import { longDate } from './dates.js';
import { cautionBox, href, page, type SiteContext } from './frame.js';
import { foreseenOnSheet } from './parts/foreseen.js';
import { hazardBox } from './parts/hazard-box.js';

const tick = (words: string): Element =>
  (<span class="tick" role="img" aria-label={`box to tick: ${words}`}></span>) as Element;
const blank = (words: string): Element =>
  (<span class="blank" role="img" aria-label={`room to write: ${words}`}></span>) as Element;

function weighingList(sample: Sample | undefined, ingredients: readonly IngredientAmounts[]): Element {
  const title = sample ? `Sample ${sample.sample}${sample.differs ? `: ${sample.differs}` : ''}` : 'To weigh out';
  return (
    <div class="scroll" tabIndex={0} role="region" aria-label={title}>
      <table class="weighing">
        <caption>{title}</caption>
        <thead>
          <tr>
            <th scope="col">
              <span class="hidden-label">Done</span>
            </th>
            <th scope="col">Reagent</th>
            <th scope="col">As</th>
            <th scope="col" class="number">
              Amount
            </th>
            <th scope="col" class="number">
              By weight or volume
            </th>
            <th scope="col">Taken</th>
          </tr>
        </thead>
        <tbody>
          {ingredients.map((one) => (
            <tr>
              <td>{tick(one.name)}</td>
              <th scope="row">{one.name}</th>
              <td>{one.role}</td>
              <td class="number">{one.written ?? 'not stated'}</td>
              <td class="number">
                {[one.mass?.text, one.volume?.text].find((text) => text !== undefined && text !== one.written) ?? ''}
              </td>
              <td>{blank(`what was weighed of ${one.name}`)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  ) as Element;
}

/** Numbered lists of the write-up: its steps. */
const stepsOf = (body: readonly ElementContent[]): ElementContent[] =>
  body.filter((node) => node.type === 'element' && node.tagName === 'ol');

export function benchPage(site: SiteContext, reckoned: ReckonedEntry, body: readonly ElementContent[]): Root {
  const { entry, amounts, dangers } = reckoned;
  const steps = stepsOf(body);
  const lists =
    amounts.samples.length > 0
      ? amounts.samples.map((one) =>
          weighingList(
            entry.samples.find((sample) => sample.sample === one.sample),
            one.ingredients,
          ),
        )
      : [];
  const heating = [
    ...entry.heating.map((one) => ({ ...one, sample: undefined as string | undefined })),
    ...entry.samples.flatMap((sample) =>
      (sample.heating ?? []).map((one) => ({ ...one, sample: sample.sample as string | undefined })),
    ),
  ];
  return page(site, {
    title: `Bench sheet ${entry.number}: ${entry.title}`,
    address: `/${entry.number}/bench/`,
    noIndex: true,
    main: [
      <article class="bench">
        <header>
          <p class="kicker">
            {`Bench sheet for no. ${entry.number}, `}
            <time dateTime={entry.date}>{longDate(entry.date)}</time>
            {`, ${entry.status}`}
          </p>
          <h1>{entry.title}</h1>
          {entry.question ? <p class="question">{entry.question}</p> : null}
          <p class="sheet-line">
            Date {blank('date')} Begun {blank('time begun')} By {blank('name')}
          </p>
        </header>
        {foreseenOnSheet(dangers, entry)}
        {hazardBox(dangers.box, { open: true, pictogramsAt: site.pictograms })}
        {cautionBox(site)}
        {entry['if-it-goes-wrong'] ? (
          <section class="if-wrong" aria-labelledby="if-wrong">
            <h2 id="if-wrong">If it goes wrong</h2>
            <p>{entry['if-it-goes-wrong']}</p>
          </section>
        ) : null}
        <section aria-labelledby="weigh">
          <h2 id="weigh">Weigh out</h2>
          {lists.length > 0 ? lists : <p>No sample is written down for this entry yet.</p>}
        </section>
        {heating.length > 0 ? (
          <section aria-labelledby="heat">
            <h2 id="heat">Heating</h2>
            <ul>
              {heating.map((one) => (
                <li>
                  {tick(`heating of ${one.of}`)}
                  {` ${one.of[0]?.toUpperCase()}${one.of.slice(1)} to ${one.to}${one.for ? ` for ${one.for}` : ''}${one.in ? `, ${one.in}` : ''}${one.sample ? ` (sample ${one.sample})` : ''}${one.note ? `. ${one.note}` : ''}`}
                </li>
              ))}
            </ul>
          </section>
        ) : null}
        {steps.length > 0 ? (
          <section aria-labelledby="steps">
            <h2 id="steps">Steps</h2>
            {steps}
          </section>
        ) : null}
        <section aria-labelledby="seen">
          <h2 id="seen">Seen and done</h2>
          <div class="ruled" role="img" aria-label="ruled lines to write on">
            {Array.from({ length: 8 }, () => (
              <span></span>
            ))}
          </div>
        </section>
        <section aria-labelledby="got">
          <h2 id="got">Obtained</h2>
          <ul class="obtained">
            {entry.samples.map((sample) => (
              <li>
                {`Sample ${sample.sample}: dish `}
                {blank('mass of the empty dish')}
                {' dish and product '}
                {blank('mass of dish and product')}
                {' product '}
                {blank('mass of product')}
              </li>
            ))}
          </ul>
        </section>
        {entry.waste ? (
          <section aria-labelledby="waste">
            <h2 id="waste">Waste</h2>
            <p>{entry.waste}</p>
          </section>
        ) : null}
        <p class="small quiet">
          {`Entry: ${site.address}/${entry.number}/ `}
          <a href={href(site, `/${entry.number}/`)}>to the entry</a>
        </p>
      </article>,
    ] as never,
  });
}

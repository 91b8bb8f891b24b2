// Foreseen hazards: cards at the top of an entry (what, why, how much at worst, what to do, the answer), the same for the
// bench sheet, and the rules a reagent takes part in.
import type { Element } from 'hast';
import type { Foreseen } from '../../src/hazards/foresee/contracts.js';
import type { Entry } from '../../src/journal/entry.js';
import type { DangersReckoning, ForeseenInEntry } from '../../src/reckoning/contracts.js';
import { formulaWords } from './formula.js';

/** A rule as shown on a reagent's page. */
export type RuleShown = Pick<
  Foreseen,
  'rule' | 'title' | 'severity' | 'consequence' | 'condition' | 'precaution' | 'source'
> &
  Partial<Pick<Foreseen, 'gas' | 'sourceUrl'>>;

const severityWords = { danger: 'Danger', warning: 'Warning', note: 'Note' } as const;
const upper = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
const full = (words: string): string => (/[.!?]$/.test(words) ? words : `${words}.`);
const source = (words: string, url: string | undefined): Element | string =>
  url ? ((<a href={url}>{words}</a>) as Element) : words;

function gasBox({ worstCase, gases = [] }: Foreseen): Element | null {
  if (!worstCase && gases.length === 0) return null;
  return (
    <div class="gas-box">
      {worstCase ? (
        <p>
          <b>How much at worst. </b>
          {worstCase.words}
        </p>
      ) : (
        <p>
          <b>How much at worst. </b>No figure: amounts are missing, or how much is freed is not published.
        </p>
      )}
      {gases.map((gas) => (
        <p class="gas-facts">
          <b>{upper(gas.name)}. </b>
          {gas.smell ? `Smell: ${gas.smell}. ` : ''}
          {`Does smell warn? ${full(upper(gas.smellWarns))} Harm later? ${full(upper(gas.late))}`}
        </p>
      ))}
    </div>
  ) as Element;
}

function answersOf({ answered, severity }: ForeseenInEntry): Element | null {
  if (answered.length === 0)
    return severity === 'danger'
      ? ((
          <p class="unanswered">
            <b>No answer is written for this danger.</b>
          </p>
        ) as Element)
      : null;
  return (
    <div class="answers">
      <b>Answer in this entry</b>
      <ul>
        {answered.map((one) => (
          <li>{one.do}</li>
        ))}
      </ul>
    </div>
  ) as Element;
}

function card(one: ForeseenInEntry, unfolded: boolean): Element {
  const more = (
    <div>
      {gasBox(one)}
      <p class="small">
        <b>When. </b>
        {formulaWords(full(upper(one.condition)))}
      </p>
      {one.equation ? (
        <p class="small">
          <b>Equation, of one such case. </b>
          <span class="equation">{formulaWords(one.equation)}</span>
        </p>
      ) : null}
      <p class="small quiet">Source: {source(one.source, one.sourceUrl)}</p>
    </div>
  ) as Element;
  return (
    <article class="foreseen-card" data-severity={one.severity}>
      <h3>
        <span class="severity">{severityWords[one.severity]}</span> {upper(one.consequence)}: {one.title}
      </h3>
      <p>
        {`From ${one.partners.join(', ')}${one.samples.length > 0 ? ` (${one.samples.length === 1 ? 'sample' : 'samples'} ${one.samples.join(', ')})` : ''}`}
        {one.gas ? ['; gas: ', ...formulaWords(one.gas)] : ''}.
      </p>
      <p class="what-to-do">
        <b>What to do. </b>
        {formulaWords(full(one.precaution))}
      </p>
      {answersOf(one)}
      {unfolded || one.severity === 'danger' ? (
        more
      ) : (
        <details>
          <summary>How much, when, source</summary>
          {more}
        </details>
      )}
    </article>
  ) as Element;
}

const silence = 'Nothing on our list matched. The list is incomplete; that is no all-clear.';
const deference =
  'Foreseen from what the entry says is combined and heated, at worst; not an exposure assessment. Read the safety data sheets, keep to your local rules, and leave to licensed practice what is licensed.';

function unrecognised(names: readonly string[]): Element | null {
  return names.length > 0
    ? ((
        <p class="unknown" role="note">
          <strong>{`Not recognised: ${names.join(', ')}. What ${names.length === 1 ? 'it does' : 'they do'} when mixed or heated cannot be foreseen; this cannot be called safe.`}</strong>
        </p>
      ) as Element)
    : null;
}

/** At the top of an entry's page; null where nothing is mixed or heated. */
export function foreseenSection(dangers: DangersReckoning, entry: Entry): Element | null {
  const { foreseen = [], notJudged = [], cautions = [], room } = dangers;
  if (entry.reagents.length === 0 && foreseen.length === 0) return null;
  const serious = foreseen.filter(({ severity }) => severity !== 'note');
  const notes = foreseen.filter(({ severity }) => severity === 'note');
  return (
    <section class="foreseen" aria-labelledby="foreseen">
      <h2 id="foreseen">Foreseen hazards of mixing and heating</h2>
      {unrecognised(notJudged)}
      {foreseen.length === 0 ? <p>{silence}</p> : null}
      {serious.map((one) => card(one, false))}
      {notes.length > 0 ? (
        <details class="foreseen-notes" open={serious.length === 0}>
          <summary>{`${notes.length} ${notes.length === 1 ? 'note' : 'notes'} on lesser things, and on what happens only under the condition named`}</summary>
          {notes.map((one) => card(one, true))}
        </details>
      ) : null}
      {cautions.length > 0 ? (
        <ul class="small">
          {cautions.map((words) => (
            <li>{words}</li>
          ))}
        </ul>
      ) : null}
      <p class="small quiet">
        {room
          ? `Room reckoned with: ${room.cubicMetres} m³${room.stated ? '' : ' (assumed; the journal states none)'}${room.extraction ? '; extraction is there, and not counted' : ''}. `
          : ''}
        {deference}
      </p>
    </section>
  ) as Element;
}

/** On the bench sheet: all of it unfolded, with the entry's other precautions. */
export function foreseenOnSheet(dangers: DangersReckoning, entry: Entry): Element | null {
  const { foreseen = [], notJudged = [], cautions = [] } = dangers;
  const shown = new Set(foreseen.flatMap(({ answered }) => answered.map((one) => `${one.against} ${one.do}`)));
  const others = entry.precautions.filter((one) => !shown.has(`${one.against} ${one.do}`));
  if (entry.reagents.length === 0 && foreseen.length === 0 && others.length === 0) return null;
  return (
    <section class="foreseen on-sheet" aria-labelledby="foreseen">
      <h2 id="foreseen">Before mixing</h2>
      {unrecognised(notJudged)}
      {foreseen.length === 0 ? <p>{silence}</p> : null}
      {foreseen.map((one) => card(one, true))}
      {others.length > 0 ? (
        <ul>
          {others.map((one) => (
            <li>
              <b>{`${upper(one.against)}: `}</b>
              {one.do}
            </li>
          ))}
        </ul>
      ) : null}
      {cautions.length > 0 ? (
        <ul class="small">
          {cautions.map((words) => (
            <li>{words}</li>
          ))}
        </ul>
      ) : null}
      <p class="small quiet">{deference}</p>
    </section>
  ) as Element;
}

/** Rules of mixing and heating in which a reagent takes part; null where there are none. */
export function ruleList(rules: readonly RuleShown[]): Element | null {
  if (rules.length === 0) return null;
  return (
    <section class="foreseen rules" aria-labelledby="rules">
      <h2 id="rules">What it can do with others, or when heated</h2>
      <p class="small quiet">
        Rules on our list in which it takes part. The list is incomplete; what is not on it is not thereby safe.
      </p>
      <div class="scroll" tabIndex={0} role="region" aria-label="Rules of mixing and heating">
        <table>
          <thead>
            <tr>
              <th scope="col">How serious</th>
              <th scope="col">What</th>
              <th scope="col">Consequence</th>
              <th scope="col">What to do</th>
              <th scope="col">Source</th>
            </tr>
          </thead>
          <tbody>
            {rules.map((one) => (
              <tr data-severity={one.severity}>
                <td>
                  <span class="severity">{severityWords[one.severity]}</span>
                </td>
                <th scope="row">
                  {upper(one.title)}
                  <span class="aside">{formulaWords(one.condition)}</span>
                </th>
                <td>
                  {one.consequence}
                  {one.gas ? [' (', ...formulaWords(one.gas), ')'] : ''}
                </td>
                <td>{formulaWords(one.precaution)}</td>
                <td class="small">{source(one.source, one.sourceUrl)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  ) as Element;
}

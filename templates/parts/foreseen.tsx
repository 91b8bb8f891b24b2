// Foreseen hazards: what must be read before the work, the arithmetic and grounds of it further down, and all of it for
// the bench sheet.
import type { Element, ElementContent } from 'hast';
import type { Foreseen } from '../../src/hazards/foresee/contracts.js';
import type { Entry } from '../../src/journal/entry.js';
import type { DangersReckoning, ForeseenInEntry } from '../../src/reckoning/contracts.js';
import { madeOnce } from '../of-many-pages.js';
import { formulaWords } from './formula.js';
import { severityLabel } from './severity.js';

const upper = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
const full = (words: string): string => (/[.!?]$/.test(words) ? words : `${words}.`);
const source = (words: string, url: string | undefined): Element | string =>
  url ? ((<a href={url}>{words}</a>) as Element) : words;

/** `Toxic gas: sulfide with strong acid` */
const called = ({ consequence, title }: Foreseen): string => `${upper(consequence)}: ${title}`;

function howMuch({ worstCase, gases = [] }: Foreseen): Element[] {
  if (!worstCase && gases.length === 0) return [];
  return [
    (
      <p>
        <b>How much at worst. </b>
        {worstCase ? worstCase.words : 'No figure: amounts are missing, or how much is freed is not published.'}
      </p>
    ) as Element,
    ...gases.map(
      (gas) =>
        (
          <p>
            <b>{upper(gas.name)}. </b>
            {gas.smell ? `Smell: ${gas.smell}. ` : ''}
            {`Does smell warn? ${full(upper(gas.smellWarns))} Harm later? ${full(upper(gas.late))}`}
          </p>
        ) as Element,
    ),
  ];
}

function answersOf({ answered, severity }: Pick<ForeseenInEntry, 'answered' | 'severity'>): Element | null {
  if (answered.length > 0)
    return (
      <p>
        <b>Done here. </b>
        {answered.map((one) => one.do).join(' ')}
      </p>
    ) as Element;
  if (severity !== 'danger') return null;
  return (
    <p class="unanswered">
      <b>No answer is written for this danger.</b>
    </p>
  ) as Element;
}

/** By which of the maker's precautions it is answered; what they say stands in the danger strip. */
function answeredUnder({ answered, severity }: ForeseenInEntry): Element | null {
  if (answered.length === 0) return answersOf({ answered, severity });
  return (
    <p>
      <b>Answered above, </b>
      {`under ${[...new Set(answered.map(({ against }) => `‘${against}’`))].join(', ')}.`}
    </p>
  ) as Element;
}

function fromWhat({ partners, samples, gas, step }: ForeseenInEntry): Element {
  const which = samples.length > 0 ? ` (${samples.length === 1 ? 'sample' : 'samples'} ${samples.join(', ')})` : '';
  return (
    <p>
      {`From ${partners.join(', ')}${which}`}
      {gas ? ['; gas: ', ...formulaWords(gas)] : ''}
      {step === undefined ? '' : `; from step ${step} on`}.
    </p>
  ) as Element;
}

// What a rule says is the same wherever it is met.
const toDo = madeOnce(
  (precaution: string) =>
    (
      <p>
        <b>What to do. </b>
        {formulaWords(full(precaution))}
      </p>
    ) as Element,
);

const whatToDo = ({ precaution }: Foreseen): Element => toDo(precaution);

const when = madeOnce(
  (condition: string) =>
    (
      <p>
        <b>When. </b>
        {formulaWords(full(upper(condition)))}
      </p>
    ) as Element,
);

const oneCase = madeOnce(
  (equation: string) =>
    (
      <p class="equation">
        <b>Equation, of one such case. </b>
        {formulaWords(equation)}
      </p>
    ) as Element,
);

const onWhoseWord = madeOnce(
  (words: string, url: string) =>
    (<p class="quiet">Source: {source(words, url === '' ? undefined : url)}</p>) as Element,
);

/** When it happens, by which equation, and on whose word. */
const grounds = (one: Foreseen): Element[] => [
  when(one.condition),
  ...(one.equation ? [oneCase(one.equation)] : []),
  onWhoseWord(one.source, one.sourceUrl ?? ''),
];

const card = (one: ForeseenInEntry, content: readonly (Element | null)[]): Element =>
  (
    <article class="foreseen-card" data-severity={one.severity}>
      <h3>
        {severityLabel(one.severity)}
        {` ${called(one)}`}
      </h3>
      {[...content]}
    </article>
  ) as Element;

const silence = 'Nothing on our list matched. The list is incomplete; that is no all-clear.';
const deference = 'Foreseen from what the entry says is combined and heated, at worst; not an exposure assessment.';

export function unrecognised(names: readonly string[]): Element | null {
  if (names.length === 0) return null;
  const them = names.length === 1 ? 'it does' : 'they do';
  return (
    <p class="unknown" role="note">
      <strong>
        {`Not recognised: ${names.join(', ')}. What ${them} when mixed or heated cannot be foreseen; this cannot ` +
          'be called safe.'}
      </strong>
    </p>
  ) as Element;
}

const plainList = (items: readonly (Element | string)[]): Element | null =>
  items.length > 0
    ? ((
        <ul>
          {items.map((item) => (
            <li>{item}</li>
          ))}
        </ul>
      ) as Element)
    : null;

const ifItGoesWrong = (entry: Entry): Element | null =>
  entry['if-it-goes-wrong']
    ? ((
        <p class="if-wrong">
          <b>If it goes wrong. </b>
          {entry['if-it-goes-wrong']}
        </p>
      ) as Element)
    : null;

/** Lesser things alone: what they are; they are told in full with all hazards. */
function onlyNotes(foreseen: readonly ForeseenInEntry[]): Element | null {
  if (foreseen.length === 0) return null;
  return (
    <p>
      {`Foreseen, as notes: ${foreseen.map(({ title }) => title).join('; ')}. `}
      <a href="#hazards">Told in full with all hazards</a>
    </p>
  ) as Element;
}

/**
 * What must be read before the procedure: what cannot be judged, each danger and warning in full without its
 * arithmetic, by which precaution it is answered, and what to do if it goes wrong. The maker's answers stand in the
 * danger strip above.
 */
export function dangersBeforeWork(dangers: DangersReckoning, entry: Entry): ElementContent[] {
  const { foreseen = [], notJudged = [], cautions = [] } = dangers;
  const serious = foreseen.filter(({ severity }) => severity !== 'note');
  return [
    unrecognised(notJudged),
    foreseen.length === 0 && entry.reagents.length > 0 ? ((<p>{silence}</p>) as Element) : null,
    ...serious.map((one) => card(one, [fromWhat(one), whatToDo(one), answeredUnder(one)])),
    serious.length === 0 ? onlyNotes(foreseen) : null,
    plainList(cautions),
    ifItGoesWrong(entry),
  ].filter((one) => one !== null);
}

function roomLine({ room }: DangersReckoning, { worstCase }: Foreseen): Element[] {
  if (!room || !worstCase) return [];
  const stated = room.stated ? '' : ' (assumed; the journal states none)';
  const extraction = room.extraction ? '; extraction is there, and not counted' : '';
  return [(<p>{`Room reckoned with: ${room.cubicMetres} m³${stated}${extraction}.`}</p>) as Element];
}

/** The arithmetic and the grounds of what was foreseen; lesser things whole, since they stand nowhere else. */
export function foreseenInFull(dangers: DangersReckoning): ElementContent[] {
  const { foreseen = [] } = dangers;
  if (foreseen.length === 0) return [];
  const behind = (one: ForeseenInEntry): Element =>
    (
      <details class="behind">
        <summary>How much at worst, when, and on whose word</summary>
        {[...howMuch(one), ...roomLine(dangers, one), ...grounds(one)]}
      </details>
    ) as Element;
  // Dangers and warnings stand in full before the work.
  const parts = (one: ForeseenInEntry): (Element | null)[] =>
    one.severity === 'note' ? [fromWhat(one), whatToDo(one), behind(one)] : [behind(one)];
  return [(<h3>Foreseen of mixing and heating</h3>) as Element, ...foreseen.map((one) => card(one, parts(one)))];
}

/** A hazard in full, with what to do now before all else: where nothing was written down about it. */
export function foreseenWithAction(hazard: Omit<ForeseenInEntry, 'answered'>, action: string | undefined): Element {
  const one = { ...hazard, answered: [] };
  const now =
    action === undefined
      ? null
      : ((
          <p class="unanswered">
            <b>{action}</b>
          </p>
        ) as Element);
  return card(one, [now, whatToDo(one), fromWhat(one), ...howMuch(one), ...grounds(one)]);
}

/** On the bench sheet: each danger with what to do and the answer, and the entry's other precautions. */
export function foreseenOnSheet(dangers: DangersReckoning, entry: Entry): Element | null {
  const { foreseen = [], notJudged = [], cautions = [] } = dangers;
  const shown = new Set(foreseen.flatMap(({ answered }) => answered.map((one) => `${one.against} ${one.do}`)));
  const others = entry.precautions.filter((one) => !shown.has(`${one.against} ${one.do}`));
  if (entry.reagents.length === 0 && foreseen.length === 0 && others.length === 0) return null;
  return (
    <section class="foreseen on-sheet">
      <h2 id="foreseen">Before mixing</h2>
      {unrecognised(notJudged)}
      {foreseen.length === 0 ? <p>{silence}</p> : null}
      {foreseen.map((one) =>
        card(one, [fromWhat(one), whatToDo(one), answersOf(one), ...howMuch(one), ...grounds(one)]),
      )}
      {plainList(
        others.map(
          (one) =>
            (
              <span>
                <b>{`${upper(one.against)}: `}</b>
                {one.do}
              </span>
            ) as Element,
        ),
      )}
      {plainList(cautions)}
      <p class="small quiet">{deference}</p>
    </section>
  ) as Element;
}

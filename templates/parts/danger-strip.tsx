// The danger strip in the head of an entry: signal word, pictograms, what is grave, what is unknown, and each danger in
// one line with the one thing done about it. It never folds.
import type { Element } from 'hast';
import type { Entry } from '../../src/journal/entry.js';
import type { DangersReckoning, ForeseenInEntry } from '../../src/reckoning/contracts.js';
import { pictogramImage } from '../pictograms/pictogram.js';
import { ofManyPages } from '../of-many-pages.js';
import { formulaWords } from './formula.js';
import { severityMark, type Severity } from './severity.js';

export interface DangerLine {
  /** Left out where no foreseen hazard stands behind the maker's precaution. */
  readonly severity?: Severity;
  readonly what: string;
  readonly action: string;
  /** The action is the maker's own, not our list's. */
  readonly own: boolean;
}

const order: readonly (Severity | undefined)[] = ['danger', 'warning', 'note', undefined];
const upper = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

const answers = (one: ForeseenInEntry, precaution: Entry['precautions'][number]): boolean =>
  one.answered.some(({ against, do: action }) => against === precaution.against && action === precaution.do);

/**
 * Every precaution of the maker, with the gravest of the foreseen hazards that it answers; and every serious foreseen
 * hazard that nobody answered, with what our list advises. Gravest first.
 */
export function dangerLines(
  { foreseen = [] }: DangersReckoning,
  { precautions }: Pick<Entry, 'precautions'>,
): DangerLine[] {
  const own = precautions.map((precaution): DangerLine => {
    const severity = order.find((grave) => foreseen.some((one) => one.severity === grave && answers(one, precaution)));
    return { what: precaution.against, action: precaution.do, own: true, ...(severity && { severity }) };
  });
  const unanswered = foreseen
    .filter(({ severity, answered }) => severity !== 'note' && answered.length === 0)
    .map(
      ({ severity, consequence, title, precaution }): DangerLine => ({
        severity,
        what: `${consequence}: ${title}`,
        action: precaution,
        own: false,
      }),
    );
  return [...own, ...unanswered].sort((x, y) => order.indexOf(x.severity) - order.indexOf(y.severity));
}

const line = ({ severity, what, action, own }: DangerLine): Element =>
  (
    <li>
      {severity ? severityMark(severity) : <span class="severity-mark"></span>}
      <span>
        <b>{`${upper(what)}. `}</b>
        {own ? action : formulaWords(action)}
      </span>
    </li>
  ) as Element;

/**
 * Supplementary statements of gas set free and of poisoning through eyes and airways; source: CLP Annex II 1.2, from
 * memory.
 */
const graveSupplements = new Set(['EUH029', 'EUH031', 'EUH032', 'EUH070', 'EUH071']);

/** Statements that carry the word Danger or are as grave, in their published words. */
const grave = ({ box }: DangersReckoning): string => {
  const texts = box.statements
    .filter(({ code, signalWord }) => signalWord === 'Danger' || graveSupplements.has(code))
    // Which organs, and by which way, stands in the box.
    .map(({ text }) => text.replace(/ \([^)]*\)/g, ''));
  return [...new Set(texts)].join(' ');
};

/** What the strip says where it has nothing to say: what words alone name has statements that are not looked up. */
function silentWords({ box, foreseen = [] }: DangersReckoning): string {
  const statements =
    (box.substances ?? []).length > 0
      ? 'No hazard statement stands in our lists for the reagents'
      : 'No reagent is listed, so no hazard statement is shown: what the words name has them all the same';
  return foreseen.length > 0
    ? `${statements}; what is foreseen is told below, as notes.`
    : `${statements}; nothing foreseen on our lists matched.`;
}

const ways = ofManyPages(
  (
    <p>
      <a href="#dangers">Before mixing</a>
      {' · '}
      <a href="#hazards">All hazards, with sources</a>
    </p>
  ) as Element,
);

/**
 * The strip; where nothing is known to be dangerous it says that this is no all-clear.
 * @param links to the dangers in full and to the hazard box, on a page that has them
 */
export function dangerStrip(
  dangers: DangersReckoning,
  entry: Pick<Entry, 'precautions'>,
  { pictogramsAt, links = false }: { readonly pictogramsAt: string; readonly links?: boolean },
): Element {
  const { box } = dangers;
  const lines = dangerLines(dangers, entry);
  const silent = lines.length === 0 && box.statements.length === 0 && box.unknown.length === 0;
  const graveWords = grave(dangers);
  return (
    <section class="danger-strip" aria-label="Dangers in short">
      {box.signalWord || box.pictograms.length > 0 ? (
        <p class="signal">
          {box.signalWord ? <b>{box.signalWord}</b> : null}
          {box.pictograms.map((code) => pictogramImage(code, pictogramsAt))}
        </p>
      ) : null}
      {graveWords ? <p>{graveWords}</p> : null}
      {box.unknown.length > 0 ? (
        <p class="unknown">{`No hazard data for ${box.unknown.join(', ')}: treat as hazardous.`}</p>
      ) : null}
      {lines.length > 0 ? <ul>{lines.map(line)}</ul> : null}
      {silent ? <p>{`${silentWords(dangers)} That is no all-clear.`}</p> : null}
      {links ? ways : null}
    </section>
  ) as Element;
}

// What a reagent can do: what was foreseen of it in this journal's own pots and what it does by itself stand open; the
// rest of the list folds by kind of danger, and each fold names what must not meet it.
import type { Element } from 'hast';
import type { ForeseenWithIt } from '../../src/crosslinks/model.js';
import type { HazardKind, RuleOf } from '../../src/hazards/foresee/takes-part.js';
import { href, type SiteContext } from '../frame.js';
import { formulaWords } from './formula.js';
import { severityLabel, severityMark } from './severity.js';

/** A rule as shown on a reagent's page. */
export type RuleShown = RuleOf;

/** So many dangers of this journal's pots stand open, and so many that it has by itself. */
const mostOpen = 4;
/** So many entries are named with a danger, newest first. */
const mostEntries = 6;

/** Kinds in the order in which they stand. */
const kinds: readonly (readonly [HazardKind, string])[] = [
  ['explosion', 'Explosion, bursting'],
  ['poison', 'Poisonous gas, vapour or dust'],
  ['fire', 'Fire, flammable gas'],
  ['heat', 'Heat, froth, pressure'],
  ['other', 'Other dangers'],
];

const upper = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
const full = (words: string): string => (/[.!?]$/.test(words) ? words : `${words}.`);

const sourceOf = ({ source, sourceUrl }: RuleShown): Element =>
  (<p class="quiet">Source: {sourceUrl ? <a href={sourceUrl}>{source}</a> : source}</p>) as Element;

/** What happens and when, what to do, and on whose word. */
const told = (one: RuleShown): Element[] => [
  (
    <p>
      {upper(one.consequence)}
      {one.gas ? [' (', ...formulaWords(one.gas), ')'] : ''}
      {': '}
      {formulaWords(full(one.condition))}
    </p>
  ) as Element,
  (
    <p>
      <b>What to do. </b>
      {formulaWords(full(one.precaution))}
    </p>
  ) as Element,
];

const card = ({ severity, title }: Pick<RuleShown, 'severity' | 'title'>, content: readonly Element[]): Element =>
  (
    <article class="foreseen-card" data-severity={severity}>
      <h3>
        {severityLabel(severity)}
        {` ${upper(title)}`}
      </h3>
      {[...content]}
    </article>
  ) as Element;

/** The first of a list, and the rest behind a fold. */
function folded<T>(
  items: readonly T[],
  most: number,
  show: (one: T) => Element,
  more: (rest: number) => string,
): Element[] {
  const rest = items.slice(most);
  return [
    ...items.slice(0, most).map(show),
    ...(rest.length > 0
      ? [
          (
            <details>
              <summary>{more(rest.length)}</summary>
              {rest.map(show)}
            </details>
          ) as Element,
        ]
      : []),
  ];
}

function inEntries(site: SiteContext, { entries }: ForeseenWithIt): Element {
  const more = entries.length - mostEntries;
  return (
    <p>
      {entries.length === 1 ? 'Foreseen in entry ' : 'Foreseen in entries '}
      {entries
        .slice(0, mostEntries)
        .flatMap((number, at) => [at > 0 ? ', ' : '', <a href={href(site, `/${number}/`)}>{String(number)}</a>])}
      {more > 0 ? ` and ${more} more` : ''}.
    </p>
  ) as Element;
}

function inOurPots(site: SiteContext, pots: readonly ForeseenWithIt[], rules: readonly RuleShown[]): Element[] {
  if (pots.length === 0) return [];
  const show = (pot: ForeseenWithIt): Element => {
    const rule = rules.find((one) => one.rule === pot.rule);
    return card(pot, [...(rule ? told(rule) : []), inEntries(site, pot), ...(rule ? [sourceOf(rule)] : [])]);
  };
  return [
    (<h3 class="rules-part">In this journal’s own pots</h3>) as Element,
    ...folded(pots, mostOpen, show, (rest) => `${rest} more in this journal’s own pots`),
  ];
}

function byItself(rules: readonly RuleShown[]): Element[] {
  if (rules.length === 0) return [];
  const show = (one: RuleShown): Element => card(one, [...told(one), sourceOf(one)]);
  return [
    (<h3 class="rules-part">By itself, or when heated</h3>) as Element,
    ...folded(rules, mostOpen, show, (rest) => `${rest} more by itself, or when heated`),
  ];
}

/** One of a fold: what meets it, what comes of that, what to do. */
const line = (one: RuleShown): Element =>
  (
    <li>
      {severityMark(one.severity)}
      <div>
        <p>
          <b>{`${upper(one.title)}. `}</b>
          {`${upper(one.consequence)}`}
          {one.gas ? [' (', ...formulaWords(one.gas), ')'] : ''}
          {': '}
          {formulaWords(full(one.condition))}
        </p>
        <p>
          <b>What to do. </b>
          {formulaWords(full(one.precaution))}
        </p>
        {sourceOf(one)}
      </div>
    </li>
  ) as Element;

const inAlphabet = (words: Iterable<string>): string[] => [...new Set(words)].sort((a, b) => a.localeCompare(b, 'en'));

function ofOneKind(kind: string, rules: readonly RuleShown[]): Element[] {
  if (rules.length === 0) return [];
  return [
    (
      <div class="rules-kind">
        <p>
          <b>{`${kind}: `}</b>
          {`with ${inAlphabet(rules.flatMap(({ meets }) => meets)).join(', ')}.`}
        </p>
        <details>
          <summary>{`What happens, and what to do (${rules.length})`}</summary>
          <ul class="rule-lines">{rules.map(line)}</ul>
        </details>
      </div>
    ) as Element,
  ];
}

/**
 * What a reagent can do with others or when heated.
 * @param rules of mixing and heating in which it takes part
 * @param pots what was foreseen in entries that used it
 */
export function reagentRules(site: SiteContext, rules: readonly RuleShown[], pots: readonly ForeseenWithIt[]): Element {
  const shown = new Set(pots.map(({ rule }) => rule));
  const rest = rules.filter(({ rule }) => !shown.has(rule));
  const own = rest.filter(({ meets }) => meets.length === 0);
  const mixed = rest.filter(({ meets }) => meets.length > 0);
  return (
    <section class="foreseen rules" aria-labelledby="rules">
      <h2 id="rules">What it can do with others, or when heated</h2>
      {rules.length + pots.length === 0 ? (
        <p>Nothing on our list names it. The list is incomplete; that is no all-clear.</p>
      ) : (
        <p class="small quiet">From our list, which is incomplete; what is not on it is not thereby safe.</p>
      )}
      {inOurPots(site, pots, rules)}
      {byItself(own)}
      {mixed.length > 0 ? <h3 class="rules-part">If it met something else</h3> : null}
      {kinds.flatMap(([kind, words]) =>
        ofOneKind(
          words,
          mixed.filter((one) => one.kind === kind),
        ),
      )}
    </section>
  ) as Element;
}

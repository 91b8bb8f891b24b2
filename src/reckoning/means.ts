// What a shelf has towards making a pigment, what it lacks, and what dangers that would bring. It offers no procedure:
// equations tell which substances must be at hand, and are not handed on.
import { composition, elementName, parseEquation, parseFormula } from '../chemistry/index.js';
import { foresee } from '../hazards/index.js';
import { othersDiffer, type HazardBox, type LabelStatement } from '../hazards/ghs/index.js';
import type { ShelfReagent } from '../journal/schema.js';
import { once } from '../once.js';
import {
  cupboardOf,
  dryComposition,
  nameOfFormula,
  resolveJar,
  resolveNamed,
  type LotProduct,
  type ResolvedReagent,
} from '../reagents/index.js';
import { boxOfReagents } from '../hazards/box-of-reagent.js';

/** A pigment that could be made. */
export interface PigmentWanted {
  readonly names: readonly string[];
  readonly formulas: readonly string[];
  readonly elements: readonly string[];
  /** Balanced equations of ways to it, as bookkeeping. */
  readonly reactions: readonly string[];
  /** What the trade says against it; empty where nothing is said. */
  readonly caution: string;
}

/** A jar of the shelf, resolved. */
export interface JarAtHand {
  readonly id: string;
  readonly reagent: ResolvedReagent;
}

export interface Means {
  /** Ids of the shelf. */
  readonly have: readonly string[];
  /** Names of what no jar holds. */
  readonly lack: readonly string[];
  /** Sentences, what is poisonous first; never empty. */
  readonly dangers: readonly string[];
}

/** Every jar of a shelf, resolved once. */
export function jarsAtHand(
  shelf: ReadonlyMap<string, ShelfReagent>,
  lot: (name: string) => LotProduct | undefined,
): readonly JarAtHand[] {
  const cupboard = cupboardOf(new Map(), lot);
  return [...shelf].map(([id, jar]) => ({ id, reagent: resolveJar(jar, cupboard) }));
}

/** Substances that nobody buys for a reaction: the air brings them, or the tap. */
const ample = once(() => new Set(['H2O', 'O2', 'CO2', 'N2'].map(dryComposition)));

/** What a way asks for: formulae of its reactants, without what the air and the tap bring. */
function reactantsOf(reaction: string): readonly string[] {
  const read = parseEquation(reaction);
  if (!read.ok) return [];
  return read.value.reactants.map(({ label }) => label).filter((formula) => !ample().has(dryComposition(formula)));
}

/** What would be brought together, as jars hold it where any does, and what is foreseen where an equation is known. */
interface Meeting {
  readonly reactants: readonly ResolvedReagent[];
  readonly foreseen: readonly string[];
}

/** What is said of a way to a pigment, whatever the shelf holds. */
export interface DangersByReaction {
  readonly foreseen: readonly string[];
  /** All sentences, where nothing of it is on the shelf. */
  readonly dangers: readonly string[];
}

interface Way extends Pick<Means, 'have' | 'lack'> {
  readonly reaction?: string;
  /** @param foreseen by its reaction, where that is at hand */
  readonly meeting: (foreseen?: readonly string[]) => Meeting;
}

const nameFor = (formula: string): string => nameOfFormula(formula) ?? formula;

/** A reactant of an equation as it is sold by name. */
const namedFor = (formula: string): ResolvedReagent => resolveNamed(nameFor(formula), formula);

/**
 * A reactant as the shelf holds it: a hydrate, a solution and a maker's sheet have hazards of their own. Of a jar that
 * nothing is known of, what its substance is known for is said too.
 */
function heldAs(formula: string, jars: readonly JarAtHand[]): readonly ResolvedReagent[] {
  const held = jars.map(({ reagent }) => reagent);
  const isKnown = held.length > 0 && boxOfReagents(held).unknown.length === 0;
  return isKnown ? held : [...held, namedFor(formula)];
}

/** A way by an equation: jars that hold the same substance, its water apart, at whatever strength. */
function wayOf(reaction: string, jars: readonly JarAtHand[]): Way | undefined {
  const formulae = reactantsOf(reaction);
  if (formulae.length === 0) return undefined;
  const held = formulae.map((formula) => {
    const dry = dryComposition(formula);
    return { formula, jars: jars.filter(({ reagent }) => reagent.substance?.constituents.dry === dry) };
  });
  return {
    reaction,
    meeting: (foreseen = foreseenBy(reaction)) => ({
      reactants: held.flatMap((one) => heldAs(one.formula, one.jars)),
      foreseen,
    }),
    have: held.flatMap((one) => one.jars.map(({ id }) => id)),
    lack: held.filter((one) => one.jars.length === 0).map(({ formula }) => nameFor(formula)),
  };
}

const holds = ({ reagent }: JarAtHand, element: string): boolean => {
  const { substance } = reagent;
  return substance !== undefined && composition(substance.parsed).has(element);
};

/** Where no equation is known: jars with its colour-giving elements. */
function wayByElements({ elements }: PigmentWanted, jars: readonly JarAtHand[]): Way {
  const sources = jars.filter((jar) => elements.some((element) => holds(jar, element)));
  return {
    meeting: () => ({ reactants: sources.map(({ reagent }) => reagent), foreseen: [] }),
    have: sources.map(({ id }) => id),
    lack:
      elements.length === 0
        ? ['what it is made of is not in the table']
        : [
            ...elements
              .filter((element) => !sources.some((jar) => holds(jar, element)))
              .map((element) => `a compound of ${elementName(element)}`),
            // Without an equation nothing tells what goes in besides: a glass is more than its colour.
            'what else it is made of, which is not in the table',
          ],
  };
}

/** The way that lacks least. */
function bestWay(pigment: PigmentWanted, jars: readonly JarAtHand[]): Way {
  const ways = pigment.reactions.flatMap((reaction) => wayOf(reaction, jars) ?? []);
  const [best] = [...ways].sort((a, b) => a.lack.length - b.lack.length);
  return best ?? wayByElements(pigment, jars);
}

/** The pigment itself, by the first of its formulae that can be read, else by its name. */
function pigmentItself({ names, formulas }: PigmentWanted): ResolvedReagent {
  const formula = formulas.find((one) => parseFormula(one).ok);
  return resolveNamed(names[0]!, formula);
}

/** Acute toxicity of categories 1 to 3, and what harms heritably, breeds cancer or ruins organs. */
const poisonous = /^(?:H3(?:00|01|10|11|30|31|40|41|50|51|60|61|62|70|71|72)|EUH(?:029|031|032|070))/;

const codesOf = (name: string, statements: readonly LabelStatement[]): string =>
  statements
    .filter(({ from }) => from.includes(name))
    .map(({ code }) => code)
    .join(', ');

function poisonSentence({ statements }: HazardBox): readonly string[] {
  const grave = statements.filter(({ code }) => poisonous.test(code));
  const names = [...new Set(grave.flatMap(({ from }) => from))];
  if (names.length === 0) return [];
  return [`Poisonous: ${names.map((name) => `${name} (${codesOf(name, grave)})`).join('; ')}.`];
}

const statementSentence = ({ code, text, from }: LabelStatement): string =>
  `${text.replace(/\.$/, '')} (${code}: ${from.join(', ')}).`;

/** What could go wrong where the reactants of an equation meet, each undiluted. */
function foreseenBy(reaction: string): readonly string[] {
  const ingredients = reactantsOf(reaction).map((formula) => ({ reagent: namedFor(formula) }));
  return foresee({ ingredients, reaction })
    .foreseen.filter(({ severity }) => severity !== 'note')
    .map(({ severity, title, consequence, gas }) => {
      const given = gas ? ` (${gas})` : '';
      return `Foreseen ${severity}: ${title}: ${consequence}${given}.`;
    });
}

function dangersOf(pigment: PigmentWanted, meeting: Meeting): readonly string[] {
  const box = boxOfReagents([pigmentItself(pigment), ...meeting.reactants]);
  const milder = box.statements.filter(({ code }) => !poisonous.test(code));
  const said = [
    ...poisonSentence(box),
    ...(pigment.caution === '' ? [] : [`Caution of the trade: ${pigment.caution}.`]),
    ...(box.unknown.length > 0 ? [`No hazard data for ${box.unknown.join(', ')}: to be treated as hazardous.`] : []),
    ...meeting.foreseen,
    ...milder.map(statementSentence),
    ...othersDiffer(box).map(({ sentence }) => sentence),
  ];
  return said.length > 0 ? said : ['No hazard of it is named here, which does not make it safe.'];
}

/** Dangers of making a pigment by an equation from what is sold by the names of its reactants. */
export function dangersByReaction(pigment: PigmentWanted, reaction: string): DangersByReaction {
  const foreseen = foreseenBy(reaction);
  return { foreseen, dangers: dangersOf(pigment, { reactants: reactantsOf(reaction).map(namedFor), foreseen }) };
}

/**
 * What a shelf has towards a pigment, what it lacks and what dangers that would bring.
 * @param jars of the shelf, by `jarsAtHand`
 * @param knownDangers what `dangersByReaction` says, where it is at hand
 */
export function meansOf(
  pigment: PigmentWanted,
  jars: readonly JarAtHand[],
  knownDangers: (reaction: string) => DangersByReaction | undefined = () => undefined,
): Means {
  const { have, lack, reaction, meeting } = bestWay(pigment, jars);
  const known = reaction === undefined ? undefined : knownDangers(reaction);
  const dangers = known && have.length === 0 ? known.dangers : dangersOf(pigment, meeting(known?.foreseen));
  return { have: [...new Set(have)], lack: [...new Set(lack)], dangers };
}

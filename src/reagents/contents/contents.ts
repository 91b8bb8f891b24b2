// Every substance that the words of a reagent may stand for or hold, for the judging of danger: what a product is sold
// as, what stands in brackets or behind `with`, the members of a class; and in what state the words say it is.
import { exact, parseQuantity, type Quantity } from '../../chemistry/index.js';
import { once, onceFor } from '../../once.js';
import type { AmountWritten, ReagentWritten, ResolvedReagent } from '../contracts.js';
import { plainNamesTable } from '../../tables/compiled/reagents/contents/plain-names.js';
import { dryComposition } from '../constituents.js';
import { roughNameOf } from './rough-names.js';
import { formulaOf, substancesNamed } from '../known-substances.js';
import { nameOfFormula } from '../name-of-formula.js';
import { resolveReagent } from '../resolve.js';
import { meaningOf } from './lexicon.js';
import { contentsOfPart, type PossibleContent } from './part-contents.js';
import type { Circumstance } from './circumstances.js';
import { isHowMuch, readPhrase, type Phrase, type PhrasePart } from './read-phrase.js';

export type { Circumstance } from './circumstances.js';

/** One content, resolved like a reagent of its own. */
export interface ReagentContent {
  readonly reagent: ResolvedReagent;
  /** Contents of one part do not meet one another. */
  readonly part: number;
  /** Contents of one variant are there together, other variants of the same part instead of it. */
  readonly variant: string;
}

export interface ReagentContents {
  /** Empty where the resolved reagent is all that there is to judge. */
  readonly contents: readonly ReagentContent[];
  readonly circumstances: ReadonlySet<Circumstance>;
  /** Words that nothing here knows: what they name cannot be judged. */
  readonly unaccounted: readonly string[];
  /** Words in brackets that nothing here knows: they are left out, and said to be. */
  readonly leftOut: readonly string[];
  /** Every word that nothing here knows, also where a formula decides what it is. */
  readonly unread: readonly string[];
  /** The words name no stuff at all: there is nothing to judge. */
  readonly namesNothing: boolean;
  /** It is heated, and the words do not say how hot. */
  readonly heatUnstated: boolean;
  /** Nothing but a hob heats it. */
  readonly onHob: boolean;
  /** Words that name no stuff say that it is melted. */
  readonly melted: boolean;
  /** °C that the words tell. */
  readonly celsius?: number;
}

/**
 * The words that were written; where they call it by an id of the shelf its name there, with what else they say: `water
 * 300 mL in a closed jar`.
 */
function phraseOf({ written: { written, name }, unused }: ResolvedReagent): string {
  const first = name.split(/[\s,;]+/)[0]!.toLowerCase();
  // An id is one word, and what it ends in (`ammonia14`) says nothing.
  return /\s/.test(written) && written.toLowerCase().includes(first) ? written : [name, ...unused].join(' ');
}

/** The name alone tells what it is, and nothing else is sold under it. */
function isPlainly({ substance, written, unused, name }: ResolvedReagent): boolean {
  if (!substance || unused.length > 0 || substance.takenAs === 'organic') return false;
  // `hot ash` is more than ash that is hot.
  const withState = [...(written.state ?? []), name].join(' ');
  return [name, written.plainName ?? name, withState].map(meaningOf).every((meaning) => {
    if (meaning?.kind === 'product') return false;
    const added = meaning?.kind === 'stuff' ? (meaning.groups ?? []) : [];
    return added.every((group) => substance.groups.includes(group));
  });
}

const amountIn = (quantities: readonly Quantity[]): AmountWritten | undefined => {
  const quantity = quantities.find(isHowMuch);
  return quantity && { kind: 'measured', quantity };
};

const strengthKinds = new Set([
  'concentration',
  'mass-percent',
  'mass-volume-percent',
  'volume-percent',
  'oxygen-volumes',
  'degrees-baume',
  'degrees-twaddell',
]);

const percent = (value: string): Quantity | undefined => {
  const read = parseQuantity(`${value} %`);
  return read.ok ? read.value : undefined;
};

const mostPercent = exact(100);

/** What no longer has the strength that it was sold with: `battery acid, boiled down`. */
const boiledDown =
  /^(?:(?:boiled|cooked|evaporated|reduced|simmered|heated|steamed|fumed) (?:down|off|away|to (?:a syrup|syrup|(?:white )?fumes|half))|concentrated by)\b/;
/** Acids and alkalis that stay behind while their water boils off. */
const staysBehind = once((): ReadonlySet<string> => new Set(['H2SO4', 'H3PO4', 'NaOH', 'KOH'].map(dryComposition)));
const isStronger = (formula: string, states: readonly string[]): boolean =>
  states.some((word) => boiledDown.test(word)) && staysBehind().has(dryComposition(formula));

/** °C of sulfuric acid that is boiled down until it is strong; from memory, 98 % boils at 337 °C. */
const boiledDownCelsius = 250;
const boilsDownHot = once(() => dryComposition('H2SO4'));

const boilingDown = ({ formula }: PossibleContent, { states }: PhrasePart): number =>
  isStronger(formula, states) && dryComposition(formula) === boilsDownHot() ? boiledDownCelsius : -Infinity;

function amountOf(part: PhrasePart, whole: ReagentWritten, alone: boolean): AmountWritten | undefined {
  const isRead = whole.name !== whole.written;
  return alone && isRead ? whole.amount : (amountIn(part.quantities) ?? (alone ? whole.amount : undefined));
}

/** Its strength is not known any more: it is taken at its worst. */
function strengthLost(
  { formula }: PossibleContent,
  part: PhrasePart,
  whole: ReagentWritten,
  alone: boolean,
): ReagentWritten {
  const amount = amountOf(part, whole, alone);
  return { written: whole.written, name: formula, formula, ...(amount && { amount }) };
}

/** A content as a maker would have written it: with the amount of the whole and its own strength. */
function writtenAs(content: PossibleContent, part: PhrasePart, whole: ReagentWritten, alone: boolean): ReagentWritten {
  const { formula } = content;
  if (isStronger(formula, part.states)) return strengthLost(content, part, whole, alone);
  const { name = formula, percentHigh } = content;
  const amount = amountOf(part, whole, alone);
  const stated =
    part.quantities.find(({ dimension }) => strengthKinds.has(dimension)) ?? (alone ? whole.strength : undefined);
  const sold = percentHigh?.lt(mostPercent) ? percent(percentHigh.toFixed()) : undefined;
  const strength = stated ?? sold;
  return {
    written: whole.written,
    name,
    ...(content.name === undefined && { formula }),
    ...(amount && { amount }),
    ...(strength && { strength }),
    ...(part.states.length > 0 && { state: part.states }),
  };
}

/** °C at which what is said to be melted melts: wax and resin in hot water, salts and metals far above. */
const melts = { organic: 90, resin: 150, other: 400 };
/** Atoms of hydrogen to one of carbon: fewer in resin and tar than in oil and wax. */
const resinRatio = 1.7;

function meltingOf({ melted }: PhrasePart, { substance }: ResolvedReagent): number {
  if (!melted || !substance) return -Infinity;
  const { atoms, kind } = substance.constituents;
  if (isFatty(substance) && atoms.get('H')! < resinRatio * atoms.get('C')!) return melts.resin;
  return kind === 'molecule' && atoms.has('C') && atoms.has('H') ? melts.organic : melts.other;
}

/**
 * °C of what does not boil with water: hot oil, fat, wax, resin or tar is as hot as for frying, boiling it smokes. From
 * memory.
 */
const hotFat = { hot: 180, boiling: 250 };
/** Atoms of carbon from which a molecule of carbon and hydrogen boils far above water. */
const heavyMolecule = 15;
const fewOxygens = 6;

/** Oil, fat, wax, resin, tar. */
function isFatty({ constituents: { atoms, kind } }: NonNullable<ResolvedReagent['substance']>): boolean {
  const only = [...atoms.keys()].every((symbol) => ['C', 'H', 'O'].includes(symbol));
  const isHeavy = (atoms.get('C') ?? 0) >= heavyMolecule && atoms.has('H');
  return kind === 'molecule' && only && isHeavy && (atoms.get('O') ?? 0) <= fewOxygens;
}

function hotFatOf({ hot, quantities }: PhrasePart, { substance }: ResolvedReagent): number {
  const isTold = quantities.some(({ dimension }) => dimension === 'temperature');
  return hot && substance && !isTold && isFatty(substance) ? hotFat[hot] : -Infinity;
}

const heatOfWords = (part: PhrasePart, reagent: ResolvedReagent): number =>
  Math.max(meltingOf(part, reagent), hotFatOf(part, reagent));

function resolveContent(
  content: PossibleContent,
  part: PhrasePart,
  whole: ReagentWritten,
  alone: boolean,
): ResolvedReagent | undefined {
  const written = writtenAs(content, part, whole, alone);
  const byName = resolveReagent(written);
  const reagent = byName.substance ? byName : resolveReagent({ ...written, formula: content.formula });
  if (!reagent.substance) return undefined;
  const celsius = Math.max(
    part.celsius ?? -Infinity,
    reagent.celsius ?? -Infinity,
    heatOfWords(part, reagent),
    boilingDown(content, part),
  );
  const groups = [...new Set([...reagent.substance.groups, ...content.groups])];
  return {
    ...reagent,
    substance: { ...reagent.substance, groups },
    ...(Number.isFinite(celsius) && { celsius }),
  };
}

/** Water in what is said to be damp meets it. */
const water = (part: number): ReagentContent => ({
  reagent: resolveReagent({ written: 'water', name: 'water' }),
  part,
  variant: 'water',
});

const hottest = (phrase: Phrase, reagent: ResolvedReagent): number | undefined => {
  const { parts } = phrase;
  const melting = parts.map((part) => heatOfWords(part, reagent)).filter(Number.isFinite);
  const told = [
    ...parts.flatMap(({ celsius }) => celsius ?? []),
    ...melting,
    ...(phrase.celsius !== undefined ? [phrase.celsius] : []),
  ];
  return told.length > 0 ? Math.max(...told) : undefined;
};

function contentsIn(reagent: ResolvedReagent, phrase: Phrase): readonly ReagentContent[] {
  const alone = phrase.parts.length === 1;
  const all = phrase.parts.flatMap((part, at) =>
    contentsOfPart(part).flatMap((content): readonly ReagentContent[] => {
      const resolved = resolveContent(content, part, reagent.written, alone);
      return resolved ? [{ reagent: resolved, part: at, variant: content.variant }] : [];
    }),
  );
  return saysBoth.test(reagent.written.written) ? all : ofNamedKinds(all);
}

/** What is beside it is there too, and does not say which kind it is. */
const saysBoth = /\s(?:and|with|und|mit|et|avec|y|con|e|mixed|gemischt)\s|[+&]/i;

/** `limescale remover, hydrochloric acid 9 %`: of all that the product is sold as, the kind that stands beside it. */
function ofNamedKinds(all: readonly ReagentContent[]): readonly ReagentContent[] {
  const kindOf = ({ part, variant }: ReagentContent): string => `${part} ${variant}`;
  const isNamedBeside = (one: ReagentContent): boolean =>
    all.some(
      (other) => other.part !== one.part && other.variant === 'named' && dryOf(other.reagent) === dryOf(one.reagent),
    );
  const told = all.filter((one) => one.variant !== 'named' && isNamedBeside(one));
  const [parts, kinds] = [new Set(told.map(({ part }) => part)), new Set(told.map(kindOf))];
  return all.filter((one) => !told.includes(one) && (!parts.has(one.part) || kinds.has(kindOf(one))));
}

const dryOf = ({ substance }: ResolvedReagent): string | undefined => substance?.constituents.dry;

/** The reagent as it was resolved, where a content is that reagent with more groups: its amount and strength stand. */
function withOwnAmount(content: ReagentContent, own: ResolvedReagent): ReagentContent {
  const { substance } = content.reagent;
  if (
    !own.substance ||
    !substance ||
    content.variant !== 'named' ||
    content.part !== 0 ||
    dryOf(content.reagent) !== dryOf(own)
  )
    return content;
  if (!own.taken.molAtMost && content.reagent.taken.molAtMost) return content;
  const groups = [...new Set([...own.substance.groups, ...substance.groups])];
  return { ...content, reagent: { ...own, substance: { ...own.substance, groups } } };
}

/** Contents that say more than the reagent as it was resolved; none where they are that reagent. */
function furtherContents(reagent: ResolvedReagent, phrase: Phrase): readonly ReagentContent[] {
  const found = contentsIn(reagent, phrase);
  if (reagent.substance && phrase.parts.some(({ states }) => isStronger(reagent.substance!.formula, states)))
    return found;
  const own = dryOf(reagent);
  if (own === undefined) return found;
  const says = new Set(reagent.substance?.groups);
  const isSame = ({ reagent: content, part }: ReagentContent): boolean =>
    part === 0 && dryOf(content) === own && (content.substance?.groups ?? []).every((group) => says.has(group));
  return found.every(isSame) ? [] : found.map((content) => withOwnAmount(content, reagent));
}

/** A formula that was given decides what it is; words beside it only tell the state. */
const isDecided = ({ written, substance }: ResolvedReagent): boolean =>
  substance !== undefined && (written.formula !== undefined || written.lot !== undefined);

/**
 * What the words of a reagent may stand for or hold.
 * @example contentsOf(resolveNamed('drain opener')).contents.length > 1 // true
 */
export const contentsOf: (reagent: ResolvedReagent) => ReagentContents = onceFor((reagent: ResolvedReagent) => {
  const phrase = readPhrase(phraseOf(reagent));
  const decided = isDecided(reagent) || isPlainly(reagent);
  const further = decided ? [] : furtherContents(reagent, phrase);
  const damp = phrase.circumstances.has('damp') ? [water(phrase.parts.length)] : [];
  const celsius = hottest(phrase, reagent);
  return {
    contents: [...further, ...damp],
    circumstances: phrase.circumstances,
    unaccounted: decided ? [] : phrase.unaccounted,
    leftOut: decided ? [] : phrase.leftOut,
    unread: [...phrase.unaccounted, ...phrase.leftOut],
    heatUnstated: phrase.heatUnstated,
    onHob: phrase.onHob,
    melted: phrase.melted,
    namesNothing: phrase.namesNothing && reagent.substance === undefined,
    ...(celsius !== undefined && { celsius }),
  };
});

/** A short name for what a content was taken as: `sulfuric acid (H2SO4)`. */
export function nameOfContent({ reagent }: ReagentContent): string {
  const { name, substance } = reagent;
  const formula = substance?.formula ?? name;
  const rough = roughNameOf(formula);
  if (rough !== undefined) return name === formula ? rough : name;
  if (name !== formula) return substance?.roughly ? name : `${name} (${formula})`;
  const known = substancesNamed(formula).substances[0];
  return known && formulaOf([known]) !== undefined ? `${known.name} (${formula})` : formula;
}

/**
 * What a reagent of which nothing is known may be meant for, by names that are known; none where its words do not tell.
 * @example meantBy('coper sulfat') // ['copper sulphate (CuSO4)']
 */
export function meantBy(name: string): readonly string[] {
  const reagent = resolveReagent({ written: name, name });
  if (reagent.substance) return [];
  const formulae = contentsOf(reagent).contents.flatMap(({ variant, reagent: { substance } }) =>
    substance && variant !== 'water' ? [substance.formula] : [],
  );
  return [...new Set(formulae)].flatMap((formula) => {
    const meant = nameOfFormula(formula);
    return meant === undefined ? [] : [`${meant} (${formula})`];
  });
}

let plain: ReadonlyMap<string, string> | undefined;

/**
 * What a name was taken as, in words for a bench.
 * @param content as `nameOfContent` gives it: a formula alone is given its common name
 * @example contentShown('NH2SO3H') // 'sulfamic acid (NH2SO3H)'
 */
export function contentShown(content: string): string {
  plain ??= new Map(plainNamesTable().map(({ formula, name }) => [formula, name]));
  const name = plain.get(content);
  return name === undefined ? content : `${name} (${content})`;
}

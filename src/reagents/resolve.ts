// What a maker wrote → one resolved reagent: substance, strength, amount, origin. Every room reads this alone.
import { exact, parseFormula, type Decimal, type Formula, type Quantity } from '../chemistry/index.js';
import { memoise } from '../memoise.js';
import { onceFor } from '../once.js';
import { good, type Outcome } from '../outcome.js';
import { strengthOf, takePortion } from './amount.js';
import type {
  AmountKind,
  AmountWritten,
  Cupboard,
  Doubt,
  NamedStrength,
  Portion,
  ReagentWritten,
  ResolvedReagent,
  ResolvedStrength,
  ShelfFacts,
  TakenPortion,
} from './contracts.js';
import { roughNameOf } from './contents/rough-names.js';
import { identify, type Identified } from './identity.js';
import { traceJar, traceText, traceUse, type Traced, type UseFacts } from './origin.js';
import { strengthOfWord } from './sold-as.js';
import { celsiusOf, saysDissolved, saysUndiluted } from './state.js';
import { readAmountWords } from './rough.js';
import { saltOfTwoStates } from './salts-of-two-states.js';
import { readReagentText } from './text.js';

/** How a reading is kept apart from others, and what the balance can do. */
export interface Measuring {
  /** Default: the reagent's name. */
  readonly id?: string;
  /** Name of the stuff, shared by all its uses. Default: the reagent's name. */
  readonly stuff?: string;
  /** Half-width of a reading of the balance, g. */
  readonly balance?: Decimal;
}

const emptyCupboard: Cupboard = { shelf: () => undefined, lot: () => undefined };

/** Words in a name that say it is dissolved. */
const calledSolution = /\bsolution\b|\baqueous\b|\((?:aq)\)$/i;

/** What a word of state says of the strength; a product's own strength goes before a word that does not fit it. */
function strengthToldBy(what: Identified | undefined, state: readonly string[]): NamedStrength | undefined {
  if (!what) return undefined;
  const { substance, named } = what;
  // Parts in parts: thinner than it is sold, and nobody says of what.
  if (state.some((word) => /^\d+[:+]\d+$/.test(word))) return undefined;
  if (saysUndiluted(state)) return undilutedOf(substance.formula);
  for (const word of state) {
    const told = strengthOfWord(word, substance.formula);
    if (told && (!named || (told.low.gte(named.low) && told.high.lte(named.high)))) return told;
  }
  return named;
}

const undilutedOf = (formula: string): NamedStrength => ({
  name: 'undiluted',
  formula,
  low: exact(100),
  usual: exact(100),
  high: exact(100),
  source: 'as stated',
});

/** Percent of NH3 that no solution exceeds: a higher figure counts NH4OH. Source: 0.88 ammonia in sold-as.csv. */
const mostAmmonia = exact('35.6');
const shareOfAmmonia = exact('17.031').div('35.046');

interface Counted {
  readonly formula?: Formula;
  readonly strength?: Quantity;
  readonly doubts: readonly Doubt[];
}

let ammonia: Formula | undefined;
function ammoniaFormula(): Formula | undefined {
  if (!ammonia) {
    const read = parseFormula('NH3');
    if (read.ok) ammonia = read.value;
  }
  return ammonia;
}

/** A solution written NH4OH is labelled by its NH3: 28 % NH3 is the same bottle as 57 % NH4OH. */
function countedAs(what: Identified | undefined, { strength, density, amount }: ReagentWritten): Counted {
  const formula = what?.substance.parsed;
  const dissolved =
    strength !== undefined ||
    density !== undefined ||
    (amount?.kind === 'measured' && ['volume', 'drops'].includes(amount.quantity.dimension));
  if (what?.substance.constituents.dry !== 'H5NO' || !dissolved) return { formula, strength, doubts: [] };
  const ofHydroxide = strength?.dimension === 'mass-percent' && strength.base.gt(mostAmmonia);
  const counted = ofHydroxide ? { ...strength, base: strength.base.times(shareOfAmmonia) } : strength;
  const facts = { written: what.substance.formula, ...(strength && { strength: strength.written }) };
  return {
    formula: ammoniaFormula(),
    strength: counted,
    doubts: [{ code: 'counted-as-ammonia', facts }],
  };
}

/** A rough measure as a quantity with its ends. */
const roughQuantity = (amount: Extract<AmountWritten, { kind: 'rough' }>): Quantity => ({
  written: amount.words,
  dimension: amount.unit === 'g' ? 'mass' : 'volume',
  value: amount.usual,
  unit: amount.unit,
  base: amount.usual,
  baseUnit: amount.unit,
  resolution: exact(1),
  low: amount.low,
  high: amount.high,
  tolerance: amount.high.minus(amount.low).div(2),
});

/**
 * An amount as written, as a quantity; undefined where it has none.
 * @example writtenQuantity('2 oz')?.base.toFixed(1) // '56.7'
 */
export const writtenQuantity = (words: string): Quantity | undefined => quantityOf(readAmountWords(words));

const excess: Quantity = {
  written: 'excess',
  dimension: 'excess',
  value: exact(1),
  unit: '',
  base: exact(1),
  baseUnit: '',
  resolution: exact(1),
};

function quantityOf(amount: AmountWritten | undefined): Quantity | undefined {
  switch (amount?.kind) {
    case 'measured':
      return amount.quantity;
    case 'excess':
      return amount.quantity ?? excess;
    case 'rough':
      return roughQuantity(amount);
    case 'unknown':
      return amount.ample ? { ...excess, written: amount.words } : undefined;
    default:
      return undefined;
  }
}

function kindOf(amount: AmountWritten | undefined): AmountKind {
  if (amount?.kind === 'measured' && amount.quantity.rough) return 'rough';
  return amount?.kind ?? 'not-said';
}

function identityDoubts(
  { written, name, unused = [] }: ReagentWritten,
  what: Identified | undefined,
): readonly Doubt[] {
  const doubts: Doubt[] = [];
  if (unused.length > 0) doubts.push({ code: 'words-not-used', facts: { written, words: unused.join(', ') } });
  if (!what) return doubts;
  const { formula, takenAs, roughly, note, alternatives } = what.substance;
  const standsFor = roughly ? roughNameOf(formula) : undefined;
  const facts = { name, formula, ...(note && { note }), ...(standsFor && { standsFor }) };
  if (takenAs !== 'formula' && takenAs !== 'name-is-formula') doubts.push({ code: 'taken-as', facts });
  if (roughly) doubts.push({ code: 'only-roughly-this', facts });
  if (alternatives.length > 1)
    doubts.push({
      code: 'sold-as-several',
      facts: { name, as: alternatives.map(({ name: as, usual }) => `${as} ${usual.toFixed()} %`).join(', ') },
    });
  const twoStates = saltOfTwoStates(name, what.substance);
  if (twoStates) doubts.push({ code: 'salt-of-two-states', facts: { name, formula, other: twoStates.other } });
  return doubts;
}

/** What is only roughly of a formula has no amount of substance, but a most that it can be where danger is judged. */
function takenRoughly(portion: Portion, strength: ResolvedStrength): TakenPortion {
  const { formula: _, ...unnamed } = portion;
  const { molAtMost } = takePortion(portion, strength);
  return { ...takePortion(unnamed), strength, ...(molAtMost && { molAtMost }) };
}

/** What there is of it, as the reckoning of amounts takes it. */
function portionOf(
  written: ReagentWritten,
  counted: Counted,
  named: NamedStrength | undefined,
  { id, stuff, balance }: Measuring,
): Portion {
  const { name, purity, density, dropVolume, state = [] } = written;
  const dissolved = calledSolution.test(name) || saysDissolved(state) || undefined;
  const { formula, strength } = counted;
  const amount = quantityOf(written.amount);
  return {
    id: id ?? name,
    stuff: stuff ?? name,
    name,
    formula,
    amount,
    strength,
    purity,
    density,
    dropVolume,
    named,
    dissolved,
    // An ounce was weighed, however roughly.
    asPoured: written.amount?.kind === 'rough' && written.amount.unit === 'mL' ? true : undefined,
    balance,
  };
}

/** What is known of a thing as it is written, however much is taken of it. */
interface Known {
  readonly what: Identified | undefined;
  readonly named: NamedStrength | undefined;
  readonly doubts: readonly Doubt[];
  readonly strengths: Map<string, ResolvedStrength>;
}

const knownOf = onceFor((written: ReagentWritten): Known => {
  const { name, plainName, alsoCalled, formula, cas, state = [] } = written;
  const what = identify({ name, plainName, alsoCalled, formula, cas, state });
  return { what, named: strengthToldBy(what, state), doubts: identityDoubts(written, what), strengths: new Map() };
});

/** The strength of a portion of what is known; the same for all portions of one stuff that are measured alike. */
function strengthOnce({ strengths }: Known, portion: Portion): ResolvedStrength {
  const { id, stuff = id, amount, asPoured, formula } = portion;
  const key = `${stuff} ${amount?.dimension} ${asPoured} ${formula?.written}`;
  let strength = strengths.get(key);
  if (!strength) strengths.set(key, (strength = strengthOf(portion)));
  return strength;
}

/** Resolves what was traced. */
function resolve({ written, kind = written, origin }: Traced, measuring: Measuring): ResolvedReagent {
  const { name, state = [], sheet, price, unused = [] } = written;
  const known = knownOf(kind);
  const { what, named } = known;
  const counted = countedAs(what, written);
  const portion = portionOf(written, counted, named, measuring);
  const strength = strengthOnce(known, portion);
  const taken = what?.substance.roughly ? takenRoughly(portion, strength) : takePortion(portion, strength);
  return {
    written,
    name,
    substance: what?.substance,
    strength: taken.strength,
    amount: kindOf(written.amount),
    portion,
    taken,
    state,
    celsius: celsiusOf(state),
    sheet,
    price,
    origin,
    unused,
    doubts: [...known.doubts, ...counted.doubts, ...strength.doubts, ...taken.doubts],
  };
}

/**
 * A reagent that is already read, with what the cupboard says of it.
 * @example resolveReagent({ written: 'vinegar', name: 'vinegar' }).strength.massFraction.value // 0.05
 */
export const resolveReagent = (
  written: ReagentWritten,
  cupboard: Cupboard = emptyCupboard,
  measuring: Measuring = {},
): ResolvedReagent => resolve(traceText(written, cupboard), measuring);

/**
 * A line as it is said at the bench, resolved. Errors: those of `readReagentText`.
 * @example resolveText('HCl 10 mL 1.18 g/mL') // 36.2 % by its density, 0.117 mol
 */
export function resolveText(
  line: string,
  cupboard: Cupboard = emptyCupboard,
  measuring: Measuring = {},
): Outcome<ResolvedReagent> {
  const written = readReagentText(line);
  return written.ok ? good(resolveReagent(written.value, cupboard, measuring)) : written;
}

/** A use of an entry: a jar of the shelf, a description or a lot, resolved. */
export const resolveUse = (use: UseFacts, cupboard: Cupboard, measuring: Measuring = {}): ResolvedReagent =>
  resolve(traceUse(use, cupboard), measuring);

/** The same for several uses of one cupboard, in which each is looked up but once. */
export function resolverOfUses(cupboard: Cupboard): (use: UseFacts, measuring?: Measuring) => ResolvedReagent {
  const traced = new Map<UseFacts, Traced>();
  return (use, measuring = {}) => {
    let known = traced.get(use);
    if (!known) traced.set(use, (known = traceUse(use, cupboard)));
    return resolve(known, measuring);
  };
}

/** A jar of the shelf as it stands there, without an amount. */
export const resolveJar = (jar: ShelfFacts, cupboard?: Cupboard): ResolvedReagent =>
  resolve(traceJar(jar, cupboard), {});

/** A line that cannot be read, as something of which nothing is known. */
export const unreadReagent = (line: string): ResolvedReagent => resolve({ written: { written: line, name: line } }, {});

/** Something of which only name and formula are known: a product, a by-product. */
export const resolveNamed = (name: string, formula?: string): ResolvedReagent => resolveNamedOnce([name, formula]);

const resolveNamedOnce = memoise(
  ([name, formula]: readonly [name: string, formula: string | undefined]) => `${name}\n${formula ?? ''}`,
  ([name, formula]) => resolve({ written: { written: name, name, ...(formula !== undefined && { formula }) } }, {}),
  2000,
);

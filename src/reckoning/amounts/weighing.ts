// A weighing list: a reaction and its reagents as they are, filled in or scaled to an amount of product, and rounded to
// the balance.
import {
  atomEconomy,
  composition,
  exact,
  expandedUncertainty,
  molarMass,
  percentYield,
  printFormula,
  rectangular,
  scaled,
  findLimitingReagent,
  isAmbient,
  suppliedBy,
  theoreticalYield,
  times,
  withoutUncertainty,
  type Decimal,
  type Equation,
  type UncertainDecimal,
  type LimitingReagent,
  type ReactantSupply,
  type Quantity,
  type Term,
  type TheoreticalYield,
} from '../../chemistry/index.js';
import { bad, good, type Fault, type Outcome } from '../../outcome.js';
import { meantBy, takePortion, type Portion, type TakenPortion } from '../../reagents/index.js';
import { inReaction, leftOf, roughlyStated, supplierNames, isPurityNotStated } from './limiting.js';
import { availableOf, neutralise, type Neutralised } from './neutralise.js';
import { isTooRough } from './no-yield.js';
import { portionOf, scaledPortion } from './scaling.js';
import type { Figure } from '../figures.js';
import { figureWithin, percentWithin, possibleMasses, type Bounds } from '../undecided.js';

/** One line of the list before it is reckoned. */
export interface WeighingLine {
  readonly measure: Portion;
  readonly role: string;
  /** It may supply a reactant. */
  readonly takesPart: boolean;
  /** mol of protons that it carries as free acid, for what it is as given. */
  readonly freeAcid?: UncertainDecimal;
  /** So much more of it than the reaction needs, as a share: 0.2 for 20 %. */
  readonly over?: Decimal;
}

export interface WeighedLine {
  readonly name: string;
  readonly formula?: string;
  readonly role: string;
  readonly excess: boolean;
  readonly drops?: Decimal;
  /** What is read on the balance or the vessel, as written: `5.54 g`. */
  readonly measured?: { readonly mass?: string; readonly volume?: string };
  readonly taken: TakenPortion;
  readonly equivalents?: UncertainDecimal;
  readonly limiting: boolean;
  readonly tooClose: boolean;
  /** Pure substance left, g. */
  readonly left?: UncertainDecimal;
  readonly leftSubstance?: UncertainDecimal;
  /** The amount was not given and is what the reaction asks for. */
  readonly filledIn: boolean;
  /** It takes part as if it were pure: nothing says how pure it is. */
  readonly purityNotStated: boolean;
  /** g, where weighing cannot tell whether any of it is left. */
  readonly leftAtMost?: Decimal;
  /** Its purity or strength as written, where that is only roughly so. */
  readonly roughlyStated?: string;
}

export interface WeighingList {
  readonly lines: readonly WeighedLine[];
  readonly limiting?: string;
  readonly product: Term;
  readonly theoretical: TheoreticalYield;
  readonly atomEconomy?: UncertainDecimal;
  /** Every product with the most that can come of it. */
  readonly products: readonly { readonly label: string; readonly mass?: UncertainDecimal }[];
  /** By how much the amounts were scaled. */
  readonly factor?: Decimal;
  readonly notes: readonly WeighingNote[];
  /** g of product, where weighing cannot tell what limits. */
  readonly possible?: Bounds;
  readonly limitation: LimitingReagent;
}

export interface WeighingAsked {
  readonly equation: Equation;
  readonly product: Term;
  readonly lines: readonly WeighingLine[];
  /** Wanted amount of product, mol. */
  readonly wanted?: Decimal;
  /** Smallest step of the balance, g; masses are rounded to it when the list is filled in or scaled. */
  readonly step: Decimal;
  /**
   * What the reaction may take from elsewhere: `ambient` is water and the oxygen of the air, `all` whatever no reagent
   * supplies. Default: `all`.
   */
  readonly absent?: 'ambient' | 'all';
}

/** What is to be said beside a list; `weighingNoteWords` says it. */
export type WeighingNote =
  | { readonly note: 'missing'; readonly message: string; readonly cure?: string }
  | { readonly note: 'too-close'; readonly names: readonly string[] }
  /** Water or air, which no reagent supplies. */
  | { readonly note: 'assumed'; readonly label: string; readonly air: boolean }
  /** A reactant that the question leaves out; `needed` is the mass that the rest asks for. */
  | { readonly note: 'left-out'; readonly label: string; readonly needed?: string }
  | { readonly note: 'takes-no-part'; readonly name: string }
  /** A mass of so few steps of the balance that weighing alone is off by this. */
  | {
      readonly note: 'coarse';
      readonly name: string;
      readonly mass: string;
      readonly percent: string;
      readonly asWritten?: string;
    };

/**
 * @example weighingNoteWords({ note: 'missing', message: 'How much?', cure: 'Say.' }) // 'How much? Say.'
 */
export function weighingNoteWords(note: WeighingNote): string {
  switch (note.note) {
    case 'missing':
      return note.cure === undefined ? note.message : `${note.message} ${note.cure}`;
    case 'too-close':
      return `Too close to call: weighing cannot tell whether ${note.names.join(' or ')} runs out first.`;
    case 'assumed':
      return `No reagent supplies ${note.label}; it is taken to be there in excess${note.air ? ' (air)' : ''}.`;
    case 'left-out':
      return leftOutWords(note);
    case 'coarse':
      return coarseWords(note);
    case 'takes-no-part':
      return `${note.name} takes no part in the reaction as it is written.`;
  }
}

/** Where the digits say less than the balance, they are the cause, and said. */
function coarseWords({ name, mass, percent, asWritten }: Extract<WeighingNote, { note: 'coarse' }>): string {
  const balance = `weighing alone is off by ± ${percent} % on this balance`;
  return asWritten === undefined
    ? `${name}, ${mass}: ${balance}.`
    : `${name}, ${mass}: with these digits it is known to ± ${asWritten} %; ${balance}. Write every digit it showed.`;
}

const leftOutWords = ({ label, needed }: { readonly label: string; readonly needed?: string }): string =>
  needed === undefined
    ? `Nothing on this list supplies ${label}.`
    : `Nothing on this list supplies ${label}: at least ${needed} of it is needed besides.`;

/** By how much a line is to be more than is needed: as asked, or as it is written (`10 % excess`). */
function overOf({ over, measure: { amount } }: WeighingLine): Decimal | undefined {
  if (over) return over;
  return amount?.dimension === 'excess' && amount.unit === '%' ? amount.value.div(100) : undefined;
}

/** A reactant of the equation that a reagent without an amount of its own could supply. */
const suppliedReactant = ({ reactants }: Equation, line: WeighingLine): Term | undefined =>
  line.takesPart && line.measure.formula && (!line.measure.amount || overOf(line))
    ? reactants.find(({ formula }) => !suppliedBy(line.measure.formula!, formula).isZero())
    : undefined;

/** Elements that come with water, air and the ions of common salts: of these alone nothing is told to be missing. */
const common = new Set(['H', 'C', 'N', 'O', 'F', 'Na', 'S', 'P', 'Cl', 'K', 'Br', 'I']);

/** A question about some of the reactants: all that is named takes part, and of the others nothing is said. */
function asksOfSome(equation: Equation, takens: readonly TakenPortion[]): boolean {
  const { takingNoPart } = findLimitingReagent(equation, takens, 'all');
  return takingNoPart.length === 0 && takens.length < equation.reactants.filter((one) => !isAmbient(one)).length;
}

/** What the reaction asks for and nothing on the list can supply, so that its product cannot be made of it. */
function notInThePot({ equation, product, lines, absent }: WeighingAsked): Fault | undefined {
  const takens = lines.filter(({ takesPart }) => takesPart).map(({ measure }) => takePortion(measure));
  const formulae = takens.flatMap(({ formula }) => formula ?? []);
  if (formulae.length === 0 || formulae.length < takens.length) return undefined;
  if (absent !== 'ambient' && asksOfSome(equation, takens)) return undefined;
  const there = new Set(formulae.flatMap((formula) => [...composition(formula).keys()]));
  const elements = [...composition(product.formula).keys()].filter((one) => !common.has(one) && !there.has(one));
  const { unsupplied } = findLimitingReagent(equation, takens, absent ?? 'all');
  const missing = elements.length > 0 ? elements : unsupplied.map(({ label }) => label);
  if (missing.length === 0) return undefined;
  return {
    code: 'not-in-the-pot',
    message: `Nothing that was taken holds ${missing.join(' or ')}, so no ${product.label} can be made of it.`,
    expected: 'a reagent for every reactant',
    cure: 'Add the reagent, or correct the reaction or the formula of what is there.',
  };
}

/** A reagent of which there will be as much as is needed: it does not limit, and is not missing either. */
const enoughOf = (taken: TakenPortion): TakenPortion => ({ ...taken, excess: true, substance: undefined });

/** mol of reaction that the given amounts allow, and whether it is water or air that sets it. */
interface GivenExtent {
  readonly extent: Decimal;
  readonly ambient: boolean;
}

/** Nothing is reckoned with a reagent of which no formula is known, and it may be the one that is misspelt. */
function madeOfWhat(name: string): Fault {
  const meant = meantBy(name).join(' or ');
  return {
    code: 'formula-missing',
    message: `Nothing says what ${name} is made of, and nothing else has an amount from which to reckon.`,
    cure: meant === '' ? 'Give its formula.' : `If ${meant} is meant, write that; if not, give its formula.`,
  };
}

/** What the amounts that are not filled in allow; or why nothing can be reckoned from them. */
function extentOfGiven({ equation, lines, absent = 'all' }: WeighingAsked): Outcome<GivenExtent> {
  const pot = lines
    .filter(({ takesPart }) => takesPart)
    .map((line) => ({ ...line, taken: takePortion(line.measure) }))
    .map((one) => (suppliedReactant(equation, one) ? { ...one, taken: enoughOf(one.taken) } : one));
  const settled = neutralise(pot, equation);
  const { extent, limiting, amountUnknown } = findLimitingReagent(
    equation,
    pot.map(({ taken }) => availableOf(taken, settled)),
    absent,
  );
  if (extent && !extent.value.isZero()) return good({ extent: extent.value, ambient: isAmbient(limiting!.term) });
  if (extent)
    return bad({
      code: 'nothing-limits',
      message: `The amount of ${limiting!.term.label} comes to nothing, so nothing can be made.`,
      expected: 'an amount above 0',
      cure: 'Correct the amount, strength or purity.',
    });
  const missing = lines.flatMap(({ measure }) => takePortion(measure).missing)[0];
  if (amountUnknown.length > 0 && missing) return bad(missing);
  const unknown = lines.find(({ takesPart, measure }) => takesPart && !measure.formula);
  if (unknown) return bad(madeOfWhat(unknown.measure.name));
  return bad({
    code: 'nothing-limits',
    message: 'No reagent has an amount from which the rest could be reckoned.',
    cure: 'Give at least one reagent an amount, or say how much product is wanted with --for.',
  });
}

/** A line as it was written, without what is asked of it besides. */
const asItWasWritten = ({ over: _, ...line }: WeighingLine): WeighingLine => line;

/**
 * mol of reaction that the given amounts allow. Where every reagent is to be more than is needed, and so none but the
 * water sets it, their own amounts do.
 */
function extentGiven(asked: WeighingAsked): Outcome<Decimal> {
  const planned = extentOfGiven(asked);
  if (planned.ok && !planned.value.ambient) return good(planned.value.extent);
  const own = extentOfGiven({ ...asked, lines: asked.lines.map(asItWasWritten) });
  const found = own.ok ? own : planned;
  return found.ok ? good(found.value.extent) : found;
}

/** A line with the portion that is in fact weighed out. */
interface Portioned extends WeighingLine {
  readonly taken: TakenPortion;
  readonly filledIn: boolean;
}

/** Portions for so many mol of reaction: filled in where none is given, scaled where a factor is. */
function portionsFor(
  { equation, lines, step }: WeighingAsked,
  extent: Decimal,
  factor: Decimal | undefined,
): readonly Portioned[] {
  const balance = step.div(2);
  return lines.map((line) => {
    const term = suppliedReactant(equation, line);
    const { measure } = line;
    const portion = (): Portion => {
      if (term) {
        const enough = extent.times(term.coefficient).div(suppliedBy(measure.formula!, term.formula));
        const mol = enough.times(overOf(line)?.plus(1) ?? 1);
        return { ...portionOf(measure, mol, step), balance };
      }
      return factor ? { ...scaledPortion(measure, factor, step), balance } : measure;
    };
    const weighed = portion();
    const { freeAcid } = line;
    return {
      ...line,
      measure: weighed,
      taken: takePortion(weighed),
      filledIn: term !== undefined,
      ...(freeAcid && factor && { freeAcid: scaled(freeAcid, factor) }),
    };
  });
}

/** What limits has the amount that was chosen here to fit. */
const isChosen = ({ suppliedBy }: ReactantSupply, lines: readonly Portioned[]): boolean =>
  suppliedBy.length > 0 && suppliedBy.every((id) => lines.some(({ taken, filledIn }) => filledIn && taken.id === id));

/**
 * What limits among the amounts that were given: one that was chosen here to fit, and came out a little less by
 * rounding, does not. None where all were chosen.
 */
const limitsOfGiven = (
  { limiting, possiblyLimiting }: LimitingReagent,
  lines: readonly Portioned[],
): ReactantSupply | undefined =>
  [limiting, ...possiblyLimiting].find(
    (one) => one !== undefined && !isChosen(one, lines) && one.suppliedBy.length > 0,
  );

function weighedLine(
  { measure, role, taken, filledIn }: Portioned,
  limitation: LimitingReagent,
  chosenLimits: boolean,
  limits: ReactantSupply | undefined,
  settled: Neutralised | undefined,
): WeighedLine {
  const available = availableOf(taken, settled);
  const { scarcest, tooClose, shareLeft, mostLeft } = inReaction(taken, limitation);
  const limiting = !filledIn && (limits?.suppliedBy.includes(taken.id) ?? false);
  const usedUp = limiting || scarcest?.limiting;
  const { amount } = measure;
  const rough = roughlyStated(measure);
  const left = leftOf(available, shareLeft);
  const nothing = withoutUncertainty(0);
  const undecided = mostLeft && !filledIn && !chosenLimits ? taken.pure?.value.times(mostLeft) : undefined;
  return {
    name: taken.name,
    ...(undecided?.gt(0) && { leftAtMost: undecided }),
    ...(taken.formula && { formula: printFormula(taken.formula) }),
    role,
    excess: taken.excess,
    taken,
    ...(amount?.dimension === 'drops' && { drops: amount.base }),
    ...((amount?.dimension === 'mass' || amount?.dimension === 'volume') && {
      measured: { [amount.dimension]: amount.written },
    }),
    ...(scarcest?.equivalents && { equivalents: scarcest.equivalents }),
    limiting,
    tooClose: tooClose && !filledIn && !chosenLimits,
    ...(left && {
      left: usedUp ? nothing : left,
      leftSubstance: usedUp ? nothing : times(available.substance!, shareLeft!),
    }),
    filledIn,
    purityNotStated: scarcest !== undefined && isPurityNotStated(measure, taken),
    ...(scarcest && rough !== undefined && { roughlyStated: rough }),
  };
}

/** Fewer steps of the balance than this are weighed coarsely. */
const fewSteps = 100;

/** The percent error that weighing alone brings (k = 2), of a mass of few steps. */
export function weighingPercent(mass: Decimal, step: Decimal): Decimal | undefined {
  if (!mass.gt(0) || mass.gte(step.times(fewSteps))) return undefined;
  return exact(2 * rectangular(step.div(2)))
    .div(mass)
    .times(100);
}

/** A mass of few steps of the balance: how far off weighing alone makes it; none where it is weighed finely enough. */
export function coarseNote(
  { name, mass: taken }: Pick<TakenPortion, 'name' | 'mass'>,
  written: string,
  step: Decimal,
): readonly WeighingNote[] {
  const percent = taken && weighingPercent(taken.value, step);
  return percent ? [{ note: 'coarse', name, mass: written, percent: percent.toSignificantDigits(2).toFixed() }] : [];
}

/** The percent error that the written digits bring (k = 2), where they say less than the balance. */
function percentAsWritten({ unit, resolution, value }: Quantity, step: Decimal): string | undefined {
  if (unit !== 'g' || !resolution.gt(step) || !value.gt(0)) return undefined;
  return exact(2 * rectangular(resolution.div(2)))
    .div(value)
    .times(100)
    .toSignificantDigits(2)
    .toFixed();
}

function coarseWeighing({ measure: { amount }, taken }: Portioned, step: Decimal): readonly WeighingNote[] {
  if (amount?.dimension !== 'mass') return [];
  const asWritten = percentAsWritten(amount, step);
  return coarseNote(taken, amount.written, step).map((note) => ({ ...note, ...(asWritten && { asWritten }) }));
}

/** Water and oxygen are there; of anything else it is said how much is needed. */
function absentNote(term: Term, { extent }: LimitingReagent): WeighingNote {
  const { label, formula, coefficient } = term;
  if (isAmbient(term)) return { note: 'assumed', label, air: label === 'O2' };
  const perMole = molarMass(formula);
  const mass = extent && perMole.ok ? extent.value.times(coefficient).times(perMole.value.high) : undefined;
  return { note: 'left-out', label, ...(mass && { needed: `${mass.toSignificantDigits(3).toFixed()} g` }) };
}

/** What may limit; amounts that were chosen here to fit are not in doubt. */
const undecidedAmong = (
  { limiting, possiblyLimiting }: LimitingReagent,
  lines: readonly Portioned[],
): readonly ReactantSupply[] => [limiting!, ...possiblyLimiting].filter((one) => !isChosen(one, lines));

/** What is to be said of the lines: what is missing, what is too close, what is assumed, what takes no part. */
function notesOn(lines: readonly Portioned[], limitation: LimitingReagent, step: Decimal): readonly WeighingNote[] {
  const takens = lines.map(({ taken }) => taken);
  const missing = lines
    .filter(({ takesPart, taken }) => takesPart && !taken.substance && !taken.excess)
    .flatMap(({ taken }) => taken.missing.map(({ message }): WeighingNote => ({ note: 'missing', message })));
  const close = undecidedAmong(limitation, lines).map((one) => supplierNames(one, takens));
  const idle = lines.filter(({ role, taken }) => role === 'reactant' && limitation.takingNoPart.includes(taken.id));
  return [
    ...missing,
    ...(close.length > 1 ? [{ note: 'too-close', names: close } as const] : []),
    ...limitation.assumedPresent.map((term) => absentNote(term, limitation)),
    ...idle.map(({ taken: { name } }): WeighingNote => ({ note: 'takes-no-part', name })),
    ...lines.flatMap((line) => coarseWeighing(line, step)),
  ];
}

/**
 * Reckons a weighing list. Reagents without an amount are filled in with what the reaction asks for. With `wanted`,
 * everything is scaled so that the theoretical yield is the wanted amount. Masses are then rounded to the balance and
 * the amounts reckoned again from them.
 * Errors: `not-in-the-pot` where nothing supplies what the product is made of; `nothing-limits` where no reagent has an
 * amount and nothing is wanted; `no-yield` where the amounts cannot be told.
 */
export function weighingList(asked: WeighingAsked): Outcome<WeighingList> {
  const { equation, product, wanted, absent = 'all' } = asked;
  const lacking = notInThePot(asked);
  if (lacking) return bad(lacking);
  const given = extentGiven(asked);
  const wantedExtent = wanted?.div(product.coefficient);
  if (!given.ok && !wantedExtent) return given;
  const factor = wantedExtent && given.ok ? wantedExtent.div(given.value) : undefined;
  const lines = portionsFor(asked, wantedExtent ?? (given as { readonly value: Decimal }).value, factor);
  const pot = lines.filter(({ takesPart }) => takesPart);
  const takens = pot.map(({ taken }) => taken);
  const settled = neutralise(pot, equation);
  const limitation = findLimitingReagent(
    equation,
    takens.map((taken) => availableOf(taken, settled)),
    absent,
  );
  const { limiting, extent } = limitation;
  if (!limiting || !extent || extent.value.isZero()) {
    const missing = lines.flatMap(({ taken }) => taken.missing)[0];
    return bad(
      missing ?? {
        code: 'no-yield',
        message: 'The amounts do not tell what limits.',
        cure: 'Give each reagent an amount, or `excess`.',
      },
    );
  }
  const theoretical = theoreticalYield(extent, product);
  const asks = theoretical.missing;
  const economy = atomEconomy(equation, product);
  const limits = limitsOfGiven(limitation, lines);
  const [first, ...others] = undecidedAmong(limitation, lines);
  const possible = first && possibleMasses(product, { limiting: first, possiblyLimiting: others });
  return good({
    lines: lines.map((line) => weighedLine(line, limitation, isChosen(limiting, lines), limits, settled)),
    limiting: supplierNames(limits ?? limiting, takens),
    product,
    theoretical,
    ...(economy.ok && { atomEconomy: economy.value }),
    products: equation.products
      .filter(({ formula }) => formula.parts.length > 0)
      .map((term) => ({ label: term.label, mass: theoreticalYield(extent, term).mass })),
    ...(factor && { factor }),
    notes: [
      ...notesOn(lines, limitation, asked.step),
      ...(asks ? [{ note: 'missing', message: asks.message, cure: asks.cure } as const] : []),
    ],
    ...(possible && { possible }),
    limitation,
  });
}

/**
 * Percent yield of a list, with what a value above 100 % means; undefined where the product's mass cannot be told, or
 * the amounts are too rough for one.
 */
export function yieldOf(
  list: WeighingList,
  obtained: UncertainDecimal,
): { readonly percent: Figure; readonly overHundred: boolean } | undefined {
  const share = list.theoretical.mass && percentYield(obtained, list.theoretical.mass);
  if (!share?.ok) return undefined;
  const percent = share.value;
  if (isTooRough(percent)) return undefined;
  const within = list.possible && percentWithin(list.possible, obtained);
  const low = within ? within.low : percent.value.minus(expandedUncertainty(percent));
  return { percent: figureWithin(percent, within, '%'), overHundred: low.gt(100) };
}

/** Moles of product in a wanted mass or amount. */
export function wantedSubstance(quantity: Quantity, product: Term): Outcome<Decimal> {
  if (quantity.dimension === 'amount') return good(quantity.base);
  const mass = molarMass(product.formula);
  if (!mass.ok) return mass;
  if (quantity.dimension !== 'mass')
    return bad({
      code: 'wanted',
      message: `${quantity.written} is neither a mass nor an amount of product.`,
      cure: 'Write --for like "10 g".',
    });
  if (quantity.base.isZero())
    return bad({ code: 'wanted', message: 'No product is wanted.', cure: 'Write --for like "10 g".' });
  return good(quantity.base.div(mass.value.middle.value));
}

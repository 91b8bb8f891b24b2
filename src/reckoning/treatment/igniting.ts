// What a portion of a product lost on ignition: what of it the product loses of its own, and what it had held besides.
import {
  composition,
  dividedBy,
  exact,
  expandedUncertainty,
  minus,
  molarMass,
  printFormula,
  productInResidue,
  scaled,
  times,
  unitsInResidue,
  waterInResidue,
  withoutWater,
  type Decimal,
  type Equation,
  type Formula,
  type Term,
  type UncertainDecimal,
} from '../../chemistry/index.js';
import { gases } from '../../hazards/foresee/gases.js';
import type { Sample } from '../../journal/schema.js';
import { isWaterWritten, readHeat } from '../../reagents/index.js';
import type { Balance } from '../balance.js';
import { weighed } from './drying.js';
import { formulaOf } from '../parse-cache.js';
import { ovenDry, residueRow } from './residues.js';
import type { IgnitionReckoning } from './treatment-contracts.js';

/** What is known of the sample beside its ignition. */
export interface Ignited {
  readonly product: string | undefined;
  readonly balance?: Balance;
  /** g */
  readonly obtained?: UncertainDecimal;
  readonly equation?: Equation;
  readonly made?: Term;
}

export interface IgnitionReckoned {
  readonly ignition: IgnitionReckoning;
  /** mol of product in a gram of what was ignited; undefined where the residue does not tell. */
  readonly productPerGram?: UncertainDecimal;
  /** More came out of the fire than went in. */
  readonly gained: boolean;
  /** More was ignited than there was of the product. */
  readonly moreThanObtained: boolean;
}

const plain = (value: Decimal, digits = 12): string => value.toSignificantDigits(digits).toFixed();

const figures = (value: UncertainDecimal): { readonly value: string; readonly uncertainty: string } => ({
  value: plain(value.value),
  uncertainty: plain(expandedUncertainty(value), 3),
});

const perMoleOf = (formula: Formula): UncertainDecimal | undefined => {
  const mass = molarMass(formula);
  return mass.ok ? mass.value.middle : undefined;
};

/** Elements that a fire takes away as water, carbon dioxide, cyanogen … */
const burns = new Set(['H', 'C', 'N']);
const isFireproof = (formula: Formula): boolean => ![...composition(formula).keys()].some((one) => burns.has(one));

/**
 * What fire leaves of a product where the maker does not say it; undefined where nothing is known.
 * @param asked its formula holds water of which ignition is to tell how much
 */
function residueOf(dry: Formula, to: string | undefined, asked: boolean): Formula | undefined {
  if (isFireproof(dry)) return dry;
  const heat = to === undefined ? undefined : readHeat(to);
  if (!heat && asked) return dry;
  const row = residueRow(dry);
  if (heat?.high.lte(row?.stays_to ?? ovenDry)) return dry;
  const isDone = row?.gone_by !== undefined && (!heat || heat.low.gte(row.gone_by));
  const left = isDone && row?.residue !== undefined ? formulaOf(row.residue) : undefined;
  return left?.ok ? residueOf(left.value, to, false) : undefined;
}

/** Whether all that goes off between two formulae is water. */
function losesOnlyWater(product: Formula, residue: Formula, units: Decimal): boolean {
  const left = composition(residue);
  const lost = new Map<string, Decimal>();
  for (const [symbol, { low }] of composition(product)) {
    const gone = low.times(units).minus(left.get(symbol)?.low ?? 0);
    if (gone.abs().gt('1e-9')) lost.set(symbol, gone);
  }
  const [hydrogen, oxygen] = [lost.get('H') ?? exact(0), lost.get('O') ?? exact(0)];
  const others = [...lost.keys()].some((symbol) => symbol !== 'H' && symbol !== 'O');
  return !others && hydrogen.minus(oxygen.times(2)).abs().lt('1e-9');
}

/** What the dry product loses of its own on its way to the residue, and the water that it had held beside. */
function besideItsOwn(
  before: UncertainDecimal,
  after: UncertainDecimal,
  dry: Formula,
  residue: Formula,
): Pick<IgnitionReckoning, 'ownLossPercent' | 'waterHeld' | 'of'> {
  const [whole, left] = [perMoleOf(dry), perMoleOf(residue)];
  const units = unitsInResidue(dry, residue);
  const made = productInResidue(after, residue, dry);
  if (!whole || !left || !units || !made) return {};
  const rest = dividedBy(scaled(left, exact(1).div(units)), whole);
  const dryMass = times(made, whole);
  const water = formulaOf('H2O');
  const perWater = water.ok ? perMoleOf(water.value) : undefined;
  const held = perWater && dividedBy(dividedBy(minus(before, dryMass), perWater) ?? made, made);
  return {
    ...(rest && { ownLossPercent: plain(exact(1).minus(rest.value).times(100), 6) }),
    ...(held && { waterHeld: figures(held) }),
    of: printFormula(dry),
  };
}

const isGone = ({ label, formula }: Term): boolean =>
  formula.state === 'g' || isWaterWritten(label) || (gases().has(label) && !gases().get(label)!.dissolves);

/** Percent that a charge loses where the reaction leaves nothing but the product; undefined where it leaves more. */
function lossOfReaction(equation: Equation | undefined, product: Term | undefined): Decimal | undefined {
  if (!equation || !product) return undefined;
  const stays = equation.products.filter((term) => !isGone(term));
  if (stays.length !== 1 || stays[0]!.column !== product.column) return undefined;
  const taken = equation.reactants.filter((term) => !isGone(term));
  const mass = (terms: readonly Term[]): Decimal | undefined => {
    const each = terms.map(({ formula, coefficient }) => perMoleOf(formula)?.value.times(coefficient));
    return each.every((one) => one !== undefined) ? each.reduce((sum, one) => sum!.plus(one!), exact(0)) : undefined;
  };
  const [charge, made] = [mass(taken), mass(stays)];
  return charge?.gt(0) && made ? exact(1).minus(made.div(charge)).times(100) : undefined;
}

/** What a portion lost on ignition, and what that says of its water. */
export function reckonIgnition(
  { sample, ignition: written }: Sample,
  { product, balance, obtained, equation, made: term }: Ignited,
): IgnitionReckoned | undefined {
  const ignition = typeof written === 'string' ? undefined : written;
  const before = weighed(ignition?.before, `${sample}/before ignition`, balance);
  const after = weighed(ignition?.after, `${sample}/after ignition`, balance);
  if (!ignition || !before || !after || !before.value.gt(0)) return undefined;
  const loss = {
    lossPercent: plain(minus(before, after).value.div(before.value).times(100)),
    ...(ignition.to !== undefined && { to: ignition.to }),
  };
  const gained = after.value.gt(before.value);
  const surplus = obtained && minus(before, obtained);
  if (surplus?.value.gt(expandedUncertainty(surplus))) {
    // It is no portion of the product: perhaps the charge before and after its fire.
    const ofReaction = lossOfReaction(equation, term);
    const foreseen = ofReaction && { reactionLossPercent: plain(ofReaction, 6) };
    return { gained, moreThanObtained: true, ignition: { ...loss, ...foreseen } };
  }
  const { productPerGram, ...leaves } = ofPortion(ignition, before, after, product);
  return {
    gained,
    moreThanObtained: false,
    ...(productPerGram && { productPerGram }),
    ignition: { ...loss, ...leaves },
  };
}

/** What a portion of the product says: its residue, its water, and how much product there is in a gram of it. */
function ofPortion(
  ignition: Exclude<NonNullable<Sample['ignition']>, string>,
  before: UncertainDecimal,
  after: UncertainDecimal,
  product: string | undefined,
): Omit<IgnitionReckoning, 'lossPercent' | 'to'> & { readonly productPerGram?: UncertainDecimal } {
  const read = product === undefined ? undefined : formulaOf(product);
  const asked = read?.ok ? withoutWater(read.value) : undefined;
  const dry = read?.ok ? (asked ?? read.value) : undefined;
  const named = ignition.residue === undefined ? undefined : formulaOf(ignition.residue);
  const told = named?.ok ? named.value : undefined;
  const residue = told ?? (dry && residueOf(dry, ignition.to, asked !== undefined));
  const units = residue && dry && unitsInResidue(dry, residue);
  const onlyWater = !units || losesOnlyWater(dry!, residue, units);
  const isLeft = residue !== undefined && after.value.gt(0);
  const water = isLeft && onlyWater ? waterInResidue(before, after, residue) : undefined;
  const left = residue && dry ? productInResidue(after, residue, dry) : undefined;
  const perGram = left && dividedBy(left, before);
  const residueText = ignition.residue ?? (residue && printFormula(residue));
  return {
    ...(perGram && { productPerGram: perGram }),
    ...(water && { waterPerFormula: figures(water), asIf: 'water' }),
    ...(isLeft && !onlyWater && besideItsOwn(before, after, dry!, residue)),
    ...(residueText !== undefined && { residue: residueText }),
    ...(!residue && dry && { notKnownOf: printFormula(dry) }),
  };
}

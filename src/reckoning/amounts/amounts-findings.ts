// What the proof has to know of a sample's amounts: looked for once all is reckoned; nothing is worded here.
import {
  findLimitingReagent,
  molarMass,
  parseFormula,
  type Decimal,
  type Formula,
  type LimitingReagent,
  type Quantity,
} from '../../chemistry/index.js';
import type { Path } from '../../journal/place.js';
import {
  areExchanged,
  doubtSentence,
  formulaContradicted,
  likelyFormula,
  saysDry,
  takePortion,
  usualHydrate,
  waterContradicted,
  type NameAndFormula,
} from '../../reagents/index.js';
import type { Findings } from '../../remarks/findings.js';
import type { Balance } from '../balance.js';
import { figure } from '../figures.js';
import { ingredientsOf, type Ingredient } from '../ingredients.js';
import { supplierNames } from './limiting.js';
import { repeatedBy } from '../repeats.js';
import { takesPart, type PotAmounts, type SampleSetting } from './pot-amounts.js';
import { swappedWords, type SampleReckoning } from './sample-amounts.js';
import { againstChange } from './told-otherwise.js';

/**
 * Looks through one sample.
 * @param isNewPot whether no sample before it has its pot, through which one looks but once
 */
export function findInSample(
  setting: SampleSetting & {
    /** Reactants that no sample has. */
    readonly missing: ReadonlySet<string>;
  },
  index: number | undefined,
  sample: SampleReckoning,
  isNewPot: boolean,
  findings: Findings,
): void {
  findMissing(setting, index, sample.pot, findings);
  if (isNewPot) findInPot(setting, sample.pot, findings);
  if (index === undefined) return;
  findInYield(setting.entry.samples[index]!.obtained, index, sample, findings);
  findRepeat(setting, index, findings);
  findOtherAmounts(index, sample, findings);
  findAgainstChange(setting, index, sample, findings);
}

function findInPot(setting: SampleSetting, pot: PotAmounts, findings: Findings): void {
  findInReaction(pot, findings);
  for (const ingredient of pot.ingredients) {
    findDoubts(setting, ingredient, findings);
    findAssumptions(ingredient, findings);
    findInAmount(setting.balance, ingredient, findings);
    findInStrength(ingredient, findings);
    askForHydrate(setting, pot, ingredient, findings);
    findOtherWater(ingredient, findings);
    findOtherFormula(ingredient, pot.ingredients, findings);
  }
}

/** Samples of which the same is said are taken for repeats. */
function findRepeat({ entry }: SampleSetting, index: number, findings: Findings): void {
  const repeated = repeatedBy(entry, index);
  if (!repeated || repeated.said) return;
  const { sample, differs } = entry.samples[index]!;
  const at = ['samples', index, 'differs'];
  findings.add('taken-as-repeat', at, { sample, repeats: repeated.sample, differs: differs!, actual: differs });
}

/** Amounts that the words of a sample tell otherwise than its figures. */
function findAgainstChange(
  setting: SampleSetting,
  index: number,
  { pot, amounts }: SampleReckoning,
  to: Findings,
): void {
  const { entry, context, balance } = setting;
  if (entry.samples[index]!.change === undefined || entry.samples[index]!.differs === undefined) return;
  const common = ingredientsOf(entry, undefined, context, balance?.halfWidth);
  for (const one of againstChange(entry, index, common, pot))
    to.add('words-against-change', ['samples', index, 'differs'], {
      sample: amounts.sample,
      ...one,
      actual: one.differs,
    });
}

/** Amounts that only the words of a sample tell, and that are reckoned as in all others. */
function findOtherAmounts(index: number, { told, amounts }: SampleReckoning, findings: Findings): void {
  if (!told) return;
  const { differs, others } = told;
  for (const { of, isLeftOut, amount: instead, strength, replacedBy } of others) {
    const taken = of && { name: of.name, id: of.id, amount: of.use.amount };
    const how = { isLeftOut, instead, strength, replacedBy };
    const facts = { sample: amounts.sample, differs, ...taken, ...how, actual: differs };
    findings.add('amount-in-words-only', ['samples', index, 'differs'], facts);
  }
}

/** Whether it went into one sample only. */
const isAddedIn = (path: Path): boolean => path[0] === 'samples' && path[2] === 'add';

/** Reactants that nothing supplies; what other samples have is only left out of this one. */
function findMissing(
  { entry, missing }: SampleSetting & { readonly missing: ReadonlySet<string> },
  index: number | undefined,
  { limitation, partners, ingredients }: PotAmounts,
  findings: Findings,
): void {
  if (!limitation) return;
  const certain = partners.length > 0 && partners.every(({ reagent }) => reagent.substance !== undefined);
  for (const { label } of limitation.unsupplied) {
    const facts = { reactant: label, certain, actual: label };
    const sample = index === undefined || missing.has(label) ? undefined : entry.samples[index];
    if (sample === undefined) findings.add('reactant-without-reagent', ['reaction'], facts);
    else {
      const added = ingredients.filter(
        ({ taken, path }) => isAddedIn(path) && limitation.takingNoPart.includes(taken.id),
      );
      findings.add('reactant-without-reagent', ['samples', index!, 'omit'], {
        ...facts,
        sample: sample.sample,
        ...(added.length > 0 && { added: added.map(({ name }) => name) }),
      });
    }
  }
}

function findInReaction(pot: PotAmounts, findings: Findings): void {
  const { limitation, ingredients, partners } = pot;
  if (!limitation) return;
  for (const idle of limitation.takingNoPart) {
    const { use, name, formula, id, path } = ingredients.find(({ taken }) => taken.id === idle)!;
    if ((use.role ?? 'reactant') !== 'reactant') continue;
    // What a sample has instead of a reactant makes another reaction, which is said of the reactant.
    if (isAddedIn(path) && limitation.unsupplied.length > 0) continue;
    const reactants = limitation.reactants.map(({ term }) => term.label);
    findings.add('takes-no-part', path, { name, formula, reactants, actual: id });
  }
  for (const partner of partners) findInIntent(partner, limitation, pot, findings);
}

/** Whether a reagent is what it is meant to be: limiting, or in excess. */
function findInIntent(
  { use, path, taken, name }: Ingredient,
  { limiting, possiblyLimiting }: LimitingReagent,
  { partners, besides }: PotAmounts,
  findings: Findings,
): void {
  if (limiting === undefined || use.intent === undefined) return;
  const at: Path = [...path, 'amount'];
  const limits = supplierNames(
    limiting,
    partners.map((partner) => partner.taken),
  );
  const isLimiting = limiting.suppliedBy.includes(taken.id);
  const isClose = possiblyLimiting.some(({ suppliedBy }) => suppliedBy.includes(taken.id));
  if (use.intent === 'excess') {
    if (!isLimiting && !isClose) return;
    const surely = possiblyLimiting.length === 0 ? 'limits' : 'may-limit';
    const how = isLimiting ? surely : 'too-close';
    const short = besides.short?.find(({ reagent }) => reagent === name)?.words;
    findings.add('limits-though-meant-in-excess', at, {
      name,
      how,
      limits,
      ...(short !== undefined && { short }),
      actual: use.amount,
    });
  } else if (!isLimiting && !isClose && !taken.excess)
    findings.add('does-not-limit', at, { name, limits, actual: use.amount });
}

/** What can be read in two ways, and what keeps the amount of a reactant from being known. */
function findDoubts({ equation }: SampleSetting, ingredient: Ingredient, findings: Findings): void {
  const { measure, path, formula, taken, use } = ingredient;
  for (const doubt of measure.formula?.doubts ?? []) findings.addFault(doubt, path, { actual: formula });
  const unlikely = formula === undefined ? undefined : likelyFormula(formula);
  if (unlikely) findings.addFault(unlikely, path, { actual: formula });
  const matters = equation && takesPart(ingredient) && use.role !== 'solvent';
  if (!matters || taken.excess || !measure.amount) return;
  for (const fault of taken.missing) findings.addFault(fault, [...path, 'amount'], { actual: use.amount });
}

/** Doubts of a reagent that a rule speaks about. */
const spokenOf = [
  'strength-from-name',
  'density-does-not-fit',
  'density-fits-two-strengths',
  'beyond-table',
  'salt-of-two-states',
] as const;

/** What had to be assumed of a reagent, so that its amount or its danger could be told. */
function findAssumptions({ reagent, path, name }: Ingredient, findings: Findings): void {
  for (const doubt of reagent.doubts) {
    const code = spokenOf.find((one) => one === doubt.code);
    if (code) findings.addFault({ code, message: doubtSentence(doubt) }, path, { about: name });
  }
}

/** Whether a mass has digits that a balance of this step does not show. */
function isFinerThan(step: Decimal, amount: Quantity): boolean {
  if (amount.dimension !== 'mass' || amount.tolerance || amount.standardUncertainty) return false;
  const { resolution, unit, base, value } = amount;
  const lastDigit = unit === 'g' || value.isZero() ? resolution : resolution.times(base.div(value));
  return lastDigit.lt(step) && !amount.base.mod(step).isZero();
}

function findInAmount(
  balance: Balance | undefined,
  { measure, path, name, use }: Ingredient,
  findings: Findings,
): void {
  const { amount } = measure;
  if (!amount) return;
  const written = use.amount!;
  const at: Path = [...path, 'amount'];
  if (balance && isFinerThan(balance.step, amount))
    findings.add('finer-than-the-balance', at, { amount: written, actual: written });
  if (amount.base.isZero()) findings.add('nothing-taken', at, { amount: written, name, actual: written });
}

function findInStrength({ measure: { purity, strength }, path }: Ingredient, findings: Findings): void {
  if (purity?.base.gt(100)) findings.add('purity-above-100', path, { purity: purity.written, actual: purity.written });
  if (strength?.dimension === 'mass-percent' && strength.base.gt(100))
    findings.add('strength-above-100', path, { strength: strength.written, actual: strength.written });
}

/** How much of a dry salt as much of its hydrate holds: `10 g of that hold as much as 6.4 g of it`. */
function heldInHydrate({ written, value, unit }: Quantity, formula: string, hydrate: Formula): string | undefined {
  const dry = parseFormula(formula);
  const [of, within] = [dry.ok && molarMass(dry.value), molarMass(hydrate)];
  if (!of || !of.ok || !within.ok) return undefined;
  const units = hydrate.parts[0]!.multiplier.high;
  const held = value.times(of.value.middle.value).times(units).div(within.value.middle.value);
  return `${written} of that hold as much as ${held.toSignificantDigits(3).toString()} ${unit}`;
}

/** Asks about a salt that is usually sold as a hydrate and written without its water. */
function askForHydrate(
  { equation }: SampleSetting,
  { limitation, partners, ingredients }: PotAmounts,
  ingredient: Ingredient,
  findings: Findings,
): void {
  const { formula, name, shelf, use, path, measure, taken, lot, lotFacts, reagent } = ingredient;
  // A lot whose formula was written is what that says.
  if (lot !== undefined && lotFacts?.waterUntold !== true) return;
  if (formula === undefined || measure.amount?.dimension !== 'mass' || measure.strength) return;
  const hydrate = usualHydrate(formula);
  if (hydrate === undefined) return;
  const words = [name, ...(shelf?.['also-called'] ?? []), shelf?.grade, shelf?.note, use.note].join(' ');
  // What is another substance is asked about as that, and not for its water.
  if (saysDry(words) || otherThanNamed(ingredient, ingredients)) return;
  const asHydrate = parseFormula(hydrate);
  if (!asHydrate.ok) return;
  const isByName = lot === undefined && reagent.written.formula === undefined;
  const facts = {
    ...{ name, formula, hydrate, actual: formula },
    ...(typeof use.reagent === 'string' && (shelf ? { jar: use.reagent } : { amount: use.amount ?? '…' })),
    ...(lot !== undefined && { lot }),
    ...(isByName && { byName: heldInHydrate(measure.amount, formula, asHydrate.value) }),
    ...(isByName && equation && takesPart(ingredient) && { counts: true as const }),
  };
  const limits = limitation?.limiting?.term.label;
  const again =
    equation &&
    findLimitingReagent(
      equation,
      partners.map((partner) =>
        partner.taken.id === taken.id ? takePortion({ ...measure, formula: asHydrate.value }) : partner.taken,
      ),
    );
  const limitsAsHydrate = again?.limiting?.term.label;
  const changes = limitsAsHydrate !== limits;
  findings.add('hydrate-or-not', path, { ...facts, ...(changes && { limits, limitsAsHydrate }) });
}

/** A name that tells of other water than its formula; what is written dry, `askForHydrate` asks about. */
function findOtherWater({ formula, name, measure, lot, path }: Ingredient, findings: Findings): void {
  if (formula === undefined || lot !== undefined || !measure.formula) return;
  // Of another salt its water says nothing, and `name-and-formula` says that it is another.
  if (formulaContradicted(name, formula) !== undefined) return;
  const other = waterContradicted(name, measure.formula);
  if (!other || (usualHydrate(formula) === other.meant && !/hydrate/i.test(other.called))) return;
  findings.add('other-water', path, { name, formula, ...other, actual: formula, expected: [other.meant] });
}

const nameAndFormula = ({ name, formula }: Ingredient): NameAndFormula => ({ name, formula: formula! });

/** What a name tells of that has another formula beside it, and the line whose formula that is; undefined mostly. */
function otherThanNamed(
  { formula, name, lot }: Ingredient,
  others: readonly Ingredient[],
): { readonly meant: string; readonly exchangedWith?: string } | undefined {
  if (formula === undefined || lot !== undefined) return undefined;
  const exchanged = others.find((other) => other.formula && areExchanged({ name, formula }, nameAndFormula(other)));
  if (exchanged) return { meant: exchanged.formula!, exchangedWith: exchanged.name };
  const meant = formulaContradicted(name, formula);
  return meant === undefined ? undefined : { meant };
}

/** A name that tells of another substance than the formula beside it, which may be that of another line. */
function findOtherFormula(ingredient: Ingredient, others: readonly Ingredient[], findings: Findings): void {
  const other = otherThanNamed(ingredient, others);
  if (!other) return;
  const { name, path } = ingredient;
  const formula = ingredient.formula!;
  findings.add('name-and-formula', path, { name, formula, ...other, actual: formula, expected: [other.meant] });
}

function findInYield(
  written: string | undefined,
  index: number,
  { yieldAbove100, amounts }: SampleReckoning,
  findings: Findings,
): void {
  if (!yieldAbove100) return;
  const { wentIn, percentYield, leftSolid, soluble, swapped } = yieldAbove100;
  // What was obtained may be known from its drying alone.
  const at: Path = ['samples', index, written === undefined ? 'dried' : 'obtained'];
  const obtained = written ?? amounts.obtained!.text;
  if (wentIn) findings.add('more-than-went-in', at, { obtained, wentIn: figure(wentIn, 'g').text, actual: obtained });
  else {
    const more = {
      ...(leftSolid !== undefined && { leftSolid }),
      ...(soluble && { soluble }),
      ...(swapped && { swapped: swappedWords(swapped) }),
    };
    findings.add('above-100-percent', at, { percentYield: percentYield.text, actual: obtained, ...more });
  }
}

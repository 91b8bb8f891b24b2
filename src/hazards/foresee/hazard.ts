// One foreseen hazard, put together from the rule that tells it, its partners and the gas at worst.
import { onceFor } from '../../once.js';
import type { Decimal } from '../../chemistry/index.js';
import { compareSeverity, type Foreseen, type ForeseenSeverity, type WorstCase } from './contracts.js';
import { gasFacts, gasFormulae, gasNamed, strictestPpm } from './gases.js';
import type { RuledIngredient } from './ruled-ingredient.js';
import type { HeatRule, PairRule, RuleBase } from './rules.js';
import { aboveDangerLevel } from './worst-case-gas.js';

/** What the order of hazards goes by. */
type Ordered = Pick<Foreseen, 'severity' | 'consequence' | 'rule'> & {
  readonly gases?: readonly { readonly formula: string }[];
};

/** ppm of the strictest published limit of some gases. */
const strictestOf = onceFor((gases: NonNullable<Ordered['gases']>) =>
  Math.min(Infinity, ...gases.map(({ formula }) => strictestPpm(formula))),
);

/** An explosion leaves no time for anything; of gases the one with the strictest published limit is feared most. */
function feared({ consequence, gases }: Ordered): number {
  if (consequence.startsWith('explosion')) return 0;
  return gases ? strictestOf(gases) : Infinity;
}

/**
 * Dangers first, and of those the most harmful gas; then by the name of the rule, so that the order of ingredients
 * never matters.
 */
export function bySeverity(a: Ordered, b: Ordered): number {
  const graver = compareSeverity(a.severity, b.severity);
  if (graver !== 0) return graver;
  const [left, right] = [feared(a), feared(b)];
  if (left !== right) return left < right ? -1 : 1;
  return a.rule < b.rule ? -1 : Number(a.rule > b.rule);
}

export const namesOf = (members: readonly RuledIngredient[]): readonly string[] =>
  [...new Set(members.map(({ name }) => name))].sort();

const aliasesOf = (shown: string): readonly string[] =>
  gasFormulae(shown).flatMap((formula) => {
    const gas = gasNamed(formula);
    return gas ? [formula, gas.name, ...gas.aliases] : [];
  });

const sourceText = ({ source, basis }: RuleBase): string =>
  basis === 'memory' && !/not seen|from memory$/.test(source) ? `${source} (from memory)` : source;

const raisedWords = 'raised to danger: all at once it would be above the level immediately dangerous to life or health';
const byAmountWords: Readonly<Record<ForeseenSeverity, string>> = {
  danger: 'raised to danger by the amount',
  warning: 'a warning by the amount',
  note: 'a note only by the amount: a trace',
};

/** What the amount made of it, in words. */
function amountWords(
  usual: ForeseenSeverity,
  severity: ForeseenSeverity,
  worst: WorstCase | undefined,
): readonly string[] {
  if (usual === severity) return [];
  return severity === 'danger' && worst && aboveDangerLevel(worst) ? [raisedWords] : [byAmountWords[severity]];
}

const answersTo = (rule: RuleBase): readonly string[] => {
  const words = [rule.id.replaceAll('-', ' '), rule.title, ...rule.answers, ...aliasesOf(rule.gas)];
  return [...new Set(words.map((text) => text.toLowerCase()))];
};

/** A hazard with what the rule found it in. How far it goes and how it is told is worked out when it is asked for. */
export interface FoundHazard {
  readonly foreseen: () => Foreseen;
  readonly rule: PairRule | HeatRule;
  readonly members: readonly RuledIngredient[];
  /** Units of the first partner that can react; undefined where no amount is known. */
  readonly extent: () => Decimal | undefined;
  /** All conditions of the rule hold; where not, it is told as something that could come. */
  readonly holds: boolean;
}

/** What is found of a rule in one mixture. */
export interface RuleFound {
  readonly severity: ForeseenSeverity;
  readonly partners: readonly string[];
  readonly worst?: WorstCase;
  /** By the amounts, where that differs. */
  readonly byAmount?: ForeseenSeverity;
  /** What this mixture adds to the rule's own condition. */
  readonly circumstances: readonly string[];
}

/** The gas with the strictest limit first; others stay as the rule names them. */
function byLimit(a: string, b: string): number {
  const [left, right] = [strictestPpm(a), strictestPpm(b)];
  if (left === right) return 0;
  return left < right ? -1 : 1;
}

/** What a rule tells in every mixture. */
const toldOf = onceFor((rule: PairRule | HeatRule) => ({
  facts: [...gasFacts(rule.gas)].sort((a, b) => byLimit(a.formula, b.formula)),
  answers: answersTo(rule),
  source: sourceText(rule),
}));

/** The hazard that a rule tells. */
export function toForeseenHazard(
  rule: PairRule | HeatRule,
  { severity: usual, partners, worst, byAmount = usual, circumstances }: RuleFound,
): Foreseen {
  const { facts, answers, source } = toldOf(rule);
  const condition = [rule.condition, ...circumstances, ...amountWords(usual, byAmount, worst)];
  return {
    rule: rule.id,
    ...(rule.pair && { pair: rule.pair }),
    severity: byAmount,
    title: rule.title,
    consequence: rule.consequence,
    partners,
    ...(rule.gas && { gas: rule.gas }),
    ...(facts.length > 0 && { gases: facts }),
    ...(rule.equation && { equation: rule.equation }),
    ...(worst && { worstCase: worst }),
    condition: condition.filter(Boolean).join('; '),
    precaution: rule.precaution,
    source,
    ...(rule.url && { sourceUrl: rule.url }),
    basis: rule.basis,
    answers,
  };
}

// What was found, as plain data: the rule, the place or the way to it, the facts. Worded last, in one place.
import type { Fault } from '../outcome.js';
import { rules, type FactsOf, type FaultRuleId, type RuleId } from './registry.js';
import { remark, type Paste, type Place, type Remark, type Severity } from './remark.js';
import type { CommonFacts, FaultFacts, Rule } from './rule.js';

/** The way to a value in a file of the journal: `['reagents', 1, 'amount']`. */
export type Path = readonly (string | number)[];

/** Where something was found: the value at a path, the key at a path, or a place in a file. */
export type Where = Path | { readonly key: Path } | Place;

/** What was found, without where. */
export type Found = { readonly [Id in RuleId]: { readonly rule: Id; readonly facts: FactsOf<Id> } }[RuleId];

export type Finding = Found & { readonly where: Where };

/**
 * What was found, for a caller who knows where.
 * @example found('nothing-taken', { amount: '0 g', name: 'soda' })
 */
export const found = <Id extends RuleId>(rule: Id, facts: FactsOf<Id>): Found => ({ rule, facts }) as unknown as Found;

/** A finding's words. */
export interface Worded {
  readonly severity: Severity;
  readonly found: string;
  readonly cure: string;
  readonly paste?: Paste;
  readonly actual?: string;
  readonly expected?: readonly string[];
  readonly subject?: string;
}

/**
 * Words a finding by its rule.
 * @example worded({ rule: 'nothing-taken', where: [], facts: { amount: '0 g', name: 'soda' } }).severity // 'warning'
 */
export function worded({ rule: id, facts: told }: Found): Worded {
  // One rule fits its own facts, which the type of a finding warrants and the union of all rules cannot say.
  const { severity, found, advice, cure, paste: pasteOf, subject } = rules[id] as unknown as Rule<unknown>;
  const facts: CommonFacts & Readonly<Record<string, unknown>> = { ...told };
  const paste = pasteOf?.(facts);
  const named = subject === undefined ? undefined : facts[subject];
  return {
    severity: typeof severity === 'string' ? severity : severity.of(facts),
    found: found(facts),
    cure: cure?.(facts, paste) ?? advice,
    ...(paste && { paste }),
    ...(facts.actual !== undefined && { actual: facts.actual }),
    ...(facts.expected && { expected: facts.expected }),
    ...(named !== undefined && { subject: String(named) }),
  };
}

/** Gathers findings, each once. */
export class Findings {
  private gathered: Map<string, Finding> | undefined;

  get all(): readonly Finding[] {
    return this.gathered ? [...this.gathered.values()] : [];
  }

  /** @example findings.add('nothing-taken', ['reagents', 0, 'amount'], { amount: '0 g', name: 'soda' }) */
  add<Id extends RuleId>(rule: Id, where: Where, facts: FactsOf<Id>): void {
    this.take({ rule, facts, where } as unknown as Finding);
  }

  /** A finding as another made it. */
  take(finding: Finding): void {
    const key = `${finding.rule} ${JSON.stringify(finding.where)} ${worded(finding).found}`;
    this.gathered ??= new Map();
    if (!this.gathered.has(key)) this.gathered.set(key, finding);
  }

  /** A fault of a room that reads texts, whose code is the rule. */
  addFault(
    fault: Fault<FaultRuleId>,
    where: Where,
    more: Omit<FaultFacts, 'message' | 'cure'> & CommonFacts = {},
  ): void {
    const { code, message, cure, expected } = fault;
    this.add(code, where, { message, cure, ...(expected && { expected: [expected] }), ...more });
  }
}

/** Finds the place of a path: of its value, or of its key. */
export type PlaceOf = (path: Path, at: 'value' | 'key') => Place;

function resolved(where: Where, placeOf: PlaceOf): { readonly place: Place; readonly path?: Path } {
  if ('file' in where) return { place: where };
  if ('key' in where) return { place: placeOf(where.key, 'key'), path: where.key };
  return { place: placeOf(where, 'value'), path: where };
}

const placeless: PlaceOf = (path) => {
  throw new RangeError(`nobody knows the place of ${path.join('/')}`);
};

/**
 * Findings as remarks: worded, each with its place.
 * @param placeOf needed where a finding has a path; without it such a finding is a programmer's error
 */
export const remarksFrom = (findings: readonly Finding[], placeOf: PlaceOf = placeless): Remark[] =>
  findings.map((finding) => {
    const { place, path } = resolved(finding.where, placeOf);
    const words = worded(finding);
    const about = words.subject ?? (path && `${place.file} ${path.join('/')}`);
    return remark({
      place,
      rule: finding.rule,
      ...words,
      ...(about !== undefined && { cause: `${finding.rule} ${about}` }),
    });
  });

// What is known of one ingredient as one classification, from its rows of the table or from a maker's sheet.
import { exact, type Decimal } from '../../chemistry/index.js';
import type {
  HazardClass,
  IngredientClassification,
  MixtureClass,
  MixtureClassification,
  SpecificLimit,
  Substance,
} from './contracts.js';
import { classOfCode, labelOf, rootCode } from './hazard-classes.js';

/** Below zero where the first class is the graver. */
export const byGravity = (a: HazardClass, b: HazardClass): number => (labelOf(a)?.rank ?? 0) - (labelOf(b)?.rank ?? 0);

/** `F`, `D` of H360FD and H361fd: the effects on fertility and on the unborn child. */
const effects = (code: string): readonly string[] => [...code.replace(/^H36[01]/, '').toLowerCase()];

/** H361d says nothing beside H360FD; H361 without letters stays, since its effects are not told. */
const isSaidByGraver = (mild: HazardClass, all: readonly HazardClass[]): boolean =>
  rootCode(mild.code) === 'H361' &&
  effects(mild.code).length > 0 &&
  all.some(
    (grave) =>
      rootCode(grave.code) === 'H360' && effects(mild.code).every((effect) => effects(grave.code).includes(effect)),
  );

/** Classes of which only the gravest category counts have one family. */
function familyOf(held: HazardClass): string {
  const eachStatement = held.hazardClass === 'Repr.' || (held.hazardClass === 'STOT SE' && held.category === '3');
  return eachStatement ? held.code : `${held.hazardClass} ${held.route ?? held.organs ?? ''}`;
}

/**
 * Of one class, only the gravest category; but each effect on reproduction, each organ statement and each route stays.
 */
export function gravestOfEach<Held extends HazardClass>(held: readonly Held[]): readonly Held[] {
  const kept = new Map<string, Held>();
  for (const one of held) {
    const other = kept.get(familyOf(one));
    if (!other || byGravity(one, other) < 0) kept.set(familyOf(one), one);
  }
  const all = [...kept.values()];
  const has = (...classes: readonly string[]): boolean => all.some((one) => classes.includes(one.hazardClass));
  return all.filter((one) => {
    if (one.hazardClass === 'Skin Irrit.') return !has('Skin Corr.');
    if (one.hazardClass === 'Eye Irrit.') return !has('Skin Corr.', 'Eye Dam.');
    return !isSaidByGraver(one, all);
  });
}

/** Rows that all apply to one substance, as one: every class, the lowest estimate, the highest M-factor. */
export function classificationOfRows(name: string, rows: readonly Substance[]): IngredientClassification {
  return {
    name,
    unknown: rows.length === 0,
    classes: gravestOfEach(rows.flatMap((row) => row.classes)),
    supplementary: [...new Set(rows.flatMap((row) => row.supplementary))],
    limits: rows.flatMap((row) => row.limits),
    estimates: rows.flatMap((row) => row.estimates),
    acuteMFactor: Math.max(1, ...rows.map((row) => row.acuteMFactor)),
    chronicMFactor: Math.max(1, ...rows.map((row) => row.chronicMFactor)),
    ...(rows[0]?.formulae[0] && { formula: rows[0].formulae[0] }),
  };
}

/** A maker's sheet, of which only the statements are known: each stands for the gravest class it can. */
export function classificationOfStatements(name: string, codes: readonly string[]): IngredientClassification {
  const classes = codes
    .flatMap((code) => classOfCode(code) ?? [])
    .filter((held) => held.hazardClass !== '' && !held.code.startsWith('EUH'));
  return {
    name,
    unknown: false,
    classes: gravestOfEach(classes),
    supplementary: codes.filter((code) => code.startsWith('EUH')),
    limits: [],
    estimates: [],
    acuteMFactor: 1,
    chronicMFactor: 1,
  };
}

/** Whether a percentage by weight lies within a specific limit. */
export const isWithin = (percent: Decimal, limit: SpecificLimit): boolean =>
  (limit.lowIncluded ? percent.gte(limit.low) : percent.gt(limit.low)) &&
  (limit.high === undefined || percent.lt(limit.high));

const full = exact(100);

/** A class that a specific limit gives at full strength, unless the substance's own classes say as much already. */
function classAtFullStrength(
  limit: SpecificLimit,
  own: readonly MixtureClass[],
  name: string,
): readonly MixtureClass[] {
  const { gives } = limit;
  if (!gives || !isWithin(full, limit)) return [];
  const repeats = own.some(
    (held) =>
      held.hazardClass === gives.hazardClass &&
      rootCode(held.code) === rootCode(limit.code) &&
      byGravity(held, gives) <= 0,
  );
  return repeats ? [] : [{ ...gives, from: [name], grounds: [{ rule: 'limit-at-full-strength', limit: limit.low }] }];
}

/** A substance as it is, undiluted: its classes, and those that a specific limit adds at full strength. */
export function classifyUndiluted(known: IngredientClassification): MixtureClassification {
  const { name } = known;
  const own = known.classes.map(
    (held): MixtureClass => ({ ...held, from: [name], grounds: [{ rule: 'own-classification' }] }),
  );
  const added = known.limits.flatMap((limit) => classAtFullStrength(limit, own, name));
  const extra = known.limits
    .filter((limit) => !limit.gives && isWithin(full, limit) && !known.supplementary.includes(limit.code))
    .map((limit) => limit.code);
  return {
    // What limits add stays only where the substance's own classes do not say as much; its own are all kept.
    classes: [...own, ...gravestOfEach([...own, ...added]).filter((held) => added.includes(held))],
    supplementary: [...known.supplementary, ...extra].map((code) => ({
      code,
      from: name,
      ground: { rule: 'own-statement' },
    })),
    notes: [],
  };
}

// How many of a species one formula unit of a reagent supplies.
import { onceFor } from '../../once.js';
import { equivalentsTable } from '../../tables/compiled/chemistry/ions/equivalents.js';
import { elements } from '../atomic-weights.js';
import { one, zero, type Decimal } from '../exact.js';
import { composition, isElectron, parseFormula, type Formula } from '../formula/index.js';
import { ionsOf } from './dissociation.js';
import { compositionKey, nodesKey, waterKey } from './model.js';
import { insideOf } from './readings.js';

/** A metal ion with nothing but water around it is that metal's ion: [Cr(H2O)6]^3+ is Cr^3+. */
function withoutAquaLigands(formula: Formula): Formula {
  const [part] = formula.parts;
  const [node] = part?.nodes ?? [];
  if (formula.charge <= 0 || formula.parts.length !== 1 || part!.nodes.length !== 1 || node!.kind !== 'group')
    return formula;
  const inside = insideOf(node!);
  if (inside?.length !== 2) return formula;
  const metal = inside.find((one) => one.kind === 'atom' && elements().get(one.symbol)!.kind === 'metal');
  const water = inside.find(
    (one) => one.kind === 'group' && nodesKey(one.parts.flatMap(({ nodes }) => nodes)) === waterKey,
  );
  return metal && water ? { ...formula, parts: [{ ...part!, nodes: [metal] }] } : formula;
}

/**
 * Order-free name of a species, by which an ion in a reaction finds the salt that supplies it; H3O^+ counts as H^+,
 * [Cr(H2O)6]^3+ as Cr^3+.
 */
export const speciesKey: (formula: Formula) => string = onceFor((formula: Formula) => {
  if (isElectron(formula)) return 'e −1';
  const composed = compositionKey(composition(withoutAquaLigands(formula)));
  if (formula.charge === 1 && composed === 'H3 O1') return 'H1 1';
  return `${composed} ${formula.charge}`;
});

/** The same salt without its water of crystallisation; undefined where it has none. */
export const withoutWater: (formula: Formula) => Formula | undefined = onceFor((formula: Formula) => {
  const dry = formula.parts.filter((part) => nodesKey(part.nodes) !== waterKey);
  if (dry.length === formula.parts.length || dry.length === 0) return undefined;
  return { ...formula, parts: dry };
});

const supplied = new WeakMap<Formula, WeakMap<Formula, Decimal>>();

/**
 * How many of a species one formula unit of a reagent supplies: 1 where they are the same substance, water of
 * crystallisation or not; the count of the ion where the reagent is a salt, acid or base of it; 8 for S from S8,
 * 3 for CdSO4 from 3CdSO4·8H2O; 0 where it has none or leaves open how many.
 * @example suppliedBy(parseFormula('Na2CO3·10H2O').value, parseFormula('CO3^2-').value) // 1
 */
export function suppliedBy(reagent: Formula, species: Formula): Decimal {
  let bySpecies = supplied.get(reagent);
  if (!bySpecies) supplied.set(reagent, (bySpecies = new WeakMap()));
  let count = bySpecies.get(species);
  if (!count) bySpecies.set(species, (count = countSupplied(reagent, species)));
  return count;
}

function countSupplied(reagent: Formula, species: Formula): Decimal {
  const wanted = speciesKey(species);
  if (speciesKey(reagent) === wanted) return one;
  const dryReagent = withoutWater(reagent) ?? reagent;
  const drySpecies = withoutWater(species) ?? species;
  if (sameSubstance(speciesKey(dryReagent)) === sameSubstance(speciesKey(drySpecies))) return one;
  const multiple = timesOver(dryReagent, drySpecies);
  if (multiple) return multiple;
  return species.charge === 0 ? zero : ionsSupplied(reagent, wanted);
}

function ionsSupplied(reagent: Formula, wanted: string): Decimal {
  const ions = ionsOf(reagent);
  if (!ions.ok) return zero;
  return ions.value.ions
    .filter(({ formula, atMost }) => {
      const parsed = atMost ? undefined : parseFormula(formula);
      return parsed?.ok && speciesKey(parsed.value) === wanted;
    })
    .reduce((total, { count }) => total.plus(count), zero);
}

/**
 * The same salt or element in larger or smaller formula units: 3CdSO4 is three CdSO4, S8 eight S; oxygen and ozone are
 * not the same.
 */
function timesOver(reagent: Formula, species: Formula): Decimal | undefined {
  if (reagent.charge !== 0 || species.charge !== 0) return undefined;
  const [ours, theirs] = [composition(reagent), composition(species)];
  if (ours.size !== theirs.size || (ours.size === 1 && ours.has('O'))) return undefined;
  if (ours.size > 1 && ![...ours.keys()].some((symbol) => elements().get(symbol)!.kind === 'metal')) return undefined;
  const ratios = [...theirs].map(([symbol, { low }]) => {
    const here = ours.get(symbol);
    return here && !low.isZero() ? here.low.div(low) : undefined;
  });
  const [first] = ratios;
  return ratios.every((ratio) => first && ratio?.minus(first).abs().lt('1e-20')) ? first : undefined;
}

let equivalents: ReadonlyMap<string, string> | undefined;
/** Aqueous ammonia is written NH3 or NH4OH. */
function sameSubstance(key: string): string {
  equivalents ??= new Map(
    equivalentsTable().flatMap((row) => {
      const [written, meant] = [parseFormula(row.formula), parseFormula(row.same_as)];
      return written.ok && meant.ok ? [[speciesKey(written.value), speciesKey(meant.value)] as const] : [];
    }),
  );
  return equivalents.get(key) ?? key;
}

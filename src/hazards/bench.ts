// What stands in a pot, as the rules look at it: each ingredient resolved to a formula, groups, strength and amount.
import { exact, type Decimal } from '../chemistry/index.js';
import { constituents, dryComposition, gramsPerMole, type Constituents } from '../reagents/constituents.js';
import { membershipsOf, undiluted, type Concentration } from './groups.js';
import { isColourIndexName, materialNamed, type Material } from '../reagents/names.js';
import type { Pot, PotIngredient } from './foreseen.js';
import { findSubstance } from './ghs/index.js';
import { solutionDensitiesTable } from '../tables/compiled/hazards/solution-densities.js';

/** An ingredient that could be told what it is. */
export interface Judged {
  readonly index: number;
  readonly name: string;
  readonly formula: string;
  readonly substance: Constituents;
  readonly strength: Concentration;
  readonly extraGroups: ReadonlySet<string>;
  /** mol of the formula; absent where it cannot be told. */
  readonly mol?: Decimal;
  readonly watery: boolean;
  readonly made?: 'product' | 'by-product';
  /** °C that a word of state tells: `hot`, `boiling`. */
  readonly heat: number;
}

export interface Bench {
  readonly judged: readonly Judged[];
  readonly unknown: readonly string[];
  readonly cautions: readonly string[];
  /** °C of the mixture, or of what stands in `judged` by index. */
  readonly mixtureHeat: number;
  readonly heatOf: (ingredient: Judged) => number;
  readonly wet: boolean;
  /** Groups that anything in the pot belongs to. */
  readonly present: ReadonlySet<string>;
  /** Units of a group in one formula unit of an ingredient of this pot. */
  readonly units: (group: string, ingredient: Judged) => number;
  readonly strengthIn: (group: string, ingredient: Judged) => Concentration;
}

const room = 20;
const dilutePercent = 5;
const stateHeat: Readonly<Record<string, number>> = {
  warm: 50,
  hot: 80,
  boiling: 100,
  boil: 100,
  boiled: 100,
  molten: 400,
};

/** Rough percent by mass of a mol/L solution and back; good enough to stand on one side of a rule's threshold. */
const density = (percent: number): number => 1 + 0.0045 * Math.min(percent, 100);
function concentrationOf(ingredient: PotIngredient, molarMass: number, nameTells: string | undefined): Concentration {
  const { strength, state = [] } = ingredient;
  const fromPercent = (percent: number): Concentration => ({
    percent,
    molar: (percent * 10 * density(percent)) / molarMass,
    solution: percent < 95,
  });
  const fromMolar = (molar: number): Concentration => {
    const raw = (molar * molarMass) / 10;
    const percent = Math.min(100, raw / density(Math.min(100, raw / 1.2)));
    return { percent, molar, solution: percent < 95 };
  };
  if (ingredient.made === 'by-product') return { percent: dilutePercent, molar: 1, solution: false };
  if (strength?.of === 'amount') return fromMolar(Number(strength.molPerLitre));
  if (strength) return fromPercent(Number(strength.percent));
  if (state.some((word) => /^(?:dilute|diluted|weak)$/i.test(word)))
    return { percent: dilutePercent, molar: 1, solution: true };
  if (state.some((word) => /^(?:concentrated|conc\.?|strong|fuming|glacial|neat|undiluted)$/i.test(word)))
    return { percent: 100, molar: (1000 / molarMass) * 10, solution: false };
  if (nameTells !== undefined) return fromPercent(Number(nameTells));
  return undiluted;
}

let slopes: ReadonlyMap<string, number> | undefined;
/** g/mL where none is stated: on the high side, so that the bound stays a bound. */
function assumedDensity(substance: Constituents, percent: number): number {
  slopes ??= new Map(
    solutionDensitiesTable().map((row) => [
      row.formula === undefined ? '' : dryComposition(row.formula),
      row.rise_to_pure,
    ]),
  );
  return 1 + (percent / 100) * (slopes.get(substance.dry) ?? slopes.get('')!);
}

function moles(
  ingredient: PotIngredient,
  formula: string,
  substance: Constituents,
  nameTells: string | undefined,
): { readonly mol?: Decimal; readonly assumed?: string } {
  if (ingredient.mol !== undefined) return { mol: exact(ingredient.mol) };
  const molarMass = gramsPerMole(formula);
  const { grams, millilitres } = ingredient;
  const strength =
    ingredient.strength ?? (nameTells !== undefined ? { of: 'mass' as const, percent: nameTells } : undefined);
  if (strength?.of === 'amount') {
    if (millilitres !== undefined) return { mol: exact(millilitres).times(strength.molPerLitre).div(1000) };
    return grams !== undefined
      ? {
          mol: exact(grams).times(strength.molPerLitre).div(1000),
          assumed: `${ingredient.name}: its density was not given; 1 g/mL was taken.`,
        }
      : {};
  }
  if (!molarMass) return {};
  if (strength?.of === 'mass-per-volume' && millilitres !== undefined)
    return { mol: exact(millilitres).times(strength.percent).div(100).div(molarMass) };
  if (grams !== undefined)
    return {
      mol: exact(grams)
        .times(strength?.percent ?? 100)
        .div(100)
        .div(molarMass),
    };
  if (millilitres !== undefined) {
    if (substance.dry === 'H2O') return { mol: exact(millilitres).div(molarMass) };
    if (!strength && ingredient.density === undefined) return {};
    const percent = strength?.percent ?? '100';
    const used = ingredient.density ?? String(assumedDensity(substance, Number(percent)));
    return {
      mol: exact(millilitres).times(used).times(percent).div(100).div(molarMass),
      ...(ingredient.density === undefined && {
        assumed: `${ingredient.name}: its density was not given; ${Number(used).toFixed(2)} g/mL was taken, on the high side.`,
      }),
    };
  }
  return {};
}

/** `PVC` and `SNOW` can be read as formulae and are none: three or more capitals whose ions make no salt of the trade. */
const abbreviation = (text: string, { kind, ions }: Constituents): boolean =>
  isColourIndexName(text) ||
  (/^[A-Z]{3,}$/.test(text) &&
    text !== 'COS' &&
    kind !== 'acid' &&
    !(kind !== 'unknown' && ['hydroxide', 'cyanide', 'thiocyanate', 'cyanate'].some((id) => ions.has(id))));

type Identified =
  | { readonly formula: string; readonly substance: Constituents; readonly material?: Material }
  | undefined;
const identified = new Map<string, Identified>();

/** What an ingredient is; told once for each name and formula. */
function identify(ingredient: PotIngredient): Identified {
  const organic = ingredient.state?.includes('organic') ?? false;
  const key = `${ingredient.name}\n${ingredient.formula ?? '\n'}\n${organic}`;
  if (!identified.has(key)) {
    if (identified.size >= 5000) identified.clear();
    identified.set(key, tellWhatItIs(ingredient));
  }
  return identified.get(key);
}

function tellWhatItIs(ingredient: PotIngredient): Identified {
  const material = materialNamed(ingredient.name);
  const tried = [ingredient.formula, ingredient.formula === undefined ? material?.formula : undefined];
  for (const formula of tried) {
    if (formula === undefined || formula.trim() === '') continue;
    const read = constituents(formula);
    if (
      read.ok &&
      read.value.formula.parts.length > 0 &&
      !(formula === ingredient.name && abbreviation(formula, read.value))
    )
      return { formula, substance: read.value, ...(material && { material }) };
  }
  if (material) {
    const read = constituents(material.formula);
    if (read.ok) return { formula: material.formula, substance: read.value, material };
  }
  if (ingredient.formula === undefined) {
    const found = findSubstance({ name: ingredient.name });
    const formula = found.found === 'row' ? (found.rows[0]?.formula ?? '') : '';
    if (formula !== '') {
      const read = constituents(formula);
      if (read.ok) return { formula, substance: read.value };
    }
    const read = constituents(ingredient.name);
    if (read.ok && read.value.formula.parts.length > 0 && !abbreviation(ingredient.name, read.value))
      return { formula: ingredient.name, substance: read.value };
  }
  // Told to be organic, and no more than that: taken as cellulose.
  const organic = ingredient.state?.includes('organic') ? constituents('C6H10O5') : undefined;
  if (organic?.ok)
    return {
      formula: 'C6H10O5',
      substance: organic.value,
      material: { name: ingredient.name, formula: 'C6H10O5', groups: ['organic_combustible'], source: 'as stated' },
    };
  return undefined;
}

const pure = new Set(['H2O']);

/** Resolves a pot. What could not be told what it is stands in `unknown`. */
export function setOut(pot: Pot): Bench {
  const judged: Judged[] = [];
  const unknown: string[] = [];
  const cautions: string[] = [];
  pot.ingredients.forEach((ingredient, index) => {
    const what = identify(ingredient);
    if (!what) {
      unknown.push(ingredient.name);
      return;
    }
    const { formula, substance, material } = what;
    const nameTells =
      ingredient.strength === undefined && ingredient.formula === undefined ? material?.percent : undefined;
    const molarMass = gramsPerMole(formula)?.toNumber() ?? 100;
    const strength = concentrationOf(ingredient, molarMass, nameTells);
    const { mol, assumed } = moles(ingredient, formula, substance, nameTells);
    if (assumed) cautions.push(assumed);
    if (nameTells !== undefined)
      cautions.push(
        `${ingredient.name}: taken as ${nameTells} % ${formula}${material?.note ? ` (${material.note})` : ''}.`,
      );
    if (material?.groups.includes('drying_oil'))
      cautions.push(
        `Rags and paper soaked with ${ingredient.name} can heat themselves and catch fire: spread them flat outdoors or keep them under water. (common practice, no source)`,
      );
    const watery = pure.has(substance.dry) ? ingredient.made === undefined : strength.solution;
    judged.push({
      index,
      name: ingredient.name,
      formula,
      substance,
      strength,
      extraGroups: new Set(material?.groups ?? []),
      watery,
      ...(mol && { mol }),
      ...(ingredient.made && { made: ingredient.made }),
      heat: Math.max(room, ...(ingredient.state ?? []).map((word) => stateHeat[word.toLowerCase()] ?? room)),
    });
  });
  const heats = pot.heating ?? [];
  const same = (of: string, name: string): boolean => of.trim().toLowerCase() === name.trim().toLowerCase();
  const mixtureHeat = Math.max(
    room,
    ...heats.filter(({ of }) => same(of, 'mixture')).map(({ toCelsius }) => toCelsius),
    ...judged.map(({ heat }) => heat),
  );
  const heatOf = (ingredient: Judged): number =>
    Math.max(
      ingredient.made === 'product' ? room : mixtureHeat,
      ingredient.heat,
      mixtureHeat > room && ingredient.made === 'product' ? mixtureHeat : room,
      ...heats
        .filter(({ of }) => same(of, ingredient.name) || (ingredient.made === 'product' && same(of, 'product')))
        .map(({ toCelsius }) => toCelsius),
    );
  const strongest = (group: string): Concentration =>
    judged
      .filter((ingredient) => rawUnits(group, ingredient) > 0)
      .map(({ strength }) => strength)
      .sort((a, b) => b.percent - a.percent)[0] ?? { percent: 0, molar: 0, solution: false };
  const belongs = new Map(
    judged.map((ingredient) => [ingredient.index, membershipsOf(ingredient.substance, ingredient.strength)] as const),
  );
  const rawUnits = (group: string, ingredient: Judged): number =>
    belongs.get(ingredient.index)!.get(group) ?? (ingredient.extraGroups.has(group) ? 1 : 0);
  const units = (group: string, ingredient: Judged): number => {
    if (group === 'anything') return 1;
    if (group === 'water_any') return ingredient.watery ? 1 : 0;
    if (group !== 'chloride_in_acid') return rawUnits(group, ingredient);
    // chloride_in_acid: a chloride salt beside a strong acid that is stronger than trace
    return rawUnits('chloride', ingredient) > 0 &&
      rawUnits('strong_acid', ingredient) === 0 &&
      judged.some((other) => other.index !== ingredient.index && rawUnits('strong_acid', other) > 0)
      ? rawUnits('chloride', ingredient)
      : 0;
  };
  const strengthIn = (group: string, ingredient: Judged): Concentration =>
    group === 'chloride_in_acid' ? strongest('strong_acid') : ingredient.strength;
  const present = new Set([
    'anything',
    'water_any',
    'chloride_in_acid',
    ...[...belongs.values()].flatMap((groups) => [...groups.keys()]),
    ...judged.flatMap(({ extraGroups }) => [...extraGroups]),
  ]);
  return {
    judged,
    unknown,
    cautions,
    present,
    mixtureHeat,
    heatOf,
    wet: judged.some(({ watery }) => watery),
    units,
    strengthIn,
  };
}

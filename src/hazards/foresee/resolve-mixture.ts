// What stands in a mixture, as the rules look at it: each resolved reagent with its groups, its strength and its
// amount.
import { exact, type Decimal } from '../../chemistry/index.js';
import {
  assumptionsOf,
  contentsOf,
  gramsPerMole,
  isWater,
  nameOfContent,
  resolveNamed,
  toldAfterwards,
  type Circumstance,
  type Constituents,
  type ReagentContents,
  type ResolvedReagent,
  type ResolvedSubstance,
} from '../../reagents/index.js';
import { memoise } from '../../memoise.js';
import { once, onceFor } from '../../once.js';
import type { ContentsTaken, Mixture, MixtureHeating, MixedReagent } from './contracts.js';
import { residuesTable } from '../../tables/compiled/hazards/foresee/residues.js';
import { groupUnits, membershipsOf, undiluted, type Concentration } from './groups.js';

/** An ingredient of which it is known what it is. */
export interface RuledIngredient {
  readonly index: number;
  /** What stands in one thing, or may stand in it, does not meet itself. */
  readonly part: string;
  /** Which of the things that a name may mean. */
  readonly variant: string;
  readonly name: string;
  /** What the name was taken as, where that is not the name itself. */
  readonly takenAs?: string;
  readonly formula: string;
  readonly substance: Constituents;
  readonly strength: Concentration;
  readonly extraGroups: ReadonlySet<string>;
  /** mol of the formula, at most; absent where it cannot be told. */
  readonly mol?: Decimal;
  /** g of the stuff with all that is in it; absent where it cannot be told. */
  readonly grams?: number;
  readonly watery: boolean;
  /** It surely wets the pot: not only because a product of its name is mostly sold as a solution. */
  readonly wets: boolean;
  readonly made?: MixedReagent['made'];
  /** °C that a word of state tells: `hot`, `boiling`; 20 where none does. */
  readonly heat: number;
}

/** One and the same for all mixtures of the same things in the same order, however much there is of them. */
export interface Alike {
  /** Groups that anything in them belongs to. */
  readonly present: ReadonlySet<string>;
}

/** What stands in a mixture, whatever heat it gets. */
export interface StandingMixture {
  readonly ingredients: readonly RuledIngredient[];
  readonly unknown: readonly string[];
  readonly cautions: readonly string[];
  readonly taken: readonly ContentsTaken[];
  readonly wet: boolean;
  /** What the words say of the vessel and what is around it. */
  readonly circumstances: ReadonlySet<Circumstance>;
  /** Groups that anything in the mixture belongs to. */
  readonly present: ReadonlySet<string>;
  /** By the index of an ingredient its groups are the same in all that are alike; absent where words tell of them. */
  readonly alike?: Alike;
  /** Units of a group in one formula unit of an ingredient of this mixture. */
  readonly units: (group: string, ingredient: RuledIngredient) => number;
  readonly strengthIn: (group: string, ingredient: RuledIngredient) => Concentration;
}

export interface ResolvedMixture extends StandingMixture {
  /** What stands there whatever heat it gets: the same for all of the same things that only get other heat. */
  readonly standing: StandingMixture;
  /** °C of the mixture. */
  readonly heat: number;
  /** °C of one ingredient. */
  readonly heatOf: (ingredient: RuledIngredient) => number;
  /** It stands on a hob at most: what is wet stays as hot as water until it is boiled dry. */
  readonly onHobAtMost: boolean;
  /** The same mixture with what it makes in it. */
  readonly joinedBy: (made: readonly MixedReagent[]) => ResolvedMixture;
}

/** Up to here a solution is still a solution: what only breaks down dry does not do so yet. */
export const boilsDryFrom = 105;

/** °C of what is neither heated nor said to be hot. */
export const roomCelsius = 20;
const hundred = 100;
/** What a reaction makes beside its product, or leaves in it, is dilute. */
const dilute: Concentration = { percent: 5, molar: 1, solution: false };
/** From this percent on it counts as the substance itself. */
const nearlyPure = 95;

/** The strength that conditions of rules are held against: the strongest that it can be. */
const concentrationOf = ({ strength }: ResolvedReagent, made: MixedReagent['made']): Concentration =>
  made === 'by-product' || made === 'carried' ? dilute : strongestOf(strength);

/** Portions of one stuff that are measured alike share their strength. */
const strongestOf = onceFor(({ basis, atMost }: ResolvedReagent['strength']): Concentration => {
  if (basis === 'undiluted' || basis === 'not-given') return undiluted;
  const { massFraction, molarConcentration } = atMost;
  const percent = massFraction ? massFraction.times(hundred).toNumber() : Infinity;
  const molar = molarConcentration ? molarConcentration.times(1000).toNumber() : Infinity;
  return { percent, molar, solution: percent < nearlyPure };
});

const oilyRags = (name: string): string =>
  `Rags and paper soaked with ${name} can heat themselves and catch fire: spread them flat outdoors ` +
  'or keep them under water. (common practice, no source)';

/** Where an ingredient stands among the others. */
interface Place {
  readonly index: number;
  readonly part: string;
  readonly variant: string;
  readonly takenAs?: string;
  /** °C that words beside the name tell. */
  readonly celsius?: number;
}

/**
 * g/mL: no liquid sold for the workshop but bromine and mercury is denser; tetrachloroethylene is 1.62. From memory.
 */
const densest = 1.65;

/** mol at most in a volume of which no density is known. */
function molOfDense({ taken, portion }: ResolvedReagent, formula: string): Decimal | undefined {
  const { amount } = portion;
  const perMole = gramsPerMole(formula);
  if (amount?.dimension !== 'volume' || !perMole || perMole.isZero()) return undefined;
  const share = taken.strength.atMost.massFraction ?? 1;
  return (amount.high ?? amount.base).times(densest).times(share).div(perMole);
}

const setOf = onceFor((groups: readonly string[]): ReadonlySet<string> => new Set(groups));

const gramsIn = (mol: Decimal | undefined, formula: string): number | undefined =>
  mol?.times(gramsPerMole(formula) ?? 0).toNumber();

function ruled(
  { reagent, made }: MixedReagent,
  { formula, parsed, constituents, groups }: ResolvedSubstance,
  { index, part, variant, takenAs, celsius = roomCelsius }: Place,
): RuledIngredient {
  const strength = concentrationOf(reagent, made);
  const { mass, volume } = reagent.taken;
  const molAtMost = reagent.taken.molAtMost ?? molOfDense(reagent, formula);
  const watery = isWater(parsed) ? made === undefined : strength.solution;
  // What was poured without a density weighs about as much as water.
  const grams = made === 'on-the-way' ? gramsIn(molAtMost, formula) : (mass ?? volume)?.value.toNumber();
  return {
    index,
    part,
    variant,
    takenAs,
    name: reagent.name,
    formula,
    substance: constituents,
    strength,
    extraGroups: setOf(groups),
    watery,
    wets: watery && (takenAs === undefined || isWater(parsed)),
    mol: molAtMost,
    grams,
    made,
    heat: Math.max(roomCelsius, reagent.celsius ?? roomCelsius, celsius),
  };
}

const plainName = (name: string): string => name.trim().toLowerCase();

/** What is heated, by its plain name. */
const plainHeats = (heats: readonly MixtureHeating[]): readonly MixtureHeating[] =>
  heats.map(({ of, toCelsius }) => ({ of: plainName(of), toCelsius }));

/** @param heats by plain names */
function heatOfMixture(ingredients: readonly RuledIngredient[], heats: readonly MixtureHeating[]): number {
  let hottest = roomCelsius;
  for (const { of, toCelsius } of heats) if (of === 'mixture') hottest = Math.max(hottest, toCelsius);
  for (const { heat } of ingredients) hottest = Math.max(hottest, heat);
  return hottest;
}

/** @param heats by plain names */
function heatOfOne(ingredient: RuledIngredient, mixture: number, heats: readonly MixtureHeating[]): number {
  let hottest = Math.max(mixture, ingredient.heat);
  if (heats.length === 0) return hottest;
  const name = plainName(ingredient.name);
  for (const { of, toCelsius } of heats)
    if (of === name || (of === 'product' && ingredient.made === 'product')) hottest = Math.max(hottest, toCelsius);
  return hottest;
}

/**
 * mol of water that sets a dry mixture off rather than damping it: less than a millilitre. Common practice, no source.
 */
const aMillilitre = exact('0.0555');
const isOnlyDrops = ({ substance, mol }: RuledIngredient): boolean =>
  mol !== undefined && mol.lt(aMillilitre) && substance.dry === 'H2O';

/** Water that only a word brings: `damp`. */
const isDampOnly = ({ variant }: RuledIngredient): boolean => variant === 'water';

/** Ingredients of a mixture, as far as it is known what they are. */
interface Gathered {
  readonly ingredients: RuledIngredient[];
  readonly unknown: string[];
  readonly cautions: string[];
  readonly taken: ContentsTaken[];
  readonly circumstances: Set<Circumstance>;
  /** °C that words without a name tell. */
  heat: number;
  /** Something hotter than a hob heats it. */
  hotterThanHob: boolean;
  /** What the words of one thing say, with the beginning of its parts; of everything where they name no thing. */
  readonly own: (readonly [at: string, ReadonlySet<Circumstance>])[];
  /** Parts that are heated without its being said how hot. */
  readonly heated: Set<string>;
  /** Words without a name say that it is melted. */
  melted: boolean;
}

const nothingNamed = (name: string, { circumstances, celsius }: ReagentContents): string =>
  circumstances.size > 0 || celsius !== undefined
    ? `“${name}” names no substance: taken for what is around it, or done with it.`
    : `“${name}” was read as no substance; everything else was judged.`;

/** What the words of a reagent were taken as. */
function contentsTaken(name: string, { contents }: ReagentContents): readonly ContentsTaken[] {
  const named = contents.filter(({ variant }) => variant !== 'water').map(nameOfContent);
  return named.length === 0 ? [] : [{ name, contents: [...new Set(named)] }];
}

/** Which of its words nothing knows. */
function contentCautions(name: string, read: ReagentContents): readonly string[] {
  const { unaccounted, leftOut, namesNothing } = read;
  return [
    ...(namesNothing ? [nothingNamed(name, read)] : []),
    ...(leftOut.length === 0 ? [] : [`${name}: not understood and left out: ${leftOut.join(', ')}.`]),
    ...(unaccounted.length === 0 ? [] : [`${name}: not understood and not judged: ${unaccounted.join(', ')}.`]),
  ];
}

/** In products.csv: so many things are sold under the name that it cannot be called recognised. */
const onlyRoughly = 'unsure';

/** What of a reagent the words tell beside its substance: everything that it may be, or hold. */
function gatherContents(into: Gathered, { reagent, made }: MixedReagent, at: number, read: ReagentContents): void {
  for (const content of read.contents) {
    const { substance } = content.reagent;
    if (!substance) continue;
    const place: Place = {
      index: into.ingredients.length,
      part: `${at}.${content.part}`,
      variant: content.variant,
      takenAs: nameOfContent(content),
      ...(read.celsius !== undefined && { celsius: read.celsius }),
    };
    const name = content.variant === 'water' ? 'water' : reagent.name;
    into.ingredients.push(ruled({ reagent: { ...content.reagent, name }, ...(made && { made }) }, substance, place));
    const isRag = read.contents.some((other) => other.reagent.substance?.groups.includes('absorbent'));
    if (substance.groups.includes('drying_oil') && !isRag) into.cautions.push(oilyRags(reagent.name));
  }
}

/** What resolving left of the words, less what was read there of a state, a vessel, a place or a deed. */
function withoutWordsRead(reagent: ResolvedReagent, unread: readonly string[]): ResolvedReagent {
  if (!reagent.doubts.some(({ code }) => code === 'words-not-used')) return reagent;
  const unknown = new Set(unread.flatMap((text) => text.toLowerCase().split(/\s+/)));
  const words = reagent.unused.filter((word) => unknown.has(word.toLowerCase()));
  const doubts = reagent.doubts.flatMap((doubt) => {
    if (doubt.code !== 'words-not-used') return [doubt];
    return words.length === 0 ? [] : [{ ...doubt, facts: { ...doubt.facts, words: words.join(', ') } }];
  });
  return { ...reagent, doubts };
}

/** Something that is what it was resolved to, wherever it stands, and what must be said of it. */
interface Itself {
  readonly ingredient: RuledIngredient;
  readonly cautions: readonly string[];
}

/** The substance that a reagent was resolved to, unless its words say that it is something else. */
function itselfOf(ingredient: MixedReagent, { contents, celsius, unread }: ReagentContents): Itself | undefined {
  const { reagent, made } = ingredient;
  const { substance, name } = reagent;
  if (!substance || contents.some(({ variant }) => variant !== 'water')) return undefined;
  const place = { index: 0, part: '', variant: 'itself', ...(celsius !== undefined && { celsius }) };
  return {
    ingredient: ruled(ingredient, substance, place),
    cautions: [
      ...(made === undefined ? assumptionsOf(withoutWordsRead(reagent, unread)) : []),
      ...(substance.groups.includes('drying_oil') ? [oilyRags(name)] : []),
    ],
  };
}

/** What is weighed in stands in several pots. */
const weighedItself = onceFor((reagent: ResolvedReagent) => itselfOf({ reagent }, contentsOf(reagent)));

function putIn(into: Gathered, { ingredient, cautions }: Itself, at: number): void {
  into.ingredients.push({ ...ingredient, index: into.ingredients.length, part: `${at}.0` });
  into.cautions.push(...cautions);
}

function gatherSubstance(into: Gathered, ingredient: MixedReagent, at: number, read: ReagentContents): void {
  const itself = ingredient.made === undefined ? weighedItself(ingredient.reagent) : itselfOf(ingredient, read);
  if (itself) putIn(into, itself, at);
}

/** Its words tell of no other contents, no heat, nothing around it, and hold nothing that is not known. */
const tellsNothingElse = (read: ReagentContents): boolean =>
  read.contents.length === 0 &&
  read.circumstances.size === 0 &&
  read.celsius === undefined &&
  read.unaccounted.length === 0 &&
  read.leftOut.length === 0 &&
  !(read.heatUnstated || read.melted || read.namesNothing);

const nothingButItself = (made: 'product' | undefined): ((reagent: ResolvedReagent) => Itself | undefined) =>
  onceFor((reagent) => {
    const read = contentsOf(reagent);
    if (!tellsNothingElse(read)) return undefined;
    return made === undefined ? weighedItself(reagent) : itselfOf({ reagent, made }, read);
  });
const nothingButWeighed = nothingButItself(undefined);
const nothingButProduct = nothingButItself('product');

/** What most things are that go in: themselves and nothing else, so that nothing more is to be gathered of them. */
function plainly({ reagent, made }: MixedReagent): Itself | undefined {
  if (made === undefined) return nothingButWeighed(reagent);
  return made === 'product' ? nothingButProduct(reagent) : undefined;
}

/** Every part begins with it. */
const everything = '';

const nothingRead: ReagentContents = {
  contents: [],
  circumstances: new Set(),
  unaccounted: [],
  leftOut: [],
  unread: [],
  namesNothing: false,
  heatUnstated: false,
  onHob: false,
  melted: false,
};

/** Burners light vapour as flames do. */
const lighting: readonly Circumstance[] = ['flame', 'burner', 'smoulders'];

function noteCircumstances(into: Gathered, at: number, read: ReagentContents): void {
  if ((read.celsius ?? 0) > boilsDryFrom && !read.onHob) into.hotterThanHob = true;
  if (read.contents.length === 0 && read.circumstances.size === 0) return;
  const told = read.contents
    .flatMap(({ reagent }) => reagent.substance?.groups ?? [])
    .map((group) => circumstanceOf[group]);
  for (const one of [...read.circumstances, ...told]) if (one) into.circumstances.add(one);
  if (lighting.some((one) => into.circumstances.has(one))) into.circumstances.add('ignition');
  into.own.push([read.namesNothing ? everything : `${at}.`, read.circumstances]);
}

/** °C that the words tell, of the whole or of what they name. */
const hottestIn = ({ celsius = roomCelsius, contents }: ReagentContents): number =>
  Math.max(celsius, ...contents.map(({ reagent }) => reagent.celsius ?? roomCelsius));

function gather(ingredients: Mixture['ingredients']): Gathered {
  const into: Gathered = {
    ingredients: [],
    unknown: [],
    cautions: [],
    taken: [],
    circumstances: new Set(),
    heat: roomCelsius,
    hotterThanHob: false,
    own: [],
    heated: new Set(),
    melted: false,
  };
  ingredients.forEach((ingredient, at) => {
    const itself = plainly(ingredient);
    if (itself) {
      putIn(into, itself, at);
      return;
    }
    const { reagent, made } = ingredient;
    // Of what is left in a lot a maker may say no more than `bleach`.
    const isRead = made === undefined || made === 'product' || (made === 'carried' && !reagent.substance);
    const read = isRead ? contentsOf(reagent) : nothingRead;
    gatherSubstance(into, ingredient, at, read);
    gatherContents(into, ingredient, at, read);
    noteCircumstances(into, at, read);
    const isUnnamed = reagent.substance === undefined && read.contents.every(({ variant }) => variant === 'water');
    // A torch plays on whatever is put together, not only on what it is named with.
    if (isUnnamed || read.circumstances.has('burner')) into.heat = Math.max(into.heat, hottestIn(read));
    if (read.heatUnstated) into.heated.add(isUnnamed ? everything : `${at}.`);
    if (read.melted) into.melted = true;
    if (read.circumstances.has('unwashed')) gatherResidues(into, at);
    into.taken.push(...contentsTaken(reagent.name, read));
    into.cautions.push(...contentCautions(reagent.name, read));
    const contents = read.contents.filter(({ variant }) => variant !== 'water');
    const known = reagent.substance !== undefined || contents.length > 0 || read.namesNothing;
    if (read.circumstances.size > 0) gatherSurroundings(into, reagent.name, at);
    const unsure = read.contents.some((content) => content.reagent.substance?.groups.includes(onlyRoughly));
    if (!known || unsure || read.unaccounted.length > 0) into.unknown.push(reagent.name);
  });
  return into;
}

/**
 * What is around, where no substance is named with it: `a camping stove in the tent`. It stands among the ingredients
 * as a gas that no rule knows, so that rules can tell of flames, places and things that are not recognised.
 */
function gatherSurroundings(into: Gathered, name: string, at: number): void {
  if (into.ingredients.some(({ part, name: other }) => part.startsWith(`${at}.`) && other === name)) return;
  const { substance } = resolveNamed(name, 'Ne');
  if (!substance) return;
  const place = { index: into.ingredients.length, part: `${at}.around`, variant: 'around' };
  into.ingredients.push(ruled({ reagent: resolveNamed(name, 'Ne') }, substance, place));
}

/** What is left in an ingredient of the step that made it, where it was not washed out. */
function gatherResidues(into: Gathered, at: number): void {
  const own = into.ingredients.filter(({ part }) => part.startsWith(`${at}.`));
  for (const { substance, strength } of own) {
    const left = residuesTable().filter(({ of }) => of.some((group) => groupUnits(group, substance, strength) > 0));
    for (const { leaves, name } of left) for (const formula of leaves) gatherResidue(into, `${at}.left`, name, formula);
  }
}

function gatherResidue(into: Gathered, part: string, name: string, formula: string): void {
  const reagent = resolveNamed(name, formula);
  if (!reagent.substance) return;
  const place = { index: into.ingredients.length, part, variant: formula };
  into.ingredients.push(ruled({ reagent, made: 'carried' }, reagent.substance, place));
}

/** Groups that say something of the whole pot, by what the words say of it. */
const circumstanceOf: Readonly<Record<string, Circumstance>> = {
  closed_vessel: 'closed',
  open_flame: 'flame',
  in_a_heap: 'heap',
  confined_space: 'confined',
  damaged_thing: 'damaged',
  old: 'old',
  enclosed_place: 'enclosed',
  indoors: 'indoors',
  ignition_source: 'ignition',
  burner: 'burner',
  smouldering_fire: 'smoulders',
  dust_cloud: 'airborne',
  on_charge: 'charging',
  fresh: 'fresh',
  oily: 'oily',
  molten_thing: 'molten',
  pressurised: 'pressurised',
  casting: 'casting',
  mouldy: 'mouldy',
  rubbed: 'rubbed',
  liquid_words: 'liquid',
  on_skin: 'skin',
  microwaved: 'microwaved',
  spilt: 'spilt',
  vacuumed: 'vacuumed',
  catalysed: 'catalysed',
  electric_current: 'current',
  plunged: 'plunged',
  damp: 'damp',
  open_standing: 'evaporating',
  swept_up: 'swept',
  soaked_in: 'soaked',
  in_the_eyes: 'eyes',
  machined: 'machined',
  swallowed: 'swallowed',
  smell_of_eggs: 'egg-smell',
  smell_of_almonds: 'almond-smell',
  smell_of_garlic: 'garlic-smell',
  smell_of_chlorine: 'chlorine-smell',
  smell_of_hay: 'hay-smell',
  smell_of_matches: 'match-smell',
  smell_of_ammonia: 'ammonia-smell',
  smell_of_fuel_gas: 'gas-smell',
  smell_of_solvent: 'solvent-smell',
  brown_fumes: 'brown-fumes',
  green_fumes: 'green-fumes',
  white_fumes: 'white-fumes',
  felt_ill: 'felt-ill',
  gone_in: 'gone-in',
  breathed: 'breathed',
  water_last: 'water-last',
  evacuated: 'evacuated',
  thin_glass: 'thin-glass',
  food_made: 'food-made',
};

/** Whether what this group stands for has happened already. */
export function isToldAfterwards(group: string): boolean {
  const told = circumstanceOf[group];
  return toldAfterwards.some((one) => one === told);
}

/** The groups of `circumstanceOf` by what the words say. */
const groupsOfCircumstance: ReadonlyMap<Circumstance, readonly string[]> = groupedByCircumstance();

function groupedByCircumstance(): ReadonlyMap<Circumstance, readonly string[]> {
  const groups = new Map<Circumstance, string[]>();
  for (const [group, told] of Object.entries(circumstanceOf)) groups.set(told, [...(groups.get(told) ?? []), group]);
  return groups;
}

/** Groups that are no substance: a flame, a vessel, a place. */
export const circumstanceGroups: ReadonlySet<string> = new Set(Object.keys(circumstanceOf));

/**
 * °C where it is said to be heated and not how hot: a dry solid over a flame, what is organic, what boils. Judgement.
 */
const heatAtWorst = { dry: 700, organic: 150, wet: 105 };

/** °C at which what is said to be melted melts: wax and fat in hot water, salts and metals far above. */
const melts = { organic: 90, other: 400 };

function heatedToMelt(one: RuledIngredient): RuledIngredient {
  if (isPlainWater(one)) return one;
  return { ...one, heat: Math.max(one.heat, isOrganic(one) ? melts.organic : melts.other) };
}

const isOrganic = ({ substance: { kind, atoms } }: RuledIngredient): boolean =>
  kind === 'molecule' && atoms.has('C') && atoms.has('H');

/** A pot of oil or wax without water that is said to boil is as hot as that boils itself: far above 100 °C. */
const boilsAsOil = ({ ingredients, heat: pot }: Gathered, wet: boolean): boolean =>
  !wet &&
  (isBoiling(pot) || ingredients.some(({ heat }) => isBoiling(heat))) &&
  ingredients.some(({ substance, strength }) => (membershipsOf(substance, strength).get('oil_or_wax') ?? 0) > 0);
const boils = { from: 99, to: 101 };
const isBoiling = (heat: number): boolean => heat >= boils.from && heat <= boils.to;

/** The ingredients, as hot as they are at worst where it is not said how hot. */
function heatedAtWorst(gathered: Gathered, wet: boolean): readonly RuledIngredient[] {
  const { ingredients } = gathered;
  const heated = [...gathered.heated];
  const isAll = boilsAsOil(gathered, wet);
  if (heated.length === 0 && !isAll) return ingredients;
  return ingredients.map((one) => {
    if (!isAll && !heated.some((at) => one.part.startsWith(at))) return one;
    const other = isOrganic(one) ? heatAtWorst.organic : heatAtWorst.dry;
    return { ...one, heat: Math.max(one.heat, wet || one.watery ? heatAtWorst.wet : other) };
  });
}

const dustsThatBurn = ['powder_metal', 'fuel_solid', 'organic_combustible', 'carbon', 'fine_dust'];

const isPlainWater = ({ substance }: RuledIngredient): boolean => substance.dry === 'H2O';

/** Water that is not said to be warm: poured on what is melted, it is not meant to melt with it. */
const isColdWater = (one: RuledIngredient): boolean => isPlainWater(one) && one.heat < warmWater;
const warmWater = 45;

/** m³ below which a room is a small closed place: a bathroom or a box room. Judgement. */
const smallRoom = 20;

/** What is no longer in a glue or a resin that has set. */
const losesByCuring: ReadonlySet<string> = new Set([
  'cyanoacrylate',
  'isocyanate',
  'epoxide',
  'polymerisable',
  'plaster',
  'eager_monomer',
]);

/** Its own words say that it has set; words for the whole pot do not: they may tell what is to come. */
const isCured = ({ own }: Gathered, { part }: RuledIngredient): boolean =>
  own.some(([at, told]) => at !== everything && told.has('cured') && part.startsWith(at));

/** What groups are told by: what was gathered, and for each ingredient, by its index, the groups of its substance. */
interface Pot {
  readonly gathered: Gathered;
  readonly ingredients: readonly RuledIngredient[];
  readonly groupsOf: readonly ReadonlyMap<string, number>[];
}

interface Standing {
  readonly pot: Pot;
  readonly told: StandingMixture;
}

/** Units by what an ingredient is, whatever is around it. */
function ownUnits({ gathered, groupsOf }: Pot, group: string, ingredient: RuledIngredient): number {
  const units = groupsOf[ingredient.index]!.get(group) ?? (ingredient.extraGroups.has(group) ? 1 : 0);
  return units > 0 && losesByCuring.has(group) && isCured(gathered, ingredient) ? 0 : units;
}

/** What its own words say, or words that name nothing. */
const says = ({ gathered }: Pot, { part }: RuledIngredient, circumstance: Circumstance): boolean =>
  gathered.circumstances.has(circumstance) &&
  gathered.own.some(([at, own]) => own.has(circumstance) && part.startsWith(at));

/** A chloride salt beside a strong acid that is stronger than trace. */
function chlorideInAcid(pot: Pot, ingredient: RuledIngredient): number {
  const chloride = ownUnits(pot, 'chloride', ingredient);
  if (chloride === 0 || ownUnits(pot, 'strong_acid', ingredient) > 0) return 0;
  const isBesideAcid = pot.ingredients.some(
    (other) => other.part !== ingredient.part && ownUnits(pot, 'strong_acid', other) > 0,
  );
  return isBesideAcid ? chloride : 0;
}

type PotUnits = (pot: Pot, ingredient: RuledIngredient) => number;

/** Groups that only the whole pot, or the words beside a name, can tell. */
const ofPot: ReadonlyMap<string, PotUnits> = new Map<string, PotUnits>([
  ['anything', () => 1],
  ['besides_water', (_, ingredient) => Number(!isPlainWater(ingredient))],
  ['water_any', (_, { watery }) => Number(watery)],
  [
    'cold_water',
    ({ gathered: { circumstances } }, ingredient) =>
      Number(isColdWater(ingredient) || (circumstances.has('plunged') && isPlainWater(ingredient))),
  ],
  [
    'airborne_fuel',
    (pot, ingredient) =>
      says(pot, ingredient, 'airborne')
        ? Math.max(...dustsThatBurn.map((group) => ownUnits(pot, group, ingredient)))
        : 0,
  ],
  [
    'fine_metal',
    (pot, ingredient) => (says(pot, ingredient, 'finely') ? ownUnits(pot, 'powder_metal', ingredient) : 0),
  ],
  ['chloride_in_acid', chlorideInAcid],
]);

/** Whether only the whole pot can tell who belongs to a group. */
export const isToldByPot = (group: string): boolean => ofPot.has(group);

/** The groups of something, whatever is around it. */
export function groupsByItself(reagent: ResolvedReagent, made: MixedReagent['made']): ReadonlySet<string> {
  const { substance } = reagent;
  if (!substance) return new Set();
  const { constituents, groups } = substance;
  return new Set([...membershipsOf(constituents, concentrationOf(reagent, made)).keys(), ...groups]);
}

/** Groups that are told by more than what an ingredient is. */
const toldByMore: ReadonlySet<string> = new Set([...ofPot.keys(), ...Object.keys(circumstanceOf), ...losesByCuring]);

function unitsIn(pot: Pot, group: string, ingredient: RuledIngredient): number {
  if (!toldByMore.has(group))
    return pot.groupsOf[ingredient.index]!.get(group) ?? (ingredient.extraGroups.has(group) ? 1 : 0);
  const told = ofPot.get(group);
  if (told) return told(pot, ingredient);
  const circumstance = circumstanceOf[group];
  return circumstance && pot.gathered.circumstances.has(circumstance) ? 1 : ownUnits(pot, group, ingredient);
}

/** Groups that anything in the pot belongs to. */
function groupsIn(pot: Pot): ReadonlySet<string> {
  const present = new Set<string>();
  for (const groups of pot.groupsOf) for (const group of groups.keys()) present.add(group);
  for (const { extraGroups } of pot.ingredients) for (const group of extraGroups) present.add(group);
  for (const [group, told] of ofPot) if (pot.ingredients.some((one) => told(pot, one) > 0)) present.add(group);
  for (const circumstance of pot.gathered.circumstances)
    for (const group of groupsOfCircumstance.get(circumstance) ?? []) present.add(group);
  return present;
}

let things = 0;
/** A number for each thing that stays what it is. */
const numberOf = onceFor((_: object) => (things += 1));

/** All that tells who belongs to which groups in a pot of which no words tell anything. */
function kindsIn({ gathered, ingredients, groupsOf }: Pot): string {
  const parts: string[] = [];
  let kinds = [...gathered.circumstances].join(' ');
  for (const one of ingredients) {
    if (!parts.includes(one.part)) parts.push(one.part);
    const place = parts.indexOf(one.part);
    kinds += `\n${numberOf(groupsOf[one.index]!)} ${numberOf(one.extraGroups)} ${place} ${one.variant}`;
    kinds += `${one.watery ? ' watery' : ''}${isColdWater(one) ? ' cold' : ''}`;
  }
  return kinds;
}

/** The same substances meet again and again, in this pot and in the next: their groups are found once. */
const alikeOf = memoise(kindsIn, (pot): Alike => ({ present: groupsIn(pot) }), 300);

/** The strongest of a group in the pot. */
function strongest(pot: Pot, group: string): Concentration {
  const [first] = pot.ingredients
    .filter((ingredient) => ownUnits(pot, group, ingredient) > 0)
    .map(({ strength }) => strength)
    .sort((a, b) => b.percent - a.percent);
  return first ?? { percent: 0, molar: 0, solution: false };
}

/** Something that surely wets it; what is only said to be damp still burns with what feeds it. */
const isWet = ({ ingredients, circumstances }: Gathered): boolean =>
  ingredients.some(
    (ingredient) =>
      ingredient.wets && (!isDampOnly(ingredient) || circumstances.has('wet')) && !isOnlyDrops(ingredient),
  );

/** Resolves a mixture for the rules. What could not be told what it is stands in `unknown`. */
export const resolveMixture = (mixture: Mixture): ResolvedMixture => heated(standIn(gatherIn(mixture)), mixture);

/**
 * The same for several mixtures of which some have one and the same list of ingredients: what the heat that they get
 * does not change is resolved once.
 */
export function resolverOfMixtures(): (mixture: Mixture) => ResolvedMixture {
  const standings = new Map<
    Mixture['ingredients'],
    { readonly room: string | undefined; readonly standing: Standing }
  >();
  return (mixture) => {
    const { ingredients, roomCubicMetres: room } = mixture;
    const before = standings.get(ingredients);
    if (before && before.room === room) return heated(before.standing, mixture);
    const standing = standIn(gatherIn(mixture));
    standings.set(ingredients, { room, standing });
    return heated(standing, mixture);
  };
}

/** What says where it stands: outdoors, or a fire, of which nobody makes one in a room unless it is said. */
const placed: readonly Circumstance[] = ['outdoors', 'burner', 'smoulders', 'flame'];

function gatherIn({ ingredients, roomCubicMetres: room, placeUntold }: Mixture): Gathered {
  const gathered = gather(ingredients);
  const { circumstances } = gathered;
  const isRoom = placeUntold === true ? !placed.some((one) => circumstances.has(one)) : room !== undefined;
  if (isRoom) circumstances.add('indoors');
  if (isRoom && room !== undefined && Number(room) < smallRoom) circumstances.add('confined');
  return gathered;
}

function standIn(gathered: Gathered): Standing {
  const { unknown, cautions, taken, circumstances } = gathered;
  const wet = isWet(gathered);
  const atWorst = heatedAtWorst(gathered, wet);
  const ingredients = gathered.melted ? atWorst.map(heatedToMelt) : atWorst;
  const groupsOf = ingredients.map(({ substance, strength }) => membershipsOf(substance, strength));
  const pot: Pot = { gathered, ingredients, groupsOf };
  const alike = gathered.own.length === 0 ? alikeOf(pot) : undefined;
  return {
    pot,
    told: {
      ingredients,
      unknown,
      cautions,
      taken,
      circumstances,
      wet,
      present: alike?.present ?? groupsIn(pot),
      ...(alike && { alike }),
      units: (group, ingredient) => unitsIn(pot, group, ingredient),
      strengthIn: (group, ingredient) =>
        group === 'chloride_in_acid' ? strongest(pot, 'strong_acid') : ingredient.strength,
    },
  };
}

/** What stands in a pot at the heat that it gets. */
function heated({ pot, told }: Standing, mixture: Mixture): ResolvedMixture {
  const { gathered, ingredients } = pot;
  const heats = plainHeats(mixture.heating ?? []);
  const heat = Math.max(gathered.heat, heatOfMixture(ingredients, heats));
  const heatsOf = once(() => ingredients.map((one) => heatOfOne(one, heat, heats)));
  return {
    ...told,
    standing: told,
    heat,
    heatOf: ({ index }) => heatsOf()[index]!,
    onHobAtMost: !gathered.hotterThanHob && heats.every(({ toCelsius }) => toCelsius <= boilsDryFrom),
    joinedBy: (made) => heated(standIn(withMade(gathered, made, mixture.ingredients.length)), mixture),
  };
}

/** What is gathered of a mixture that its own products join: nothing is read of them, and they say nothing. */
function withMade(gathered: Gathered, made: readonly MixedReagent[], before: number): Gathered {
  const joined = { ...gathered, ingredients: [...gathered.ingredients], cautions: [...gathered.cautions] };
  for (const [place, one] of made.entries()) gatherSubstance(joined, one, before + place, nothingRead);
  return joined;
}

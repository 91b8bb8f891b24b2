// What goes into a mixture and what its words say of it, gathered one thing after the other.
import { exact } from '../../chemistry/index.js';
import { onceFor } from '../../once.js';
import {
  assumptionsOf,
  contentsOf,
  nameOfContent,
  resolveNamed,
  type Circumstance,
  type ReagentContents,
  type ResolvedReagent,
} from '../../reagents/index.js';
import { residuesTable } from '../../tables/compiled/hazards/foresee/residues.js';
import { circumstanceOf } from './circumstance-groups.js';
import type { ContentsTaken, MixedReagent, Mixture } from './contracts.js';
import { groupUnits } from './groups.js';
import { boilsDryFrom, roomCelsius, ruled, type Place, type RuledIngredient } from './ruled-ingredient.js';

const oilyRags = (name: string): string =>
  `Rags and paper soaked with ${name} can heat themselves and catch fire: spread them flat outdoors ` +
  'or keep them under water. (common practice, no source)';

/**
 * mol of water that sets a dry mixture off rather than damping it: less than a millilitre. Common practice, no source.
 */
const aMillilitre = exact('0.0555');
const isOnlyDrops = ({ substance, mol }: RuledIngredient): boolean =>
  mol !== undefined && mol.lt(aMillilitre) && substance.dry === 'H2O';

/** Water that only a word brings: `damp`. */
const isDampOnly = ({ variant }: RuledIngredient): boolean => variant === 'water';

/** Ingredients of a mixture, as far as it is known what they are. */
export interface Gathered {
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
export const everything = '';

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

/** m³ below which a room is a small closed place: a bathroom or a box room. Judgement. */
const smallRoom = 20;

/** Something that surely wets it; what is only said to be damp still burns with what feeds it. */
export const isWet = ({ ingredients, circumstances }: Gathered): boolean =>
  ingredients.some(
    (ingredient) =>
      ingredient.wets && (!isDampOnly(ingredient) || circumstances.has('wet')) && !isOnlyDrops(ingredient),
  );

/** What says where it stands: outdoors, or a fire, of which nobody makes one in a room unless it is said. */
const placed: readonly Circumstance[] = ['outdoors', 'burner', 'smoulders', 'flame'];

export function gatherIn({ ingredients, roomCubicMetres: room, placeUntold }: Mixture): Gathered {
  const gathered = gather(ingredients);
  const { circumstances } = gathered;
  const isRoom = placeUntold === true ? !placed.some((one) => circumstances.has(one)) : room !== undefined;
  if (isRoom) circumstances.add('indoors');
  if (isRoom && room !== undefined && Number(room) < smallRoom) circumstances.add('confined');
  return gathered;
}

/** What is gathered of a mixture that its own products join: nothing is read of them, and they say nothing. */
export function withMade(gathered: Gathered, made: readonly MixedReagent[], before: number): Gathered {
  const joined = { ...gathered, ingredients: [...gathered.ingredients], cautions: [...gathered.cautions] };
  for (const [place, one] of made.entries()) gatherSubstance(joined, one, before + place, nothingRead);
  return joined;
}

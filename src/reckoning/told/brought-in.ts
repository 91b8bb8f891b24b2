// What meets in an entry beside the reagents that it lists: what of them could not be read, what a step takes or names
// that is none of them, what the product is washed with, what the waste is said to get.
import {
  allNames,
  contentsOf,
  dryComposition,
  namesInWords,
  readReagentText,
  resolveReagent,
  resolveUse,
  unreadReagent,
  type NameInWords,
} from '../../reagents/index.js';
import { dangerGroupsIn, dangerGroupsOf, groupsOfMereNames, partnersOf } from '../../hazards/index.js';
import { dustGroups as dusty } from '../../hazards/foresee/rules.js';
import type { LeftOut } from '../../journal/check.js';
import type { Entry } from '../../journal/entry.js';
import { memoise } from '../../memoise.js';
import { once, onceFor } from '../../once.js';
import type { Path } from '../../journal/place.js';
import type { ReckoningContext } from '../contracts.js';
import { isAmongFood } from './among-food.js';
import { says } from './around-words.js';
import { mayDust, workedIn } from './dust-words.js';
import { cupboardOfContext, isWaterReagent } from '../ingredients.js';
import { linesLeftOut, wordsLeftOut } from './left-out.js';
import { isRags, ragsLieSafely } from './oily-rags.js';
import { storiesAmong, withoutPlansGivenUp } from './not-of-work.js';
import { isReactive } from './reactive.js';
import { putInByPronoun } from './taken-in-hand.js';
import { aroundTold } from './told-around.js';
import { dangerousBeside, dangerousSentences, wordsOfSamples } from './told-stuff.js';
import {
  goesInThere,
  isKeptElsewhere,
  isThere,
  meetsWithin,
  putInBy,
  putInOutright,
  putTogetherBy,
  sentencesOf,
  sentencesOfWork,
  setApart,
  speaksOfAll,
  tellsResidue,
  tellsWashing,
  workBeside,
  type WorkedByWords,
} from './told-work.js';
import type { VesselItem } from '../vessels.js';
import { wordsOfStep } from '../steps.js';

/** Something that no reagent of the entry holds, and that meets them. */
export interface BroughtIn {
  readonly item: VesselItem;
  /** The sample that it is for, where not for all. */
  readonly sample?: string;
  /**
   * `with` and `words`: a step takes or names it; `wash`: it meets the product; `waste`: it meets all the rest in the
   * waste; `spoken-of`: it is named, and whether it is there is not plain; `aside`: words beside the work put it to
   * others of its `group`, and to nothing else; without one to what is left of the work.
   */
  readonly how: 'left-out' | 'with' | 'words' | 'wash' | 'waste' | 'spoken-of' | 'aside';
  readonly group?: number;
  /** Of what is spoken of or in the waste: by its own name, and nothing takes it back or keeps it apart. */
  readonly outright?: true;
}

type Step = NonNullable<Entry['steps']>[number];
type StepKeys = Exclude<Step, string>;

/** What stands in the pot already, by whatever name. */
const inThePot =
  /^(?:the )?(?:mixture|product|pigment|precipitate|solids?|filtrate|filter ?cake|cake|liquor|solution|residue|slurry|paste|batch|rest|all|everything|it)$/i;

const plain = (words: string): string => words.trim().toLowerCase();

/** The same few things are named in the words of many entries. */
const readOnce = memoise((text: string) => text, readReagentText, 2000);

function itemFrom(text: string, path: Path, context: ReckoningContext): VesselItem {
  const read = readOnce(text);
  const reagent = read.ok ? resolveReagent(read.value, cupboardOfContext(context)) : unreadReagent(text);
  return { id: text, use: { reagent: text }, path, reagent };
}

/** `iron(III) chloride` is called `iron chloride` too. */
const withoutNumerals = (name: string): string => name.replace(/\s?\([ivx]+(?:,[ivx]+)?\)/gi, '');

/** Names by which a step may call what the entry uses. */
const namesOf = onceFor(({ id, reagent: { name, written, substance } }: VesselItem): readonly string[] =>
  [id, name, written.plainName, written.name, substance?.formula, ...(written.alsoCalled ?? [])]
    .filter((one) => one !== undefined)
    .map(plain)
    .flatMap((one) => (one.includes('(') ? [one, withoutNumerals(one)] : [one])),
);

const dryOf = ({ reagent }: VesselItem): string | undefined => reagent.substance?.constituents.dry;

/** Whether something is among what the entry uses, under this name or another, or in words that are part of one. */
function isUsed(brought: VesselItem, used: readonly VesselItem[]): boolean {
  const called = plain(brought.id);
  const dry = dryOf(brought);
  return used.some((item) => {
    if (dry !== undefined && dryOf(item) === dry) return true;
    return namesOf(item).some((name) => name === called || (dry === undefined && name.includes(called)));
  });
}

/** With its amount, where the step takes nothing else. */
const withAmount = ({ with: ids = [], amount }: StepKeys, text: string): string =>
  amount === undefined || ids.length > 1 ? text : `${text} ${amount}`;

/** What steps take under `with:` that no reagent of the entry is. */
function fromSteps({ steps = [] }: Entry, used: readonly VesselItem[], context: ReckoningContext): BroughtIn[] {
  const seen = new Set<string>();
  return steps.flatMap((step, at) => {
    if (typeof step === 'string' || !step.with) return [];
    return step.with.flatMap((text, place): BroughtIn[] => {
      if (inThePot.test(text.trim()) || seen.has(plain(text))) return [];
      if (used.some((item) => namesOf(item).includes(plain(text)))) return [];
      const path: Path = ['steps', at, 'with', place];
      const item = { ...itemFrom(withAmount(step, text), path, context), id: text, step: at };
      if (isUsed(item, used) || isWaterReagent(item.reagent)) return [];
      seen.add(plain(text));
      return [{ item, how: 'with', ...(step.sample !== undefined && { sample: step.sample }) }];
    });
  });
}

/** What the entry holds for certain, as names in its words are held against it. */
interface Held {
  /** What all of it, and what is made, is called, each once and between blanks. */
  readonly names: ReadonlySet<string>;
  readonly compositions: ReadonlySet<string>;
  readonly elements: () => ReadonlySet<string>;
  /** The same names, and all that the tables call the same stuffs: blue vitriol is copper sulfate. */
  readonly otherwise: () => ReadonlySet<string>;
  /** Groups of dangers of all of it. */
  readonly groups: () => ReadonlySet<string>;
}

const water = once(() => dryComposition('H2O'));

function compositionsIn({ reagent }: VesselItem): readonly string[] {
  const contents = contentsOf(reagent).contents.map((one) => one.reagent);
  return [reagent, ...contents].flatMap(({ substance }) => substance?.constituents.dry ?? []);
}

/** Formulae of what is made, and of all that the reaction names. */
function formulasOf({ pigment, reaction = '', samples }: Entry): readonly string[] {
  const terms = reaction
    .split(/\s*(?:<?[-=]+>|=|→|⇌|\s\+)\s*/)
    .map((term) => term.replace(/^\s*[\d./]+\s+/, '').trim());
  return [pigment?.formula ?? '', ...samples.map(({ formula }) => formula ?? ''), ...terms].filter((one) => one !== '');
}

/** What else a stuff is called. */
function calledOtherwise({ reagent: { name, substance } }: VesselItem): readonly string[] {
  const formula = substance?.formula;
  return allNames({ name, ...(formula !== undefined && { formula }) }).names.map(plain);
}

function heldIn(entry: Entry, items: readonly VesselItem[]): Held {
  const { pigment } = entry;
  const made = formulasOf(entry).map(dryComposition);
  const names = new Set([...(pigment ? [plain(pigment.name)] : []), ...items.flatMap(namesOf)].map(betweenBlanks));
  return {
    names,
    compositions: new Set([water(), ...made, ...items.flatMap(compositionsIn)]),
    elements: once(
      () => new Set(items.flatMap(({ reagent }) => [...(reagent.substance?.constituents.atoms.keys() ?? [])])),
    ),
    otherwise: once(() => new Set([...names, ...items.flatMap(calledOtherwise)])),
    groups: once(() => new Set(items.flatMap(({ reagent }) => [...dangerGroupsOf(reagent.name)]))),
  };
}

/** A name that stands in another stands there as whole words. */
const betweenBlanks = (words: string): string => ` ${words} `;

/** Elements whose crystals are mostly violet, as permanganate is: what is called so may be one of these. */
const violet: readonly string[] = ['Cr', 'Co', 'I'];
const calledViolet = /(?:^|\s)(?:purple|violet)(?:\sblack)?\s(?:crystals|granules)$/i;

/** `The purple crystals`, in an entry that holds or makes something that looks so. */
const isCalledByLooks = (name: string, { elements }: Held): boolean =>
  calledViolet.test(name) && violet.some((symbol) => elements().has(symbol));

/** Whether a name in the words of an entry is one of what it holds already. */
function isHeld({ name, mayBe }: NameInWords, held: Held): boolean {
  const { names, compositions } = held;
  if (isCalledByLooks(name, held)) return true;
  if (mayBe.some((together) => together.length > 0 && together.every((one) => compositions.has(one)))) return true;
  const called = betweenBlanks(plain(name));
  for (const other of names) if (other.includes(called) || called.includes(other)) return true;
  return false;
}

/**
 * Words that call what is listed in short: `ammonium phosphate` of diammonium hydrogen phosphate, `the acid` where an
 * acid is listed.
 */
function isShortFor({ name, isClass }: NameInWords, { otherwise, groups }: Held): boolean {
  const words = plain(name).split(' ');
  for (const other of otherwise()) if (words.every((word) => other.includes(word))) return true;
  return isClass && [...dangerGroupsOf(name)].some((group) => groups().has(group));
}

/** The bare name of a metal that something in the entry holds: `the copper` may be its salt. */
const mayBeItsSalt = ({ mayBe: [together, ...others] }: NameInWords, { elements }: Held): boolean =>
  others.length === 0 && together?.length === 1 && elements().has(together[0]!);

/** `a ferrite with zinc`, `the manganese`: of a metal by its bare name a compound is as often meant. */
const isBareElement = ({ text, name, mayBe: [together, ...others], goesIn }: NameInWords): boolean =>
  !goesIn && text === name && others.length === 0 && together?.length === 1 && /^[A-Z][a-z]?$/.test(together[0]!);

/** Whether words beside a list of reagents mean one of them by a name, whole or in short. */
const isListed = (one: NameInWords, held: Held): boolean =>
  isHeld(one, held) || isShortFor(one, held) || mayBeItsSalt(one, held);

const neverAsMetals: ReadonlySet<string> = new Set(['Li', 'Na', 'K', 'Rb', 'Cs', 'Ca', 'Sr', 'Ba']);

/** `I had forgotten the potassium`: the salt is meant where nothing says how much of it, or that it is a metal. */
const isItsSalt = ({ text, name, mayBe: [together, ...others] }: NameInWords): boolean =>
  others.length === 0 &&
  together?.length === 1 &&
  neverAsMetals.has(together[0]!) &&
  text === name &&
  !name.includes(' ');

interface Said {
  readonly words: string;
  readonly path: Path;
  readonly step?: number;
  readonly sample?: string;
  /**
   * `aside`: words that tell of the work without being its steps; `write-up`: words of all sorts, notes too;
   * `told-work`: a write-up that alone tells the work; `told-beside`: one that tells it beside a list of reagents.
   */
  readonly as: 'words' | 'wash' | 'waste' | 'aside' | 'write-up' | 'told-work' | 'told-beside';
}

const saidAs = { steps: 'words', washes: 'wash', '': 'aside' } as const;
const saidInLeftOut = (one: LeftOut): readonly Said[] =>
  wordsLeftOut(one).map(({ words, of }) => ({ words, path: one.path, as: saidAs[of] }));

/** What a step says; of a plan that it gives up it only speaks. */
function saidInStep(said: Said): readonly Said[] {
  const { done, givenUp } = withoutPlansGivenUp(sentencesOf(said.words));
  if (givenUp.length === 0) return [said];
  return [
    { ...said, words: done.join(' ') },
    { ...said, words: givenUp.join(' '), as: 'aside' },
  ];
}

/** Where the words of the work say what was put to what. */
function saidAtWork({
  steps = [],
  waste,
  washes,
  samples,
  leftOut = [],
  worksByWords,
}: WorkedByWords): readonly Said[] {
  const ofWaste: readonly Said[] = waste === undefined ? [] : [{ words: waste, path: ['waste'], as: 'waste' }];
  const ofWashes = [
    { written: washes, path: ['washes'] as Path },
    ...samples.map((one, at) => ({ written: one.washes, path: ['samples', at, 'washes'] as Path })),
  ].flatMap(({ written, path }): Said[] => (typeof written === 'string' ? [{ words: written, path, as: 'wash' }] : []));
  const ofSteps = steps.flatMap((step, at): readonly Said[] => {
    if (worksByWords) return [{ words: String(step), path: [], step: at, as: 'told-work' }];
    if (typeof step === 'string') return saidInStep({ words: step, path: ['steps', at], step: at, as: 'words' });
    const sample = step.sample === undefined ? {} : { sample: step.sample };
    return saidInStep({ words: step.do, path: ['steps', at, 'do'], step: at, as: 'words', ...sample });
  });
  return [...ofSteps, ...ofWashes, ...ofWaste, ...leftOut.flatMap(saidInLeftOut)];
}

/** Words beside the work, which put nothing into a pot. */
function saidBeside(entry: Entry, isADanger: (words: string) => boolean): readonly Said[] {
  const apart = setApart(entry).map((words): Said => ({ words, path: [], as: 'aside' }));
  const aside = entry.samples.flatMap(({ differs }, at): Said[] =>
    differs === undefined ? [] : [{ words: differs, path: ['samples', at, 'differs'], as: 'aside' }],
  );
  const stories = once(() => storiesAmong(sentencesOf(entry.body)));
  const inWriteUp = dangerousSentences(entry)
    .filter((words) => !stories().has(words))
    .map((words) => ({ words, path: [] as Path }));
  const beside = [...dangerousBeside(entry), ...inWriteUp]
    .filter(({ words }) => isReactive(words) || isADanger(words))
    .map((one): Said => ({ ...one, as: 'write-up' }));
  return [...apart, ...aside, ...beside];
}

/** Sentences that tell the work beside a list of reagents, where they name what is a danger with those. */
const saidBesideReagents = (entry: Entry, isADanger: (words: string) => boolean): readonly Said[] =>
  workBeside(entry)
    .filter((words) => isADanger(words) && !tellsWashing(words))
    .map((words) => ({ words, path: [], as: 'told-beside' }));

/** What a waste is said to be kept from, or its bottles from each other. */
const keepsApart = /\b(?:apart|separate\w*|never|not|each|own|getrennt\w*|séparé\w*|jamais|separad\w*|nunca)\b/i;

/** A line of a list that says how much of it: `- most of a tub of`, `* a handful of`. */
const listLine =
  /^\s*[-*•]\s+(?:\d|(?:a|an|one|two|three|four|half|most|some|all|about|ca|ein|eine|zwei|etwas|un|une|deux|una|due|dos)\b)/i;

/** Whether words of the work say that a name is there; what reacts with much is put in, or stands among food. */
const isThereAs = (one: NameInWords, words: string): boolean =>
  (!isReactive(one.name) || isAmongFood(words) || listLine.test(words)) && isThere(one) && !isItsSalt(one);

const onlyAsSalts: ReadonlySet<string> = new Set(['Ba', 'Sr']);
const tellsMetal =
  /(?<![a-z])(?:metal|metallic|lump|piece|pieces|chunk|rod|turnings|metall\w*|métal\w*|trozo)(?![a-z])/i;

/**
 * `Poured the sulphate into the barium`: nobody has it as a metal, and a salt of it is spoken of beside.
 * @param all what else is named
 */
function isSaltBeside(one: NameInWords, words: string, all: () => readonly NameInWords[]): boolean {
  const metal = one.mayBe[0]?.[0] ?? '';
  if (!isOnlyAsSalt(one, words)) return false;
  const ofSalt = new RegExp(`${metal}(?![a-z])`);
  return all().some(({ mayBe }) =>
    mayBe.some((together) => together.some((each) => each !== metal && ofSalt.test(each))),
  );
}

/** `Until barium shows no cloud`: a salt of it is meant, mostly the chloride. */
const isOnlyAsSalt = (one: NameInWords, words: string): boolean =>
  isItsSalt(one) && onlyAsSalts.has(one.mayBe[0]?.[0] ?? '') && !tellsMetal.test(words);

const dustAlone = once(() => partnersOf([]));
/** Whether something of these groups is a danger where it flies about. */
const isBadAsDust = (groups: ReadonlySet<string>): boolean => {
  const named = groupsOfMereNames(groups);
  return named.size > 0 && [...dustAlone()(new Set([...named, ...dusty]))].some((group) => dusty.has(group));
};

/** Whether words work something of this name dry, and it is a danger as dust: no glove that crumbles a cake. */
const fliesAbout = (name: string, words: string): boolean =>
  mayDust(words) && isBadAsDust(dangerGroupsOf(name)) && workedIn(words).length > 0;

/** How a name in words is taken; undefined where it says nothing. */
function howOf(
  one: NameInWords,
  { as, words }: Said,
  held: Held,
  putIn: () => ReadonlySet<NameInWords>,
  isADanger: (name: string, words: string) => boolean,
): BroughtIn['how'] | undefined {
  if (as === 'told-work') return putIn().has(one) || isThereAs(one, words) ? 'words' : undefined;
  if (as === 'aside') return 'spoken-of';
  if (as === 'told-beside') {
    const isWorked = (): boolean => isThere(one) && fliesAbout(one.name, words);
    return isADanger(one.name, words) && (putIn().has(one) || isWorked()) ? 'words' : undefined;
  }
  if (as === 'write-up') {
    const isNamed = isReactive(one.name) || (isADanger(one.name, words) && !isBareElement(one));
    const isMeant = !one.isClass && !one.onlySpokenOf && isNamed && !isKeptElsewhere(one);
    return isMeant ? 'spoken-of' : undefined;
  }
  const isMeant = !one.onlySpokenOf || (one.isOrdinary === true && putIn().has(one));
  const isPlain = isMeant && !isItsSalt(one) && !mayBeItsSalt(one, held);
  if (as === 'waste') return isPlain && !one.isClass ? 'waste' : undefined;
  return isPlain ? as : 'spoken-of';
}

/** A name of some words as what it brings in. @param allWords of all that is said */
function broughtInAs(
  how: BroughtIn['how'],
  one: NameInWords,
  { words, path, step, sample }: Said,
  allWords: () => string,
  context: ReckoningContext,
): BroughtIn {
  const isSpread = isRags(one.name) && ragsLieSafely(allWords());
  const called = isOnlyAsSalt(one, words) ? `${one.text} chloride` : one.text;
  const from = itemFrom(isSpread ? `${one.text}, spread flat` : called, path, context);
  const use = { ...from.use, ...(how === 'wash' && { role: 'wash' as const }) };
  const item = { ...from, use, id: one.name, ...(step !== undefined && { step }) };
  const outright = !one.isClass && !one.onlySpokenOf && !isItsSalt(one) && !(how === 'waste' && keepsApart.test(words));
  return { item, how, ...(sample !== undefined && { sample }), ...(outright && { outright }) };
}

/** Words of the work whose sentences follow on each other. */
const tellsInWork: ReadonlySet<Said['as']> = new Set(['told-work', 'told-beside']);

/**
 * What words name that is none of what the entry holds, each once.
 * @param seen what was named before
 * @param byPronoun what sentences of the work take up and put in by a word that stands for it
 */
function fromWords(
  said: readonly Said[],
  byPronoun: () => ReturnType<typeof putInByPronoun>,
  holding: () => Held,
  seen: Set<string>,
  context: ReckoningContext,
  isADanger: (name: string, words: string) => boolean,
): readonly BroughtIn[] {
  const allNames = once(() => said.flatMap(({ words }) => namesInWords(words)));
  const allWords = once(() => said.map(({ words }) => words).join('\n\n'));
  return said.flatMap((where) => {
    const names = namesInWords(where.words);
    const putIn = once(() => {
      const put = where.as === 'told-beside' ? putInOutright(where.words, names) : putInBy(names);
      const standingFor = tellsInWork.has(where.as) ? byPronoun().get(where.words) : undefined;
      return standingFor ? new Set([...put, ...names.filter(({ name }) => standingFor.has(name))]) : put;
    });
    return names.flatMap((one): BroughtIn[] => {
      const isBeside = where.as === 'told-beside' || where.as === 'write-up';
      // Of most names nothing could come, which is known at once.
      if (isBeside && !isADanger(one.name, where.words) && !isReactive(one.name)) return [];
      const held = holding();
      const isNone = (isBeside ? isListed : isHeld)(one, held) || isSaltBeside(one, where.words, allNames);
      const how = isNone ? undefined : howOf(one, where, held, putIn, isADanger);
      const key = `${how} ${plain(one.name)} ${where.sample}`;
      if (how === undefined || seen.has(key)) return [];
      seen.add(key);
      return [broughtInAs(how, one, where, allWords, context)];
    });
  });
}

/**
 * The step whose words put in what the entry lists, by its id in small letters: where the first that names it says that
 * it goes in there. What is only named is there from the first, and so is all where a step before speaks of all of it.
 */
export function stepsNaming(
  { steps = [] }: Pick<Entry, 'steps'>,
  items: readonly VesselItem[],
): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  const named = new Set<VesselItem>();
  let isAllThere = false;
  steps.forEach((step, at) => {
    const words = wordsOfStep(step);
    const names = namesInWords(words);
    for (const one of names) {
      const called = items.filter((item) => !named.has(item) && isNameOf(one, item));
      const isOfOne = called.length === 1 && !isAllThere;
      for (const item of called) {
        named.add(item);
        if (at > 0 && (one.goesIn || (isOfOne && goesInThere(one, names)))) found.set(plain(item.id), at);
      }
    }
    isAllThere ||= speaksOfAll(words);
  });
  return found;
}

/** Whether a name in words is that of an item, or that of what it is. */
export function isNameOf({ name, mayBe }: NameInWords, item: VesselItem): boolean {
  const dry = dryOf(item);
  if (dry !== undefined && mayBe.some((together) => together.includes(dry))) return true;
  const called = betweenBlanks(plain(name));
  return namesOf(item).some((other) => betweenBlanks(other).includes(called));
}

/** What of its reagents could not be read, as far as its words tell. */
const fromLeftOut = ({ leftOut = [] }: Entry, context: ReckoningContext): BroughtIn[] =>
  leftOut.flatMap(linesLeftOut).map(({ line, path }) => ({ item: itemFrom(line, path, context), how: 'left-out' }));

type Wash = Exclude<NonNullable<Entry['washes']>, string>[number];

/** A wash with something else than water; what several washes alike come to is not told. */
function washed({ with: text, volume, times }: Wash, path: Path, context: ReckoningContext): VesselItem | undefined {
  const facts = { reagent: text, ...(times === 1 && { amount: volume }) };
  const reagent = resolveUse(facts, cupboardOfContext(context));
  if (isWaterReagent(reagent)) return undefined;
  return { id: text, use: { ...facts, role: 'wash' }, path: [...path, 'with'], reagent };
}

const washItems = (washes: readonly Wash[], above: Path, context: ReckoningContext): readonly VesselItem[] =>
  washes.flatMap((wash, at) => washed(wash, [...above, at], context) ?? []);

/** What the product is washed with, in each sample. */
function fromWashes(entry: Entry, context: ReckoningContext): BroughtIn[] {
  // Samples without washes of their own have those of the entry.
  const common = once(() => (typeof entry.washes === 'object' ? washItems(entry.washes, ['washes'], context) : []));
  const inSample = ({ sample, washes }: Entry['samples'][number], index: number): BroughtIn[] => {
    if (typeof washes === 'string') return [];
    const items = washes ? washItems(washes, ['samples', index, 'washes'], context) : common();
    return items.map((item) => ({ item, how: 'wash', sample }));
  };
  return entry.samples.length > 0 ? entry.samples.flatMap(inSample) : common().map((item) => ({ item, how: 'wash' }));
}

const isWaterName = ({ mayBe: [together] }: NameInWords): boolean => together?.length === 1 && together[0] === water();

/** Sentences so near to one that names something reactive that what they put in may meet it; others as empty. */
function nearReactive(sentences: readonly string[]): readonly string[] {
  const reactive = sentences.map(isReactive);
  return sentences.map((one, at) =>
    reactive.slice(Math.max(0, at - meetsWithin), at + meetsWithin + 1).includes(true) ? one : '',
  );
}

/** Words beside the work that name something reactive, as sentences. */
const passagesBeside = onceFor((entry: WorkedByWords) => {
  const { leftOut = [], worksByWords, status, body } = entry;
  if (status === 'withdrawn') return [];
  const keys = leftOut.flatMap((one) =>
    wordsLeftOut(one).flatMap(({ words, of }) =>
      of === '' && isReactive(words) ? [{ sentences: sentencesOf(words), path: one.path }] : [],
    ),
  );
  const ofBody =
    worksByWords || !isReactive(body) || setApart(entry).length > 0
      ? []
      : [{ sentences: sentencesOfWork(body), path: [] as Path }];
  return [...keys, ...ofBody];
});

/** Whether all samples are of the same reagents, so that those meet in every pot. */
const isOnePot = ({ samples }: Entry): boolean =>
  samples.every(({ add = [], change = [], omit = [] }) => add.length + change.length + omit.length === 0);

/**
 * What words beside the work put together: the write-up, and what stands under keys that no entry has. Where they only
 * tell what the pot holds, that is judged already.
 */
function fromAside(entry: WorkedByWords, holding: () => Held, context: ReckoningContext): BroughtIn[] {
  const isKnown = (names: readonly NameInWords[]): boolean =>
    isOnePot(entry) && names.every((one) => isListed(one, holding()));
  return passagesBeside(entry)
    .map(({ sentences, path }) => ({ sentences: nearReactive(sentences), path }))
    .filter(({ sentences }) => !isKnown(sentences.flatMap(namesInWords)))
    .flatMap(({ sentences, path }) => putTogetherBy(sentences, isWaterName).map((names) => ({ names, path })))
    .filter(({ names }) => !isKnown(names))
    .flatMap(({ names, path }, group) =>
      names.map(
        (one): BroughtIn => ({ item: { ...itemFrom(one.text, path, context), id: one.name }, how: 'aside', group }),
      ),
    );
}

/**
 * What words beside the work put to what is left of it: the cleaner that is swilled round in the jug, what goes into a
 * sample by its note.
 */
function fromResidues(entry: WorkedByWords, holding: () => Held, context: ReckoningContext): BroughtIn[] {
  const isNew = (one: NameInWords): boolean => !isWaterName(one) && !isHeld(one, holding());
  const put = (sentence: string): readonly NameInWords[] => [...putInBy(namesInWords(sentence))].filter(isNew);
  const differing = (words: string): readonly NameInWords[] =>
    namesInWords(words).filter((one) => isNew(one) && isReactive(one.name) && isThere(one));
  const toSamples = wordsOfSamples(entry).flatMap(({ words, path, sample }) =>
    sentencesOf(words)
      .flatMap((one) => [...new Set([...put(one), ...(path.at(-1) === 'differs' ? differing(one) : [])])])
      .map((one) => ({ one, path, sample })),
  );
  const toRests = passagesBeside(entry).flatMap(({ sentences, path }) =>
    sentences
      .filter((one) => isReactive(one) && tellsResidue(one) && !tellsWashing(one))
      .flatMap(put)
      .filter(({ name }) => isReactive(name))
      .map((one) => ({ one, path, sample: undefined })),
  );
  return [...toSamples, ...toRests].map(({ one, path, sample }) => ({
    item: { ...itemFrom(one.text, path, context), id: one.name },
    how: 'aside',
    ...(sample !== undefined && { sample }),
  }));
}

/** All that meets in an entry beside the reagents that it lists. */
export interface AllBroughtIn {
  /** By its keys and the words of the work: what is in the pots is among them. */
  readonly atWork: readonly BroughtIn[];
  /** What words beside the work speak of; they are read when it is asked for. */
  readonly beside: () => readonly BroughtIn[];
}

/**
 * Sentences beside reagents that shut a vessel, and those shortly before: whatever of them gives a gas with anything is
 * then a danger.
 */
function shutIn(entry: Entry, said: readonly string[]): ReadonlySet<string> {
  const isShutIn =
    said.length > 0 && aroundTold(entry).some(({ items }) => items.some(({ id }) => id === 'closed vessel'));
  if (!isShutIn) return new Set();
  const closing = said.map((words) => says('shuts', words));
  return new Set(said.filter((_, at) => closing.slice(at, at + meetsWithin + 1).includes(true)));
}

/** What tells of words, and of a name, whether something in them is a danger with what is there. */
function dangersWith(there: readonly VesselItem[], entry: WorkedByWords) {
  const said = workBeside(entry);
  const partnersOfThere = partnersOf(there.map(({ reagent }) => ({ reagent })));
  // What several sentences put in meets there too.
  const joined = once(() => partnersOfThere(new Set(said.flatMap((words) => [...dangerGroupsIn(words)]))));
  const shut = once(() => shutIn(entry, said));
  const meetsThere = (groups: ReadonlySet<string>, words: string): boolean =>
    groups.size > 0 && ([...groups].some((group) => joined().has(group)) || shut().has(words));
  const isOf = (groups: ReadonlySet<string>): boolean => partnersOfThere(groupsOfMereNames(groups)).size > 0;
  return {
    inWords: (words: string) => isOf(dangerGroupsIn(words)),
    ofName: (name: string) => isOf(dangerGroupsOf(name)),
    inWordsOfWork: (words: string) =>
      meetsThere(dangerGroupsIn(words), words) ||
      (mayDust(words) && isBadAsDust(dangerGroupsIn(words)) && workedIn(words).length > 0),
    ofNameInWork: (name: string, words: string) => meetsThere(dangerGroupsOf(name), words) || fliesAbout(name, words),
  };
}

/** Sentences of the work in their order, where a write-up tells it. */
const sentencesThatFollow = (entry: WorkedByWords): readonly string[] =>
  entry.worksByWords ? (entry.steps ?? []).map(String) : workBeside(entry);

/** All that meets in an entry beside the reagents that it lists. @param used what it lists, of all samples */
export function broughtIn(entry: WorkedByWords, used: readonly VesselItem[], context: ReckoningContext): AllBroughtIn {
  const plainly = [...fromLeftOut(entry, context), ...fromSteps(entry, used, context), ...fromWashes(entry, context)];
  const holding = once(() => heldIn(entry, [...used, ...plainly.map(({ item }) => item)]));
  const dangers = dangersWith([...used, ...plainly.map(({ item }) => item)], entry);
  const seen = new Set<string>();
  const byPronoun = once(() => putInByPronoun(sentencesThatFollow(entry)));
  const inWords = [
    ...fromWords(saidAtWork(entry), byPronoun, holding, seen, context, dangers.ofName),
    ...fromWords(
      saidBesideReagents(entry, dangers.inWordsOfWork),
      byPronoun,
      holding,
      seen,
      context,
      dangers.ofNameInWork,
    ),
  ];
  const inWriteUp = inWords.filter(({ item, how }) => how === 'words' && item.path.length === 0);
  const items = [...used, ...[...plainly, ...inWriteUp].map(({ item }) => item)];
  const holdingAll = inWriteUp.length === 0 ? holding : once(() => heldIn(entry, items));
  return {
    atWork: [...plainly, ...inWords, ...fromAside(entry, holding, context), ...fromResidues(entry, holding, context)],
    beside: once(() =>
      fromWords(saidBeside(entry, dangers.inWords), byPronoun, holdingAll, seen, context, dangers.ofName),
    ),
  };
}

/** `‘soda 8 g’ was not read as a reagent …` */
export const leftOutWords = ({ item, how }: BroughtIn): readonly string[] =>
  how === 'left-out' ? [`‘${item.id}’ was not read as a reagent; it was judged by its words, among the rest.`] : [];

/** `Step 3 takes battery acid, which no reagent holds: …`; undefined for what an entry says plainly itself. */
export function broughtInWords({ item, how }: BroughtIn): string | undefined {
  if (how !== 'with' && how !== 'words') return undefined;
  const inWork = item.step === undefined ? 'A step' : `Step ${item.step + 1}`;
  const does = `${item.path.length === 0 ? 'The write-up' : inWork} ${how === 'with' ? 'takes' : 'names'}`;
  return `${does} ${item.reagent.name}, which no reagent holds: it was judged in any amount.`;
}

/** Where something is only spoken of: `step 3`, the key of its words, the write-up. */
export function spokenOfIn({ item: { step, path } }: BroughtIn): string {
  if (step !== undefined && path.length > 0) return `step ${step + 1}`;
  const key = path[0] === 'samples' ? path.findLast((one) => typeof one === 'string') : path[0];
  return key === undefined ? 'the write-up' : `\`${key}\``;
}

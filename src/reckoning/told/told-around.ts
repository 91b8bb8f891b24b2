// What the words of steps and of the waste tell of what is around a pot, as the words of a line of reagents do: that it
// is closed, that its rest goes mouldy, that something red-hot is tipped into water, that the water came last, that a
// current flows through it, that a vacuum cleaner sucks it through, that it goes into a microwave oven.
import { dissolves } from '../../chemistry/ions/index.js';
import { once, onceFor } from '../../once.js';
import { forEntry } from './for-entry.js';
import type { Entry } from '../../journal/entry.js';
import type { Path } from '../../journal/place.js';
import {
  contentsOf,
  dryComposition,
  judgedCelsius,
  namesInWords,
  resolveNamed,
  unreadReagent,
  type Circumstance,
  type NameInWords,
} from '../../reagents/index.js';
import { memoise } from '../../memoise.js';
import { toldAroundTable } from '../../tables/compiled/reckoning/told/told-around.js';
import { isAmongFood, isFoodMadeThere } from './among-food.js';
import { says, wordsThatTell } from './around-words.js';
import { isElectrolysed } from './current-in-words.js';
import { clausesOf, heatsIn, meltingIn } from './heat-in-words.js';
import { isWaterReagent } from '../ingredients.js';
import { ragsLieSafely } from './oily-rags.js';
import { toldByItself } from './told-by-itself.js';
import { wordsOfSamples } from './told-stuff.js';
import { asToldAround, sentencesOf, workBeside } from './told-work.js';
import type { VesselItem } from '../vessels.js';
import { deniesIt, poursWaterIn, stepOfWaterOntoAcid } from './water-onto-acid.js';
import { patternOfWords } from './words-as-pattern.js';

/** What is around the pot at a step, or around the waste. */
export interface Around {
  /** What stands for it among the things in the pot. */
  readonly items: readonly VesselItem[];
  /** The step, the first is 0; absent for the waste. */
  readonly step?: number;
  /** The sample that it is for, where not for all. */
  readonly sample?: string;
  /** °C from there on. */
  readonly celsius?: number;
  /** What washing carries off is there no more: of a cake that was parted from its liquor. */
  readonly isCake: boolean;
  /** The step that parted it; what goes in at a later one is there. */
  readonly partedAt?: number;
  /** What is made meets it too: it is what stands in the larder. */
  readonly withProduct?: true;
  /** It is a danger by itself: nothing in the pot has a part in it. */
  readonly byItself?: true;
}

/** Something that may close a vessel, grow mouldy, be quenched or take water: asked before the words are read. */
const mayTell =
  /°|clos|\blut|hermet|bolt|weld|smear|schmiert|seal|bail|wire|weight on|bügel|drauf|darauf|drüber|darüber|dessus|sopra|encima|couvercle|chius|chiud|tapa|tapp|shut|tight|\blid|\bcap|cork|stopp|\bbung|screw|\bclip|clamp|autocl|preserving|kilner|mason|mou?ld|mildew|schimm|moisi|\bmoh|hot\b|glow|molten|melt|fus(?:ed|ion)|incandes|frit|quench|heiß|glüh|schmelz|\bon ?to\b|\bover\b|\btop|to (?:it|the)\b|eimer|kübel|abgeschreckt|\bseau|\bcubo|\bagua|verschl|verkork|zuge|deckel|luftd|ferm[ée]|bouch|cerr|schraub|tapad|tapón/i;

const takesBack =
  /(?<![a-zß-ɏ])(?:not|never|without|don['’]?t|nicht|nie|niemals|ohne|jamais|sans|nunca|sin|loosely|half|no (?:lid|cap|cork|stopper|bung))(?![a-zß-ɏ])[^,.;:]{0,30}(?<![a-zß-ɏ])(?:clos|seal|lut|air-?tight|shut|tight|lid|cap|cork|stopp|bung|screw|clamp|clip|bail|wire|verschl|verkork|zuge|bügel|deckel|ferm|bouch|couvercle|cerr|tapa|chiu|tapp|coperchio)|(?<![a-zß-ɏ])no (?:lid|cap|cork|stopper|bung)(?![a-zß-ɏ])/iu;

interface Said {
  readonly circumstances: ReadonlySet<Circumstance>;
  readonly celsius: number;
}

/** The words of a clause, as they are read where they stand among reagents. */
const readClause: (clause: string) => Said = memoise(
  (clause) => clause,
  (clause) => {
    const { circumstances, celsius = -Infinity, contents } = contentsOf(unreadReagent(clause));
    const hottest = contents.map(({ reagent }) => reagent.celsius ?? -Infinity);
    return { circumstances, celsius: Math.max(celsius, ...hottest, ...heatsIn(clause).map((one) => one.celsius)) };
  },
  2000,
);

/** `lemonade bottle`, `kilner jar`: a bottle, and no lemonade. */
const asBottle = (clause: string): string => wordsThatTell('bottle').replacedIn(clause, 'bottle');

/** Whether a clause shuts something tight: a crucible, whose lid lies loose, only where that is luted or wired down. */
function shutsTight(clause: string, before: string): boolean {
  if (says('loose-lid', clause)) return says('luted', clause);
  if (says('vessel', clause)) return says('shuts', clause) || readClause(asBottle(clause)).circumstances.has('closed');
  return says('shuts', clause) && says('vessel', before) && !says('loose', before) && !says('loose-lid', before);
}

/**
 * Whether a clause closes a vessel, and no window or tap. It is read last.
 * @param before words that may name the vessel, where what shuts it says so
 */
const closes = (clause: string, before = ''): boolean =>
  mayTell.test(clause) &&
  !says('loose', clause) &&
  // What is shut is the bucket of the rags.
  !ragsLieSafely(clause) &&
  (!says('liquor', clause) || says('gassing', clause)) &&
  !takesBack.test(clause) &&
  shutsTight(clause, before);

/** What words of steps tell: as a line of reagents does, and that something wet goes into what is hot. */
type Told = Circumstance | 'wet-in' | 'watered' | 'hot-water' | ReturnType<typeof toldByItself>[number];

const row = (circumstance: Told) => toldAroundTable().find((one) => one.circumstance === circumstance)!;

/** What stands for something around a pot, among the things in it. */
export const itemsFor = (circumstance: Told, path: Path, step?: number): readonly VesselItem[] =>
  row(circumstance).stands_as.map((id) => ({
    id,
    use: { reagent: id },
    path,
    reagent: resolveNamed(id),
    ...(step !== undefined && { step }),
  }));

const others: readonly Circumstance[] = ['mouldy', 'plunged', 'water-last'];

/** What else a clause tells is around: mould, a quenching, water onto acid. */
function othersIn(clause: string, place: Pick<Around, 'step' | 'sample'>, path: Path): readonly Around[] {
  if (!mayTell.test(clause)) return [];
  const { circumstances, celsius } = readClause(clause);
  return others.flatMap((one): Around[] => {
    if (!circumstances.has(one) || (one === 'water-last' && deniesIt.test(clause))) return [];
    const items = itemsFor(one, path, place.step);
    const { hot_from: from } = row(one);
    if (from === undefined) return [{ items, isCake: false, ...place }];
    return celsius >= from && circumstances.has('damp') ? [{ items, isCake: false, celsius, ...place }] : [];
  });
}

/** What has words of its own by which it is told, each with their pattern and what before them takes it back. */
const toldByWord = once(() =>
  toldAroundTable().flatMap(({ circumstance, told_by: words, unless }) => {
    if (words.length === 0) return [];
    return [{ circumstance, told: patternOfWords(words), takenBack: patternOfWords(unless) }];
  }),
);

/** What a clause tells of a vacuum cleaner or a microwave oven. */
const deviceIn = (clause: string, place: Pick<Around, 'step' | 'sample'>, path: Path): readonly Around[] =>
  toldByWord().flatMap(({ circumstance, told, takenBack }): Around[] => {
    if (
      !told.test(clause) ||
      takenBack.test(clause) ||
      !readClause(clause).circumstances.has(circumstance as Circumstance)
    )
      return [];
    const around = { items: itemsFor(circumstance, path, place.step), isCake: false, ...place };
    return [circumstance === 'swallowed' ? ofProduct(around) : around];
  });

interface Step {
  readonly do: string;
  readonly heat?: string | undefined;
  readonly sample?: string | undefined;
}

const stepsOf = ({ steps = [] }: Pick<Entry, 'steps'>): readonly Step[] =>
  steps.map((one) => (typeof one === 'string' ? { do: one } : one));

/** °C that clauses and the key of a step tell. */
const heatOf = (clauses: readonly string[], { heat }: Step): number =>
  Math.max(
    heat === undefined ? -Infinity : judgedCelsius(heat),
    ...clauses.flatMap(heatsIn).map(({ celsius }) => celsius),
  );

/** Hotter than this, what is closed at one step is heated closed at the next, unless it was opened. */
const heatedClosed = 100;

/** Whether what was closed before is open at a step: nothing dries in a shut jar. */
const isOpened = (words: string): boolean => says('opens', words) || (says('dries', words) && !says('stays', words));

function hottestClosed(steps: readonly Step[], at: number, from: number, clauses: readonly string[]): number {
  const here = heatOf(clauses.slice(from), steps[at]!);
  const next = steps[at + 1];
  if (!next || isOpened(next.do)) return here;
  const further = heatOf(clausesOf(next.do), next);
  return further >= heatedClosed ? Math.max(here, further) : here;
}

/** Water that something hot may go into: asked before anything else. */
const mayPlunge = /water|wasser|(?<![a-zß-ɏ])eau(?![a-zß-ɏ])|agua|acqua|quench|abschreck/iu;
/** What is cool is the water. */
const coolWater = /(?<![a-zß-ɏ])(?:cool|cold|kalt[a-zß-ɏ]*)\s+(?:(?:tap|rain)\s+)?(?=water|wasser)/giu;
/** Hotter than this, water that meets it flies about as steam. */
const flashes = once(() => row('plunged').hot_from ?? Infinity);

/** °C that the key of a step or a clause tells. */
const heatOfWords = (clause: string): number =>
  Math.max(...[...heatsIn(clause), ...meltingIn(clause)].map(({ celsius }) => celsius));

/** Clauses of the steps up to one of them, the last first; a key of heat stands before its step's. */
const clausesBefore = (steps: readonly Step[], at: number, from: number): readonly string[] =>
  steps
    .slice(0, at + 1)
    .flatMap((step, place) => {
      const clauses = clausesOf(step.do).slice(0, place === at ? from : undefined);
      return step.heat === undefined ? clauses : [`${judgedCelsius(step.heat)} °C`, ...clauses];
    })
    .reverse();

/** `without letting it get cold`: it is not. */
const notCooled =
  /(?<![a-zß-ɏ])(?:not|without|never|before|hardly|isn['’]t|wasn['’]t|ohne|nicht|sans|sin)(?![a-zß-ɏ])(?:(?!until|till|bis|jusqu)[^,;]){0,30}?(?<![a-zß-ɏ])(?:cool|cold|kalt|erkalt|abgekühl|refroid|froid|enfr|frí)[a-zß-ɏ]*/giu;
/** `in the cold shed`, `with cold tongs`: a place or a tool. */
const coldElsewhere =
  /(?<![a-zß-ɏ])cold (?:bath|bowl|bucket|basin|tap|stream|sink|well|shed|room|yard|garage|workshop|cellar|kitchen|air|wind|weather|day|night|morning|evening|tongs|hands?|spoon|shovel)(?![a-zß-ɏ])/giu;
/** `the cold crucibles`, `the dish, cold by now`: a thing that is cold. */
const coldThing = /(?<![a-zß-ɏ])cold(?![a-zß-ɏ])/iu;
const stillHot = /(?<![a-zß-ɏ])(?:glow|red[- ]hot|white[- ]hot|still hot|incandescent|glüh)/iu;

const isCooled = (words: string): boolean => {
  if (stillHot.test(words)) return false;
  const besidesWater = words.replace(coolWater, '').replace(notCooled, '').replace(coldElsewhere, '');
  return says('cools', besidesWater) || says('cold', besidesWater) || coldThing.test(besidesWater);
};

/** That into which something is tipped, and what it is of. */
const intoWater =
  /(?<![a-zß-ɏ])(?:in|into|to|onto|under|over|with|dans|en)(?![a-zß-ɏ])[^,;]*(?:water|wasser|eau|agua|acqua)/iu;

/** What stands before the water, and at least what stands before the deed: what is cold there is what is tipped. */
const upToWater = (clause: string): string => {
  const [deed, water] = [wordsThatTell('tips').placeIn(clause), intoWater.exec(clause)];
  return clause.slice(0, Math.max(deed?.from ?? 0, water?.index ?? 0));
};

/** °C of what a clause tips out, as the words before tell it: none where it was left to cool, or was handled since. */
function arrivingHeat(entry: Entry, steps: readonly Step[], at: number, from: number): number {
  const clause = clausesOf(steps[at]!.do)[from]!;
  if (isCooled(upToWater(clause))) return -Infinity;
  const here = heatOfWords(clause);
  if (here >= warm) return here;
  for (const words of clausesBefore(steps, at, from)) {
    if (isCooled(words) || says('parts', words) || says('grinds', words)) return -Infinity;
    const celsius = heatOfWords(words);
    if (celsius >= warm) return celsius;
  }
  // `Out with the tongs, still orange, and into cold water.`
  const whole = heatOfWords(steps[at]!.do.replaceAll(',', ''));
  if (whole >= flashes()) return whole;
  return says('melt', clause) ? Math.max(...heatsOfKeys(entry)) : -Infinity;
}

const heatsOfKeys = ({ heating, samples }: Entry): readonly number[] =>
  [...heating, ...samples.flatMap((one) => one.heating ?? [])].map(({ to }) => judgedCelsius(to));

/** What comes hot from a step before, or from the words before, and is tipped into water. */
function plungedAt(entry: Entry, steps: readonly Step[], at: number): readonly Around[] {
  const step = steps[at]!;
  if (!mayPlunge.test(step.do) || !says('tips', step.do)) return [];
  return clausesOf(step.do).flatMap((clause, from): readonly Around[] => {
    if (!mayPlunge.test(clause) || !says('water', clause) || !says('tips', clause)) return [];
    const celsius = arrivingHeat(entry, steps, at, from);
    if (celsius < flashes()) return [];
    const place = { step: at, ...(step.sample !== undefined && { sample: step.sample }) };
    return [{ items: itemsFor('plunged', ['steps', at], at), isCake: false, celsius, ...place }];
  });
}

/** What is dried, or put by in an oven, goes into nothing hot. */
const isDriedThere = (words: string): boolean =>
  says('dry', words) && !/un-?dried|(?:not|half|before it was)(?: quite| yet)? dr/i.test(words);

/** Something wet, from the filter, that goes into oil, wax or a melt that is hotter than water boils. */
function wetIntoHot(steps: readonly Step[], at: number): readonly Around[] {
  const step = steps[at]!;
  if (!says('wet', step.do) || !says('goes-in', step.do)) return [];
  const from = row('wet-in').hot_from ?? Infinity;
  return clausesOf(step.do).flatMap((clause, place): readonly Around[] => {
    if (!says('wet', clause) || !says('goes-in', clause) || isDriedThere(clause)) return [];
    const celsius = heatOfFat(steps, at, place);
    if (celsius < from) return [];
    const sample = step.sample === undefined ? {} : { sample: step.sample };
    return [{ items: itemsFor('wet-in', ['steps', at], at), isCake: false, celsius, step: at, ...sample }];
  });
}

/** °C that oil, wax or a melt has by then: told in the clause itself, or before of it by name, and not cooled since. */
function heatOfFat(steps: readonly Step[], at: number, place: number): number {
  const clauses = clausesBefore(steps, at, place + 1);
  const [here = ''] = clauses;
  const told = heatOfWords(here);
  if (Number.isFinite(told)) return told;
  for (const words of clauses) {
    if (words !== here && isCooled(words)) return -Infinity;
    const celsius = heatOfWords(words);
    if (says('fat', words) && celsius >= warm) return celsius;
  }
  return -Infinity;
}

/** Whether what is put away was dried before: at an earlier step, or by a key. */
const isDriedBy = (steps: readonly Step[], at: number): boolean =>
  steps.slice(0, at).some((step) => says('dry', step.do) && !says('wet', step.do));

const isPartedBy = (steps: readonly Step[], at: number, before: string): boolean =>
  [...steps.slice(0, at).map((step) => step.do), before].some((words) => says('parts', words));

const closing =
  /clos|seal|shut|tight|lid|cap|cork|stopp|bung|screw|clamp|clip|bail|verschl|verkork|zuge|schraub|deckel|ferm|bouch|couvercle|cerr|tapa|chiu|tapp|coperchio/i;

/** The words of a step before those that close. */
const upToClosing = (clauses: readonly string[], from: number): string =>
  [...clauses.slice(0, from), clauses[from]!.slice(0, closing.exec(clauses[from]!)?.index)].join(' ');

/** Whether all but a cake was poured off by then, and at which step: what went in later is still there. */
function cakeOf(
  isWorking: boolean,
  steps: readonly Step[],
  at: number,
  before: string,
): Pick<Around, 'isCake' | 'partedAt'> {
  if (isWorking || !isPartedBy(steps, at, before)) return { isCake: false };
  const partedAt = says('parts', before) ? at : steps.slice(0, at).findLastIndex((step) => says('parts', step.do));
  return { isCake: true, partedAt };
}

/** A vessel that a step closes over something that is not dry, or that is heated closed. */
function closedAt(entry: Entry, steps: readonly Step[], at: number): Around | undefined {
  const step = steps[at]!;
  const clauses = clausesOf(step.do);
  const last = steps[at - 1]?.do ?? '';
  const from = clauses.findIndex((clause, place) => closes(clause, `${last} ${clauses.slice(0, place).join(' ')}`));
  if (from < 0) return undefined;
  const celsius = hottestClosed(steps, at, from, clauses);
  const isWorking = says('gassing', step.do);
  const isWet = says('wet', step.do) || isWorking;
  const isDry = !isWet && (says('dry', step.do) || isDriedBy(steps, at) || isDriedByKeys(entry));
  if (isDry && celsius < heatedClosed) return undefined;
  return {
    items: itemsFor('closed', ['steps', at], at),
    step: at,
    // What the same words part only afterwards is still all together when it is closed.
    ...cakeOf(isWorking, steps, at, upToClosing(clauses, from)),
    ...(step.sample !== undefined && { sample: step.sample }),
    ...(Number.isFinite(celsius) && { celsius }),
  };
}

/** °C from which a heating of what was made dries it. */
const dries = 40;
export const isDriedByKeys = ({ heating, samples }: Entry): boolean =>
  [...heating, ...samples.flatMap((one) => one.heating ?? [])].some(
    ({ of, to }) => /^(?:product|pigment|precipitate|cake)$/i.test(of) && judgedCelsius(to) >= dries,
  ) || samples.some(({ dried }) => dried !== undefined);

const ofProduct = (around: Around): Around => ({ ...around, withProduct: true });

/** What the words of a step say outright: among food, by a device of the house, water last, a danger by itself. */
function outrightAt(steps: readonly Step[], at: number, waterLast: number | undefined, listed = ''): readonly Around[] {
  const step = steps[at]!;
  const place = { step: at, ...(step.sample !== undefined && { sample: step.sample }) };
  const around = (one: Told): Around => ({ items: itemsFor(one, ['steps', at], at), isCake: false, ...place });
  const devices = toldByWord().some(({ told }) => told.test(step.do))
    ? clausesOf(step.do).flatMap((clause) => deviceIn(clause, place, ['steps', at]))
    : [];
  return [
    ...(waterLast === at ? [around('water-last')] : []),
    ...(isAmongFood(step.do) ? [ofProduct(around('swallowed'))] : []),
    ...(isFoodMadeThere(step.do) ? [ofProduct(around('food-made'))] : []),
    ...devices,
    ...toldByItself(step.do, `${listed} ${steps[at - 1]?.do ?? ''}`).map(
      (one): Around => ({ ...around(one), byItself: true }),
    ),
  ];
}

/** All that the words of steps tell of what is around the pot. */
export const aroundSteps = forEntry((entry: Entry): readonly Around[] => {
  const steps = stepsOf(entry);
  const waterLast = stepOfWaterOntoAcid(steps.map((step) => step.do));
  return steps.flatMap((step, at): readonly Around[] => {
    const place = { step: at, ...(step.sample !== undefined && { sample: step.sample }) };
    const current = isElectrolysed(step.do)
      ? [{ items: itemsFor('current', ['steps', at], at), isCake: false, ...place }]
      : [];
    const hot = [...plungedAt(entry, steps, at), ...wetIntoHot(steps, at)];
    const plunged = [...hot, ...current, ...outrightAt(steps, at, waterLast)];
    if (!mayTell.test(step.do)) return plunged;
    const closed = closedAt(entry, steps, at);
    const told = clausesOf(step.do).flatMap((clause) => othersIn(clause, place, ['steps', at]));
    return [...(closed ? [closed] : []), ...told, ...plunged];
  });
});

/**
 * Whether a sentence of a write-up shuts a vessel: it says so outright, since one tells of lids in passing too (`a
 * bloom on the lid`), and of no crucible shortly before, whose lid holds no pressure.
 */
const shutsOutright = (sentences: readonly Step[], at: number): boolean =>
  says('shuts', sentences[at]!.do) &&
  !sentences.slice(Math.max(0, at - 2), at + 1).some(({ do: words }) => says('loose-lid', words));

/** What the notes of samples tell outright of what is around them, after all steps. */
const aroundNotes = forEntry((entry: Entry): readonly Around[] => {
  const before = stepsOf(entry);
  return wordsOfSamples(entry).flatMap(({ words, sample }) => {
    const steps = [...before, ...sentencesOf(words).map((one): Step => ({ do: one, sample }))];
    return steps.slice(before.length).flatMap((_, after): readonly Around[] => {
      const at = before.length + after;
      const closed = shutsOutright(steps, at) ? closedAt(entry, steps, at) : undefined;
      return [...(closed ? [closed] : []), ...outrightAt(steps, at, undefined)];
    });
  });
});

/** What stands above the write-up, as words: rags may have its oil on them, water may go onto its acid. */
const namesListed = ({ reagents }: Entry): string =>
  reagents.map(({ reagent }) => (typeof reagent === 'string' ? reagent : (reagent?.name ?? ''))).join(', ');

/**
 * All that steps tell of what is around the pot, and notes of samples; where there are no steps, what a write-up beside
 * reagents says outright: most of its sentences tell something else, and are not read as steps.
 */
export const aroundTold = forEntry((entry: Entry): readonly Around[] => {
  const told = asToldAround(entry);
  if (told === entry) return [...aroundSteps(entry), ...aroundNotes(entry)];
  const sentences = stepsOf(told);
  const listed = namesListed(entry);
  const waterLast = stepOfWaterOntoAcid(
    sentences.map((one) => one.do),
    listed,
  );
  const inWriteUp = sentences.flatMap((_, at): readonly Around[] => {
    const closed = shutsOutright(sentences, at) ? closedAt(told, sentences, at) : undefined;
    const hot = plungedAt(told, sentences, at);
    return [...(closed ? [closed] : []), ...hot, ...outrightAt(sentences, at, waterLast, listed)];
  });
  return [...inWriteUp, ...aroundNotes(entry)];
});

const mayTellWater = /water|wasser|(?<![a-zß-ɏ])eau(?![a-zß-ɏ])|agua|acqua|damp|moist|\bwet|feucht|\bnass|humid/i;
const ofWater = once(() => dryComposition('H2O'));
function putsWaterIn(words: string): boolean {
  if (!mayTellWater.test(words)) return false;
  const wet = wordsThatTell('waterless').replacedIn(words, ' ');
  const isWater = ({ mayBe, onlySpokenOf }: NameInWords) => !onlySpokenOf && mayBe.some(([one]) => one === ofWater());
  if (!mayTellWater.test(wet)) return false;
  return says('wet', wet) || namesInWords(wet).some(isWater) || readClause(wet).circumstances.has('damp');
}

/** The last step whose words bring water, or leave something wet: no reagent need say so. */
export const wateredAt = onceFor((entry: Pick<Entry, 'steps'>): Around | undefined => {
  const steps = stepsOf(entry);
  const at = steps.findLastIndex((step) => putsWaterIn(step.do));
  return at < 0 ? undefined : { items: itemsFor('watered', ['steps', at], at), step: at, isCake: false };
});

/** Sentences of a write-up beside reagents that pour water in. */
export const wateringBeside = forEntry((entry: Entry): readonly string[] => workBeside(entry).filter(poursWaterIn));

/** Water that a write-up beside reagents pours in. */
export const wateredBeside = (entry: Entry): Around | undefined =>
  wateringBeside(entry).length === 0 ? undefined : { items: itemsFor('watered', []), isCake: false };

/**
 * The step from which on what goes in meets all the rest cold: all heat was before, and it was left to cool, or only a
 * vessel is cleaned. Undefined where nothing tells so.
 */
export const coldFrom = onceFor((entry: Entry): number | undefined => {
  const steps = stepsOf(entry);
  const heats = steps.map((step) => heatOf(clausesOf(step.do), step));
  const lastHeated = heats.findLastIndex((celsius) => celsius >= warm);
  // A heat of which only a key tells may come after all steps.
  const ofKeys = [...entry.heating, ...entry.samples.flatMap((one) => one.heating ?? [])];
  if (lastHeated < 0 || ofKeys.some(({ to }) => judgedCelsius(to) > Math.max(...heats))) return undefined;
  const at = steps.findIndex((step, place) => place > lastHeated && says('cold', step.do));
  return at < 0 ? undefined : at;
});
/** °C from which a step counts as heated. */
const warm = 40;

/** What is around the waste, by its words. */
export const aroundWaste = forEntry(({ waste = '' }: Pick<Entry, 'waste'>): readonly Around[] => {
  if (!mayTell.test(waste) || (says('dry', waste) && !says('wet', waste))) return [];
  const told: Circumstance[] = clausesOf(waste).some((clause) => closes(clause)) ? ['closed'] : [];
  return told.map((one) => ({ items: itemsFor(one, ['waste']), isCake: false }));
});

/** Whether it is still there when a cake was parted from its liquor: what does not dissolve, and water. */
export function staysInCake({ reagent }: VesselItem): boolean {
  const { substance } = reagent;
  if (!substance || isWaterReagent(reagent)) return true;
  return !(
    substance.constituents.kind === 'acid' ||
    (reagent.strength.basis !== 'undiluted' && reagent.strength.basis !== 'not-given') ||
    dissolves(substance.formula)
  );
}

// What stands in a phrase: the things that can meet, what each may be, and in what state all of it is.
import type { Quantity } from '../../chemistry/index.js';
import { once } from '../../once.js';
import { inSmallLetters } from '../../small-letters.js';
import { circumstances, type Circumstance } from './circumstances.js';
import { namesNoStuff } from './deeds.js';
import { itemsOf, type Item } from './items.js';
import { phraseWordOf, type Meaning, type PhraseWordKind } from './lexicon.js';
import { wordsThatSay } from './sentence-words.js';
import { toldByStems } from './stems.js';
import { tokensOf } from './tokens.js';

export interface NamedThing {
  readonly meaning: Meaning;
  /** As it was written. */
  readonly text: string;
  /** It stands in brackets, or behind `containing`: it says what is in the thing named before it. */
  readonly isContent: boolean;
  readonly respelt: boolean;
}

/** One thing of a phrase: all its names are names of it or of what is in it. */
export interface PhrasePart {
  readonly names: readonly NamedThing[];
  readonly quantities: readonly Quantity[];
  readonly states: readonly string[];
  readonly celsius?: number;
  /** It is said to be melted: how hot that is depends on what it is. */
  readonly melted: boolean;
  /** Words say that it is hot, or boils: how hot that is depends on what it is. */
  readonly hot?: 'hot' | 'boiling';
}

export interface Phrase {
  readonly parts: readonly PhrasePart[];
  readonly circumstances: ReadonlySet<Circumstance>;
  /** Words that nothing here knows. */
  readonly unaccounted: readonly string[];
  /** Words in brackets that nothing here knows, beside what tells the thing: they are left out. */
  readonly leftOut: readonly string[];
  /** It names no stuff: `sieved`, `in a bottle with the lid on`. */
  readonly namesNothing: boolean;
  /** Heated, and nothing says how hot. */
  readonly heatUnstated: boolean;
  /** °C that words without a name tell: `over a flame`. */
  readonly celsius?: number;
  /** Nothing but a hob heats it. */
  readonly onHob: boolean;
  /** Words that name no stuff say that it is melted. */
  readonly melted: boolean;
}

interface OpenPart {
  names: NamedThing[];
  quantities: Quantity[];
  states: string[];
  celsius?: number;
  /** °C of a hob, or of a deed, which a temperature that is told decides better. */
  hob?: number;
  deed?: number;
  unknown: UnknownWord[];
  melted: boolean;
}

interface UnknownWord {
  readonly text: string;
  readonly inBrackets: boolean;
  /** A name that was misspelt: what it was taken for is a guess. */
  readonly guessed: boolean;
}

const emptyPart = (): OpenPart => ({ names: [], quantities: [], states: [], unknown: [], melted: false });

/** Words before a place or a source. */
const articles = /^(?:the|a|an|my|our|your|his|her|their|this|that|old)$/;
const placing = /^(?:from|off|in|on|at|by|near|under|behind|beside|over|inside|of)$/;

/** Words behind which stands what is in the thing. */
const bringsContent = /^(?:from|containing|contains|made from|made of|of which|holding|based on|has|have|off)$/i;
/** Behind `for`: what the purpose names is there, and meets the rest: `lime for a spill of vitriol`. */
const isThere =
  /^(?:to |for )?(?:kill|neutrali[sz]e|neutrali[sz]ing|killing|mop up|soak up|quench|dilute|thin|dissolve|dissolving|absorb)\b|\b(?:spill|puddle|pot|bucket|bottle|jar|tub|drum|tank|bath|vat|barrel|beaker|flask|jug|pail|basin|pan|cask|carboy) of$/i;

/** Behind what the purpose names these say the same: `soda for the acid spill`. */
const isLying = /^(?:spill|spillage|puddle|bath|tank|vat)$/i;

/** Before `with`: what follows is put to the thing, and is not in it from the first: `straight in with the drier`. */
const putTogether = /^(?:in|together|along|mixed|stirred|poured|thrown|tipped|up|straight in|in the same \w+)$/i;

/** Words of heat that say how hot it is wherever they stand; of others only behind the name (`calcined`). */
const alwaysHot =
  /^(?:red|white|yellow|dull|cherry|orange)[- ]?(?:hot|heat)$|^(?:hot|warm|lukewarm|tepid|boiling|molten|melted|steaming|glowing|burning|alight|lit|aflame|ignited|on fire|smoking hot|very hot|fire|flames|welding|brazing|soldering|melting|smelting|roasting|calcining|firing|torching|annealing|(?:arc|mig|tig|stick|gas|oxy) welding)$/i;

/** Heated, and not how hot. */
const heatWords =
  /^(?:heated|heating|heat|calcined|roasted|burnt|burned|distilled|sublimed|boiled dry|evaporated to dryness)$/i;
const meltWords = /^(?:melt|melted|melting|molten|in fusion|fused)$/i;

/** Hot, and not how hot: what does not boil with water is then far hotter than water. */
const hotWords = /^(?:hot|heated|frying|deep fried|very hot|in a frying pan|on the stove|on the hob)$/i;
const boilingWords =
  /^(?:boiling|being boiled|being cooked|being heated|boiling hot|smoking|smoking hot|bubbling|sizzling|overheated|superheated|burning|on fire|alight)$/i;

/** Words of these kinds tell it even where they are part of a name: `straw bales`, `wet cement`. */
const tellsWithin: ReadonlySet<PhraseWordKind> = new Set([
  'old',
  'damp',
  'heap',
  'airborne',
  'oily',
  'pressurised',
  'finely',
  'liquid',
]);

/** A metal that is sold so fine: its name says that it is, and not that it, or what stands beside it, flies. */
const soldAsDust = /^(?:zinc|alumini?um|magnesium|iron|bronze|brass|copper|tin|silver) dust$/i;

/** Before a name these tell what was done to it: `burnt umber`. */
const onceBurnt = /^(?:burnt|burned|torched|brazed|welded|soldered)$/i;

/** Names that tell what something looks like, and words before them by which that was named before. */
const byLooks = once((): ReadonlySet<string> => new Set(wordsThatSay('by-looks')));
const calledBack = /^(?:the|this|that|its|my|resulting)$/;

/** Words of state that a `not` before them takes back: `not on charge`, `not in the sun`. */
const reachOfNot = 2;

/** Reads the items of a phrase one by one. */
class Reader {
  readonly parts: OpenPart[] = [emptyPart()];
  readonly purposes: OpenPart[] = [];
  readonly found = new Set<PhraseWordKind | Circumstance>();
  private joined = false;
  /** Joined by a word that says that both are there: `chlorate and acid`, and not `chlorate or acid`. */
  private joinedByAnd = false;
  private asContent = false;
  private negated = false;
  private statesNegated = 0;
  private purpose = false;
  /** What the purpose names, and the words of state before it. */
  private purposed?: OpenPart;
  private readonly purposeWords: string[] = [];
  private behindName: boolean;
  heatUnstated = false;

  /** @param nameless nothing in the phrase is a name: every word counts */
  constructor(nameless: boolean) {
    this.behindName = nameless;
  }

  private get part(): OpenPart {
    return this.parts.at(-1)!;
  }

  read(item: Item): void {
    switch (item.kind) {
      case 'comma':
      case 'open':
      case 'close':
        this.cut(item.kind, item.depth);
        break;
      case 'name':
        this.name(item);
        break;
      case 'state':
        this.state(item);
        break;
      case 'quantity':
        this.quantity(item.quantity);
        break;
      case 'unknown':
        if (!this.negated && !this.purpose) this.unknown(item);
        break;
    }
  }

  private quantity(quantity: Quantity): void {
    // `lime for oil of vitriol 300 mL`: of a mere purpose nobody tells how much.
    if (this.purposed && isHowMuch(quantity)) this.bring(this.purposed);
    this.part.quantities.push(quantity);
    if (quantity.dimension === 'temperature') this.heat((quantity.high ?? quantity.base).toNumber());
  }

  private heat(celsius: number): void {
    this.part.celsius = Math.max(celsius, this.part.celsius ?? celsius);
  }

  private warm(celsius: number, word: string): void {
    if (hobWords.test(word)) this.part.hob = Math.max(celsius, this.part.hob ?? celsius);
    else if (deedWords.test(word)) this.part.deed = Math.max(celsius, this.part.deed ?? celsius);
    else this.heat(celsius);
  }

  private cut(kind: 'comma' | 'open' | 'close', depth: number): void {
    this.negated = false;
    this.endPurpose();
    if (kind === 'comma' && depth === 0) this.joined = true;
    if (kind === 'open') this.joined = false;
  }

  private unknown({ text, depth }: Extract<Item, { kind: 'unknown' }>): void {
    if (this.isPlace()) return;
    if (this.joined && depth === 0 && this.part.names.length > 0) this.begin();
    this.part.unknown.push({ text, inBrackets: depth > 0, guessed: false });
  }

  /** `rust from the gate`, `in my cellar`: a place or a source, and not what it is. */
  private isPlace(): boolean {
    const [before = '', last = ''] = this.part.states.slice(-2);
    return this.behindName && articles.test(last) && placing.test(before);
  }

  private begin(): void {
    this.parts.push(emptyPart());
    this.joined = false;
    this.asContent = false;
  }

  /** `brushed the black powder off`, behind the name of what it is. */
  private isByLooks(text: string): boolean {
    if (!this.parts.some(({ names }) => names.length > 0) || !byLooks().has(inSmallLetters(text))) return false;
    return calledBack.test(this.part.states.at(-1) ?? '');
  }

  private name({ meaning, text, depth, respelt }: Extract<Item, { kind: 'name' }>): void {
    if (this.negated || this.isByLooks(text)) return;
    const inBrackets = depth > 0;
    const named = { meaning, text, isContent: inBrackets || this.asContent, respelt: respelt ?? false };
    if (this.purpose) {
      this.purposed = { ...emptyPart(), names: [named] };
      if (isThere.test(this.purposeWords.join(' '))) this.bring(this.purposed);
      else this.purposes.push(this.purposed);
      return;
    }
    if (this.startsAnother(inBrackets)) this.begin();
    this.part.names.push(named);
    this.statesWithin(text);
    if (respelt) this.part.unknown.push({ text, inBrackets: true, guessed: true });
    this.joined = false;
    this.behindName = true;
  }

  /** What a purpose names is in the pot. */
  private bring(part: OpenPart): void {
    if (this.purposes.at(-1) === part) this.purposes.pop();
    this.parts.push(part);
    this.behindName = true;
    this.endPurpose();
  }

  private endPurpose(): void {
    this.purpose = false;
    delete this.purposed;
    this.purposeWords.length = 0;
  }

  /** Words of state that are part of a name: `old ether`, `molten lead`, `wet cement`. */
  private statesWithin(text: string): void {
    const words = text.split(' ');
    for (const one of words.length > 1 ? words : []) {
      const word = phraseWordOf(one);
      if (!word) continue;
      const hot = alwaysHot.test(one);
      const isNamed = one === 'dust' && soldAsDust.test(text);
      for (const kind of word.kinds)
        if (hot || (tellsWithin.has(kind) && !(isNamed && kind === 'airborne'))) this.found.add(kind);
      if (hotWords.test(one) || boilingWords.test(one)) this.part.states.push(one);
      if (meltWords.test(one)) this.part.melted = true;
      else if (hot && word.celsius !== undefined) this.heat(word.celsius);
    }
  }

  /** A name begins another thing where something joins it, unless it says what is in the thing before it. */
  private startsAnother(inBrackets: boolean): boolean {
    if (!this.joined || this.asContent) return false;
    const { names, unknown } = this.part;
    // `mordant (chlorate and acid)`: two things in the one that is named, and they meet.
    if (inBrackets && this.joinedByAnd && names.at(-1)?.isContent) return true;
    if (inBrackets) return names.length > 0 && names.every(({ isContent }) => isContent);
    return names.length > 0 || unknown.length > 0;
  }

  private state({ word, text }: Extract<Item, { kind: 'state' }>): void {
    const { kinds, celsius } = word;
    if (kinds.has('without')) {
      this.negated = true;
      this.statesNegated = reachOfNot;
      return;
    }
    if (kinds.has('purpose')) this.purpose = true;
    else if (kinds.has('join')) this.join(text);
    if (this.purpose) this.purposeWords.push(text);
    if (this.purposed && isLying.test(text)) this.bring(this.purposed);
    const counts = this.behindName || kinds.has('burner') || alwaysHot.test(text);
    if (this.negated && this.statesNegated > 0) {
      this.statesNegated -= 1;
      if (!kinds.has('join')) return;
    }
    for (const kind of kinds) if (kind !== 'flame' || counts || !onceBurnt.test(text)) this.found.add(kind);
    if (heatWords.test(text)) this.heatUnstated = true;
    if (meltWords.test(text)) this.part.melted = true;
    else if (celsius !== undefined && counts) this.warm(celsius, text);
    this.part.states.push(text.toLowerCase());
  }

  private join(text: string): void {
    if (!/^(?:and|or|&)$/i.test(text)) this.negated = false;
    const onlyProducts =
      this.part.names.length > 0 &&
      this.part.names.every(({ meaning }) => meaning.kind === 'product' && meaning.variants.length > 1);
    const isPutTo = putTogether.test(this.part.states.at(-1) ?? '');
    this.asContent = bringsContent.test(text) || (/^with$/i.test(text) && onlyProducts && !isPutTo);
    this.joined = true;
    this.joinedByAnd = /^(?:and|&|\+|plus)$/i.test(text);
  }
}

/**
 * A misspelt word stays one that is not known. Words outside brackets need not be known where the brackets say what it
 * is: `Scale Kleen (phosphoric acid)`.
 */
function unaccountedIn({ names, unknown }: OpenPart): readonly string[] {
  const isExplained = names.some(({ isContent }) => isContent);
  // Words in brackets behind a name that tells it are a remark: `potassium bromide (from the darkroom)`.
  const isTold = names.some(({ isContent, meaning }) => !isContent && meaning.kind === 'stuff');
  return unknown
    .filter(({ inBrackets, guessed }) => guessed || !(inBrackets ? isTold : isExplained))
    .map(({ text }) => text);
}

function leftOutIn(part: OpenPart): readonly string[] {
  const counted = new Set(unaccountedIn(part));
  return part.unknown.map(({ text }) => text).filter((text) => !counted.has(text));
}

/** °C that a bath of hot water or steam does not exceed. */
const bathCelsius = 100;

function hotnessOf(states: readonly string[]): Pick<PhrasePart, 'hot'> {
  if (states.some((word) => boilingWords.test(word))) return { hot: 'boiling' };
  return states.some((word) => hotWords.test(word)) ? { hot: 'hot' } : {};
}

/** A hob, not a kiln: what stands on it wet stays as hot as water. */
const hobWords =
  /\b(?:hob|stove|stovetop|hot ?plate|gas ring|gas|cooker|burner|electric ring|frying pan|hot iron|sand bath|heat gun)\b/i;

/** What was done with heat, and not how hot: `calcined at 450 °C`. */
const deedWords =
  /^(?:calcin|roast|torref|kalzinier|geröst|gebrann)\w*|^(?:fired|burnt|burned|baked|heated|ignited|annealed)(?: (?:at|to|in|on|up|through))?$/i;

/** How much there is, and not how strong or how hot. */
export const isHowMuch = ({ dimension }: Quantity): boolean =>
  ['mass', 'volume', 'amount', 'drops'].includes(dimension);

const isTold = ({ dimension }: Quantity): boolean => dimension === 'temperature';

function celsiusOf({ celsius, hob, deed, quantities }: OpenPart): number | undefined {
  const told = [celsius, ...(quantities.some(isTold) ? [] : [hob, deed])].filter((one) => one !== undefined);
  return told.length > 0 ? Math.max(...told) : undefined;
}

function partOf(open: OpenPart, inBath: boolean): PhrasePart {
  const { names, quantities, states, melted } = open;
  const celsius = celsiusOf(open);
  return {
    names,
    quantities,
    states,
    melted: melted && !inBath,
    ...(!inBath && hotnessOf(states)),
    ...(celsius !== undefined && { celsius: inBath ? Math.min(celsius, bathCelsius) : celsius }),
  };
}

const read = new Map<string, Phrase>();

const placeNames = once(() => {
  const places = wordsThatSay('place').map((one) => `${one.charAt(0).toUpperCase()}${one.slice(1)}`);
  return new RegExp(String.raw`(?<![A-Za-z])(?:[A-Z][a-zß-ɏ]+\s+){1,2}(?:${places.join('|')})(?![a-zß-ɏ])`, 'g');
});

/** `Ochre from below Mercury Bridge`: no mercury is in it. */
function withoutPlaces(text: string): string {
  if (!/[A-Z][a-zß-ɏ]+\s+[A-Z]/.test(text)) return text;
  const rest = text.replace(placeNames(), ' ');
  return rest.trim() === '' ? text : rest;
}

/**
 * Reads a phrase in makers' words.
 * @example readPhrase('toilet cleaner (bleach), in a closed bottle').circumstances.has('closed') // true
 */
export function readPhrase(text: string): Phrase {
  let phrase = read.get(text);
  if (!phrase) {
    if (read.size >= 5000) read.clear();
    read.set(text, (phrase = readAnew(withoutPlaces(text))));
  }
  return phrase;
}

/** Melted, and no ice or snow. */
const isMoltenThing = ({ melted, names }: OpenPart): boolean =>
  melted && names.some(({ meaning }) => !(meaning.kind === 'stuff' && /^H2O$/.test(meaning.formula)));

/** A lid that is off closes nothing, and dust that water lays does not fly. */
const isTakenBack = (one: Circumstance, found: ReadonlySet<PhraseWordKind | Circumstance>): boolean =>
  (one === 'closed' && found.has('open')) || (one === 'airborne' && found.has('laid'));

/** s in a microwave oven, and °C of what stands in it for less and for longer. Common practice, no source. */
const microwaveHeats: readonly (readonly [belowSeconds: number, celsius: number])[] = [
  [45, 50],
  [180, 95],
  [Infinity, 105],
];

/** °C that a microwave oven brings a pot to in the time that is told, or in long where none is. */
function microwaveCelsius(parts: readonly OpenPart[]): number {
  const seconds = parts.flatMap(({ quantities }) =>
    quantities.filter(({ dimension }) => dimension === 'time').map(({ high, base }) => (high ?? base).toNumber()),
  );
  const longest = seconds.length > 0 ? Math.max(...seconds) : Infinity;
  return microwaveHeats.find(([below]) => longest <= below)![1];
}

function heatedInMicrowave(parts: readonly OpenPart[]): void {
  heatedTo(microwaveCelsius(parts), parts);
}

function heatedTo(celsius: number, parts: readonly OpenPart[]): void {
  for (const part of parts) part.celsius = Math.max(celsius, part.celsius ?? celsius);
}

const limb = String.raw`(?:hand|arm|wrist|finger|thumb|elbow|leg|knee|foot|face|ear|belly|torso|chest|breast)s?`;
const namesLimb = new RegExp(String.raw`\b${limb}\b`, 'i');
/** Words that lay it about a limb, or a limb into it: `hand cast in it`, `poured round my arm`. */
const aboutLimb = new RegExp(
  String.raw`\b(?:on|around|round|about|over|upon|onto) ` +
    String.raw`(?:a|an|the|my|his|her|our|your|both|someone's) (?:bare )?${limb}\b` +
    String.raw`|\bcast(?:ing)? (?:of )?(?:a |the |my |his |her |your )?(?:bare )?${limb}\b` +
    String.raw`|\b${limb} (?:\w+ ){0,3}in(?:to)? (?:it|the (?:plaster|mix|mixture|mould|bucket))\b` +
    String.raw`|\b${limb} cast(?:ing)?\b` +
    String.raw`|\b${limb} (?:\w+ ){0,3}(?:pushed|held|put|stuck|plunged|dipped)\b[^,]*\bup to\b` +
    String.raw`|\b${limb} (?:pushed|held|put|stuck|plunged|dipped) (?:in|down)\b`,
  'i',
);

/** `reduced at 1000, cooled`, `fired to 900`: a temperature without its unit, where nothing else can be meant. */
const bareHeat =
  /\b(?:at|to) (?:about |around |some )?(\d{3,4})(?=$|[,;)]|\s(?:for|in|then|and|until|till|under|over|on|onto|splash\w*|spilt|ran|poured|got|dripp\w*)\b)/i;
const hottestKiln = 1600;

function heatedWithoutUnit(text: string, parts: readonly OpenPart[]): void {
  const celsius = Number(bareHeat.exec(text)?.[1] ?? Number.NaN);
  if (celsius <= hottestKiln) heatedTo(celsius, parts);
}

/**
 * Water that goes onto what lies there already: `poured the water onto it`, `the water over the oil of vitriol`,
 * `topped the acid up with water`.
 */
const waterLast = new RegExp(
  String.raw`\bwater\b(?! bath)(?:, ?\d[^,.;:]{0,15},)?(?![^,.;:]*\bwith the (?:acid|vitriol))[^,.;:]{0,40}?` +
    String.raw`\s(?:on ?to|over|upon|on top of|on|into|to)\s` +
    String.raw`(?:it|them|the (?:\w+ ){0,2}(?:acid|vitriol)|oil of vitriol|vitriol|(?:\w+ )?acid)\b` +
    String.raw`|\b(?:top|topped|topping|fill|filled|filling|made|make|making)\b[^,.;:]{0,25}\b(?:acid|vitriol)\b` +
    String.raw`[^,.;:]{0,15}\bup\b[^,.;:]{0,20}\bwater\b`,
  'i',
);

/** No hotter than water boils, but for a hob. */
const isNotHotter = ({ celsius = 0 }: OpenPart): boolean => celsius <= bathCelsius;

/** Behind these the heat before them is that of everything: `fused with soda`, and no `fused soda`. */
const heatedWith = /^(?:with|in|on|over|at|to|under|together|together with|along with|up with)$/i;

function isLedByHeat([first, second]: readonly Item[]): boolean {
  if (first?.kind !== 'state' || second?.kind !== 'state') return false;
  return first.word.kinds.has('heat') && heatedWith.test(second.text);
}

function readAnew(text: string): Phrase {
  const items = itemsOf(tokensOf(text));
  const reader = new Reader(isLedByHeat(items) || !items.some(({ kind }) => kind === 'name'));
  for (const item of items) reader.read(item);
  if (reader.found.has('microwaved')) heatedInMicrowave(reader.parts);
  heatedWithoutUnit(text, reader.parts);
  if (namesLimb.test(text) && aboutLimb.test(text)) reader.found.add('skin');
  if (waterLast.test(text)) reader.found.add('water-last');
  const told = toldByStems(text);
  for (const kind of told.kinds) reader.found.add(kind);
  if (told.celsius !== undefined) heatedTo(told.celsius, reader.parts);
  const named = reader.parts.filter(({ names }) => names.length > 0);
  const parts = named.length > 0 ? named : reader.purposes;
  const { found } = reader;
  if (parts.some(isMoltenThing)) found.add('molten');
  const nameless = Math.max(...reader.parts.map((part) => celsiusOf(part) ?? -Infinity));
  return {
    parts: parts.map((part) => partOf(part, found.has('cool'))),
    circumstances: new Set(circumstances.filter((one) => found.has(one) && !isTakenBack(one, found))),
    unaccounted: reader.parts.flatMap(unaccountedIn),
    leftOut: reader.parts.flatMap(leftOutIn),
    heatUnstated: reader.heatUnstated && !reader.parts.some(({ quantities }) => quantities.some(isTold)),
    onHob: reader.parts.some(({ hob }) => hob !== undefined) && reader.parts.every(isNotHotter),
    ...(named.length === 0 && Number.isFinite(nameless) && { celsius: nameless }),
    namesNothing: parts.length === 0 && namesNoStuff(items),
    melted: named.length === 0 && reader.parts.some(({ melted }) => melted),
  };
}

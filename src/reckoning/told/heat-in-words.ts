// Heat as the words of a step tell it: degrees, marks and cones, words for a heat, where it was heated, what was done.
import { once } from '../../once.js';
import { contentsOf, readHeat, unreadReagent } from '../../reagents/index.js';
import { inSmallLetters } from '../../small-letters.js';
import { aroundWordsOf, says } from './around-words.js';
import { withoutElsewhere } from './heat-elsewhere.js';
import { fromItsBeginning, SmallLetterPattern } from './words-as-pattern.js';
import { heatDeedsTable } from '../../tables/compiled/reckoning/told/heat-deeds.js';

/** One heat that words tell. */
export interface HeatInWords {
  readonly words: string;
  /** The least that it may be, °C: another heat of at least so much may be the same one. */
  readonly low: number;
  /** °C at which it is judged. */
  readonly celsius: number;
  /** A `device` says where it was heated; a `deed` says what was done, and not how hot. */
  readonly says: 'degrees' | 'temperature' | 'device' | 'deed';
}

/** Letters of the languages of the table. */
const letter = '[a-zß-ɏ]';
/** `heat* … pan` as a pattern for small letters: longer words, and up to six words between. */
const patternOf = (words: string): string =>
  words.replaceAll('*', `${letter}*`).replaceAll(' … ', String.raw`(?:\s+[^\s.;:]+){0,6}?\s+`);

interface Row extends Omit<HeatInWords, 'words'> {
  /** All of its words, from a place on. */
  readonly from: RegExp;
}

const beginningOf = (words: string): string => inSmallLetters(/^[^\s*]+/.exec(words)![0]);
const isWhole = (words: string): boolean => !words.startsWith('*', beginningOf(words).length);

/** All beginnings of what the table has, and what begins so, the longest first. */
const known = once(() => {
  const table = [...heatDeedsTable()].sort((a, b) => b.words.length - a.words.length);
  const rows = new Map<string, Row[]>();
  for (const { words, low, celsius, says } of table) {
    const row = { low, celsius, says, from: new RegExp(`${patternOf(inSmallLetters(words))}(?!${letter})`, 'y') };
    rows.set(beginningOf(words), [...(rows.get(beginningOf(words)) ?? []), row]);
  }
  const parts = new Set(table.filter(({ words }) => !isWhole(words)).map(({ words }) => beginningOf(words)));
  // `boiling … fumes white` says nothing of what only boils: `boil*` does.
  for (const [beginning, own] of rows)
    for (const part of parts)
      if (part !== beginning && beginning.startsWith(part))
        own.push(...rows.get(part)!.filter((row) => !own.includes(row)));
  const beginnings = [...rows.keys()].sort((a, b) => b.length - a.length);
  const whole = beginnings.filter((one) => !parts.has(one)).join('|');
  const any = `(?:(?:${whole})(?!${letter})|${[...parts].join('|')})`;
  // What begins with an accent has no boundary before it.
  return { rows, beginnings: new RegExp(String.raw`(?:\b|(?=[à-ÿ]))${any}`, 'g') };
});

/** What stands at a place of a text in small letters, and where it ends. */
function at(small: string, place: number, beginning: string): { readonly row: Row; readonly end: number } | undefined {
  for (const row of known().rows.get(beginning) ?? []) {
    row.from.lastIndex = place;
    if (row.from.test(small)) return { row, end: row.from.lastIndex };
  }
  return undefined;
}

/** Words before that take a heat back: `never boiled down`, `without firing`, `keep from the oven`. */
const takenBack =
  /(?:\b(?:not|never|without|no|nicht|nie|ohne|kein[a-zß-ɏ]*|pas|sans|jamais|sin|nunca|keep from|away from|instead of|rather than)|n['’]t)\s(?:(?:a|an|any|be|been|the|let it|naked|open|to|yet|in|on|over|im|in den|au|le|en) ?)*$/iu;

/** Words behind that do: `geglüht wird hier nichts`, `gekocht habe ich es nicht`. */
const takenBackBehind =
  /^\s(?:wird|werden|wurde|wurden|hab(?:e|en)?|ist)\s(?:[a-zß-ɏ]+\s){0,3}?(?:nichts?|nie(?:mals)?|kein[a-zß-ɏ]*)(?![a-zß-ɏ])/iu;

/** What is called after a heat that it had before it came here, and water as it comes from the kettle. */
const namesStuff =
  /^\s*(?:soda|magnesi[a-zß-ɏ]*|alumin[a-zß-ɏ]*|clay|gypsum|bones?|sienna|umber|ochre|water|stones?|chips?|tubes?|tests?|point)(?![a-zß-ɏ])/iu;

/** Words that stand where others began do not count again: `on the stove top`. */
interface Named {
  readonly one: HeatInWords;
  readonly index: number;
  readonly end: number;
}

/** `boiled for half an hour`, `a third time`: how long or how often, and not down to what. */
const howLong = new RegExp(
  [
    String.raw`(?<![a-zß-ɏ])(?:half(?:[- ]an?|[- ]the)?[- ](?:hour|minute|day|morning|afternoon|evening|night|week)`,
    String.raw`quarters?(?:[- ]of)?(?:[- ]an)?[- ]hour|(?:third|tenth)[- ]time|half past)(?![a-zß-ɏ])`,
  ].join('|'),
  'g',
);
/** With as many letters and words, so that places stay what they are. */
const withoutHowLong = (small: string): string =>
  /half|quarter|third|tenth/.test(small) ? small.replace(howLong, (words) => words.replace(/[^ ]/g, '~')) : small;

/** The words of heat in a text, done or not. Without `matchAll`, which makes its large pattern anew for each text. */
function wordsIn(text: string): readonly Named[] {
  const { beginnings } = known();
  const small = withoutHowLong(inSmallLetters(text));
  const named: Named[] = [];
  beginnings.lastIndex = 0;
  for (let found = beginnings.exec(small); found; found = beginnings.exec(small)) {
    const { 0: beginning, index } = found;
    const one = at(small, index, beginning);
    const end = one?.end ?? index + beginning.length;
    if (one) {
      const { low, celsius, says } = one.row;
      named.push({ one: { words: text.slice(index, end), low, celsius, says }, index, end });
    }
    beginnings.lastIndex = end;
  }
  return named;
}

/** Whether anything in a text begins as words of heat do: a clause or a line of what has none has none either. */
function mayNameHeat(text: string): boolean {
  const { beginnings } = known();
  beginnings.lastIndex = 0;
  return beginnings.test(inSmallLetters(text));
}

/** `The kiln is in the laundry room`: where a device stands. */
const tellsItsPlace =
  /^\s*(?:is|was|stands|stood|sits|lives|steht|stand|est|était|está|estaba)\s+(?:still\s+|just\s+)?(?:in|on|at|by|under|beside|behind|next|near|outside|outdoors|indoors|im|in der|auf|neben|draußen|dans|sur|dehors|en|fuera)(?![a-zß-ɏ])(?!\s+(?:full|high|low|\d))/iu;

const near = String.raw`(?:\s+[^\s,;:]+){0,2}?\s*$`;
/** `dried by the stove`, `left beside the fire`: near it, and not in it. */
const restsBeside = once(() => {
  const rests = fromItsBeginning(aroundWordsOf('rests'));
  const beside = fromItsBeginning(aroundWordsOf('beside'));
  return new SmallLetterPattern(String.raw`${rests}[^,;:]*?\s${beside}${near}`);
});

/** °C that it gets to beside a stove or a fire. */
const besideFire = { low: 30, celsius: 90 };

/** What stands beside a fire gets no hotter than hands bear; one thing in the way of it (`by the stove flame`) does. */
function besideIt({ one, index, end }: Named, clause: string): HeatInWords {
  if (one.says !== 'device' || !restsBeside().test(clause.slice(0, index))) return one;
  return says('heated-by', clause) || says('in-flame', clause.slice(end)) ? one : { ...one, ...besideFire };
}

/** `Put the paper in the fire`: what was written on, or wood; not what was wrapped in it, or a filter paper. */
const isFuel = once(() => {
  const [article, fuel, into] = (['fuel-article', 'fuel', 'fuel-into'] as const).map((what) =>
    fromItsBeginning(aroundWordsOf(what)),
  );
  return new SmallLetterPattern(String.raw`${article}\s${fuel}(?:\s${into})?${near}`);
});
const goesAsFuel = (before: string): boolean => isFuel().test(before) && !says('holds-stuff', before);

/** Those that a clause says of what was done. */
const namedIn = (clause: string): readonly HeatInWords[] =>
  wordsIn(clause)
    .filter(({ index, end }) => !takenBack.test(clause.slice(0, index)) && !namesStuff.test(clause.slice(end)))
    .filter(({ end }) => !takenBackBehind.test(clause.slice(end)))
    .filter(({ one, end }) => one.says !== 'device' || !tellsItsPlace.test(clause.slice(end)))
    .filter(({ index }) => !goesAsFuel(clause.slice(0, index)))
    .map((one) => besideIt(one, clause));

const number = String.raw`\d{1,3}[  ,'’]\d{3}(?!\d)|\d{1,4}(?:[.,]\d+)?`;
const scale = [
  String.raw`[°º]\s?[CFK](?![a-zß-ɏ\d])`,
  String.raw`[°º](?!\s?(?:B[eé]|Tw|d?H\b|Oe|Brix|[a-zß-ɏ\d][a-zß-ɏ]*[-/]))`,
  '[℃℉]',
  String.raw`(?:degrees?|degs?\.?|Grad|grados|gradi|degrés?)(?![a-zß-ɏ])(?:\s(?:C|F|Celsius|Fahrenheit)(?![a-zß-ɏ]))?`,
  String.raw`(?:Celsius|Fahrenheit)(?![a-zß-ɏ])`,
  String.raw`(?<=\d{3}\s?)[CFK](?![a-zß-ɏ\d])`,
].join('|');
/** A number, what it may be off by, the upper end of a range, the scale. */
const degrees = new RegExp(
  [
    String.raw`(?<![a-zß-ɏ\d.,])(${number})(?:\s*(?:±|\+/-)\s*(\d+))?`,
    String.raw`(?:\s*(?:[°º]\s?[CF]?\s*)?(?:-|–|to|bis|à|a)\s*(${number}))?\s*(${scale})`,
  ].join(''),
  'giu',
);
const marks = /\b(?:gas mark|regulo|orton cone|cone|orton)\s*(?:\d+(?:\.\d+|\/\d)?|[¼½])/gi;

/** `to 5 °C/min` is no heat. */
const isRate =
  /^\s*(?:\/|per (?:h|hour|min|minute|ora)|an? (?:hour|minute)|pro\b|par\b|por\b|(?:higher|hotter|lower|more|less)\b)/i;
/** `cooled from`, `once it has dropped to`: what it is no more. */
const coolsTo =
  /\b(?:cool|chill|abk[uü]hl|abgek[uü]hl|erkalt|refroid|enfr[ií]|dropp(?![a-z]*\s+(?:(?:it|them|the\s[a-z]+)\s+)?(?:in|into|on|onto|by)\b)|fallen|fell(?!\s+(?:in|into|on|onto)\b))[a-zß-ɏ]*(?:\s[^,;]*)?$/iu;
/** `decomposes above`, `melting point`: what would be. */
const isProperty =
  /\b(?:melts?|decomposes?|boils|sublimes?|takes fire|ignites|schmilzt|zersetzt|fond|funde|melting point|m\.?p\.?|flash point|Schmelzpunkt|point de fusion|punto de fusión)(?:\s+(?:is|of|at|about|above|from|near|around|only|sich|bei|ab|von|se|à|a|over)|\s*[(:~])*\s*$/iu;
/** `Melt at 1100 °C`: it is told to be done. */
const isToDo = /(?:^|[,;:]\s*|(?<![a-zß-ɏ])(?:and|then)\s+)(?:melt|boil)\s+(?:[a-zß-ɏ]+\s+)?$/iu;
/** `at 300 °C it would go brown`: what is said of a heat that was not. */
const isSupposed =
  /^,?\s*(?:(?:it|this|that|es|das|il|elle|ça)\s+)?(?:would|würde|serait|deviendrait|sería)(?![a-zß-ɏ])/iu;
const onlyUntil = /\b(?:until|till|bis|jusqu|hasta)\b/i;
/** `below`, `never above`: no more than it might have been. */
const isLimit =
  /(?:\b(?:below|under|less than|at most|max(?:imum|\.)?|unter|höchstens|maximal|sous|moins de|debajo de|menos de)|(?:\b(?:not?|never|without|avoid[a-zß-ɏ]*|nicht|nie|ohne|pas|sans|jamais|sin|nunca)\b|n['’]t)[^,;]{0,30}\b(?:above|over|past|beyond|exceed[a-zß-ɏ]*|reach[a-zß-ɏ]*|more than|hotter than|higher than|über|dépasser|plus de|más de|pasar de))\s+(?:about |ca\.? )?$/iu;
const ofWater = /\b(?:water|Wasser|eau|agua|room)(?:\s+(?:of|at|is|was|that is|bei|à|a))?\s*$/iu;
const waterFollows = /^\s*(?:warm |hot )?(?:(?:distilled|rain|tap)\s)?(?:water(?! bath)|Wasser|room)(?![a-zß-ɏ])/iu;

const thousands = /(?<=\d)[  ,'’](?=\d{3}(?!\d))/g;
const numberOf = (written: string): number => Number(written.replace(thousands, '').replace(',', '.'));

/** °C of degrees as they are written, the upper end of a range. */
function celsiusOf([, first = '', off = '0', last, scaled = '']: readonly (string | undefined)[]): number {
  const value = numberOf(last ?? first) + Number(off);
  if (/F$|℉|Fahrenheit/i.test(scaled)) return Math.round(((value - 32) * 5) / 9);
  return /K$/.test(scaled) ? Math.round(value - 273.15) : value;
}

/** Hotter than this no kiln of a workshop gets: it is a number of something else. */
const hottestOfAll = 2000;

interface InDegrees {
  readonly heats: readonly HeatInWords[];
  readonly limits: readonly number[];
}
const noDegrees: InDegrees = { heats: [], limits: [] };

/** Degrees, marks and cones are told in figures. */
const hasFigures = /[\d¼½]/;

/** Degrees, marks and cones in a clause, and the limits that it names. */
function degreesIn(clause: string): InDegrees {
  if (!hasFigures.test(clause)) return noDegrees;
  const heats: HeatInWords[] = [];
  const limits: number[] = [];
  for (const found of clause.matchAll(degrees)) {
    const { 0: words, index } = found;
    const celsius = celsiusOf(found);
    const [before, after] = [clause.slice(0, index), clause.slice(index + words.length)];
    const isOfStuff = isProperty.test(before) && !isToDo.test(before) && !onlyUntil.test(before);
    const isNone = coolsTo.test(before) || isOfStuff || isRate.test(after);
    const isOfOther = ofWater.test(before) || waterFollows.test(after) || isSupposed.test(after);
    if (celsius > hottestOfAll || isNone || isOfOther) continue;
    if (isLimit.test(before)) limits.push(celsius);
    else heats.push({ words: words.trim(), low: celsius, celsius, says: 'degrees' });
  }
  for (const { 0: words } of clause.matchAll(marks)) {
    const { known: how, low, high } = readHeat(words);
    if (how !== 'not-known') heats.push({ words, low: low.toNumber(), celsius: high.toNumber(), says: 'degrees' });
  }
  return { heats, limits };
}

/** In what is wet nothing gets hotter than a solution boils, whatever stands below it. */
const isWet =
  /\b(?:warm|simmer|dissolv|solution|liquor|stirr?|digest|lös|rühr|dissou|remu|disol|boil|(?:ein|auf|aus)?(?:ge)?koch|bouill|hierv|hervi|boll)/i;
/** What gets hotter than water before it boils. */
const hotLiquid =
  /oil|öl(?![a-zß-ɏ])|huile|aceite|olio|wax|wachs|cire|cera|resin|harz|rosin|fat(?![a-zß-ɏ])|grease|paraffin|sul[fp]h?ur|schwefel|soufre|azufre|zolfo|vitriol|melt|molten/i;
const getsDry =
  /\b(?:dry|dried|dryness|smok|black|brown|fum|red|glow|char|crust|evaporat|trock|schwarz|sec|noir|seco|negro)/i;
const wettest = 110;

/** What of its heats a clause leaves standing: degrees say more than a word, a word for a heat more than a place. */
function ofClause(clause: string, { heats, limits }: InDegrees): readonly HeatInWords[] {
  const told = namedIn(clause);
  if (told.length === 0) return heats;
  const sure = [...heats, ...told.filter(({ says }) => says === 'temperature')];
  const most = Math.min(
    ...limits,
    isWet.test(clause) && !getsDry.test(clause) && !hotLiquid.test(clause) ? wettest : Infinity,
  );
  const isSaid = ({ low }: HeatInWords): boolean => sure.some((one) => one.celsius >= low);
  const places = told.filter((one) => one.says === 'device' && !isSaid(one));
  const limited = places.map((one) => ({ ...one, celsius: Math.min(one.celsius, Math.max(most, one.low)) }));
  const deeds = told.filter((one) => one.says === 'deed' && !isSaid(one) && places.length === 0);
  return [...sure, ...limited, ...deeds];
}

/** What begins a clause of its own: `Boil it, then …`, `Boil it, leave to cool, screw the lid on`. */
const then = '(?:then|afterwards|danach|dann|puis|ensuite|luego|después)';
const lets = '(?:let|leave|left|allow|allowed|laisser|lasse|dejar|lasciare?)';
const leaves = String.raw`(?:${lets}\s+(?:\S+\s+){0,2}?(?:to\s+)?)?`;
const cools = '(?:cool|cold|abkühl|erkalt|auskühl|refroid|enfri|raffredd)';
const onceCool = String.raw`(?:when|once|wenn|quand)\s+(?:it is\s+)?${cools}`;
const cooling = String.raw`,\s+(?=(?:and\s+)?(?:${leaves}${cools}|${onceCool}))`;
const clauseEnd = new RegExp(String.raw`(?<=[.;!?])\s+|\n+|,?\s+(?:and )?${then}\s+|${cooling}`, 'i');

/** Clauses, each with its own heat: `Dried at 60 °C, then into the kiln.` has two. */
export const clausesOf = (text: string): readonly string[] => text.split(clauseEnd);

/** `the kiln was cold and unplugged`: nothing was heated there. */
const isOff =
  /(?:was|were|is|stayed|war|blieb|était|restait|estaba)\s+(?:still\s+|noch\s+|encore\s+)?(?:(?:stone[- ]?)?cold|off|unplugged|unlit|switched off|kalt|aus|froid|éteint|frío|apagad[oa])(?![a-zß-ɏ])(?!\s+(?:when|as|at|before|to begin|als|quand|cuando))/iu;

const isPlaceOfHeat = /kiln|oven|furnace|stove|hob|plate|burner|muffle|ofen|herd|platte|four|horno/i;

/**
 * The heats that words tell. What was not done, what cools, what a thing melts at and a limit are none.
 * @example heatsIn('Dried at 60 °C, then 900 °C in the kiln.').map(({ celsius }) => celsius) // [60, 900]
 */
export function heatsIn(text: string): readonly HeatInWords[] {
  if (!hasFigures.test(text) && !mayNameHeat(text)) return [];
  const heats = withoutElsewhere(clausesOf(text)).flatMap((clause) => ofClause(clause, degreesIn(clause)));
  const places = heats.filter(({ says }) => says === 'device');
  return places.length > 0 && isOff.test(text) && isPlaceOfHeat.test(text)
    ? heats.filter((one) => !places.includes(one))
    : heats;
}

const mayTellMelting = /melt|molten|schmolz|schmilz|fundid|fondu/i;
/** What was not melted, or is only said of it. */
const isNotMelted =
  /(?<![a-zß-ɏ])(?:not|never|without|before|nearly|almost|nicht|nie|ohne|jamais|sans|nunca|sin|would|melts|melting point|melting at)(?![a-zß-ɏ])/iu;

/** What clauses say is melted, as hot as it has to be for that: wax as hot as water, salts and metals far hotter. */
export function meltingIn(text: string): readonly HeatInWords[] {
  if (!mayTellMelting.test(text)) return [];
  return clausesOf(text).flatMap((clause): readonly HeatInWords[] => {
    const words = mayTellMelting.test(clause) && !isNotMelted.test(clause) ? clause : '';
    if (words === '' || degreesIn(clause).heats.length > 0) return [];
    const { contents, circumstances } = contentsOf(unreadReagent(clause));
    const celsius = Math.max(...contents.map(({ reagent }) => reagent.celsius ?? -Infinity));
    const isMelted = circumstances.has('molten') && Number.isFinite(celsius);
    return isMelted ? [{ words: 'melted', low: celsius, celsius, says: 'temperature' }] : [];
  });
}

const mayTellDegrees = /\d\s?(?:[°º℃℉CFK]|deg|grad|Celsius|Fahrenheit)/i;
/** What somebody did with a heat. */
const toldAsDone =
  /(?<![a-zß-ɏ])(?:heated|fired|burnt|burned|roasted|calcined|baked|ignited|dried|kept|held|brought|took|taken|raised|went|gone|got|reached|stood|ran|erhitzt|geheizt|aufgeheizt|gehalten|gebrannt|geglüht|getrocknet|gebracht|chauff[ée][a-zß-ɏ]*|cuite?s?|calcin[ée][a-zß-ɏ]*|port[ée]e?|séch[ée][a-zß-ɏ]*|mont[ée]e?|calent[a-zß-ɏ]+|calcin[a-zß-ɏ]+|cocid[oa]s?|horne[a-zß-ɏ]+|llev[éó]|subi[óo]|sec[óa]d?[oa]?)(?![a-zß-ɏ])/iu;
/** What is planned, or only said somewhere. */
const isHearsay =
  /(?<![a-zß-ɏ])(?:would|could|should|might|may|next|says|said|according|literature|book|recipe|usually|würde|könnte|sollte|nächst[a-zß-ɏ]*|laut|Literatur|Buch|pourrait|devrait|prochain[a-zß-ɏ]*|selon|livre|podría|debería|próxim[a-zß-ɏ]*|según|libro)(?![a-zß-ɏ])/iu;

/**
 * The words of heat in a write-up. Its degrees tell of all sorts: only those count with which something was done.
 * @example heatWordsOf('We took it to 450 °C. The book says 600 °C.').map(({ celsius }) => celsius) // [450]
 */
export const heatWordsOf = (text: string): readonly HeatInWords[] =>
  text
    .split('\n')
    .filter((line) => wordsIn(line).length > 0 || mayTellDegrees.test(line))
    .flatMap((line) => withoutElsewhere(clausesOf(line)))
    .flatMap((clause) => {
      const counts = mayTellDegrees.test(clause) && toldAsDone.test(clause) && !isHearsay.test(clause);
      return ofClause(clause, counts ? degreesIn(clause) : noDegrees);
    });

// How hot: a temperature, or the words that a maker has for one (gas mark 4, cone 6, cherry red, on the radiator).
import { exact, parseQuantity, type Decimal } from '../chemistry/index.js';
import { memoise } from '../memoise.js';
import { heatWordsTable } from '../tables/compiled/reagents/heat-words.js';

/** A heat between two ends, °C; where danger is judged, the upper end counts. */
export interface Heat {
  /** As it was written. */
  readonly written: string;
  readonly known: 'number' | 'word' | 'not-known';
  readonly low: Decimal;
  readonly usual: Decimal;
  readonly high: Decimal;
  /** The word of the table, where one told it: `cherry red`. */
  readonly word?: string;
  readonly note?: string;
  readonly source?: string;
}

interface HeatWord {
  readonly word: string;
  readonly low: Decimal;
  readonly usual: Decimal;
  readonly high: Decimal;
  readonly note?: string;
  readonly source: string;
}

let words: ReadonlyMap<string, HeatWord> | undefined;
/** Every spelling with its row. */
function heatWords(): ReadonlyMap<string, HeatWord> {
  words ??= new Map(
    heatWordsTable().flatMap((row) => {
      const { word, also, note, source_title, basis } = row;
      const source = basis === 'memory' ? `from memory: ${source_title}` : source_title;
      const told: HeatWord = {
        word,
        low: exact(row.low_C),
        usual: exact(row.usual_C),
        high: exact(row.high_C),
        ...(note !== undefined && { note }),
        source,
      };
      return [word, ...also].map((spelling): [string, HeatWord] => [spelling, told]);
    }),
  );
  return words;
}

/** Words of the longest spelling. */
const longestSpelling = 5;

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[(),;.!?]+(?=\s|$)|(?<=\s|^)[(]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

/** The longest known word from a place on; `at` is where it ends. */
function wordFrom(
  all: readonly string[],
  start: number,
): { readonly told: HeatWord; readonly end: number } | undefined {
  for (let end = Math.min(all.length, start + longestSpelling); end > start; end -= 1) {
    const told = heatWords().get(all.slice(start, end).join(' '));
    if (told) return { told, end };
  }
  return undefined;
}

/**
 * Words of heat in a text, in order, the longest first: `in the oven, gas mark 4` has two.
 * @example heatWordsIn('cherry red in the camp fire').map(({ word }) => word) // ['cherry red', 'glowing coals']
 */
export function heatWordsIn(text: string): readonly HeatWord[] {
  const all = plain(text).split(' ');
  const found: HeatWord[] = [];
  for (let at = 0; at < all.length; ) {
    const here = wordFrom(all, at);
    if (here) found.push(here.told);
    at = here?.end ?? at + 1;
  }
  return found;
}

/**
 * What a heat of which nothing is known is taken for where danger is judged: a pottery kiln's firing. Common practice,
 * no source.
 */
const atWorst = { low: exact(20), usual: exact(20), high: exact(1300) };

/** Marks of a gas oven or cones with a number: `gas mark 4`, `cone 06`. A bare `mark 4` within words too. */
const spacedMark = /\b(gas mark|gas|regulo|mark|cone|orton cone|orton)\s*(\d+(?:\.\d+|\/\d)?|[¼½])/gi;

const ofNumber = (written: string): Heat | undefined => {
  const read = parseQuantity(written);
  if (!read.ok || read.value.dimension !== 'temperature') return undefined;
  const { base, low, high, tolerance } = read.value;
  return {
    written,
    known: 'number',
    low: low ?? base.minus(tolerance ?? 0),
    usual: base,
    high: high ?? base.plus(tolerance ?? 0),
  };
};

/** A number with its unit among other words: `oven, about 180 °C`. */
function numberWithin(text: string): Heat | undefined {
  const found = /[-−]?\d+(?:\.\d+)?(?:\s*(?:-|–|to)\s*\d+(?:\.\d+)?)?\s*(?:°\s?[CF]|degrees [CF]|℃|℉|K\b)/.exec(text);
  const heat = found && ofNumber(found[0]);
  return heat ? { ...heat, written: text } : undefined;
}

/** What degrees are called, in small letters. */
const degrees = String.raw`deg(?:ree)?s?\.?|gradi?|grad(?:os|en|ers?)|degr[eé]s?|stopni|stupňů|градус(?:ов|а)?`;
const degreesAlone = new RegExp(
  String.raw`^(?:(?:about|ca\.?|around|circa|etwa|environ)\s+)?(\d+(?:\.\d+)?)\s*(?:°|${degrees})(?![A-Za-z])`,
  'i',
);

/** `50 Grad`, `180 degrees`: of which scale is not said; the hotter one is taken. */
function ofDegrees(written: string): Heat | undefined {
  const found = degreesAlone.exec(written.trim());
  const heat = found && ofNumber(`${found[1]} °C`);
  return heat ? { ...heat, written } : undefined;
}

/** `hot enough to melt it`, `as hot as it goes`: the heat is told by something that no table here has. */
const measuredByElse = /\b(?:enough|as|than|until|till)\b/i;
const byHand: ReadonlySet<string> = new Set(['warm', 'hot', 'lukewarm', 'tepid']);

/**
 * A temperature as it is written, in numbers or in words. Of several words the hottest counts. What says nothing of
 * heat is `not-known`, and is taken at its worst where danger is judged.
 * @example readHeat('cone 04').high.toNumber() // 1063
 */
export const readHeat: (written: string) => Heat = memoise((written) => written, readAnew, 2000);

/** `250C`, `480 deg F`, `60 celsius`: the scale is told, and its sign is not. */
const scaleTold = new RegExp(
  String.raw`(?<=\d)\s*(?:(?:[°ºo]|${degrees})\s*)?(c(?:elsius|entigrade)?|f(?:ahrenheit)?)(?![a-zà-ɏ\d])`,
  'gi',
);
const withScale = (text: string): string =>
  text.replace(scaleTold, (_, scale: string) => ` °${scale.charAt(0).toUpperCase()}`);

function readAnew(written: string): Heat {
  const scaled = withScale(written);
  const told = ofNumber(scaled) ?? numberWithin(scaled) ?? ofDegrees(written);
  const number = told && { ...told, written };
  if (number) return number;
  const asNames = written.replace(/\^(?=\d)/g, 'cone ').replace(spacedMark, '$1 $2');
  // `hand-hot, never simmering`: what it was kept from counts only where nothing else is said.
  const kept = heatWordsIn(asNames.replace(/\b(?:never|not|without)\b[^,;.]*/gi, ' '));
  const found = kept.length > 0 ? kept : heatWordsIn(asNames);
  // A mark or a cone says more than the oven or kiln that it stands with.
  const numbered = found.filter(({ word }) => /\d/.test(word));
  const [hottest] = [...(numbered.length > 0 ? numbered : found)].sort((a, b) => b.high.cmp(a.high));
  if (!hottest || (measuredByElse.test(written) && byHand.has(hottest.word)))
    return { written, known: 'not-known', ...atWorst };
  const { word, low, usual, high, note, source } = hottest;
  return { written, known: 'word', low, usual, high, word, source, ...(note !== undefined && { note }) };
}

/** °C at which danger is judged: the upper end of what was said. @example judgedCelsius('red heat') // 850 */
export const judgedCelsius = (written: string): number => readHeat(written).high.toNumber();

// What came out, weighed in or on something: with what that weighs beside it, the difference; without, a question.
import { once } from '../../once.js';
import { parseQuantity } from '../../chemistry/quantity/index.js';
import { drynessWordsTable } from '../../tables/compiled/journal/mending/dryness-words.js';
import { tareWordsTable } from '../../tables/compiled/journal/mending/tare-words.js';

const mass = String.raw`\d+(?:\.\d+)?\s?(?:k|m)?g`;
const the = String.raw`(?:(?:the|my|its|a|of|for|der|die|das|le|la|du|de)\s+)*`;
const less = String.raw`(?:-|−|–|less|minus|weniger|abzüglich|moins|menos|meno)`;
const beside = String.raw`(?:with|incl\.?|including|on|in|plus|\+|and|mit|samt|auf|im|inkl\.?|avec|con)`;

const patterns = once(() => {
  const words = tareWordsTable().map(({ word }) => word);
  const tare = `(?:${words.sort((a, b) => b.length - a.length).join('|')})`;
  const alone = String.raw`(?:\s+(?:alone|empty|itself|by itself|leer|vide|seul))?`;
  const is = String.raw`\s*(?:[:=]|is|was|weighs|weighed|wiegt|wog|pèse)?\s*`;
  const tareAlone = String.raw`${the}(?:empty\s+)?${tare}${alone}`;
  const named = String.raw`(?:${tareAlone}${is}(${mass})|(${mass})\s+${tareAlone})`;
  const within = String.raw`.*(?:^|[\s(])(?:${beside}|still in|still on)\s+${the}(${tare})(?![a-zß-ɏ])`;
  const whole = String.raw`(?:[^\d,;(]*?[\s:=])?(${mass})`;
  return {
    /** `3.02 g - 0.95 g paper`, `4.23 g less the paper, 0.91 g` */
    difference: new RegExp(String.raw`^(${mass})\s*,?\s*${less}\s*${named}$`, 'i'),
    /** `paper + product 2.98 g, paper 0.96 g`, `24.62 g with dish (dish 20.10 g)` */
    both: new RegExp(
      String.raw`^${whole}(?:\s*(?:gross|brutto|full|voll|${beside}\s+${the}${tare}))?\s*[,;(]\s*${named}\)?$`,
      'i',
    ),
    /** `45.31 g with jar`, `4.01 g (still on paper)` */
    vessel: new RegExp(String.raw`(?<![a-zß-ɏ])${tare}(?![a-zß-ɏ])`, 'i'),
    gross: new RegExp(String.raw`^(?=.*\d)(?:${within}|.*\b(?:gross|brutto)\b)`, 'i'),
  };
});

/** Words for a vessel without and with what is in it, in six languages; what is `with` something is full. */
const emptyWords = 'empty|leer|vide|vac[ií][oa]|vuot[oa]|leeg|tare|tara|before|vorher|avant|prima|antes';
const fullBehind = 'full|gross|brutto|voll|plein|llen[oa]|pien[oa]|vol|after|nachher|après|dopo|después';
const fullWords = String.raw`${fullBehind}|with|mit|avec|con|met|plus|\+|and|und|et`;
const oneWeighing = String.raw`([^\d]*?)\s*[:=]?\s*(\d+\.?\d*)\s?`;
const twoWeighings = new RegExp(
  String.raw`^${oneWeighing}(k?g|mg)?\s*(?:[,;/]|->|→|\s)\s*${oneWeighing}(k?g|mg)$`,
  'i',
);
const has = (words: string, text: string): boolean =>
  new RegExp(String.raw`(?<![a-zß-ɏ])(?:${words})(?![a-zß-ɏ])`, 'i').test(text);

/** `Tiegel leer 23.412 g, mit Produkt 25.017 g`, `jar 45.2 g -> 47.9 g`: the vessel first, then with what is in it. */
function emptyThenFull(written: string): string | undefined {
  const [, first = '', empty = '', one, second = '', full = '', other] = twoWeighings.exec(written) ?? [];
  if (other === undefined || (one !== undefined && one !== other) || has(fullWords, first)) return undefined;
  const isVessel = has(emptyWords, first) || patterns().vessel.test(first);
  const isFull = has(fullWords, second) || (second === '' && /->|→/.test(written));
  const net = Number(full) - Number(empty);
  if (!isVessel || !isFull || !(net > 0)) return undefined;
  return `${net.toFixed(Math.min(decimals(full), decimals(empty)))} ${other}`;
}

/** `22.95 - 20.10 g`, `22.95 g − 20.10 g = 2.85 g`: two weighings, the greater first. */
const fullLessEmpty = /^(\d+\.?\d*)\s?(k?g|mg)?\s*[-−–]\s*(\d+\.?\d*)\s?(k?g|mg)?(?:\s*=\s*(\d+\.?\d*)\s?(k?g|mg))?$/;

/** A difference that is written down as one; undefined where it does not fall, or is not what stands behind it. */
function differenceMeant(written: string): string | undefined {
  const [, full = '', one, empty = '', other, told, third] = fullLessEmpty.exec(written) ?? [];
  const unit = other ?? one ?? third;
  // `4.1-3.8 g` may be a range whose ends changed places.
  const isTold = told !== undefined || one !== undefined || /\s[-−–]\s|−/.test(written);
  if (unit === undefined || !isTold || [one, other, third].some((each) => each !== undefined && each !== unit))
    return undefined;
  const digits = Math.max(decimals(full), decimals(empty));
  const net = Number(full) - Number(empty);
  if (!(net > 0) || (told !== undefined && Math.abs(Number(told) - net) > 10 ** -digits)) return undefined;
  return `${net.toFixed(digits)} ${unit}`;
}

const dryness = once(() => {
  const of = (wanted: 'wet' | 'dry'): string =>
    drynessWordsTable()
      .flatMap(({ word, kind }) => (kind === wanted ? [word] : []))
      .sort((a, b) => b.length - a.length)
      .join('|');
  const told = (words: string): string => String.raw`(?:(${mass})\s*\(?(?:${words})\)?|(?:${words})\s*:?\s*(${mass}))`;
  const [wet, dry] = [told(of('wet')), told(of('dry'))];
  const between = String.raw`\s*(?:[,;/]|->|→|=>|and|und|et|y|e|en)?\s*`;
  return [new RegExp(`^${wet}${between}${dry}$`, 'i'), new RegExp(`^${dry}${between}${wet}$`, 'i')] as const;
});

/**
 * Of a product that was weighed wet and dry what it weighed dry; undefined where the words do not tell both.
 * @example dryMeant('3.4 g wet, 2.8 g dry') // '2.8 g'
 */
export function dryMeant(written: string): string | undefined {
  const [wetFirst, dryFirst] = dryness();
  const [, , , before, behind] = wetFirst.exec(written.trim()) ?? [];
  const [, first, second] = dryFirst.exec(written.trim()) ?? [];
  return (before ?? behind ?? first ?? second)?.replace(/(?<=\d)(?=[a-z])/i, ' ');
}

const decimals = (text: string): number => /\.(\d+)/.exec(text)?.[1]?.length ?? 0;

/**
 * What is left of a weighing when what it was weighed in is taken off; undefined where the words do not tell both.
 * @example netMeant('3.02 g - 0.95 g paper') // '2.07 g'
 */
export function netMeant(written: string): string | undefined {
  const fallen = differenceMeant(written.trim()) ?? emptyThenFull(written.trim());
  if (fallen !== undefined) return fallen;
  const { difference, both } = patterns();
  const [, whole = '', before, behind] = difference.exec(written.trim()) ?? both.exec(written.trim()) ?? [];
  const tare = before ?? behind;
  const [full, empty] = [parseQuantity(whole), parseQuantity(tare ?? '')];
  if (tare === undefined || !full.ok || !empty.ok || full.value.unit !== empty.value.unit) return undefined;
  const net = full.value.value.minus(empty.value.value);
  const digits = Math.min(decimals(whole), decimals(tare));
  return net.gt(0) ? `${net.toFixed(digits)} ${full.value.unit}` : undefined;
}

/**
 * What a product was weighed in or on, where only the weight of both is told: `jar`; `tare` where that is not named.
 * @example grossWith('45.31 g with jar') // 'jar'
 */
export function grossWith(written: string): string | undefined {
  const found = patterns().gross.exec(written);
  return found ? (found[1] ?? 'tare').toLowerCase() : undefined;
}

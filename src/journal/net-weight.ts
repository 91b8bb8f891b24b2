// What came out, weighed in or on something: with what that weighs beside it, the difference; without, a question.
import { once } from '../once.js';
import { parseQuantity } from '../chemistry/quantity/index.js';
import { tareWordsTable } from '../tables/compiled/journal/tare-words.js';

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
    gross: new RegExp(String.raw`^(?=.*\d)(?:${within}|.*\b(?:gross|brutto)\b)`, 'i'),
  };
});

const decimals = (text: string): number => /\.(\d+)/.exec(text)?.[1]?.length ?? 0;

/**
 * What is left of a weighing when what it was weighed in is taken off; undefined where the words do not tell both.
 * @example netMeant('3.02 g - 0.95 g paper') // '2.07 g'
 */
export function netMeant(written: string): string | undefined {
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

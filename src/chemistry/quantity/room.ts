// The volume of a room as a maker tells it: a volume, or length by width by height.
import { exact, type Decimal } from '../exact.js';
import { parseQuantity } from './parse.js';

/** Metres in one of each: NIST SP 811 (2008), B.8, exact. */
const metresIn: readonly (readonly [RegExp, string])[] = [
  [/^(?:m|met(?:re|er)s?)?$/, '1'],
  [/^cm$/, '0.01'],
  [/^(?:ft|feet|foot|'|′)$/, '0.3048'],
  [/^(?:yd|yards?)$/, '0.9144'],
];
const metresOf = (unit: string): string | undefined => metresIn.find(([pattern]) => pattern.test(unit))?.[1];

const side = String.raw`(\d+(?:\.\d+)?)\s*([a-z'′]*)`;
const threeSides = new RegExp(String.raw`^${side}\s*(?:x|×|\*|by)\s*${side}\s*(?:x|×|\*|by)\s*${side}$`);
const cubic = /^(\d+(?:\.\d+)?)\s*(?:cubic|cu\.?)\s*([a-z]+)$/;

/**
 * Whether words tell a length by a width, and do not tell a volume.
 * @example hasSides('3 x 4 x 2.5 m') // true
 */
export const hasSides = (text: string): boolean => /\d\s*[a-z'′]*\s*(?:x|×|\*|\bby\b)\s*\d/i.test(text);

/** m3 of a length by a width by a height; what has no unit has that of the last. */
function bySides(text: string): Decimal | undefined {
  const [, ...parts] = threeSides.exec(text) ?? [];
  if (parts.length === 0) return undefined;
  const units = [parts[1], parts[3], parts[5]].map((unit) => metresOf(unit || parts[5]!));
  if (units.includes(undefined)) return undefined;
  return units.reduce((volume, unit, at) => volume.times(parts[2 * at]!).times(unit!), exact(1));
}

function byCubic(text: string): Decimal | undefined {
  const [, count, word] = cubic.exec(text) ?? [];
  const metres = word === undefined ? undefined : metresOf(word);
  return metres === undefined ? undefined : exact(count!).times(exact(metres).pow(3));
}

function byVolume(text: string): Decimal | undefined {
  const read = parseQuantity(/^[\d.]+$/.test(text) ? `${text} m3` : text);
  return read.ok && read.value.dimension === 'volume' ? read.value.base.div('1e6') : undefined;
}

/**
 * m3 of a room, decimal as text; undefined where the words tell no volume, so that whoever asks has to say so.
 * @example roomOf('25 m3') // '25'
 * @example roomOf('2 x 3 x 2.4 m') // '14.4'
 * @example roomOf('3 x 4 x 2,5 m') // '30'
 * @example roomOf('small') // undefined
 */
export function roomOf(written: string): string | undefined {
  const plain = written.trim().toLowerCase();
  // A comma between the figures of a side is a decimal one: nobody works in a room of a thousand metres.
  const text = hasSides(plain) ? plain.replace(/(\d),(?=\d)/g, '$1.') : plain;
  const volume = bySides(text) ?? byCubic(text) ?? byVolume(written.trim());
  return volume?.gt(0) ? volume.toSignificantDigits(12).toFixed() : undefined;
}

// The small language in which a rule says when it holds: `hot 80 or dry and b>=10%`.
import type { Concentration } from './groups.js';

/** Which partner of a rule a condition speaks of. */
export type Side = 'a' | 'b' | 'c';

export type Condition =
  | { readonly kind: 'hot'; readonly celsius: number }
  | { readonly kind: 'dry' }
  /** There is an acid in the pot. */
  | { readonly kind: 'acid' }
  /** Words say that it is damp, or that there is a flame. */
  | { readonly kind: 'damp' }
  | { readonly kind: 'flame' }
  /** Words do not say that it is spread out flat, or under water. */
  | { readonly kind: 'unspread' }
  /** Nothing wets it, and it is not damp either: it flies about. */
  | { readonly kind: 'loose' }
  /** There is not so much water, named with its amount, that what would take fire in it cannot. */
  | { readonly kind: 'undrowned' }
  /** Not all of that side are things of metal that have a shape: a tray, a pan. */
  | { readonly kind: 'may-be-fine'; readonly side: Side }
  /** That side weighs at least so much, where its amount is known. */
  | { readonly kind: 'weighs'; readonly side: Side; readonly grams: number }
  /** That side weighs at least so much, or its amount is not known. */
  | { readonly kind: 'may-weigh'; readonly side: Side; readonly grams: number }
  /** Of that side only those that hold no metal of the other: malachite and copper acetate are left as they are. */
  | { readonly kind: 'other-metal'; readonly side: Side; readonly than: Side }
  | { readonly kind: 'exceeds'; readonly more: Side; readonly less: Side }
  | {
      readonly kind: 'strength';
      readonly side: Side;
      readonly sign: '>' | '>=' | '<';
      readonly value: number;
      readonly unit: '%' | 'M';
    };

/** Conditions that are one word. */
const plainConditions = ['dry', 'acid', 'damp', 'flame', 'unspread', 'loose', 'undrowned'] as const;

/** Alternatives, each a list of conditions that must all hold. An empty text always holds. */
export function readConditions(text: string): readonly (readonly Condition[])[] {
  if (text.trim() === '') return [[]];
  return text.split(' or ').map((alternative) =>
    alternative.split(' and ').map((part) => {
      const words = part.trim();
      const word = plainConditions.find((one) => one === words);
      if (word) return { kind: word };
      const hot = /^hot (\d+)$/.exec(words);
      if (hot) return { kind: 'hot', celsius: Number(hot[1]) };
      const weighs = /^([abc]) weighs (\d+)$/.exec(words);
      if (weighs) return { kind: 'weighs', side: weighs[1] as Side, grams: Number(weighs[2]) };
      const mayWeigh = /^([abc]) may weigh (\d+(?:\.\d+)?)$/.exec(words);
      if (mayWeigh) return { kind: 'may-weigh', side: mayWeigh[1] as Side, grams: Number(mayWeigh[2]) };
      const mayBeFine = /^([abc]) may be fine$/.exec(words);
      if (mayBeFine) return { kind: 'may-be-fine', side: mayBeFine[1] as Side };
      const other = /^([abc]) of another metal than ([abc])$/.exec(words);
      if (other) return { kind: 'other-metal', side: other[1] as Side, than: other[2] as Side };
      const exceeds = /^([abc]) exceeds ([abc])$/.exec(words);
      if (exceeds) return { kind: 'exceeds', more: exceeds[1] as Side, less: exceeds[2] as Side };
      const strength = /^([abc])(>=|>|<)([\d.]+)([%M])$/.exec(words);
      if (strength)
        return {
          kind: 'strength',
          side: strength[1] as Side,
          sign: strength[2] as '>' | '>=' | '<',
          value: Number(strength[3]),
          unit: strength[4] as '%' | 'M',
        };
      throw new Error(`a rule's condition cannot be read: '${part}'`);
    }),
  );
}

/** Whether a strength stands on the right side of a condition; unknown or undiluted is above every bound. */
export function strongEnough(
  { percent, molar }: Concentration,
  { sign, value, unit }: Extract<Condition, { kind: 'strength' }>,
): boolean {
  const given = unit === '%' ? percent : molar;
  if (sign === '<') return given < value;
  return sign === '>' ? given > value : given >= value;
}

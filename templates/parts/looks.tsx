// What an eye saw of a sample, and what may be in it: words, never shown as a measurement.
import type { Element } from 'hast';
import type { Entry } from '../../src/journal/entry.js';

type Sample = Entry['samples'][number];

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/**
 * How a sample looks, in a line; undefined where nothing is said.
 * @example looksWords({ daylight: 'dull green', lamplight: 'olive' }) // 'dull green by daylight, olive by lamplight'
 */
export function looksWords(looks: Sample['looks']): string | undefined {
  if (looks === undefined || typeof looks === 'string') return looks;
  const { daylight, lamplight, covering, texture, note } = looks;
  const parts = [
    daylight && `${daylight} by daylight`,
    lamplight && `${lamplight} by lamplight`,
    covering,
    texture,
    note,
  ].filter((part) => part !== undefined && part !== '');
  return parts.length > 0 ? parts.join(', ') : undefined;
}

const upToStop = (words: string): string => (/[.!?…]$/.test(words) ? words : `${words}.`);

/** The same within a sentence, where a swatch would stand. */
export const seenByEye = (words: string): Element => (<span class="by-eye">{`${words} (by eye)`}</span>) as Element;

/** What the samples look like by eye, each in a line; empty where nothing is said. */
export function looksContent({ samples }: Pick<Entry, 'samples'>): Element[] {
  const seen = samples.flatMap(({ sample, looks }) => {
    const words = looksWords(looks);
    return words === undefined ? [] : [{ sample, words }];
  });
  if (seen.length === 0) return [];
  return [
    (
      <div class="looks">
        <p>By eye, which is no measurement:</p>
        <ul>
          {seen.map(({ sample, words }) => (
            <li>
              <b>{`${sample}: `}</b>
              {upToStop(capital(words))}
            </li>
          ))}
        </ul>
      </div>
    ) as Element,
  ];
}

const nameOf = (one: NonNullable<Sample['carries']>[number]): string => (typeof one === 'string' ? one : one.name);

/** What may have got into a sample, or still be in it, as sentences. */
export const heldWords = (
  { contamination, carries = [] }: Sample,
  names: ReadonlyMap<string, string>,
): readonly string[] => [
  ...(contamination ? [upToStop(`May be contaminated: ${contamination}`)] : []),
  ...(carries.length > 0
    ? [`May still hold ${carries.map((one) => names.get(nameOf(one)) ?? nameOf(one)).join(', ')}.`]
    : []),
];

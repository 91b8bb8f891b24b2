// Classes of the transport of dangerous goods that the statements of a box point to: a reason to ask before posting.
import { transportClassesTable } from '../../tables/compiled/hazards/ghs/transport-classes.js';
import type { HazardBox } from './contracts.js';
import { rootCode } from './hazard-classes.js';

/** A transport class that may apply. */
export interface TransportClass {
  /** `3`, `6.1`, `9` … */
  readonly unClass: string;
  /** `toxic`, `oxidising` … */
  readonly words: string;
  /** Statements that point to it. */
  readonly codes: readonly string[];
  readonly basis: 'seen' | 'memory';
  readonly source: string;
}

export interface TransportAdvice {
  readonly classes: readonly TransportClass[];
  /** Names of what nothing is known of: it may be of any class. */
  readonly unknown: readonly string[];
  /** Sentences, ready to print. */
  readonly words: readonly string[];
}

/**
 * What to ask about before a pack is posted. It names classes that the statements point to; which class, packing group
 * and exemption in fact hold is for the carrier's rules and the law of transport.
 * @example transportAdvice(hazardBox([{ name: 'ethanol' }])).classes[0]?.unClass // '3'
 */
export function transportAdvice(box: HazardBox): TransportAdvice {
  const classes = transportClassesTable().flatMap((row): readonly TransportClass[] => {
    const codes = box.statements.map(({ code }) => code).filter((code) => row.codes.includes(rootCode(code)));
    if (codes.length === 0) return [];
    return [{ unClass: row.un_class, words: row.words, codes, basis: row.basis, source: row.source }];
  });
  const named = classes.map(({ unClass, words, codes }) => `class ${unClass}, ${words} (${codes.join(', ')})`);
  return {
    classes,
    unknown: box.unknown,
    words: [
      ...(named.length > 0 ? [`In transport it may be dangerous goods: ${named.join('; ')}.`] : []),
      ...(box.unknown.length > 0
        ? [`Nothing is known of ${box.unknown.join(', ')}: it may be dangerous goods of any class.`]
        : []),
      ...(named.length + box.unknown.length === 0
        ? ['No statement here points to a class of dangerous goods; that does not make it fit for the post.']
        : []),
      'Do not post it before the carrier’s rules and the law of transport have been read for it; many carriers take ' +
        'no dangerous goods at all, however little.',
    ],
  };
}

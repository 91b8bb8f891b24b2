// Where one authority's statements stand and others, or those who sell the stuff, say otherwise: the one place that
// every command and sheet of labels asks before it shows them.
import type { HazardBox } from './contracts.js';
import { noteSentence } from './hazard-box.js';

/** A substance on whose statements others differ. */
export interface Differing {
  readonly name: string;
  /** Its statements in the box. */
  readonly codes: readonly string[];
  /** Who says otherwise, and what. */
  readonly text: string;
  /** The same with its name. */
  readonly sentence: string;
}

/** Substances of a box that some authority classifies and others do not, or otherwise. */
export function othersDiffer({ statements, notes = [] }: HazardBox): readonly Differing[] {
  return notes.flatMap((note) => {
    const name = note.about;
    if (note.kind !== 'classified-elsewhere' || name === undefined) return [];
    const codes = statements.filter(({ from }) => from.includes(name)).map(({ code }) => code);
    return codes.length === 0 ? [] : [{ name, codes, text: note.text, sentence: noteSentence(note) }];
  });
}

/** `others differ on sodium sulfate (H320, H370)`, for where there is no room for who; undefined where none does. */
export function othersDifferShort(box: HazardBox): string | undefined {
  const on = othersDiffer(box).map(({ name, codes }) => `${name} (${codes.join(', ')})`);
  return on.length === 0 ? undefined : `others differ on ${on.join(', ')}`;
}

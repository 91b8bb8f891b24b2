// Painted strips of several samples one under another, each with its letter and what differs: the head of an entry, a
// comparison.
import type { Element, ElementContent } from 'hast';
import type { SampleRow } from '../../src/crosslinks/model.js';
import { apartWords } from './listed.js';
import { looksWords } from './looks.js';
import { hasFilms, swatchNotes, swatchStrip } from '../pictures/swatch-strip.js';
import { familyRemark } from './family-basis.js';
import { swatchFields } from './swatch-figure.js';

/**
 * The name of a swatch for those who cannot see it.
 * @example swatchName('A', { family: 'green', lab }) // 'A: green, L* 57'
 */
export function swatchName(
  called: string,
  { family, lab }: { readonly family?: string; readonly lab?: readonly [number, number, number] },
): string {
  const lightness = lab ? `L* ${lab[0].toFixed(0)}` : 'colour not measured';
  return `${called}: ${family === undefined ? '' : `${family}, `}${lightness}`;
}

/** The name of a sample's swatch, as `swatchName` has it. */
export const sampleName = (row: SampleRow, called = row.sample): string =>
  swatchName(called, {
    family: row.family && `${row.family}${familyRemark(row.familyBasis)}`,
    lab: row.appearance?.lab,
  });

export interface Strip {
  readonly row: SampleRow;
  /** What stands before the strip; default the sample's id. */
  readonly called?: ElementContent | string;
  /** The same, for those who hear it; default the sample's id. */
  readonly name?: string;
  /** Beside or below the strip; default what differs. */
  readonly words?: ElementContent | string | null;
  /** The anchor of the sample; left out where that lies elsewhere. */
  readonly id?: string;
}

/** What the swatches leave open, each thing said once, with whom it concerns where that is not everyone. */
function notesOf(strips: readonly Strip[]): string[] {
  const painted = strips.filter(({ row }) => row.appearance?.swatch);
  const about = new Map<string, string[]>();
  for (const { row, name } of painted)
    for (const note of swatchNotes(row.appearance!.swatch!))
      about.set(note, [...(about.get(note) ?? []), name ?? row.sample]);
  return [...about].map(([note, of]) => (of.length === painted.length ? note : `${of.join(', ')}: ${note}`));
}

function stripLine({ row, called, name, words, id }: Strip): Element {
  const swatch = row.appearance?.swatch;
  const beside = words === undefined ? apartWords(row) : words;
  const differs = beside ? <span class="differs">{beside}</span> : null;
  if (swatch)
    return (
      <li id={id}>
        <b>{called ?? row.sample}</b>
        {swatchStrip(swatch, sampleName(row, name))}
        {differs}
      </li>
    ) as Element;
  // Of what is only planned, nothing can have been measured.
  const looks = looksWords(row.looks);
  const seen = looks === undefined ? 'colour not measured' : `${looks} (by eye)`;
  const unmeasured = row.entry.status === 'planned' ? '' : seen;
  return (
    <li id={id} class="bare-line">
      <b>{called ?? row.sample}</b>
      {differs}
      {unmeasured ? <span class="no-swatch">{`${beside ? ' · ' : ''}${unmeasured}`}</span> : null}
    </li>
  ) as Element;
}

/** The strips; names of their fields stand below the last, notes below those. */
export function strips(all: readonly Strip[]): Element {
  const notes = notesOf(all);
  const films = all.some(({ row }) => row.appearance?.swatch && hasFilms(row.appearance.swatch));
  return (
    <div class={all.length > 3 ? 'strips many' : 'strips'}>
      <ul>{all.map(stripLine)}</ul>
      {films ? swatchFields() : null}
      {notes.length > 0 ? <p class="swatch-notes">{notes.join('; ')}</p> : null}
    </div>
  ) as Element;
}

// Tints with white: ladders computed from a sample's colour, those that were made and read among them.
import type { Element } from 'hast';
import type { SampleAppearance, TintLadder } from '../../src/reckoning/appearance/appearance-contracts.js';
import { figure, pictureFigure } from '../pictures/figure.js';
import { tintLadder } from '../pictures/ladder.js';
import { capital, everyColumn, labWords, notes, set } from './colour-words.js';

interface Tinted {
  readonly sample: string;
  readonly ladder: TintLadder;
}

const tinted = (samples: readonly SampleAppearance[]): readonly Tinted[] =>
  samples.flatMap(({ sample, tintLadder: ladder }) => (ladder && ladder.steps.length > 0 ? [{ sample, ladder }] : []));

const isRead = ({ ladder }: Tinted): boolean => ladder.steps.some(({ share, measured }) => measured && share < 1);

/** What the ladders hold, as a heading. */
export const tintsTitle = (samples: readonly SampleAppearance[]): string =>
  tinted(samples).some(isRead) ? 'Tints with white, read and computed' : 'Tints with white, computed';

/** A step of some ladder was read from a tint that was made. */
export const anyTintRead = (samples: readonly SampleAppearance[]): boolean =>
  tinted(samples).some(({ ladder }) => ladder.steps.some(({ measured }) => measured));

/** Ladders in groups: samples thinned in the same steps with the same white share one drawing and one table. */
function alikeIn(known: readonly Tinted[]): readonly (readonly Tinted[])[] {
  const groups: Tinted[][] = [];
  for (const one of known) {
    const alike = (other: Tinted): boolean =>
      other.ladder.white === one.ladder.white &&
      other.ladder.steps.length === one.ladder.steps.length &&
      other.ladder.steps.every(({ share }, at) => share === one.ladder.steps[at]!.share);
    const group = groups.find(([first]) => first !== undefined && alike(first));
    if (group) group.push(one);
    else groups.push([one]);
  }
  return groups;
}

/** One drawing and its table. */
function ladderOf(group: readonly Tinted[]): Element {
  const which =
    group.length === 1 ? `sample ${group[0]!.sample}` : `samples ${group.map(({ sample }) => sample).join(', ')}`;
  const read = group.some(isRead);
  const { white, whiteGiven } = group[0]!.ladder;
  const whiteWords = whiteGiven ? `the white that was read (${white})` : white;
  const unpainted = `computed, not painted${read ? ', but for those marked as read' : ''}`;
  return pictureFigure({
    picture: tintLadder({
      samples: group.map(({ sample, ladder }) => ({ label: `sample ${sample}`, steps: ladder.steps })),
      basis: 'computed (Kubelka–Munk)',
    }),
    caption: `${capital(which)} with ${whiteWords}; ${unpainted}.`,
    table: {
      caption: `${read ? 'Tints' : 'Computed tints'} of ${which}: L*, a*, b*, and on screen`,
      label: `Tints of ${which}`,
      head: ['Pigment, %', ...group.map(({ sample }) => sample)],
      rows: group[0]!.ladder.steps.map(({ share }, step) => [
        figure(share * 100),
        ...group.map(({ ladder }) => {
          const { lab, hex, mapped, measured } = ladder.steps[step]!;
          return `${labWords(lab)}; ${hex}${mapped ? ' †' : ''}${read && measured ? ', read' : ''}`;
        }),
      ]),
      words: everyColumn(group),
    },
  });
}

/** The ladders of all samples, drawn and in numbers, and what is to be said of them. */
export function tintPictures(samples: readonly SampleAppearance[]): Element[] {
  const known = tinted(samples);
  const said = notes([...new Set(known.map(({ ladder }) => set(ladder.note)))]);
  const drawn = alikeIn(known).map((group) => ladderOf(group));
  return said ? [...drawn, said] : drawn;
}

/** The ladders, folded: apparatus of the colour section. */
export function tints(samples: readonly SampleAppearance[]): Element | null {
  const pictures = tintPictures(samples);
  if (pictures.length === 0) return null;
  return (
    <details class="behind">
      <summary>{tintsTitle(samples)}</summary>
      {pictures}
    </details>
  ) as Element;
}

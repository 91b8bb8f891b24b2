// A tint ladder: from masstone to white, one step a mixture, touching, on neutral grey; several samples one beneath
// another.
import type { Element, ElementContent } from 'hast';
import { drawing } from './drawing.js';
import { cut, paint, tidy } from './hand.js';
import { field, group, label, shape } from './shapes.js';
import { mappedMark, mappedWords } from './swatch-strip.js';

export interface TintStep {
  /** Share of the pigment in pigment and white together, 1 to 0. */
  readonly share: number;
  readonly hex: string;
  readonly mapped?: boolean;
  /** Read, not computed: said below the step. */
  readonly measured?: boolean;
}

export interface SampleTints {
  readonly label: string;
  readonly steps: readonly TintStep[];
}

const width = 380;
const margin = 13;
/** Mark below a tint that was read. */
const readMark = '■';
/** Room for the samples' names, where there are several. */
const names = 48;
/** So many steps most ladders have, and how broad each is below one another. */
export const usual = { steps: 7, breadth: (width - names - 2 * margin) / 7 } as const;
export const rung = { one: 56, several: 40, gap: 11 };

/**
 * Steps in the order given, their share of pigment in percent below; the samples' shares are the same.
 * @param basis said in the drawing, e.g. `computed by Kubelka–Munk`; a computed ladder never looks like a measured one
 */
export function tintLadder({
  samples,
  basis,
}: {
  readonly samples: readonly SampleTints[];
  readonly basis: string;
}): Element {
  const several = samples.length > 1;
  const left = several ? names : 0;
  const height = several ? rung.several : rung.one;
  const shares = (samples[0]?.steps ?? []).map(({ share }) => share);
  const stepWidth = (width - left - 2 * margin) / Math.max(1, shares.length);
  const every = Math.ceil(34 / stepWidth);
  const anyMapped = samples.some(({ steps }) => steps.some(({ mapped }) => mapped));
  const edge = (i: number): number => tidy(left + margin + i * stepWidth);
  const middle = (i: number): number => tidy(left + margin + (i + 0.5) * stepWidth);
  const top = (row: number): number => margin + row * (height + rung.gap);
  const bottom = top(Math.max(1, samples.length) - 1) + height + margin;
  const content: ElementContent[] = [
    shape('rect', {
      className: ['surround'],
      x: left === 0 ? undefined : left,
      width: width - left,
      height: bottom,
    }),
  ];
  samples.forEach(({ label: name, steps }, row) => {
    const y = top(row);
    if (several) content.push(label(left - 8, y + height / 2 + 4, cut(name.replace(/^sample /, ''), 7), 'end'));
    const colours = steps.map(({ hex }) => paint(hex));
    content.push(
      several && colours.length === usual.steps && colours.every((colour) => colour !== undefined)
        ? usualSteps(colours, edge(0), y)
        : group(
            { className: ['steps'], strokeWidth: height },
            colours.map((colour, i) => field(edge(i), y, tidy(edge(i + 1) - edge(i)), height, colour)),
          ),
    );
    const marked = steps.flatMap(({ mapped, measured }, i) => {
      const words = [mapped ? mappedMark : '', measured ? readMark : ''].join('');
      return words ? [label(middle(i), y + height + 11, words, undefined, { className: ['mark'], fill: '#000' })] : [];
    });
    if (marked.length > 0) content.push(group({ textAnchor: 'middle' }, marked));
  });
  content.push(
    group(
      { textAnchor: 'middle' },
      shares.flatMap((share, i) => (i % every === 0 ? [label(middle(i), bottom + 15, shareWords(share))] : [])),
    ),
    label(0, bottom + 32, `% pigment in white · ${basis}`),
  );
  const anyRead = samples.some(({ steps }) => steps.some(({ measured }) => measured));
  const legend = [
    ...(anyMapped ? [`${mappedMark} ${mappedWords}`] : []),
    ...(anyRead ? [`${readMark} read; the others computed`] : []),
  ];
  if (legend.length > 0) content.push(label(0, bottom + 48, legend.join(' · ')));
  return drawing(
    {
      title: `Tints of ${samples.map((sample) => sample.label).join(', ') || 'no sample'} with white, ${basis}`,
      description:
        shares.length > 0
          ? `${shares.length} steps: ${shares.map(shareWords).join(', ')} % of pigment in ` +
            `white${anyMapped ? `; ${mappedMark} ${mappedWords}` : ''}.`
          : 'No tints.',
      kind: 'ladder',
      width,
      height: bottom + (legend.length > 0 ? 52 : 36),
    },
    content,
  );
}

/** Touching steps, as many as usual, of one of several samples: `.usual` in the style sheet knows where each stands. */
const usualSteps = (colours: readonly (string | undefined)[], x: number, y: number): Element =>
  group(
    { className: ['usual'], transform: `translate(${x} ${y})` },
    colours.map((fill) => shape('rect', { fill })),
  );

const shareWords = (share: number): string => (Number.isFinite(share) ? String(Math.round(share * 1000) / 10) : '–');

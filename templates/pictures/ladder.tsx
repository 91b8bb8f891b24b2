/** @jsxImportSource hastscript/svg */
// A tint ladder: from masstone to white, one step a mixture, touching, on neutral grey.
import type { Element, ElementContent } from 'hast';
import { drawing } from './drawing.js';
import { paint, tidy } from './hand.js';
import { mappedMark, mappedWords } from './swatch-strip.js';

export interface TintStep {
  /** Share of the pigment in pigment and white together, 1 to 0. */
  readonly share: number;
  readonly hex: string;
  readonly mapped?: boolean;
}

const width = 380;

/**
 * Steps in the order given, their share of pigment in percent below.
 * @param basis said in the drawing, e.g. `computed by Kubelka–Munk`; a computed ladder never looks like a measured one
 */
export function tintLadder({ id, label, steps, basis }: { readonly id: string; readonly label: string; readonly steps: readonly TintStep[]; readonly basis: string }): Element {
  const stepWidth = (width - 26) / Math.max(1, steps.length);
  const every = Math.ceil(34 / stepWidth);
  const anyMapped = steps.some(({ mapped }) => mapped);
  const middle = (i: number): number => tidy(13 + (i + 0.5) * stepWidth);
  const content: ElementContent[] = [
    <rect class="surround" width={width} height={82} fill="#808080" /> as Element,
    <g class="steps">
      {steps.map(({ hex }, i) => {
        const x = tidy(13 + i * stepWidth);
        const breadth = tidy(13 + (i + 1) * stepWidth - x);
        const colour = paint(hex);
        return colour
          ? <rect x={x} y={13} width={breadth} height={56} fill={colour} />
          : <rect class="unpainted" x={tidy(x + 0.5)} y={13.5} width={tidy(Math.max(0, breadth - 1))} height={55} fill="none" stroke="#000000" stroke-dasharray="4 4" />;
      })}
    </g> as Element,
    <g text-anchor="middle">
      {steps.map(({ share, mapped }, i) => [
        mapped ? <text class="mark" x={middle(i)} y={80} fill="#000000">{mappedMark}</text> : null,
        i % every === 0 ? <text x={middle(i)} y={97}>{shareWords(share)}</text> : null,
      ])}
    </g> as Element,
  ];
  content.push(<text x={0} y={114}>{`% pigment in white · ${basis}`}</text> as Element);
  if (anyMapped) content.push(<text x={0} y={130}>{`${mappedMark} ${mappedWords}`}</text> as Element);
  return drawing({
    id,
    title: `Tints of ${label} with white, ${basis}`,
    description: steps.length > 0 ? `${steps.length} steps: ${steps.map(({ share }) => shareWords(share)).join(', ')} % of pigment in white${anyMapped ? `; ${mappedMark} ${mappedWords}` : ''}.` : 'No tints.',
    kind: 'ladder',
    width,
    height: anyMapped ? 134 : 118,
  }, content);
}

const shareWords = (share: number): string => (Number.isFinite(share) ? String(Math.round(share * 1000) / 10) : '–');

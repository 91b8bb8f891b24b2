/** @jsxImportSource hastscript/svg */
// A tint ladder: from masstone to white, one step a mixture, touching, on neutral grey; several samples one beneath another.
import type { Element, ElementContent } from 'hast';
import { drawing } from './drawing.js';
import { box, cut, paint, tidy } from './hand.js';
import { mappedMark, mappedWords } from './swatch-strip.js';

export interface TintStep {
  /** Share of the pigment in pigment and white together, 1 to 0. */
  readonly share: number;
  readonly hex: string;
  readonly mapped?: boolean;
}

export interface SampleTints {
  readonly label: string;
  readonly steps: readonly TintStep[];
}

const width = 380;
const margin = 13;
/** Room for the samples' names, where there are several. */
const names = 48;
const rung = { one: 56, several: 40, gap: 11 };

/**
 * Steps in the order given, their share of pigment in percent below; the samples' shares are the same.
 * @param basis said in the drawing, e.g. `computed by Kubelka–Munk`; a computed ladder never looks like a measured one
 */
export function tintLadder({ samples, basis }: { readonly samples: readonly SampleTints[]; readonly basis: string }): Element {
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
  const content: ElementContent[] = [<rect class="surround" x={left === 0 ? null : left} width={width - left} height={bottom} fill="#777777" /> as Element];
  samples.forEach(({ label, steps }, row) => {
    const y = top(row);
    if (several) content.push(<text x={left - 8} y={y + height / 2 + 4} text-anchor="end">{cut(label.replace(/^sample /, ''), 7)}</text> as Element);
    content.push(<g class="steps">
      {steps.map(({ hex }, i) => {
        const x = edge(i);
        const breadth = tidy(edge(i + 1) - x);
        const colour = paint(hex);
        return colour
          ? <path d={box(x, y, breadth, height)} fill={colour} />
          : <rect class="unpainted" x={tidy(x + 0.5)} y={y + 0.5} width={tidy(Math.max(0, breadth - 1))} height={height - 1} fill="none" stroke="#000" stroke-dasharray="4 4" />;
      })}
    </g> as Element);
    const marked = steps.flatMap(({ mapped }, i) => (mapped ? [<text class="mark" x={middle(i)} y={y + height + 11} fill="#000">{mappedMark}</text> as Element] : []));
    if (marked.length > 0) content.push(<g text-anchor="middle">{marked}</g> as Element);
  });
  content.push(
    <g text-anchor="middle">{shares.map((share, i) => (i % every === 0 ? <text x={middle(i)} y={bottom + 15}>{shareWords(share)}</text> : null))}</g> as Element,
    <text x={0} y={bottom + 32}>{`% pigment in white · ${basis}`}</text> as Element,
  );
  if (anyMapped) content.push(<text x={0} y={bottom + 48}>{`${mappedMark} ${mappedWords}`}</text> as Element);
  return drawing({
    title: `Tints of ${samples.map(({ label }) => label).join(', ') || 'no sample'} with white, ${basis}`,
    description: shares.length > 0 ? `${shares.length} steps: ${shares.map(shareWords).join(', ')} % of pigment in white${anyMapped ? `; ${mappedMark} ${mappedWords}` : ''}.` : 'No tints.',
    kind: 'ladder',
    width,
    height: bottom + (anyMapped ? 52 : 36),
  }, content);
}

const shareWords = (share: number): string => (Number.isFinite(share) ? String(Math.round(share * 1000) / 10) : '–');

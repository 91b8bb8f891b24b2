/** @jsxImportSource hastscript/svg */
// Samples edge to edge under daylight and under lamplight: pairs that part, and colours that move, are seen here.
import type { Element, ElementContent } from 'hast';
import { drawing } from './drawing.js';
import { box, cut, paint, tidy } from './hand.js';
import { mappedMark, mappedWords } from './swatch-strip.js';

export interface UnderLamp {
  /** `daylight`, `lamplight` … */
  readonly lamp: string;
  readonly hex: string;
  readonly mapped?: boolean;
}

export interface SampleUnderLamps {
  readonly label: string;
  readonly lamps: readonly UnderLamp[];
}

export interface LampPair {
  /** Two samples of a pair; or one, shown as it moves; or more. */
  readonly samples: readonly SampleUnderLamps[];
  /** A sentence on the difference, e.g. the verdict; part of the text alternative. */
  readonly verdict?: string;
}

const left = 74;
const width = 380;
const field = { margin: 13, height: 54, gap: 11, head: 20 };

/** Rows of fields, one a lamp, the samples touching; a single sample's lamps touch each other instead. */
export function lampPair({ samples, verdict }: LampPair): Element {
  const lampNames = [...new Set(samples.flatMap(({ lamps }) => lamps.map(({ lamp }) => lamp)))];
  const find = (sample: SampleUnderLamps, lamp: string): UnderLamp | undefined => sample.lamps.find((under) => under.lamp === lamp);
  const only = samples.length === 1 ? samples[0] : undefined;
  const columns = only ? lampNames : samples.map(({ label }) => label);
  const rows: { readonly name: string; readonly fields: readonly (UnderLamp | undefined)[] }[] = only
    ? [{ name: only.label, fields: lampNames.map((lamp) => find(only, lamp)) }]
    : lampNames.map((lamp) => ({ name: lamp, fields: samples.map((sample) => find(sample, lamp)) }));
  const surroundHeight = 2 * field.margin + rows.length * field.height + Math.max(0, rows.length - 1) * field.gap;
  const fieldWidth = (width - left - 2 * field.margin) / Math.max(1, columns.length);
  const letters = Math.max(2, Math.floor(fieldWidth / 6.5));
  const anyMapped = rows.some(({ fields }) => fields.some((under) => under?.mapped));
  const content: ElementContent[] = [<rect class="surround" x={left} y={field.head} width={width - left} height={surroundHeight} fill="#777777" /> as Element];
  columns.forEach((column, i) => {
    content.push(<text x={tidy(left + field.margin + fieldWidth * (i + 0.5))} y={13} text-anchor="middle">{cut(column, letters)}</text> as Element);
  });
  const painted: ElementContent[] = [];
  rows.forEach(({ name, fields }, row) => {
    const y = field.head + field.margin + row * (field.height + field.gap);
    content.push(<text x={left - 10} y={y + field.height / 2 + 4} text-anchor="end">{cut(name, 11)}</text> as Element);
    fields.forEach((under, i) => {
      const x = tidy(left + field.margin + i * fieldWidth);
      const breadth = tidy(left + field.margin + (i + 1) * fieldWidth - x);
      const colour = paint(under?.hex);
      painted.push(colour
        ? <path d={box(x, y, breadth, field.height)} fill={colour} /> as Element
        : <rect class="unpainted" x={tidy(x + 0.5)} y={y + 0.5} width={tidy(Math.max(0, breadth - 1))} height={field.height - 1} fill="none" stroke="#000000" stroke-dasharray="4 4" /> as Element);
      if (under?.mapped) painted.push(<text class="mark" x={tidy(x + breadth / 2)} y={y + field.height + 10} fill="#000000" text-anchor="middle">{mappedMark}</text> as Element);
    });
  });
  content.push(<g class="fields">{painted}</g> as Element);
  if (anyMapped) content.push(<text x={width} y={field.head + surroundHeight + 15} font-size={11.5} text-anchor="end">{`${mappedMark} ${mappedWords}`}</text> as Element);
  const described = samples.map(({ label, lamps }) => `${label}: ${lamps.map(({ lamp, hex, mapped }) => `${lamp} ${hex}${mapped ? ` (${mappedWords})` : ''}`).join(', ')}.`);
  if (verdict) described.push(verdict);
  return drawing({
    title: `${samples.map(({ label }) => label).join(' and ') || 'No sample'} under ${lampNames.join(' and ') || 'no lamp'}`,
    description: described.join(' ') || 'No colour known.',
    kind: 'lamps',
    width,
    height: field.head + surroundHeight + (anyMapped ? 22 : 2),
  }, content);
}

// Samples edge to edge under daylight and under lamplight: pairs that part, and colours that move, are seen here.
import type { Element, ElementContent } from 'hast';
import { drawing } from './drawing.js';
import { cut, paint, tidy } from './hand.js';
import { field, group, label, shape } from './shapes.js';
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
  /** Name of the drawing, where something else than the lamp changes. */
  readonly title?: string;
}

const left = 74;
const width = 380;
const room = { margin: 12, height: 44, gap: 10, head: 20 };

/** Rows of fields, one a lamp, the samples touching; a single sample's lamps touch each other instead. */
export function lampPair({ samples, verdict, title }: LampPair): Element {
  const lampNames = [...new Set(samples.flatMap(({ lamps }) => lamps.map(({ lamp }) => lamp)))];
  const find = (sample: SampleUnderLamps, lamp: string): UnderLamp | undefined =>
    sample.lamps.find((under) => under.lamp === lamp);
  const only = samples.length === 1 ? samples[0] : undefined;
  const columns = only ? lampNames : samples.map((sample) => sample.label);
  const rows: { readonly name: string; readonly fields: readonly (UnderLamp | undefined)[] }[] = only
    ? [{ name: only.label, fields: lampNames.map((lamp) => find(only, lamp)) }]
    : lampNames.map((lamp) => ({ name: lamp, fields: samples.map((sample) => find(sample, lamp)) }));
  const surroundHeight = 2 * room.margin + rows.length * room.height + Math.max(0, rows.length - 1) * room.gap;
  const fieldWidth = (width - left - 2 * room.margin) / Math.max(1, columns.length);
  const letters = Math.max(2, Math.floor(fieldWidth / 6.5));
  const anyMapped = rows.some(({ fields }) => fields.some((under) => under?.mapped));
  const content: ElementContent[] = [
    shape('rect', {
      className: ['surround'],
      x: left,
      y: room.head,
      width: width - left,
      height: surroundHeight,
    }),
  ];
  columns.forEach((column, i) => {
    content.push(label(tidy(left + room.margin + fieldWidth * (i + 0.5)), 13, cut(column, letters), 'middle'));
  });
  const painted: ElementContent[] = [];
  rows.forEach(({ name, fields }, row) => {
    const y = room.head + room.margin + row * (room.height + room.gap);
    content.push(label(left - 10, y + room.height / 2 + 4, cut(name, 11)));
    fields.forEach((under, i) => {
      const x = tidy(left + room.margin + i * fieldWidth);
      const breadth = tidy(left + room.margin + (i + 1) * fieldWidth - x);
      painted.push(field(x, y, breadth, room.height, paint(under?.hex)));
      if (under?.mapped)
        painted.push(
          label(tidy(x + breadth / 2), y + room.height + 10, mappedMark, 'middle', {
            className: ['mark'],
            fill: '#000',
          }),
        );
    });
  });
  content.push(group({ className: ['fields'], strokeWidth: room.height }, painted));
  if (anyMapped) content.push(label(width, room.head + surroundHeight + 15, `${mappedMark} ${mappedWords}`, 'end'));
  const described = samples.map(
    ({ label: name, lamps }) =>
      `${name}: ` +
      `${lamps.map(({ lamp, hex, mapped }) => `${lamp} ${hex}${mapped ? ` (${mappedWords})` : ''}`).join(', ')}.`,
  );
  if (verdict) described.push(verdict);
  return drawing(
    {
      title:
        title ??
        `${samples.map((sample) => sample.label).join(' and ') || 'No sample'} under ` +
          `${lampNames.join(' and ') || 'no lamp'}`,
      description: described.join(' ') || 'No colour known.',
      kind: 'lamps',
      width,
      height: room.head + surroundHeight + (anyMapped ? 22 : 2),
    },
    content,
  );
}

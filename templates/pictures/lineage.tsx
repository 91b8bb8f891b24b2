/** @jsxImportSource hastscript/svg */
// Where a sample comes from: a line for each lot and reagent, what it was made from set in beneath it.
import type { Element, ElementContent } from 'hast';
import { drawing } from './drawing.js';

/** One step: a lot or a bought reagent. */
export interface LineageStep {
  readonly name: string;
  readonly lot?: string;
  readonly entry?: number;
  readonly sample?: string;
  readonly taken?: string;
  readonly yield?: string;
  readonly from: readonly LineageStep[];
  readonly further?: boolean;
}

const step = 22;
const indent = 20;
const mostLines = 60;

interface Line {
  readonly depth: number;
  readonly parent: number;
  readonly step: LineageStep;
}

function lines(root: LineageStep): readonly Line[] {
  const found: Line[] = [];
  const walk = (one: LineageStep, depth: number, parent: number): void => {
    if (found.length >= mostLines) return;
    found.push({ depth, parent, step: one });
    const here = found.length - 1;
    for (const child of one.from) walk(child, depth + 1, here);
  };
  walk(root, 0, -1);
  return found;
}

const shortened = (words: string, most: number): string =>
  words.length > most ? `${words.slice(0, most - 1)}…` : words;
const wordsOf = ({ name, lot, taken, yield: percent, further }: LineageStep, root: boolean): string =>
  [
    shortened(name, 44),
    lot === undefined ? '' : `no. ${lot}`,
    taken === undefined ? '' : `${taken} taken`,
    percent === undefined || root ? '' : `yield ${percent}`,
    further ? 'made from earlier lots' : '',
  ]
    .filter((part) => part !== '')
    .join(', ');

/** The drawing; filled dots are lots made here, open ones bought reagents. */
export function lineageDrawing({ title, root }: { readonly title: string; readonly root: LineageStep }): Element {
  const all = lines(root);
  const y = (index: number): number => 16 + index * step;
  const x = (depth: number): number => 8 + depth * indent;
  const words = all.map(({ step: one }, index) =>
    index === 0 && title !== '' ? `${title}: ${shortened(one.name, 40)}` : wordsOf(one, index === 0),
  );
  const width = Math.max(320, ...all.map(({ depth }, index) => x(depth) + 14 + words[index]!.length * 6.8));
  const content: ElementContent[] = [
    (
      <g fill="none" stroke="currentColor" stroke-width="1" opacity="0.5">
        {all.map(({ depth, parent }, index) =>
          parent < 0 ? null : <path d={`M${x(depth - 1)} ${y(parent) + 6}V${y(index)}H${x(depth) - 5}`} />,
        )}
      </g>
    ) as Element,
    ...all.map(({ depth, step: one }, index): ElementContent => {
      const mark =
        one.lot === undefined ? (
          <circle cx={x(depth)} cy={y(index)} r={3} fill="none" stroke="currentColor" />
        ) : (
          <circle cx={x(depth)} cy={y(index)} r={4} fill="currentColor" />
        );
      return (
        <g>
          {mark}
          <text x={x(depth) + 10} y={y(index) + 5} font-size={13}>
            {words[index]!}
          </text>
        </g>
      ) as Element;
    }),
  ];
  return drawing(
    {
      kind: 'lineage',
      ownWidth: true,
      title: `What ${title === '' ? 'it' : title.charAt(0).toLowerCase() + title.slice(1)} was made from`,
      description: `${words.join('; ')}.`,
      width: Math.ceil(width),
      height: y(all.length - 1) + 14,
    },
    content,
  );
}

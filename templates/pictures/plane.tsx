/** @jsxImportSource hastscript/svg */
// The a*b* plane: where the samples of a series lie by hue and chroma, with rings of equal chroma; and a rule of
// their lightness.
import type { Element, ElementContent } from 'hast';
import { scaleLinear } from 'd3-scale';
import { drawing } from './drawing.js';
import { shape } from './shapes.js';
import { cut, paint, tidy } from './hand.js';
import { around, spread, type Box } from './labels.js';

export interface PlacedColour {
  /** Short, e.g. `14 A`. */
  readonly label: string;
  readonly lab: readonly [number, number, number];
  readonly hex?: string;
  readonly family?: string;
}

export interface HueName {
  readonly name: string;
  /** Hue angle in degrees, from +a* (0) to +b* (90). */
  readonly angle: number;
}

/**
 * Middles of the hue ranges of the colour families, at full chroma (source: the boundaries fitted to ISCC–NBS hue
 * names, src/colour).
 */
const hueNames: readonly HueName[] = [
  { name: 'red', angle: 9 },
  { name: 'orange', angle: 51 },
  { name: 'yellow', angle: 86 },
  { name: 'green', angle: 139 },
  { name: 'blue-green', angle: 208 },
  { name: 'blue', angle: 270 },
  { name: 'violet', angle: 322 },
];

const size = 380;
const centre = size / 2;
const reach = 148;
/** Direction in which the rings are numbered, in radians: between blue-green and blue, where few pigments lie. */
const ringWordsAt = (236 * Math.PI) / 180;

/** Above these many colours dots go without names, and the text alternative tells of so many and counts the rest. */
const mostNamed = 100;
const mostTold = 40;

/** Sentences on the first colours, and how many more there are. */
const told = (colours: readonly PlacedColour[], sentence: (colour: PlacedColour) => string): string => {
  const said = colours.slice(0, mostTold).map(sentence);
  if (colours.length > mostTold) said.push(`And ${colours.length - mostTold} more.`);
  return said.join(' ') || 'No colour was measured.';
};

const known = (colours: readonly PlacedColour[]): PlacedColour[] =>
  colours.filter(({ lab }) => lab.every((part) => Number.isFinite(part)));

type Anchor = 'start' | 'middle' | 'end';
/** How much of the words' length lies before the place that they are anchored at. */
const anchored: Readonly<Record<Anchor, number>> = { start: 0, middle: 0.5, end: 1 };

/** The anchor of words around a circle: they lead away from its centre. */
function anchorAt(across: number): Anchor {
  if (across > 0.35) return 'start';
  return across < -0.35 ? 'end' : 'middle';
}

/**
 * Dots in their own colours, named; rings of C*; hue names at the edge. Names that find no room stand in the table
 * only.
 */
export function abPlane({
  title,
  colours,
  hues = hueNames,
}: {
  readonly title: string;
  readonly colours: readonly PlacedColour[];
  readonly hues?: readonly HueName[];
}): Element {
  const placed = known(colours);
  const furthest = placed.reduce((most, { lab }) => Math.max(most, Math.hypot(lab[1], lab[2])), 30);
  const radius = scaleLinear([0, furthest], [0, reach]).nice(4);
  const rings = radius.ticks(4).filter((chroma) => chroma > 0);
  const scale = (value: number): number => (value / (radius.domain()[1] ?? 1)) * reach;
  const content: ElementContent[] = [];
  rings.forEach((chroma, i) => {
    content.push(
      (
        <circle
          class="ring"
          cx={centre}
          cy={centre}
          r={tidy(scale(chroma))}
          fill="none"
          stroke="currentColor"
          stroke-opacity={i === rings.length - 1 ? 0.45 : 0.2}
        />
      ) as Element,
    );
  });
  content.push(
    (
      <path
        class="rule"
        d={`M${centre - reach} ${centre}h${2 * reach}M${centre} ${centre - reach}v${2 * reach}`}
        stroke="currentColor"
        stroke-opacity={0.3}
      />
    ) as Element,
  );
  const besides: Box[] = [];
  const words = (x: number, y: number, text: string, kind: 'quiet' | 'hue', anchor: Anchor): void => {
    const length = [...text].length * 5.8;
    besides.push({
      x: x - anchored[anchor] * length,
      y: y - 9,
      width: length,
      height: 11,
    });
    content.push(
      (
        <text class={kind} x={tidy(x)} y={tidy(y)} font-size={kind === 'hue' ? 11.5 : 10} text-anchor={anchor}>
          {text}
        </text>
      ) as Element,
    );
  };
  rings.forEach((chroma, i) => {
    words(
      centre + scale(chroma) * Math.cos(ringWordsAt) - 3,
      centre - scale(chroma) * Math.sin(ringWordsAt) + 9,
      i === rings.length - 1 ? `C* ${chroma}` : String(chroma),
      'quiet',
      'end',
    );
  });
  words(centre + reach - 3, centre - 4, '+a*', 'quiet', 'end');
  words(centre + 4, centre - reach + 11, '+b*', 'quiet', 'start');
  for (const { name, angle } of hues) {
    const across = Math.cos((angle * Math.PI) / 180);
    const up = Math.sin((angle * Math.PI) / 180);
    words(centre + across * (reach + 7), centre - up * (reach + 10) + 4, name, 'hue', anchorAt(across));
  }
  const dots = placed.map(({ label, lab, hex }) => {
    const words = cut(label, 14);
    return { words, hex, x: centre + scale(lab[1]), y: centre - scale(lab[2]), width: [...words].length * 6.2 + 2 };
  });
  const boxes =
    dots.length > mostNamed
      ? dots.map(() => undefined)
      : around(dots, 13, 8, { x: 2, y: 2, width: size - 4, height: size - 4 }, besides);
  dots.forEach((dot, i) => {
    const box = boxes[i];
    if (!box) return;
    const nearX = Math.min(Math.max(dot.x, box.x), box.x + box.width);
    const nearY = Math.min(Math.max(dot.y, box.y + 3), box.y + box.height - 2);
    if (Math.hypot(nearX - dot.x, nearY - dot.y) > 13)
      content.push(
        (<path class="leader" d={`M${tidy(dot.x)} ${tidy(dot.y)}L${tidy(nearX)} ${tidy(nearY)}`} />) as Element,
      );
  });
  dots.forEach((dot, i) => {
    const box = boxes[i];
    content.push(...dotAt(dot.x, dot.y, dot.hex));
    if (box)
      content.push(
        (
          <text class="name" x={tidy(box.x + 1)} y={tidy(box.y + 10)}>
            {dot.words}
          </text>
        ) as Element,
      );
  });
  const unnamed = boxes.filter((box) => !box).length;
  if (unnamed > 0)
    content.push(
      (
        <text class="quiet" x={0} y={size - 4} font-size={10}>
          {unnamed === placed.length ? 'names in the table' : `${unnamed} more named in the table`}
        </text>
      ) as Element,
    );
  if (placed.length === 0)
    content.push(
      (
        <text x={centre} y={centre - 8} font-size={12} text-anchor="middle">
          no colour measured
        </text>
      ) as Element,
    );
  return drawing({ title, description: told(placed, planeWords), kind: 'plane', width: size, height: size }, content);
}

/** A sample's colour in a ring of the grey surround; the style sheet draws the ring. */
function dotAt(x: number, y: number, hex: string | undefined): Element[] {
  const [cx, cy] = [tidy(x), tidy(y)];
  const fill = paint(hex);
  if (fill) return [shape('circle', { className: ['colour'], cx, cy, fill })];
  return [
    shape('circle', { className: ['surround'], cx, cy, r: 8, fill: '#777777' }),
    shape('circle', {
      className: ['colour', 'unpainted'],
      cx,
      cy,
      r: 5.7,
      fill: 'none',
      stroke: '#000000',
      strokeDashArray: '2 2',
    }),
  ];
}

function planeWords({ label, lab: [lightness, a, b], family }: PlacedColour): string {
  const hue = (Math.atan2(b, a) * 180) / Math.PI;
  return (
    `${label}${family ? `, ${family}` : ''}: L* ${lightness.toFixed(0)}, C* ${Math.hypot(a, b).toFixed(0)}, hue ` +
    `${((hue + 360) % 360).toFixed(0)}°.`
  );
}

/** Lightness from black (0) to white (100) as a rule, the samples' dots along it. */
export function lightnessRule({
  title,
  colours,
}: {
  readonly title: string;
  readonly colours: readonly PlacedColour[];
}): Element {
  const placed = known(colours);
  const x = scaleLinear([0, 100], [22, size - 22]).clamp(true);
  const content: ElementContent[] = [
    (
      <path
        d={`M${x(0)} 62H${x(100)}${x
          .ticks(10)
          .map((tick) => `M${tidy(x(tick))} 62v${tick % 50 === 0 ? 8 : 5}`)
          .join('')}`}
        stroke="currentColor"
        fill="none"
      />
    ) as Element,
  ];
  for (const [tick, words, anchor] of [
    [0, '0 black', 'start'],
    [50, '50', 'middle'],
    [100, 'white 100', 'end'],
  ] as const) {
    content.push(
      (
        <text x={tidy(x(tick) + 8 * (anchored[anchor] - 0.5))} y={84} text-anchor={anchor}>
          {words}
        </text>
      ) as Element,
    );
  }
  content.push(
    (
      <text x={0} y={11}>
        L*
      </text>
    ) as Element,
  );
  const widest = placed.reduce((most, { label }) => Math.max(most, [...cut(label, 6)].length), 1);
  const wanted = placed.map(({ lab }) => x(lab[0]));
  // A few dots are set side by side; of many, each stands at its own lightness and they overlap.
  const crowded = placed.length > 20;
  const places = crowded ? wanted : spread(wanted, Math.max(17, widest * 6.4 + 4), 22, size - 22);
  const named = !crowded && (placed.length < 2 || (size - 44) / (placed.length - 1) >= widest * 6);
  placed.forEach(({ label, hex }, i) => {
    const at = wanted[i] ?? 0;
    const place = places[i] ?? at;
    content.push(
      (<path class="leader" d={`M${tidy(at)} 62L${tidy(place)} 38`} />) as Element,
      ...dotAt(place, 34, hex),
    );
    if (named)
      content.push(
        (
          <text class="name" x={tidy(place)} y={21} text-anchor="middle">
            {cut(label, 6)}
          </text>
        ) as Element,
      );
  });
  return drawing(
    {
      title,
      description: told(placed, ({ label, lab }) => `${label}: L* ${lab[0].toFixed(0)}.`),
      kind: 'lightness',
      width: size,
      height: 90,
    },
    content,
  );
}

// Reflectance curves of several samples, told apart by dashes and by names at their ends, not by colour.
import type { Element, ElementContent } from 'hast';
import { scaleLinear } from 'd3-scale';
import { drawing } from './drawing.js';
import { cut, paint, straight, tidy, turning, type Point } from './hand.js';
import { spread } from './labels.js';
import { madeOnceBy } from '../of-many-pages.js';
import { linear, logarithmic, marksBetween, type Span } from './scales.js';
import { group, label, shape } from './shapes.js';

export interface ReflectanceCurve {
  readonly label: string;
  /** Wavelength in nm and reflectance as a share (1 is all light), by wavelength. */
  readonly points: readonly (readonly [number, number])[];
  /** The sample's colour, shown as a dot beside its name. */
  readonly hex?: string;
}

const width = 380;
const height = 232;
/** `.up` and `.along` in the style sheet set the marks of the scales beside and below it. */
const frame = { left: 34, top: 26, bottom: 190 };
/** Longest name beside a curve, in letters. */
const longestName = 13;
const dashes = [undefined, '7 3', '2 2.5', '9 3 2 3', '1 4', '14 4', '10 3 2 3 2 3', '4 7'];

/** Where no sample reflects more than this, the frame ends here, and says so. */
const darkest = 0.25;

/** How values are set against wavelength: the scale up the side, its marks, and the words. */
interface ValueScale {
  readonly kind: string;
  /** What stands above the scale. */
  readonly heading: string;
  readonly title: (names: string) => string;
  readonly empty: string;
  /** Values at the ends of the frame, and how those between are set. */
  readonly ends: Span;
  readonly scale: (ends: Span, frame: Span) => (value: number) => number;
  readonly marks: () => readonly number[];
  readonly markWords: (value: number) => string;
  readonly describe: (points: ReflectanceCurve['points']) => string;
}

type CurvePoint = ReflectanceCurve['points'][number];

const canBeDrawn = ([nm, value]: CurvePoint): boolean => nm >= 380 && nm <= 780 && Number.isFinite(value);

/** Points that can be drawn, with their values as they are drawn. */
const drawable = (
  curves: readonly ReflectanceCurve[],
  drawnAs: (value: number) => number = (value) => value,
): ReflectanceCurve[] =>
  curves
    .map(({ label: name, points, hex }) => ({
      label: name,
      hex,
      points: points.filter(canBeDrawn).map(([nm, value]): CurvePoint => [nm, drawnAs(value)]),
    }))
    .filter(({ points }) => points.length > 0);

/** The least and the greatest of a number of all points, and of two numbers to begin with. */
function endsOf(drawn: readonly ReflectanceCurve[], part: 0 | 1, low: number, high: number): [number, number] {
  let [least, most] = [low, high];
  for (const { points } of drawn)
    for (const point of points) {
      if (point[part] < least) least = point[part];
      if (point[part] > most) most = point[part];
    }
  return [least, most];
}

const lowest = (points: ReflectanceCurve['points']) => points.reduce((low, point) => (point[1] < low[1] ? point : low));
const highestOf = (points: ReflectanceCurve['points']) =>
  points.reduce((high, point) => (point[1] > high[1] ? point : high));

/** Curves from 400 to 700 nm, 0 to 100 %; further where a reading goes further, to 25 % where all are dark. */
export function reflectanceCurves({ curves }: { readonly curves: readonly ReflectanceCurve[] }): Element {
  const drawn = drawable(curves);
  const top = highestMark(endsOf(drawn, 1, 0, 0)[1]);
  return lineCurves(drawn, {
    kind: 'curves',
    heading: top === darkest ? `reflectance, %, drawn to ${darkest * 100} % only` : 'reflectance, %',
    title: (names) => `Reflectance of ${names}`,
    empty: 'Reflectance: no spectrum',
    ends: [0, top],
    scale: linear,
    marks: () => marksBetween([0, top], 5),
    markWords: (share) => String(Math.round(share * 100)),
    describe: (points) => {
      const [least, most] = [lowest(points), highestOf(points)];
      return `lowest ${percent(least[1])} at ${least[0]} nm, highest ${percent(most[1])} at ${most[0]} nm.`;
    },
  });
}

/** Least and greatest K/S that are drawn: reflectances of 99 % and 1 % are about 0.00005 and 49. */
const ksFrame = [0.001, 100] as const;

/** K/S of an opaque layer, on a scale of powers of ten: a band keeps its shape there when a pigment is thinned. */
export function absorptionCurves({ curves }: { readonly curves: readonly ReflectanceCurve[] }): Element {
  const within = (value: number): number => Math.min(ksFrame[1], Math.max(ksFrame[0], value));
  const drawn = drawable(curves, within);
  const [least, greatest] = endsOf(drawn, 1, 0.1, 1);
  const low = 10 ** Math.floor(Math.log10(least));
  const high = 10 ** Math.ceil(Math.log10(greatest));
  const decades = Math.round(Math.log10(high / low));
  return lineCurves(drawn, {
    kind: 'curves absorption',
    heading: 'K/S, each mark ten times the one below',
    title: (names) => `K/S of ${names}`,
    empty: 'K/S: no spectrum',
    ends: [low, high],
    scale: logarithmic,
    marks: () => Array.from({ length: decades + 1 }, (_, i) => low * 10 ** i),
    markWords: (value) => String(Number(value.toPrecision(1))),
    describe: (points) => {
      const most = highestOf(points);
      return `highest K/S ${most[1].toFixed(2)} at ${most[0]} nm.`;
    },
  });
}

/** The slope of the reflectance, per cent a nanometre: edges are peaks. */
export function slopeCurves({ curves }: { readonly curves: readonly ReflectanceCurve[] }): Element {
  const drawn = drawable(curves, (value) => 100 * value);
  const domain = scaleLinear(endsOf(drawn, 1, 0, 0.2), [0, 1]).nice(4);
  const [low = 0, high = 1] = domain.domain();
  return lineCurves(drawn, {
    kind: 'curves slope',
    heading: 'slope of the reflectance, % per nm',
    title: (names) => `Slope of the reflectance of ${names}`,
    empty: 'Slope of the reflectance: no spectrum',
    ends: [low, high],
    scale: linear,
    marks: () => domain.ticks(4),
    markWords: (value) => String(value).replace('-', '−'),
    describe: (points) => {
      const most = highestOf(points);
      return `steepest rise ${most[1].toFixed(2)} % per nm at ${most[0]} nm.`;
    },
  });
}

/** What curves are drawn on, as far as it is the same in many drawings. */
interface Ground {
  readonly values: ValueScale;
  readonly wavelengths: Span;
  /** Where the frame ends. */
  readonly right: number;
  /** What tells it from others. */
  readonly key: string;
}

function groundOf(values: ValueScale, wavelengths: Span, right: number): Ground {
  const { kind, heading, ends } = values;
  return { values, wavelengths, right, key: [kind, heading, ...ends, ...wavelengths, right].join(' ') };
}

const keyOf = ({ key }: Ground): string => key;

const yOf = ({ scale, ends }: ValueScale): ((value: number) => number) => scale(ends, [frame.bottom, frame.top]);

const xOf = ({ wavelengths, right }: Ground): ((nm: number) => number) => linear(wavelengths, [frame.left, right]);

const rules = madeOnceBy(keyOf, ({ values, right }: Ground) => {
  const y = yOf(values);
  const marks = values.marks().map((share) => `M${frame.left} ${tidy(y(share))}H${right}`);
  return shape('path', { className: ['rule'], d: marks.join('') });
});

const wordsUp = madeOnceBy(keyOf, ({ values }: Ground) => {
  const y = yOf(values);
  const marks = values.marks().map((value) => label(undefined, tidy(y(value) + 4), values.markWords(value)));
  return group({ className: ['up'] }, marks);
});

const wordsAlong = madeOnceBy(keyOf, (ground: Ground) => {
  const x = xOf(ground);
  const marks = marksBetween(ground.wavelengths, 6).map((nm) => label(tidy(x(nm)), undefined, nm));
  return group({ className: ['along'] }, marks);
});

const axis = madeOnceBy(keyOf, (ground: Ground) => {
  const x = xOf(ground);
  const marks = marksBetween(ground.wavelengths, 6).map((nm) => tidy(x(nm)));
  const d = `M${frame.left} ${frame.bottom}H${ground.right}${ticks(marks, frame.bottom)}`;
  return shape('path', { className: ['axis'], d });
});

const heading = madeOnceBy(keyOf, ({ values }: Ground) => label(undefined, 12, values.heading));

const wordsBelow = madeOnceBy(keyOf, ({ right }: Ground) => label(right, height - 4, 'wavelength, nm'));

function lineCurves(drawn: readonly ReflectanceCurve[], values: ValueScale): Element {
  const letters = Math.max(1, ...drawn.map((curve) => Math.min(longestName, [...curve.label].length)));
  // Steps of 10 nm are a whole number of units where the frame spans 300 nm.
  const across = width - 38 - letters * 7 - frame.left;
  const plot = { ...frame, right: frame.left + across - (across % 30) };
  const ground = groundOf(values, endsOf(drawn, 0, 400, 700), plot.right);
  const [x, y] = [xOf(ground), yOf(values)];
  const path = (points: ReflectanceCurve['points']): string =>
    straight(turning(points.map(([nm, share]): Point => [x(nm), y(share)])), 'M');
  const content: ElementContent[] = [rules, wordsUp, wordsAlong, axis, heading, wordsBelow].map((part) => part(ground));
  const ends = drawn.map(({ points }): Point => {
    const last = points[points.length - 1] ?? [700, 0];
    return [x(last[0]), y(last[1])];
  });
  const places = spread(
    ends.map(([, at]) => at),
    14,
    plot.top,
    plot.bottom - 2,
  );
  drawn.forEach((curve, i) => {
    const dash = dashes[i % dashes.length];
    const [endX, endY] = ends[i] ?? [plot.right, plot.bottom];
    const place = places[i] ?? endY;
    const colour = paint(curve.hex);
    const alone = curve.points.length === 1;
    content.push(
      alone
        ? shape('circle', { className: ['curve'], cx: tidy(endX), cy: tidy(endY), r: 2.5 })
        : shape('path', {
            className: ['curve'],
            d: path(curve.points),
            strokeWidth: i < dashes.length ? undefined : 2.6,
            strokeDashArray: dash,
          }),
      shape('path', {
        className: ['leader'],
        d: straight(
          [
            [endX + 2, endY],
            [plot.right + 12, place],
          ],
          'M',
        ),
      }),
    );
    if (colour)
      content.push(shape('circle', { className: ['dot'], cx: plot.right + 19, cy: tidy(place), fill: colour }));
    content.push(
      label(plot.right + (colour ? 28 : 16), tidy(place + 4), cut(curve.label, longestName), undefined, {
        className: ['whose'],
      }),
    );
  });
  if (drawn.length === 0)
    content.push(
      label((plot.left + plot.right) / 2, (plot.top + plot.bottom) / 2, 'no spectrum', 'middle', { fontSize: 12 }),
    );
  const described = drawn.map(({ label: name, points }) => `${name}: ${values.describe(points)}`);
  return drawing(
    {
      title: drawn.length === 0 ? values.empty : values.title(drawn.map((curve) => curve.label).join(', ')),
      description: described.join(' ') || 'No spectrum was read.',
      kind: values.kind,
      width,
      height,
    },
    content,
  );
}

/** Marks at these places below a frame, one leading to the next. */
const ticks = (places: readonly number[], bottom: number): string =>
  places.map((at, i) => (i === 0 ? `M${at} ${bottom}v5` : `m${tidy(at - places[i - 1]!)}-5v5`)).join('');

/** Where the frame ends: at 100 %, higher where a reading is, lower where all are dark. */
function highestMark(highest: number): number {
  if (highest > 1.005) return Math.ceil(highest * 10) / 10;
  return highest > 0 && highest <= darkest ? darkest : 1;
}

const percent = (share: number): string => `${(share * 100).toFixed(share < 0.1 ? 1 : 0)} %`;

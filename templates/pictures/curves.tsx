// Reflectance curves of several samples, told apart by dashes and by names at their ends, not by colour.
import type { Element, ElementContent } from 'hast';
import { scaleLinear } from 'd3-scale';
import { drawing } from './drawing.js';
import { cut, paint, straight, tidy, type Point } from './hand.js';
import { spread } from './labels.js';
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
const frame = { left: 34, top: 26, bottom: 190 };
/** Longest name beside a curve, in letters. */
const longestName = 13;
const dashes = [undefined, '7 3', '2 2.5', '9 3 2 3', '1 4', '14 4', '10 3 2 3 2 3', '4 7'];

/** Where no sample reflects more than this, the frame ends here, and says so. */
const darkest = 0.25;

/** Curves from 400 to 700 nm, 0 to 100 %; further where a reading goes further, to 25 % where all are dark. */
export function reflectanceCurves({ curves }: { readonly curves: readonly ReflectanceCurve[] }): Element {
  const drawn = curves
    .map((curve) => ({
      ...curve,
      points: curve.points.filter(
        ([nm, share]) => Number.isFinite(nm) && Number.isFinite(share) && nm >= 380 && nm <= 780,
      ),
    }))
    .filter(({ points }) => points.length > 0);
  const letters = Math.max(1, ...drawn.map((curve) => Math.min(longestName, [...curve.label].length)));
  const plot = { ...frame, right: width - 38 - letters * 7 };
  const wavelengths = drawn.flatMap(({ points }) => points.map(([nm]) => nm));
  const shares = drawn.flatMap(({ points }) => points.map(([, share]) => share));
  const highest = shares.reduce((most, share) => Math.max(most, share), 0);
  const x = scaleLinear(
    [
      wavelengths.reduce((least, nm) => Math.min(least, nm), 400),
      wavelengths.reduce((most, nm) => Math.max(most, nm), 700),
    ],
    [plot.left, plot.right],
  );
  const top = highestMark(highest);
  const y = scaleLinear([0, top], [plot.bottom, plot.top]);
  const path = (points: ReflectanceCurve['points']): string =>
    straight(
      points.map(([nm, share]): Point => [x(nm), y(share)]),
      'M',
    );
  const content: ElementContent[] = [];
  content.push(
    shape('path', {
      className: ['rule'],
      d: y
        .ticks(5)
        .map((share) => `M${plot.left} ${tidy(y(share))}H${plot.right}`)
        .join(''),
      stroke: 'currentColor',
      strokeOpacity: 0.18,
    }),
    group(
      { textAnchor: 'end' },
      y.ticks(5).map((share) => label(plot.left - 6, tidy(y(share) + 4), Math.round(share * 100))),
    ),
    group(
      { textAnchor: 'middle' },
      x.ticks(6).map((nm) => label(tidy(x(nm)), plot.bottom + 19, nm)),
    ),
    shape('path', {
      d: `M${plot.left} ${plot.bottom}H${plot.right}${x
        .ticks(6)
        .map((nm) => `M${tidy(x(nm))} ${plot.bottom}v5`)
        .join('')}`,
      stroke: 'currentColor',
    }),
    label(0, 12, top === darkest ? `reflectance, %, drawn to ${darkest * 100} % only` : 'reflectance, %'),
    label(plot.right, height - 4, 'wavelength, nm', 'end'),
  );
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
            stroke: 'currentColor',
            strokeWidth: i < dashes.length ? 1.7 : 2.6,
            strokeDashArray: dash,
          }),
      shape('path', { className: ['leader'], d: `M${tidy(endX + 2)} ${tidy(endY)}L${plot.right + 12} ${tidy(place)}` }),
    );
    if (colour)
      content.push(shape('circle', { className: ['dot'], cx: plot.right + 19, cy: tidy(place), r: 4.5, fill: colour }));
    content.push(
      label(plot.right + (colour ? 28 : 16), tidy(place + 4), cut(curve.label, longestName), undefined, {
        fontSize: 13,
      }),
    );
  });
  if (drawn.length === 0)
    content.push(
      label((plot.left + plot.right) / 2, (plot.top + plot.bottom) / 2, 'no spectrum', 'middle', { fontSize: 12 }),
    );
  const described = drawn.map(({ label: name, points }) => {
    const least = points.reduce((low, point) => (point[1] < low[1] ? point : low));
    const most = points.reduce((high, point) => (point[1] > high[1] ? point : high));
    return `${name}: lowest ${percent(least[1])} at ${least[0]} nm, highest ${percent(most[1])} at ${most[0]} nm.`;
  });
  return drawing(
    {
      title:
        drawn.length === 0
          ? 'Reflectance: no spectrum'
          : `Reflectance of ${drawn.map((curve) => curve.label).join(', ')}`,
      description: described.join(' ') || 'No spectrum was read.',
      kind: 'curves',
      width,
      height,
    },
    content,
  );
}

/** Where the frame ends: at 100 %, higher where a reading is, lower where all are dark. */
function highestMark(highest: number): number {
  if (highest > 1.005) return Math.ceil(highest * 10) / 10;
  return highest > 0 && highest <= darkest ? darkest : 1;
}

const percent = (share: number): string => `${(share * 100).toFixed(share < 0.1 ? 1 : 0)} %`;

/** @jsxImportSource hastscript/svg */
// Reflectance curves of several samples, told apart by dashes and by names at their ends, not by colour.
import type { Element, ElementContent } from 'hast';
import { scaleLinear } from 'd3-scale';
import { drawing } from './drawing.js';
import { cut, paint, straight, tidy, type Point } from './hand.js';
import { spread } from './labels.js';

export interface ReflectanceCurve {
  readonly label: string;
  /** Wavelength in nm and reflectance as a share (1 is all light), by wavelength. */
  readonly points: readonly (readonly [number, number])[];
  /** The sample's colour, shown as a dot beside its name. */
  readonly hex?: string;
}

const width = 380;
const height = 262;
const plot = { left: 34, right: 274, top: 26, bottom: 224 };
const dashes = [undefined, '7 3', '2 2.5', '9 3 2 3', '1 4', '14 4', '10 3 2 3 2 3', '4 7'];

/** Where no sample reflects more than this, the frame ends here, and says so. */
const darkest = 0.25;

/** Curves from 400 to 700 nm, 0 to 100 %; further where a reading goes further, to 25 % where all are dark. */
export function reflectanceCurves({ curves }: { readonly curves: readonly ReflectanceCurve[] }): Element {
  const drawn = curves
    .map((curve) => ({ ...curve, points: curve.points.filter(([nm, share]) => Number.isFinite(nm) && Number.isFinite(share) && nm >= 380 && nm <= 780) }))
    .filter(({ points }) => points.length > 0);
  const wavelengths = drawn.flatMap(({ points }) => points.map(([nm]) => nm));
  const shares = drawn.flatMap(({ points }) => points.map(([, share]) => share));
  const highest = shares.reduce((most, share) => Math.max(most, share), 0);
  const x = scaleLinear([wavelengths.reduce((least, nm) => Math.min(least, nm), 400), wavelengths.reduce((most, nm) => Math.max(most, nm), 700)], [plot.left, plot.right]);
  const top = highest > 1.005 ? Math.ceil(highest * 10) / 10 : highest > 0 && highest <= darkest ? darkest : 1;
  const y = scaleLinear([0, top], [plot.bottom, plot.top]);
  const path = (points: ReflectanceCurve['points']): string => straight(points.map(([nm, share]): Point => [x(nm), y(share)]), 'M');
  const content: ElementContent[] = [];
  content.push(
    <path class="rule" d={y.ticks(5).map((share) => `M${plot.left} ${tidy(y(share))}H${plot.right}`).join('')} stroke="currentColor" stroke-opacity={0.18} /> as Element,
    <g text-anchor="end">{y.ticks(5).map((share) => <text x={plot.left - 6} y={tidy(y(share) + 4)}>{Math.round(share * 100)}</text>)}</g> as Element,
    <g text-anchor="middle">{x.ticks(6).map((nm) => <text x={tidy(x(nm))} y={plot.bottom + 18}>{nm}</text>)}</g> as Element,
  );
  content.push(
    <path d={`M${plot.left} ${plot.bottom}H${plot.right}${x.ticks(6).map((nm) => `M${tidy(x(nm))} ${plot.bottom}v5`).join('')}`} stroke="currentColor" /> as Element,
    <text x={0} y={12}>{top === darkest ? `reflectance, %, drawn to ${darkest * 100} % only` : 'reflectance, %'}</text> as Element,
    <text x={plot.right} y={height - 4} text-anchor="end">wavelength, nm</text> as Element,
  );
  const ends = drawn.map(({ points }): Point => {
    const last = points[points.length - 1] ?? [700, 0];
    return [x(last[0]), y(last[1])];
  });
  const places = spread(ends.map(([, at]) => at), 14, plot.top, plot.bottom - 2);
  drawn.forEach((curve, i) => {
    const dash = dashes[i % dashes.length];
    const [endX, endY] = ends[i] ?? [plot.right, plot.bottom];
    const place = places[i] ?? endY;
    const colour = paint(curve.hex);
    const alone = curve.points.length === 1;
    content.push(
      (alone
        ? <circle class="curve" cx={tidy(endX)} cy={tidy(endY)} r={2.5} fill="currentColor" />
        : <path class="curve" d={path(curve.points)} stroke="currentColor" stroke-width={i < dashes.length ? 1.7 : 2.6} stroke-dasharray={dash} />) as Element,
      <path class="leader" d={`M${tidy(endX + 2)} ${tidy(endY)}L${plot.right + 12} ${tidy(place)}`} /> as Element,
    );
    if (colour) content.push(<circle class="dot" cx={plot.right + 19} cy={tidy(place)} r={4.5} fill={colour} /> as Element);
    content.push(<text x={plot.right + (colour ? 28 : 16)} y={tidy(place + 4)} font-size={12}>{cut(curve.label, 13)}</text> as Element);
  });
  if (drawn.length === 0) content.push(<text x={(plot.left + plot.right) / 2} y={(plot.top + plot.bottom) / 2} font-size={12} text-anchor="middle">no spectrum</text> as Element);
  const described = drawn.map(({ label, points }) => {
    const least = points.reduce((low, point) => (point[1] < low[1] ? point : low));
    const most = points.reduce((high, point) => (point[1] > high[1] ? point : high));
    return `${label}: lowest ${percent(least[1])} at ${least[0]} nm, highest ${percent(most[1])} at ${most[0]} nm.`;
  });
  return drawing({
    title: drawn.length === 0 ? 'Reflectance: no spectrum' : `Reflectance of ${drawn.map(({ label }) => label).join(', ')}`,
    description: described.join(' ') || 'No spectrum was read.',
    kind: 'curves',
    width,
    height,
  }, content);
}

const percent = (share: number): string => `${(share * 100).toFixed(share < 0.1 ? 1 : 0)} %`;

// How stored values of a picture stand for light: the curves of its ICC profile, or those of sRGB where it has none.
import type { TransferCurve } from './picture.js';

/** IEC 61966-2-1. */
export const srgbCurve: TransferCurve = (value) =>
  value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;

export const linearCurve: TransferCurve = (value) => value;

export interface PictureCurves {
  readonly curves: readonly [TransferCurve, TransferCurve, TransferCurve];
  /** Where they come from, as words for a note. */
  readonly from: 'profile' | 'srgb';
}

const srgb: PictureCurves = { curves: [srgbCurve, srgbCurve, srgbCurve], from: 'srgb' };

const textAt = (view: DataView, at: number): string =>
  String.fromCharCode(...[0, 1, 2, 3].map((i) => view.getUint8(at + i)));

/** `curv`: a gamma, or a table of equal steps. ICC.1:2010, 10.5. */
function tableCurve(view: DataView, at: number): TransferCurve | undefined {
  const count = view.getUint32(at + 8);
  if (count === 0) return linearCurve;
  if (count === 1) {
    const gamma = view.getUint16(at + 12) / 256;
    return (value) => value ** gamma;
  }
  if (count > 70_000 || at + 12 + 2 * count > view.byteLength) return undefined;
  const steps = Float64Array.from({ length: count }, (_, i) => view.getUint16(at + 12 + 2 * i) / 65535);
  return (value) => {
    const place = Math.min(Math.max(value, 0), 1) * (count - 1);
    const i = Math.min(Math.floor(place), count - 2);
    return steps[i]! + (place - i) * (steps[i + 1]! - steps[i]!);
  };
}

/** `para`: a power with a straight part. ICC.1:2010, 10.15. */
function parametricCurve(view: DataView, at: number): TransferCurve | undefined {
  const kind = view.getUint16(at + 8);
  const counts = [1, 3, 4, 5, 7];
  const count = counts[kind];
  if (count === undefined) return undefined;
  const [g = 1, a = 1, b = 0, c = 0, d = -Infinity, e = 0, f = 0] = Array.from(
    { length: count },
    (_, i) => view.getInt32(at + 12 + 4 * i) / 65536,
  );
  const power = (value: number, add: number): number => Math.max(0, a * value + b) ** g + add;
  if (kind === 0) return (value) => value ** g;
  if (kind === 1) return (value) => (value >= -b / a ? power(value, 0) : 0);
  if (kind === 2) return (value) => (value >= -b / a ? power(value, c) : c);
  if (kind === 3) return (value) => (value >= d ? power(value, 0) : c * value);
  return (value) => (value >= d ? power(value, e) : c * value + f);
}

function curveAt(view: DataView, at: number): TransferCurve | undefined {
  const type = textAt(view, at);
  if (type === 'curv') return tableCurve(view, at);
  return type === 'para' ? parametricCurve(view, at) : undefined;
}

function curvesIn(view: DataView): PictureCurves['curves'] | undefined {
  const tags = Math.min(view.getUint32(128), 200);
  const found = new Map<string, TransferCurve>();
  for (let i = 0; i < tags; i += 1) {
    const at = 132 + 12 * i;
    const name = textAt(view, at);
    if (!/^[rgb]TRC$/.test(name)) continue;
    const curve = curveAt(view, view.getUint32(at + 4));
    if (curve) found.set(name, curve);
  }
  const [red, green, blue] = ['rTRC', 'gTRC', 'bTRC'].map((name) => found.get(name));
  return red && green && blue ? [red, green, blue] : undefined;
}

/**
 * The curves of an ICC profile; those of sRGB if there is none, or it has no curves for red, green and blue.
 * The primaries are not needed: the colours are fitted to the chart.
 */
export function curvesOfProfile(profile: Uint8Array | undefined): PictureCurves {
  if (!profile || profile.byteLength < 144) return srgb;
  try {
    const curves = curvesIn(new DataView(profile.buffer, profile.byteOffset, profile.byteLength));
    return curves ? { curves, from: 'profile' } : srgb;
  } catch {
    // A profile that was cut short reads over its end.
    return srgb;
  }
}

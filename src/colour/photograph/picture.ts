// A photograph as plain numbers, upright: what the colours of its parts are read from. Nothing here knows files.

/** Pixels row by row from the upper left corner, red, green, blue each. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array | Uint16Array;
  /** What a channel has at most: 255 or 65535. */
  readonly maximum: number;
  /** Light of a channel from its stored value, both 0 … 1, for red, green and blue. */
  readonly curves: readonly [TransferCurve, TransferCurve, TransferCurve];
  /** What the file has that its colours suffer from, as sentences. */
  readonly notes?: readonly string[];
}

/** Linear light from a stored value, 0 … 1. */
export type TransferCurve = (value: number) => number;

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Red, green and blue in linear light, 0 … 1. */
export type Rgb = readonly [number, number, number];

/** A part of a picture: mean light, and what tells whether it can be trusted. */
export interface Area {
  readonly mean: Rgb;
  /** Standard deviation of the pixels over their mean, the largest of the channels. */
  readonly noise: number;
  /** By how much one half of the area is lighter than the other, over the mean: the largest of both directions. */
  readonly slope: number;
  /** Share of pixels with a channel at its end. */
  readonly clipped: number;
  readonly pixels: number;
}

/** Stored values from this share of the maximum on are clipped. */
const clippedFrom = 0.99;

/** Sums of a half of an area. */
interface Half {
  sum: number;
  pixels: number;
}

const meanOf = ({ sum, pixels }: Half): number => (pixels === 0 ? 0 : sum / pixels);

/** Gathers the pixels of an area one by one. */
class AreaSums {
  private readonly sum = [0, 0, 0];
  private readonly squares = [0, 0, 0];
  private readonly halves: readonly [Half, Half, Half, Half] = [
    { sum: 0, pixels: 0 },
    { sum: 0, pixels: 0 },
    { sum: 0, pixels: 0 },
    { sum: 0, pixels: 0 },
  ];
  private pixels = 0;
  private clipped = 0;

  constructor(private readonly middle: Point) {}

  add(x: number, y: number, light: Rgb, clipped: boolean): void {
    for (let c = 0; c < 3; c += 1) {
      this.sum[c]! += light[c]!;
      this.squares[c]! += light[c]! ** 2;
    }
    const all = light[0] + light[1] + light[2];
    for (const half of [this.halves[x < this.middle.x ? 0 : 1], this.halves[y < this.middle.y ? 2 : 3]]) {
      half.sum += all;
      half.pixels += 1;
    }
    this.pixels += 1;
    if (clipped) this.clipped += 1;
  }

  area(): Area | undefined {
    const n = this.pixels;
    if (n === 0) return undefined;
    const mean = this.sum.map((sum) => sum / n) as unknown as Rgb;
    const all = mean[0] + mean[1] + mean[2];
    const spread = mean.map((m, c) => Math.sqrt(Math.max(0, this.squares[c]! / n - m * m)) / Math.max(m, 1e-6));
    const [left, right, upper, lower] = this.halves.map(meanOf) as [number, number, number, number];
    const slope = Math.max(Math.abs(left - right), Math.abs(upper - lower)) / Math.max(all, 1e-6);
    return { mean, noise: Math.max(...spread), slope, clipped: this.clipped / n, pixels: n };
  }
}

/**
 * The mean light of the pixels of a picture that lie within an area.
 * @param box what surrounds the area, in pixels
 * @param within whether a pixel belongs to it
 */
export function areaOf(
  picture: Picture,
  box: { readonly from: Point; readonly to: Point },
  within: (x: number, y: number) => boolean = () => true,
): Area | undefined {
  const { width, height, data, maximum, curves } = picture;
  const sums = new AreaSums({ x: (box.from.x + box.to.x) / 2, y: (box.from.y + box.to.y) / 2 });
  const ends = clippedFrom * maximum;
  for (let y = Math.max(0, Math.ceil(box.from.y)); y <= Math.min(height - 1, box.to.y); y += 1)
    for (let x = Math.max(0, Math.ceil(box.from.x)); x <= Math.min(width - 1, box.to.x); x += 1) {
      if (!within(x, y)) continue;
      const at = 3 * (y * width + x);
      const [r, g, b] = [data[at]!, data[at + 1]!, data[at + 2]!];
      const light: Rgb = [curves[0](r / maximum), curves[1](g / maximum), curves[2](b / maximum)];
      sums.add(x, y, light, Math.max(r, g, b) >= ends);
    }
  return sums.area();
}

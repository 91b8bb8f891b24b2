// Where labels go in a drawing, so that none covers another.

/** Places along one axis, at least `gap` apart and within the limits, each as near as may be to where it was wanted. Order is kept. */
export function spread(wanted: readonly number[], gap: number, low: number, high: number): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0) || a - b);
  const room = order.length > 1 ? Math.min(gap, (high - low) / (order.length - 1)) : gap;
  const places = wanted.map(() => 0);
  let before = low - room;
  for (const i of order) before = places[i] = Math.max(wanted[i] ?? 0, before + room);
  let after = high + room;
  for (const i of order.reverse()) after = places[i] = Math.min(places[i] ?? 0, after - room);
  return places;
}

export interface Box { readonly x: number; readonly y: number; readonly width: number; readonly height: number }

const apart = (a: Box, b: Box): boolean => a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;

/**
 * For each dot a place for a label of the given size near it, clear of every dot and of every other label,
 * or undefined where there is none within reach.
 */
export function around(dots: readonly { readonly x: number; readonly y: number; readonly width: number }[], height: number, radius: number, frame: Box): (Box | undefined)[] {
  const taken: Box[] = dots.map(({ x, y }) => ({ x: x - radius, y: y - radius, width: 2 * radius, height: 2 * radius }));
  return dots.map(({ x, y, width }) => {
    for (const reach of [radius + 2, radius + 10, radius + 20, radius + 32, radius + 46]) {
      for (const degrees of [0, 180, 45, 315, 135, 225, 90, 270]) {
        const across = Math.cos((degrees * Math.PI) / 180);
        const up = Math.sin((degrees * Math.PI) / 180);
        const box: Box = {
          x: x + across * reach + (across > 0.1 ? 0 : across < -0.1 ? -width : -width / 2),
          y: y - up * reach - height / 2 - up * (height / 2),
          width,
          height,
        };
        const inside = box.x >= frame.x && box.y >= frame.y && box.x + width <= frame.x + frame.width && box.y + height <= frame.y + frame.height;
        if (inside && taken.every((other) => apart(box, other))) {
          taken.push(box);
          return box;
        }
      }
    }
    return undefined;
  });
}

// Where labels go in a drawing, so that none covers another.

/**
 * Places along one axis, at least `gap` apart (less where there is no room for that) and within the limits,
 * each as near as may be to where it was wanted: crowded ones are set side by side about their common middle. Order
 * is kept.
 */
export function spread(wanted: readonly number[], gap: number, low: number, high: number): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => (wanted[a] ?? 0) - (wanted[b] ?? 0) || a - b);
  const room = order.length > 1 ? Math.min(gap, (high - low) / (order.length - 1)) : gap;
  const groups: { members: number[]; first: number }[] = [];
  for (const i of order) {
    let group = { members: [i], first: settle([i], wanted, room, low, high) };
    for (
      let last = groups[groups.length - 1];
      last && last.first + (last.members.length - 0.001) * room > group.first;
      last = groups[groups.length - 1]
    ) {
      groups.pop();
      const members = [...last.members, ...group.members];
      group = { members, first: settle(members, wanted, room, low, high) };
    }
    groups.push(group);
  }
  const places = wanted.map(() => 0);
  for (const { members, first } of groups)
    members.forEach((i, at) => {
      places[i] = first + at * room;
    });
  return places;
}

/** Where a row of members `room` apart begins, so that it lies about the middle of where they were wanted. */
function settle(
  members: readonly number[],
  wanted: readonly number[],
  room: number,
  low: number,
  high: number,
): number {
  const middle = members.reduce((sum, i, at) => sum + (wanted[i] ?? 0) - at * room, 0) / members.length;
  return Math.max(low, Math.min(middle, high - (members.length - 1) * room));
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const apart = (a: Box, b: Box): boolean =>
  a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;

function isFree(box: Box, taken: readonly Box[]): boolean {
  for (const other of taken) if (!apart(box, other)) return false;
  return true;
}

/** How much of its width a label is set back: none to the right of its dot, all to the left, half above and below. */
function shiftOf(across: number): number {
  if (across > 0.1) return 0;
  return across < -0.1 ? -1 : -0.5;
}

/**
 * For each dot a place for a label of the given size near it, clear of every dot, of every other label and of the
 * boxes given besides; or undefined where there is none within reach.
 */
export function around(
  dots: readonly { readonly x: number; readonly y: number; readonly width: number }[],
  height: number,
  radius: number,
  frame: Box,
  besides: readonly Box[] = [],
): (Box | undefined)[] {
  const taken: Box[] = [
    ...besides,
    ...dots.map(({ x, y }) => ({ x: x - radius, y: y - radius, width: 2 * radius, height: 2 * radius })),
  ];
  return dots.map(({ x, y, width }) => {
    for (const reach of [radius + 2, radius + 10, radius + 20, radius + 32, radius + 46]) {
      for (const degrees of [0, 180, 45, 315, 135, 225, 90, 270]) {
        const across = Math.cos((degrees * Math.PI) / 180);
        const up = Math.sin((degrees * Math.PI) / 180);
        const box: Box = {
          x: x + across * reach + shiftOf(across) * width,
          y: y - up * reach - height / 2 - up * (height / 2),
          width,
          height,
        };
        const inside =
          box.x >= frame.x &&
          box.y >= frame.y &&
          box.x + width <= frame.x + frame.width &&
          box.y + height <= frame.y + frame.height;
        if (inside && isFree(box, taken)) {
          taken.push(box);
          return box;
        }
      }
    }
    return undefined;
  });
}

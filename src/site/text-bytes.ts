// Texts as bytes, to be written and hashed at once.

/** Longer texts are few: each gets room of its own. */
const mostInRoom = 1 << 20;
let room = Buffer.allocUnsafeSlow(1 << 16);

/**
 * A text as bytes, which stay until the next text is asked for: room of its own for each costs as much as the encoding.
 * @example bytesOf('CO₂').length // 5
 */
export function bytesOf(text: string): Uint8Array {
  // A sign of a text takes three bytes at most.
  const most = 3 * text.length;
  if (most > mostInRoom) return Buffer.from(text);
  if (most > room.length) room = Buffer.allocUnsafeSlow(most);
  return room.subarray(0, room.write(text));
}

// The text of a file as instruments write it: UTF-8, UTF-16 with or without its mark, Windows-1252, padded with zero
// bytes.

/** Bytes that tell how a text is encoded. */
const sniffed = 4000;

/** Of bytes at even or at odd places, the share that is zero. */
function zeroShare(bytes: Uint8Array, parity: 0 | 1): number {
  const end = Math.min(bytes.length, sniffed);
  let [zeros, all] = [0, 0];
  for (let i = parity; i < end; i += 2) {
    all += 1;
    if (bytes[i] === 0) zeros += 1;
  }
  return all === 0 ? 0 : zeros / all;
}

/** UTF-16 by its mark, or because nearly every second byte of Western text is zero. */
function utf16Of(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | undefined {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  const [even, odd] = [zeroShare(bytes, 0), zeroShare(bytes, 1)];
  if (odd > 0.7 && even < 0.3) return 'utf-16le';
  return even > 0.7 && odd < 0.3 ? 'utf-16be' : undefined;
}

/**
 * Windows-1252 from 80 to 9F, where it differs from Latin-1: a browser knows them, Node before 24 reads control signs.
 * Source: Unicode Consortium, CP1252.TXT.
 */
const from80 = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';
const fromWindows1252 = (bytes: Uint8Array): string =>
  new TextDecoder('windows-1252')
    .decode(bytes)
    .replace(/[\u0080-\u009f]/g, (sign) => from80[sign.charCodeAt(0) - 0x80]!);

/**
 * Text of the bytes of a file: UTF-16 if it is that, else UTF-8, else Windows-1252 (which any bytes can be).
 * @example decodeText(new Uint8Array([0xff, 0xfe, 0x34, 0])) // '4'
 */
export function decodeText(bytes: Uint8Array): string {
  const utf16 = utf16Of(bytes);
  if (utf16) return new TextDecoder(utf16).decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return fromWindows1252(bytes);
  }
}

/** Control characters that no text has, zero aside. */
const binary = /[\u0001-\u0008\u000e-\u001f]/;

/**
 * Text without byte order mark, and without what pads it: zero bytes, and the end-of-file mark of old systems.
 * Undefined if it is no text. Only its head is looked at.
 */
export function plainText(text: string): string | undefined {
  const body = text.startsWith('\ufeff') ? text.slice(1) : text;
  const trimmed = /[\0\u001a]$/.test(body) ? body.replace(/[\0\u001a\s]+$/, '\n') : body;
  const head = trimmed.slice(0, sniffed);
  const unreadable = head.match(/\ufffd/g)?.length ?? 0;
  if (binary.test(head) || unreadable > 3) return undefined;
  return trimmed.includes('\0') ? trimmed.replaceAll('\0', '') : trimmed;
}

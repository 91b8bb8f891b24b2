// Plain data in few bytes, with a check of their own: what was damaged is not taken.
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { hashOf } from './inputs.js';

const checkLength = 22;

/** Data as bytes; the check stands before them. */
export function pack(value: unknown): Uint8Array {
  const packed = deflateRawSync(JSON.stringify(value), { level: 1 });
  return Buffer.concat([Buffer.from(hashOf(packed), 'latin1'), packed]);
}

/** @throws Error where the bytes are not what was packed */
export function unpack(bytes: Uint8Array): unknown {
  const all = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const packed = all.subarray(checkLength);
  if (all.toString('latin1', 0, checkLength) !== hashOf(packed)) throw new Error('damaged');
  return JSON.parse(inflateRawSync(packed).toString('utf8'));
}

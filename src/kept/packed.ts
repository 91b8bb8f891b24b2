// Plain data in few bytes, with a check of their own: what was damaged is not taken.
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import { hashOf } from './inputs.js';

const checkLength = 22;

/** So much is unpacked at a time, in bytes: with the little that Node takes by itself it costs four times as much. */
const chunkSize = 128 * 1024;

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
  return JSON.parse(inflateRawSync(packed, { chunkSize }).toString('utf8'));
}

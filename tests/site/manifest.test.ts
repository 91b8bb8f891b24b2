import { describe, expect, it } from 'vitest';
import { manifestText, withOtherHashes } from '../../src/site/manifest.js';

const files = new Map([
  ['1/index.html', 'a'.repeat(24)],
  ['journal', 'b'.repeat(24)],
  ['with "quotes".txt', 'c'.repeat(24)],
]);
const manifest = { journal: 'https://example.org', registered: ['/1/', '1/index.html'], files };

describe('hashes in a printed manifest', () => {
  it('are put in place as if it were printed anew', () => {
    const others = new Map([...files.keys()].map((path, at) => [path, String(at).repeat(24)]));
    const printed = manifestText({ ...manifest, files: others });
    expect(withOtherHashes(manifestText(manifest), others)).toBe(printed);
    expect(withOtherHashes(printed, files)).toBe(manifestText(manifest));
  });

  it('are not put in place for a file that does not stand in it', () => {
    expect(withOtherHashes(manifestText(manifest), new Map([['2/index.html', 'd'.repeat(24)]]))).toBeUndefined();
    expect(withOtherHashes(manifestText(manifest), new Map([['registered', 'd'.repeat(24)]]))).toBeUndefined();
  });
});

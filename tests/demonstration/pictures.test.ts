// The demonstration journal's pictures are its own: each is what is computed from its spectra. With MASSTONE_DRAW they
// are written.
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { photographsOf } from '../../src/journal/photographs.js';
import { chartPlaces, fileOf, pathOf, pictures } from './pictures.js';

const draw = process.env.MASSTONE_DRAW !== undefined;

describe('pictures of the demonstration journal', () => {
  it.each(Object.entries(pictures))('%s is what is computed for it', async (path, make) => {
    const made = make();
    if (draw) writeFileSync(pathOf(path), await fileOf(made));
    const { data, info } = await sharp(pathOf(path)).raw().toBuffer({ resolveWithObject: true });
    expect([info.width, info.height]).toEqual([made.width, made.height]);
    const off = made.data.reduce((sum, value, i) => sum + Math.abs(value - data[i]!), 0) / made.data.length;
    expect(off).toBeLessThan(4);
  });
  it('are all there are', () => {
    expect(readdirSync(pathOf('photos')).map((name) => `photos/${name}`)).toEqual(Object.keys(pictures).sort());
  });
  it('are said to be computed, wherever an entry shows them', () => {
    const entries = readdirSync(pathOf('entries')).map((name) => readFileSync(pathOf(`entries/${name}`), 'utf8'));
    const shown = entries.flatMap((text) => {
      const { samples = [], photos = [] } = parse(text.split('---\n')[1]!);
      return photographsOf({ samples, photos });
    });
    expect(new Set(shown.map(({ file }) => file))).toEqual(new Set(Object.keys(pictures)));
    for (const { caption } of shown) expect(caption).toMatch(/[Cc]omputed/);
  });
  it('the chart’s corners and the samples lie where the entry says', () => {
    const { corners, samples } = chartPlaces();
    const text = readFileSync(pathOf('entries/009-blue-verditer-that-went-green.md'), 'utf8');
    expect(text).toContain(corners.map(({ x, y }) => `${Math.round(x)},${Math.round(y)}`).join(' '));
    for (const { x, y, width, height } of samples)
      expect(text).toContain([x, y, width, height].map(Math.round).join(','));
  });
});

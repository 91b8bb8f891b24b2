// What a reader's connection carries: an entry's page without photos, with its styles, is under 60 kB.
import { expect, it } from 'vitest';
import { openJournal } from '../../src/open.js';
import { gatherAssets } from '../../src/site/assets.js';
import { planSite } from '../../src/site/plan.js';
import { demo } from '../browser/browser.js';

it('every entry of the demonstration journal, six samples and fifteen colour pairs included', async () => {
  const { model } = await openJournal(demo, { drafts: true });
  const { pages } = planSite(model!);
  const styles = Buffer.byteLength(String(gatherAssets().stylesheet.content));
  const sizes = model!.entries.map(({ entry }) => ({
    number: entry.number,
    bytes: styles + Buffer.byteLength(pages.get(`/${entry.number}/`)!.render().html),
  }));
  expect(sizes.filter(({ bytes }) => bytes > 60_000)).toEqual([]);
  expect(sizes.length).toBeGreaterThan(25);
});

// An entry's page of labels: always in the reading copy, published only where it is asked for.
import { join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import type { JournalModel } from '../../src/crosslinks/model.js';
import { openJournal } from '../../src/open.js';
import { planSite } from '../../src/site/plan.js';
import { entry, folderOf, smallJournal } from '../journal-folder.js';
import { quoted } from '../quoted.js';

const reading = { script: '/script/reading.js', stylesheet: '/style/reading.css' };
let model: JournalModel;
beforeEach(async () => {
  const folder = folderOf(
    smallJournal({
      'journal/entries/014-malachite.md': entry(
        14,
        'pigment: { name: malachite, formula: Cu2CO3(OH)2 }\nsamples: [{ sample: A }, { sample: B }]\n',
      ),
    }),
  );
  model = (await openJournal(join(folder, 'journal'))).model!;
});
const at = (address: string, options = {}): string | undefined => {
  const page = planSite(model, options).pages.get(address);
  return page && quoted(page.render().html);
};

describe('the page of labels', () => {
  it('is in the reading copy, linked from the entry, and links back', () => {
    const page = at('/14/labels/', { reading })!;
    expect(page).toContain('href="/base/14/"');
    for (const part of ['14/A', '14/B', 'Do not post it before']) expect(page).toContain(part);
    expect(at('/14/', { reading })).toContain('href="/base/14/labels/"');
  });
  it('is not published unless it is asked for', () => {
    expect(at('/14/labels/')).toBeUndefined();
    expect(at('/14/')).not.toContain('/labels/');
    expect(at('/14/labels/', { labels: true })).toContain('14/A');
    expect(at('/14/', { labels: true })).toContain('href="/base/14/labels/"');
  });
  it('is of entries with samples alone', () => {
    expect(at('/2/labels/', { labels: true })).toBeUndefined();
  });
  it('runs no script, and asks for nothing', () => {
    const page = at('/14/labels/', { reading })!;
    expect(page).not.toContain('<script');
    expect(page).toMatch(/default-src &#x27;none&#x27;|default-src 'none'/);
  });
});

describe('whose statements they are', () => {
  it('is said behind the labels: what CLP does not have, and where others differ', async () => {
    const folder = folderOf(
      smallJournal({
        'journal/entries/015-fixe.md': entry(
          15,
          'pigment: { name: blanc fixe, formula: BaSO4 }\nsamples: [{ sample: A }]\n',
        ),
      }),
    );
    model = (await openJournal(join(folder, 'journal'))).model!;
    const page = at('/15/labels/', { reading })!;
    expect(page).toContain('Of the UN’s GHS and not of CLP, and marked so on the label: H402 (NITE (Japan)');
    expect(page).toContain('blanc fixe: Others differ. Europe: no entry in CLP Annex VI');
  });
});

// The page of an entry's labels: the sheets that `masstone labels N` prints, as they are without options.
import type { SiteContext } from '../../../templates/frame.js';
import type { JournalModel } from '../../crosslinks/model.js';
import { labelsHtml } from './document.js';
import { readSheets, usualSizes } from './paper.js';
import { labelSheets, type LabelSheets } from './sheets.js';
import { labelledSamples } from './things.js';
import type { Outcome } from '../../outcome.js';

/** mL: vials that are posted hold a few grams. */
export const usualVial = 10;

function sheetsOf(model: JournalModel, site: SiteContext, number: number): Outcome<LabelSheets> {
  const things = labelledSamples(model, number, undefined);
  if (!things.ok) return things;
  const sheets = readSheets({}, usualSizes.vial);
  if (!sheets.ok) return sheets;
  return labelSheets(things.value, {
    title: `Labels of entry ${number}`,
    language: site.language,
    maker: site.author,
    site: site.address,
    sheets: sheets.value,
    pack: { millilitres: usualVial, forPublic: true, layout: 'one-label' },
  });
}

/** The page as text; where labels have no room, it says so. */
export function labelsPage(model: JournalModel, site: SiteContext, number: number): string {
  const sheets = sheetsOf(model, site, number);
  const back = { href: `${site.base}/${number}/`, title: `Entry ${number}` };
  if (sheets.ok) return labelsHtml(sheets.value, back);
  const { message, cure = '' } = sheets.fault;
  return labelsHtml(
    {
      title: `Labels of entry ${number}`,
      language: site.language,
      pages: [],
      labels: [],
      general: [`${message} ${cure}`, 'masstone labels takes other sizes.'],
      notes: [],
      transport: [],
    },
    back,
  );
}

// The reading copy's answer to "what if I add …": the same as `masstone foresee 14 --reagent '…'`, as a page.
import type { SiteContext } from '../../templates/frame.js';
import { whatIfPage } from '../../templates/what-if.js';
import { lotsIn } from '../crosslinks/lots.js';
import type { JournalModel } from '../crosslinks/model.js';
import { actionIfAdded, foreseenIfAdded } from '../reckoning/dangers/what-if.js';
import { stringify } from '../site/page-text.js';

export const whatIfAddress = '/~reading/what-if';

/** So many signs of a reagent's text are read. */
export const mostSigns = 200;

export interface WhatIfAnswer {
  readonly status: number;
  readonly html: string;
}

/** The page that answers; undefined where there is no such entry. */
export function answerOfWhatIf(
  query: URLSearchParams,
  { context, model }: { readonly context: SiteContext; readonly model: JournalModel },
): WhatIfAnswer | undefined {
  const number = query.get('entry') ?? '';
  const reckoned = model.entries.find(({ entry }) => String(entry.number) === number);
  if (!reckoned) return undefined;
  const { entry } = reckoned;
  const text = (query.get('add') ?? '').replaceAll(/\s+/g, ' ').trim();
  const page = (status: number, more: Omit<Parameters<typeof whatIfPage>[1], 'entry' | 'text'>): WhatIfAnswer => ({
    status,
    html: stringify(whatIfPage(context, { entry: { number: entry.number, title: entry.title }, text, ...more })),
  });
  if (text.length > mostSigns)
    return page(400, { fault: `That is too long to be judged: one reagent, in ${mostSigns} signs at most.` });
  if (text === '') return page(200, {});
  const { settings, shelf } = model.journal;
  const reckoning = { settings, shelf: shelf.reagents, lot: lotsIn(model), reading: () => undefined };
  const { foreseen, unknown, cautions } = foreseenIfAdded(entry, reckoning, { added: [text], heating: [] });
  const told = foreseen.map((one) => ({ one, action: actionIfAdded(one) }));
  return page(200, { answer: { told, unknown, cautions } });
}

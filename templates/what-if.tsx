// The reading copy's page that answers "what if I add …" to an entry.
import type { Element, Root } from 'hast';
import type { ForeseenIfAdded } from '../src/reckoning/dangers/what-if.js';
import { cautionBox, href, page, type SiteContext } from './frame.js';
import { foreseenWithAction, unrecognised } from './parts/foreseen.js';

export interface WhatIfAnswered {
  /** What is foreseen, the gravest first, each with what to do now. */
  readonly told: readonly { readonly one: ForeseenIfAdded; readonly action: string | undefined }[];
  readonly unknown: readonly string[];
  readonly cautions: readonly string[];
}

export interface WhatIfPageData {
  readonly entry: { readonly number: number; readonly title: string };
  /** What would be added, as it was written. */
  readonly text: string;
  readonly fault?: string;
  readonly answer?: WhatIfAnswered;
}

/** The form, on an entry's page and on that of the answer; nothing in a published site. */
export function whatIfForm({ reading }: SiteContext, number: number, text = ''): Element | null {
  if (!reading) return null;
  return (
    <form class="what-if" method="get" action={reading.whatIf}>
      <input type="hidden" name="entry" value={String(number)} />
      <label>
        What if I add …{' '}
        <input name="add" value={text} maxLength={reading.mostSigns} required placeholder="vinegar 20 mL" />
      </label>
      <button>Foresee</button>
    </form>
  ) as Element;
}

function answered({ told, unknown, cautions }: WhatIfAnswered, text: string): Element[] {
  const only = told.filter(({ one }) => one.added);
  const before = told.filter(({ one }) => !one.added);
  const card = ({ one, action }: WhatIfAnswered['told'][number]): Element => foreseenWithAction(one, action);
  return [
    (
      <section class="foreseen" aria-labelledby="added">
        <h2 id="added">{`Only with ${text}`}</h2>
        {unrecognised(unknown)}
        {only.map(card)}
        {only.length + unknown.length === 0 ? (
          <p>Nothing more on our list matched. The list is incomplete; that is no all-clear.</p>
        ) : null}
        {cautions.map((caution) => (
          <p>{caution}</p>
        ))}
      </section>
    ) as Element,
    ...(before.length > 0
      ? [
          (
            <section class="foreseen" aria-labelledby="before">
              <h2 id="before">In this entry as it stands</h2>
              {before.map(card)}
            </section>
          ) as Element,
        ]
      : []),
  ];
}

export function whatIfPage(site: SiteContext, { entry, text, fault, answer }: WhatIfPageData): Root {
  const main = [
    <h1>{`What if: entry ${entry.number}`}</h1>,
    <p>
      <a href={href(site, `/${entry.number}/`)}>{entry.title}</a>. What is named is taken to go into every sample, with
      all that is in it. Nothing is changed by asking.
    </p>,
    whatIfForm(site, entry.number, text),
    fault ? <p role="alert">{fault}</p> : null,
    ...(answer ? answered(answer, text) : []),
    <p class="small quiet">
      What is not said of strength and amount is taken at its worst. A worst-case sum is not an exposure assessment.
    </p>,
    cautionBox(site),
  ];
  return page(site, {
    title: `What if: entry ${entry.number}`,
    address: site.reading?.whatIf ?? '',
    noIndex: true,
    main: main.filter((one) => one !== null) as never,
  });
}

// The procedure of an entry in its steps: on its page as it is read; on the bench sheet boxes stand before them.
import type { Element } from 'hast';
import type { Entry } from '../../src/journal/entry.js';
import type { SampleAmounts } from '../../src/reckoning/contracts.js';

type Step = NonNullable<Entry['steps']>[number];
type FullStep = Exclude<Step, string>;

/** What reagents are called, by the id that an entry refers to them with. */
export const namesOf = (samples: readonly SampleAmounts[]): ReadonlyMap<string, string> =>
  new Map(samples.flatMap(({ ingredients }) => ingredients.map(({ id, name }) => [id, name] as const)));

const ended = (words: string): string => (/[.!?…]$/.test(words) ? words : `${words}.`);

const full = (step: Step): FullStep => (typeof step === 'string' ? { do: step } : step);

/** What goes in, how hot, how long, as one line; empty where nothing is said. */
function measures({ with: ids = [], amount, heat, wait }: FullStep, names: ReadonlyMap<string, string>): string {
  const what = ids.map((id) => names.get(id) ?? id).join(', ');
  const goesIn = [what, amount].filter(Boolean).join(': ');
  return [goesIn, heat, wait && `wait ${wait}`].filter(Boolean).join(' · ');
}

function stepItem(step: Step, names: ReadonlyMap<string, string>): Element {
  const one = full(step);
  const line = measures(one, names);
  return (
    <li>
      {one.sample ? <b>{`${one.sample}: `}</b> : null}
      {one.do}
      {line ? [' ', <span class="step-measures">{line}</span>] : null}
      {one['look-for'] ? <span class="step-more">{` Look for: ${ended(one['look-for'])}`}</span> : null}
      {one.careful ? (
        <span class="step-more">
          {' '}
          <strong>{`Careful: ${ended(one.careful)}`}</strong>
        </span>
      ) : null}
    </li>
  ) as Element;
}

/** The steps as a list; null where the entry has none. */
export function stepsList({ steps = [] }: Pick<Entry, 'steps'>, samples: readonly SampleAmounts[]): Element | null {
  if (steps.length === 0) return null;
  const names = namesOf(samples);
  return (<ol class="procedure">{steps.map((step) => stepItem(step, names))}</ol>) as Element;
}

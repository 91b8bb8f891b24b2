// At which step each thing goes in.
import type { Entry } from '../../journal/entry.js';
import { onceFor } from '../../once.js';
import { stepsNaming } from '../told/brought-in.js';
import type { VesselItem } from '../vessels.js';

/**
 * By id or name, in small letters: the step at which something goes in, 0 the first; steps that are only a sentence
 * name nothing.
 */
export const stepsOfIds = onceFor(({ steps = [] }: Entry): ReadonlyMap<string, number> => {
  const first = new Map<string, number>();
  steps.forEach((step, at) => {
    for (const written of typeof step === 'string' ? [] : (step.with ?? [])) {
      const id = written.toLowerCase();
      if (!first.has(id)) first.set(id, at);
    }
  });
  return first;
});

/** The step in which each that is listed first goes in, by its id in small letters: as its words or its keys tell. */
export const firstSteps = (entry: Entry, items: readonly VesselItem[]): ReadonlyMap<string, number> =>
  new Map([...stepsNaming(entry, items), ...stepsOfIds(entry)]);

/** The step at which something goes in, by its id or its name; nothing where no step names it. */
export const stepOfItem = (
  { id, reagent, step }: Pick<VesselItem, 'id' | 'reagent' | 'step'>,
  first: ReadonlyMap<string, number>,
): number | undefined => step ?? first.get(id.toLowerCase()) ?? first.get(reagent.name.toLowerCase());

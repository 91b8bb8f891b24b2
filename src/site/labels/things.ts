// What can be labelled in a journal: the samples of an entry, a lot, a jar of the shelf.
import { lotsIn } from '../../crosslinks/lots.js';
import type { JournalModel } from '../../crosslinks/model.js';
import { noEntry } from '../../journal/no-entry.js';
import { bad, good, type Fault, type Outcome } from '../../outcome.js';
import type { LotFacts } from '../../reckoning/contracts.js';
import { jarLabel, lotLabel, sampleLabel, type Labelled } from '../../reckoning/label.js';

type LotOf = (name: string) => LotFacts | undefined;

function noSample(number: number, samples: readonly string[], sample?: string): Fault {
  return {
    code: 'no-sample',
    message: sample === undefined ? `Entry ${number} has no samples.` : `Entry ${number} has no sample ${sample}.`,
    cure: samples.length > 0 ? `It has ${samples.join(', ')}.` : 'Labels are made of samples: write them down first.',
  };
}

/** The samples of an entry, or one of them. Faults: `no-entry`, `no-sample`. */
export function labelledSamples(
  model: JournalModel,
  number: number,
  sample: string | undefined,
  lotOf: LotOf = lotsIn(model),
): Outcome<readonly Labelled[]> {
  const reckoned = model.entries.find(({ entry }) => entry.number === number);
  if (!reckoned) return bad(noEntry(number, model.journal));
  const samples = reckoned.entry.samples.map((one) => one.sample);
  const wanted = samples.filter((one) => sample === undefined || one === sample);
  if (wanted.length === 0) return bad(noSample(number, samples, sample));
  const { reagents } = model.journal.shelf;
  return good(
    wanted.flatMap((one) => {
      const lot = lotOf(`${number}/${one}`);
      return lot ? [sampleLabel(reckoned, lot, reagents, lotOf)] : [];
    }),
  );
}

/** A lot as a reagent in a bottle. Faults: `no-entry`, `no-sample`. */
export function labelledLot(model: JournalModel, name: string): Outcome<readonly Labelled[]> {
  const [number = 0, sample = ''] = [Number(name.split('/')[0]), name.split('/')[1]];
  const reckoned = model.entries.find(({ entry }) => entry.number === number);
  if (!reckoned) return bad(noEntry(number, model.journal));
  const lotOf = lotsIn(model);
  const lot = lotOf(name);
  if (!lot) {
    const samples = reckoned.entry.samples.map((one) => one.sample);
    return bad(noSample(number, samples, sample));
  }
  return good([lotLabel(reckoned, lot, model.journal.shelf.reagents, lotOf)]);
}

/** A jar of the shelf. Fault: `no-reagent`. */
export function labelledJar(model: JournalModel, id: string): Outcome<readonly Labelled[]> {
  const { reagents } = model.journal.shelf;
  const jar = reagents.get(id);
  if (jar) return good([jarLabel(id, jar, lotsIn(model))]);
  const ids = [...reagents.keys()];
  const most = 12;
  return bad({
    code: 'no-reagent',
    message: `There is no '${id}' on the shelf.`,
    cure: `The shelf has ${ids.slice(0, most).join(', ')}${ids.length > most ? ' …' : ''}.`,
  });
}

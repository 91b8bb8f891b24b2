// What the maker accepts of the proof, in entries and in journal.yaml; and remarks gathered by what mends them.
import type { JournalModel } from '../crosslinks/model.js';
import { placeInFile, placesIn } from '../journal/place.js';
import { byCause, type Cause } from '../remarks/causes.js';
import { withoutAccepted, type Accepted, type AcceptedIn } from '../remarks/accepted.js';
import type { Place, Remark } from '../remarks/remark.js';

const settingsFile = 'journal.yaml';

/** Every acceptance of a journal with its place. */
function acceptances({ journal }: JournalModel): readonly AcceptedIn[] {
  const ofJournal: AcceptedIn = {
    file: settingsFile,
    ownOnly: false,
    accept: journal.settings.accept,
    placeOf: (path, at) => placeInFile(settingsFile, journal.settingsText, path, at),
  };
  const ofEntries = journal.entries
    .filter(({ accept }) => accept.length > 0)
    .map(
      (entry): AcceptedIn => ({
        file: entry.file,
        ownOnly: true,
        accept: entry.accept,
        placeOf: placesIn(entry.file, entry),
      }),
    );
  return [...ofEntries, ...(ofJournal.accept.length > 0 ? [ofJournal] : [])];
}

/**
 * Remarks without what the maker has accepted.
 * @param complete all remarks of the journal are here, so that an acceptance of nothing can be told
 */
export const accepted = (
  remarks: readonly Remark[],
  model: JournalModel | undefined,
  complete = true,
): { readonly remarks: readonly Remark[]; readonly accepted: readonly Accepted[] } =>
  model ? withoutAccepted(remarks, acceptances(model), complete) : { remarks, accepted: [] };

/** What places of causes are found by. */
interface WithShelf {
  readonly journal: Pick<JournalModel['journal'], 'shelf'>;
}

/** Where a reagent is mended: the line of its jar on the shelf. */
function jarPlaces({ journal: { shelf } }: WithShelf): (name: string) => Place | undefined {
  const ids = new Map<string, string>();
  for (const [id, { name }] of shelf.reagents) ids.set(name.toLowerCase(), id);
  return (name) => {
    const id = ids.get(name.toLowerCase());
    return id === undefined ? undefined : placeInFile(shelf.file, shelf.text, [id], 'key');
  };
}

/** Remarks by their cause, those on a jar at its line. */
export const gathered = (remarks: readonly Remark[], model: WithShelf | undefined): readonly Cause[] =>
  byCause(remarks, model && jarPlaces(model));

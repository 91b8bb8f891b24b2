// So much of a reckoning as lists, links and stocks ask for: small, so that it is at hand for every entry of a journal.
import { compareSeverity } from '../hazards/foresee/contracts.js';
import type { Entry } from '../journal/entry.js';
import type { AppearanceReckoning, FamilyBasis, SampleAppearance } from './appearance/appearance-contracts.js';
import type {
  AmountsReckoning,
  DangersReckoning,
  DangerGist,
  ReckoningGist,
  RowReckoning,
  SampleGist,
} from './contracts.js';

function basisOf(basis: SampleAppearance['basis']): FamilyBasis {
  if (basis === 'srgb-estimate') return 'estimate';
  return basis === 'photograph' ? 'photograph' : 'measured';
}

/** The gravest first, then by title. */
export const byGravity = (
  a: Pick<DangerGist, 'severity' | 'title'>,
  b: Pick<DangerGist, 'severity' | 'title'>,
): number => compareSeverity(a.severity, b.severity) || a.title.localeCompare(b.title, 'en');

/** Notes are left out, as on the pages of reagents, for which this is. */
const dangerGists = ({ foreseen = [] }: DangersReckoning): readonly DangerGist[] =>
  foreseen
    .filter(({ severity }) => severity !== 'note')
    .map(({ rule, title, severity, partners }) => ({ rule, title, severity, partners }));

/** Hazards that an entry can be found by: signal word, foreseen dangers, unknown substances. */
const hazardsOf = ({ box, foreseen = [] }: DangersReckoning): readonly string[] => [
  ...new Set([
    ...(box.signalWord ? [`signal word ${box.signalWord}`] : []),
    ...foreseen.filter(({ severity }) => severity !== 'note').map(({ consequence }) => consequence),
    ...(box.unknown.length > 0 ? ['substance without hazard data'] : []),
  ]),
];

/** Of an object the keys that are there. */
function only<Whole extends object, Key extends keyof Whole>(whole: Whole, keys: readonly Key[]): Pick<Whole, Key> {
  const there = keys.filter((key) => whole[key] !== undefined);
  return Object.fromEntries(there.map((key) => [key, whole[key]])) as Pick<Whole, Key>;
}

const inRowsOfAmounts = [
  'sample',
  'replicateOf',
  'limiting',
  'theoreticalYield',
  'obtained',
  'percentYield',
  'overHundred',
] as const;
const inRowsOfAppearance = [
  'sample',
  'lab',
  'lch',
  'observer',
  'labApproximate',
  'basis',
  'invented',
  'swatch',
  'lampMove',
  'opacity',
  'tests',
  'aged',
  'tinting',
] as const;

/** What lists show of each sample of an entry. */
export function rowsOfReckoning(
  { samples }: Pick<Entry, 'samples'>,
  amounts: AmountsReckoning,
  appearance: AppearanceReckoning,
): readonly RowReckoning[] {
  return samples.map(({ sample }): RowReckoning => {
    const reckoned = amounts.samples.find((one) => one.sample === sample);
    const seen = appearance.samples.find((one) => one.sample === sample);
    return {
      ...(reckoned && { amounts: only(reckoned, inRowsOfAmounts) }),
      ...(seen && { appearance: only(seen, inRowsOfAppearance) }),
    };
  });
}

export function gistOf(
  { samples }: Pick<Entry, 'samples'>,
  amounts: AmountsReckoning,
  dangers: DangersReckoning,
  appearance: AppearanceReckoning,
): ReckoningGist {
  const foreseen = dangerGists(dangers);
  return {
    samples: samples.map(({ sample }): SampleGist => {
      const seen = appearance.samples.find((one) => one.sample === sample);
      const obtained = amounts.samples.find((one) => one.sample === sample)?.obtained;
      const family = seen?.family ?? appearance.family;
      const familyBasis = seen?.family ? basisOf(seen.basis) : appearance.familyBasis;
      return {
        sample,
        ...(family !== undefined && { family }),
        ...(familyBasis && { familyBasis }),
        ...(obtained && { obtained }),
        ...((seen?.curve ?? []).length > 1 && { curve: true as const }),
      };
    }),
    lotsTaken: amounts.lotsTaken ?? [],
    ...(amounts.jarsTaken && { jarsTaken: amounts.jarsTaken }),
    ...(foreseen.length > 0 && { foreseen }),
    hazards: hazardsOf(dangers),
  };
}

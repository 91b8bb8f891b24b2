// The hazard box of an entry: everything that stands on the bench, and what is made.
import { contentsSold, inUse, substanceOf, surelyMeant } from '../../hazards/box-of-reagent.js';
import { hazardBox, type HazardBox, type SubstanceInUse, type SubstanceSummary } from '../../hazards/ghs/index.js';
import type { Entry } from '../../journal/entry.js';
import type { Path } from '../../journal/place.js';
import type { Use } from '../../journal/schema.js';
import { nameOfContent, resolveNamed, type ResolvedReagent } from '../../reagents/index.js';
import type { Findings } from '../../remarks/findings.js';
import type { ReckoningContext } from '../contracts.js';
import { resolveUseOf } from '../ingredients.js';

interface Placed {
  readonly substance: SubstanceInUse;
  /** Its name is sold with these contents, of which this is the first. */
  readonly soldAs?: { readonly name: string; readonly contents: readonly string[] };
  readonly path: Path;
  /** It was made here, so that nobody sells a sheet for it. */
  readonly madeHere: boolean;
}

function used(use: Use, path: Path, reagent: ResolvedReagent): readonly Placed[] {
  const sold = contentsSold(reagent);
  const meant = surelyMeant(reagent) === undefined ? sold.map(nameOfContent) : [];
  // `Egg yolk` taken as egg yolk is no news.
  const names = meant.length === 1 && meant[0] === reagent.name ? [] : meant;
  return inUse(reagent, use.role, sold).map((substance, at) => ({
    substance,
    path: [...path, use.lot === undefined ? 'reagent' : 'lot'],
    madeHere: reagent.origin !== undefined,
    ...(at === 0 && names.length > 0 && { soldAs: { name: reagent.name, contents: names } }),
  }));
}

const productOf = ({ pigment }: Entry): readonly Placed[] =>
  pigment
    ? [
        {
          substance: substanceOf(resolveNamed(pigment.name, pigment.formula), 'product'),
          path: ['pigment', 'name'],
          madeHere: true,
        },
      ]
    : [];

/** All that is used and made in an entry, each substance at each strength once, the product last. */
function substancesOf(entry: Entry, context: ReckoningContext): readonly Placed[] {
  const placedAt = (use: Use, path: Path): readonly Placed[] => used(use, path, resolveUseOf(entry, use, context));
  const placed = [
    ...entry.reagents.flatMap((use, place) => placedAt(use, ['reagents', place])),
    ...entry.samples.flatMap((sample, place) => [
      ...(sample.add ?? []).flatMap((use, at) => placedAt(use, ['samples', place, 'add', at])),
      ...(sample.change ?? []).flatMap((use, at) => placedAt(use, ['samples', place, 'change', at])),
    ]),
    ...productOf(entry),
  ];
  const seen = new Set<string>();
  return placed.filter(({ substance: { name, formula, cas, percent } }) => {
    const key = [name, formula ?? '', cas ?? '', percent ?? ''].join('\n');
    const repeated = seen.has(key);
    seen.add(key);
    return !repeated;
  });
}

/**
 * The hazard box of an entry, merged over all its reagents and its product. Findings: what is unknown, what a maker's
 * sheet leaves out or prints wrongly, strengths that had to be taken as undiluted.
 */
export function reckonHazardBox(entry: Entry, context: ReckoningContext, findings: Findings): HazardBox {
  const placed = substancesOf(entry, context);
  const box = hazardBox(placed.map(({ substance }) => substance));
  box.substances?.forEach((substance, at) => findInSubstance(substance, placed[at]!, findings));
  return box;
}

function findInSubstance(
  summary: SubstanceSummary,
  { path, madeHere, soldAs, substance }: Placed,
  findings: Findings,
): void {
  if (soldAs) findings.add('sold-with-several-contents', path, { ...soldAs, actual: soldAs.name });
  const { name, found, leftOutBySds, unpublishedCodes, strengthAssumed } = summary;
  if (found === 'unknown') {
    // Nobody sells a sheet for what was made here: the box says loudly that it is unknown, the proof only notes it.
    const identified = substance.formula !== undefined || substance.cas !== undefined;
    findings.add('no-hazard-data', path, { name, madeHere, identified, actual: name });
    return;
  }
  if (leftOutBySds)
    findings.add('sheet-leaves-out', path, { name, codes: leftOutBySds, actual: leftOutBySds.join(', ') });
  if (unpublishedCodes) findings.add('strange-statement', path, { name, codes: unpublishedCodes });
  if (strengthAssumed) findings.add('strength-not-given', path, { name });
}

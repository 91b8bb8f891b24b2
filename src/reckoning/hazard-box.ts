// The hazard box of an entry or of a reagent: everything that stands on the bench, with its strength and its maker's
// sheet.
import { hazardBox, type HazardBox, type SubstanceInUse, type SubstanceSummary } from '../hazards/ghs/index.js';
import type { Entry } from '../journal/entry.js';
import type { Path } from '../journal/place.js';
import type { Use } from '../journal/schema.js';
import { resolveNamed, resolveUse, strengthAssumptionsOf, type ResolvedReagent } from '../reagents/index.js';
import type { Findings } from '../remarks/findings.js';
import type { ReckoningContext } from './contracts.js';
import { cupboardOfContext } from './ingredients.js';

/** The strongest that it can be, percent by mass; undefined where no strength is told, which counts as undiluted. */
function percentOf({ strength: { basis, atMost } }: ResolvedReagent): string | undefined {
  if (basis === 'undiluted' || basis === 'not-given') return undefined;
  // Of an unknown solute, grams in a mL count as grams in a gram: hardly a solution is lighter than water.
  const share = atMost.massFraction ?? atMost.massConcentration;
  return share && (share.gt(1) ? '100' : share.times(100).toSignificantDigits(12).toFixed());
}

/** A resolved reagent as something in a hazard box. */
function substanceOf(reagent: ResolvedReagent, role?: string): SubstanceInUse {
  const { name, written, substance, sheet } = reagent;
  const formula = written.formula ?? (substance && !substance.roughly ? substance.formula : undefined);
  const percent = percentOf(reagent);
  const assumed = percent === undefined ? [] : strengthAssumptionsOf(reagent);
  return {
    name,
    ...(written.alsoCalled && { alsoCalled: written.alsoCalled }),
    ...(formula && { formula }),
    ...(written.cas && { cas: written.cas }),
    ...(role && { role }),
    ...(percent !== undefined && { percent }),
    ...(assumed.length > 0 && { assumed }),
    ...(sheet && { sheet }),
    ...(sheet?.isForStrength !== undefined && { sheetIsFor: sheet.isForStrength }),
  };
}

/** The box of a reagent as it stands on the shelf. */
export const reckonReagentBox = (reagent: ResolvedReagent): HazardBox => boxOfReagents([reagent]);

/** The box of several reagents at once. */
export const boxOfReagents = (reagents: readonly ResolvedReagent[]): HazardBox =>
  hazardBox(reagents.map((reagent) => substanceOf(reagent)));

interface Placed {
  readonly substance: SubstanceInUse;
  readonly path: Path;
  /** It was made here, so that nobody sells a sheet for it. */
  readonly madeHere: boolean;
}

function used(use: Use, path: Path, context: ReckoningContext): Placed {
  const reagent = resolveUse(use, cupboardOfContext(context));
  return {
    substance: substanceOf(reagent, use.role),
    path: [...path, use.lot === undefined ? 'reagent' : 'lot'],
    madeHere: reagent.origin !== undefined,
  };
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
  const placed = [
    ...entry.reagents.map((use, place) => used(use, ['reagents', place], context)),
    ...entry.samples.flatMap((sample, place) => [
      ...(sample.add ?? []).map((use, at) => used(use, ['samples', place, 'add', at], context)),
      ...(sample.change ?? []).map((use, at) => used(use, ['samples', place, 'change', at], context)),
    ]),
    ...productOf(entry),
  ];
  const seen = new Set<string>();
  return placed.filter(({ substance: { name, formula, cas, percent } }) => {
    const key = JSON.stringify([name, formula, cas, percent]);
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

function findInSubstance(substance: SubstanceSummary, { path, madeHere }: Placed, findings: Findings): void {
  const { name, found, leftOutBySds, unpublishedCodes, strengthAssumed } = substance;
  if (found === 'unknown') {
    // Nobody sells a sheet for what was made here: the box says loudly that it is unknown, the proof only notes it.
    findings.add('no-hazard-data', path, { name, madeHere, actual: name });
    return;
  }
  if (leftOutBySds)
    findings.add('sheet-leaves-out', path, { name, codes: leftOutBySds, actual: leftOutBySds.join(', ') });
  if (unpublishedCodes) findings.add('strange-statement', path, { name, codes: unpublishedCodes });
  if (strengthAssumed) findings.add('strength-not-given', path, { name });
}

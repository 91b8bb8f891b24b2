// The hazard box of an entry or of a reagent: everything that stands on the bench, with its strength and its maker's sheet.
import {
  hazardBox,
  readStrength,
  type HazardBox,
  type SafetyDataSheet,
  type SubstanceInUse,
  type SubstanceSummary,
} from '../hazards/ghs/index.js';
import type { Entry } from '../journal/entry.js';
import type { Path } from '../journal/place.js';
import type { Sds, ShelfReagent, Use } from '../journal/schema.js';
import type { Findings } from '../remarks/findings.js';
import type { ReckoningContext } from './contracts.js';

const sheetOf = (sds: Sds): SafetyDataSheet => ({
  statements: sds.statements,
  ...(sds.precautionary && { precautionary: sds.precautionary }),
  ...(sds.pictograms && { pictograms: sds.pictograms }),
  ...(sds['signal-word'] && { signalWord: sds['signal-word'] }),
  ...(sds.supplier && { supplier: sds.supplier }),
  ...(sds.date && { date: sds.date }),
  ...(sds.url && { url: sds.url }),
});

/** A strength that cannot be read is left out, and the substance then taken as undiluted. */
function strengthOf(written: string | undefined, density: string | undefined): Pick<SubstanceInUse, 'strength'> {
  if (written === undefined) return {};
  const read = readStrength(written, density);
  const lone = read.ok ? read : readStrength(written);
  return lone.ok ? { strength: lone.value } : {};
}

interface Facts extends Partial<Omit<ShelfReagent, 'name'>> {
  readonly name: string;
}

function substanceOf(facts: Facts, use: Partial<Use> = {}, role = use.role): SubstanceInUse {
  return {
    name: facts.name,
    ...(facts['also-called'] && { alsoCalled: facts['also-called'] }),
    ...(facts.formula && { formula: facts.formula }),
    ...(facts.cas && { cas: facts.cas }),
    ...(role && { role }),
    ...strengthOf(use.strength ?? facts.strength, use.density ?? facts.density),
    ...(facts.sds && { sheet: sheetOf(facts.sds) }),
    ...(facts.sds &&
      use.strength !== undefined &&
      use.strength !== facts.strength && { sheetIsFor: facts.strength ?? 'the undiluted substance' }),
  };
}

/** The box of a reagent as it stands on the shelf. */
export const reckonReagentBox = (reagent: ShelfReagent): HazardBox => hazardBox([substanceOf(reagent)]);

interface Placed {
  readonly substance: SubstanceInUse;
  readonly path: Path;
}

function used(use: Use, path: Path, context: ReckoningContext): readonly Placed[] {
  if (use.lot !== undefined) {
    const lot = context.lot(use.lot);
    const jar = [...context.shelf.values()].find((reagent) => reagent.lot === use.lot);
    return [
      {
        substance: substanceOf(
          { ...jar, name: jar?.name ?? lot?.name ?? `lot ${use.lot}`, formula: jar?.formula ?? lot?.formula },
          use,
        ),
        path: [...path, 'lot'],
      },
    ];
  }
  if (use.reagent === undefined) return [];
  if (typeof use.reagent !== 'string')
    return [{ substance: substanceOf(use.reagent, use), path: [...path, 'reagent'] }];
  const shelf = context.shelf.get(use.reagent);
  return [{ substance: substanceOf(shelf ?? { name: use.reagent }, use), path: [...path, 'reagent'] }];
}

/** All that stands on the bench in an entry, each substance at each strength once, the product last. */
function bench(entry: Entry, context: ReckoningContext): readonly Placed[] {
  const placed = [
    ...entry.reagents.flatMap((use, place) => used(use, ['reagents', place], context)),
    ...entry.samples.flatMap((sample, place) => [
      ...(sample.add ?? []).flatMap((use, at) => used(use, ['samples', place, 'add', at], context)),
      ...(sample.change ?? []).flatMap((use, at) => used(use, ['samples', place, 'change', at], context)),
    ]),
    ...(entry.pigment
      ? [
          {
            substance: substanceOf(
              entry.pigment.formula === undefined
                ? { name: entry.pigment.name }
                : { name: entry.pigment.name, formula: entry.pigment.formula },
              {},
            ),
            path: ['pigment', 'name'] as Path,
          },
        ]
      : []),
  ];
  const product = entry.pigment ? placed.length - 1 : -1;
  const seen = new Set<string>();
  return placed.flatMap(({ substance, path }, place) => {
    const key = JSON.stringify([substance.name, substance.formula, substance.cas, substance.strength]);
    if (seen.has(key)) return [];
    seen.add(key);
    return [{ substance: place === product ? { ...substance, role: 'product' } : substance, path }];
  });
}

/**
 * The hazard box of an entry, merged over all its reagents and its product. Findings: what is unknown, what a maker's sheet
 * leaves out or prints wrongly, strengths that had to be taken as undiluted.
 */
export function reckonHazardBox(entry: Entry, context: ReckoningContext, findings: Findings): HazardBox {
  const placed = bench(entry, context);
  const box = hazardBox(placed.map(({ substance }) => substance));
  box.substances?.forEach((substance, at) => findInSubstance(substance, placed[at]!.path, findings));
  return box;
}

function findInSubstance(substance: SubstanceSummary, path: Path, findings: Findings): void {
  const { name, found, leftOutBySds, unpublishedCodes, strengthAssumed } = substance;
  if (found === 'unknown') {
    // Nobody sells a sheet for what was made here: the box says loudly that it is unknown, the proof only notes it.
    const madeHere = path[0] === 'pigment' || path.at(-1) === 'lot';
    findings.add('no-hazard-data', path, { name, madeHere, actual: name });
    return;
  }
  if (leftOutBySds)
    findings.add('sheet-leaves-out', path, { name, codes: leftOutBySds, actual: leftOutBySds.join(', ') });
  if (unpublishedCodes) findings.add('strange-statement', path, { name, codes: unpublishedCodes });
  if (strengthAssumed) findings.add('strength-not-given', path, { name });
}

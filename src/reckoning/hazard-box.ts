// The hazard box of an entry or of a reagent: everything that stands on the bench, with its strength and its maker's sheet.
import { readStrength, type BenchSubstance, type SheetFacts } from '../hazards/index.js';
import { hazardBox, type HazardBox } from '../hazards/hazard-box.js';
import type { Entry } from '../journal/entry.js';
import { placeOf, type Path } from '../journal/place.js';
import { remark, type Place, type Remark } from '../journal/remarks.js';
import type { Sds, ShelfReagent, Use } from '../journal/schema.js';
import type { ReckoningContext } from './contracts.js';

const sheetOf = (sds: Sds): SheetFacts => ({
  statements: sds.statements,
  ...(sds.precautionary && { precautionary: sds.precautionary }),
  ...(sds.pictograms && { pictograms: sds.pictograms }),
  ...(sds['signal-word'] && { signalWord: sds['signal-word'] }),
  ...(sds.supplier && { supplier: sds.supplier }),
  ...(sds.date && { date: sds.date }),
  ...(sds.url && { url: sds.url }),
});

/** A strength that cannot be read is left out, and the substance then taken as undiluted. */
function strengthOf(written: string | undefined, density: string | undefined): Pick<BenchSubstance, 'strength'> {
  if (written === undefined) return {};
  const read = readStrength(written, density);
  const lone = read.ok ? read : readStrength(written);
  return lone.ok ? { strength: lone.value } : {};
}

interface Facts extends Partial<Omit<ShelfReagent, 'name'>> {
  readonly name: string;
}

function substanceOf(facts: Facts, use: Partial<Use> = {}, role = use.role): BenchSubstance {
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
  readonly substance: BenchSubstance;
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
 * The hazard box of an entry, merged over all its reagents and its product, with remarks on what is unknown, on what a
 * maker's sheet leaves out, and on strengths that had to be taken as undiluted.
 */
export function reckonHazardBox(
  entry: Entry,
  context: ReckoningContext,
): { readonly box: HazardBox; readonly remarks: readonly Remark[] } {
  const placed = bench(entry, context);
  const box = hazardBox(placed.map(({ substance }) => substance));
  const remarks = (box.substances ?? []).flatMap((shown, place): Remark[] => {
    const { path } = placed[place]!;
    const at = (): Place => placeOf(entry, path);
    if (shown.found === 'unknown') {
      // Nobody sells a sheet for what was made here: the box says loudly that it is unknown, the proof only notes it.
      const madeHere = path[0] === 'pigment' || path.at(-1) === 'lot';
      return [
        remark({
          place: at(),
          severity: madeHere ? 'note' : 'warning',
          rule: 'no-hazard-data',
          found: `No hazard data for ${shown.name}: it is shown as unknown and treated as hazardous.`,
          actual: shown.name,
          cure: madeHere
            ? 'Treat it as hazardous. If the trade sells the same pigment, put a reagent with that sheet’s `sds:` and this `lot:` on the shelf.'
            : 'Copy the H-statements of its safety data sheet into `sds:` on the shelf, or give a formula or a CAS number.',
        }),
      ];
    }
    return [
      ...(shown.leftOutBySds
        ? [
            remark({
              place: at(),
              severity: 'note',
              rule: 'sheet-leaves-out',
              found: `The maker’s sheet for ${shown.name} leaves out ${shown.leftOutBySds.join(', ')}, which the table has.`,
              actual: shown.leftOutBySds.join(', '),
              cure: 'Compare the sheet again, its date and the strength it is for; the box shows the sheet and says what it leaves out.',
            }),
          ]
        : []),
      ...(shown.notes.some((note) => note.includes('no published statement'))
        ? [
            remark({
              place: at(),
              severity: 'warning',
              rule: 'strange-statement',
              found: shown.notes.find((note) => note.includes('no published statement'))!,
              cure: 'Copy the code again from the sheet, e.g. H302 or EUH032.',
            }),
          ]
        : []),
      ...(shown.notes.some((note) => note.startsWith('No strength given'))
        ? [
            remark({
              place: at(),
              severity: 'note',
              rule: 'strength-not-given',
              found: `No strength is given for ${shown.name}: its hazards are those of the undiluted substance.`,
              cure: 'Give `strength:` on the shelf or where it is used.',
            }),
          ]
        : []),
    ];
  });
  return { box, remarks };
}

// The hazard box of one mixture: a paste, a paint, a wet cake.
import type {
  HazardBox,
  IngredientClassification,
  MixtureClassification,
  Origin,
  SubstanceFinding,
  SubstanceHazards,
  SubstanceInUse,
} from './contracts.js';
import { findSubstance } from './find-substance.js';
import { reasonFor } from './grounds.js';
import { mergeHazards } from './hazard-box.js';
import { classificationOfRows, classificationOfStatements } from './ingredient-classification.js';
import { classifyMixture } from './mixture.js';
import { signalWordOf } from './pictograms.js';
import {
  codesOf,
  fillingsOf,
  leastSure,
  rowsOf,
  rowWith,
  sheetTitle,
  singleCodes,
  sourceOf,
} from './substance-hazards.js';

export interface MixtureIngredient {
  readonly substance: SubstanceInUse;
  /** Percent by weight of the mixture, decimal as text. */
  readonly percent: string;
}

interface Identified extends MixtureIngredient {
  readonly finding: SubstanceFinding;
  /** Statements of the maker's sheet, if there are any: they go before the table. */
  readonly sheetCodes: readonly string[];
  readonly classification: IngredientClassification;
}

function identify({ substance, percent }: MixtureIngredient): Identified {
  const finding = findSubstance(substance);
  const sheetCodes = (substance.sheet?.statements ?? []).flatMap(singleCodes);
  const classification =
    sheetCodes.length > 0
      ? classificationOfStatements(substance.name, sheetCodes)
      : classificationOfRows(substance.name, rowsOf(finding));
  return { substance, percent, finding, sheetCodes, classification };
}

function groundOf(
  { substance, finding, sheetCodes }: Identified,
  code: string,
): Pick<Origin, 'basis' | 'source' | 'url'> {
  if (sheetCodes.length > 0) return { basis: 'sds', source: sheetTitle(substance.sheet ?? { statements: [] }) };
  return sourceOf(rowWith(rowsOf(finding), code));
}

/** The part of a mixture's classification that one of its ingredients brings. */
const partOf = (result: MixtureClassification, name: string): MixtureClassification => ({
  classes: result.classes.filter((held) => held.from.includes(name)),
  supplementary: result.supplementary.filter((extra) => extra.from === name),
  notes: result.notes.filter((note) => note.about === name),
});

function hazardsOf(one: Identified, result: MixtureClassification, mixture: string): SubstanceHazards {
  const { substance, finding, sheetCodes, percent } = one;
  const { name, role } = substance;
  const part = partOf(result, name);
  const codes = codesOf(part);
  const signalWord = signalWordOf(
    part.classes,
    codes.filter((code) => code.startsWith('EUH')),
  );
  const row = leastSure(rowsOf(finding));
  const bySheet = sheetCodes.length > 0;
  return {
    classes: part.classes,
    codes,
    printedPictograms: [],
    fillings: fillingsOf(part),
    ...(signalWord && { signalWord }),
    originOf: (code) => {
      const note = reasonFor(code, part, name);
      return { from: name, ...groundOf(one, code), ...(note && { note }) };
    },
    summary: {
      name,
      ...(role && { role }),
      strength: `${percent} % of ${mixture}`,
      found: bySheet ? 'sds' : finding.found,
      codes,
      notes: bySheet ? part.notes : [...finding.notes, ...part.notes],
      ...(bySheet ? { basis: 'sds' as const } : row && sourceOf(row)),
    },
  };
}

/**
 * The box of one mixture: what is not given of the hundred percent is taken as water.
 * @param mixture its name
 * @example mixtureBox('pickle', [{ substance: { name: 'acetone' }, percent: '15' }]).statements[0]?.code // 'H225'
 */
export function mixtureBox(mixture: string, ingredients: readonly MixtureIngredient[]): HazardBox {
  const identified = ingredients.map(identify);
  const hazardous = identified.filter(
    ({ classification }) => classification.classes.length > 0 || classification.unknown,
  );
  const result = classifyMixture(identified, hazardous.length === 1);
  return mergeHazards(identified.map((one) => hazardsOf(one, result, mixture)));
}

// One substance's hazards at its strength: by the table, or by the maker's own safety data sheet, each with its source.
import type {
  Basis,
  Filling,
  HazardNote,
  HazardNoteKind,
  MixtureClassification,
  Origin,
  SafetyDataSheet,
  SignalWord,
  Substance,
  SubstanceFinding,
  SubstanceHazards,
  SubstanceInUse,
} from './contracts.js';
import { findSubstance } from './find-substance.js';
import { reasonFor } from './grounds.js';
import { classLabels, rootCode } from './hazard-classes.js';
import {
  classificationOfRows,
  classificationOfStatements,
  classifyUndiluted,
  gravestOfEach,
} from './ingredient-classification.js';
import { memoise } from '../../memoise.js';
import { classifyMixture } from './mixture.js';
import { graverWord, labelCodesOf, signalWordOf } from './pictograms.js';
import { statement } from './statements.js';

/**
 * `H302 + H312`, `h350I` as a sheet prints them, in the published spelling, combined ones taken apart: nothing is lost.
 * @example singleCodes('h302+H312') // ['H302', 'H312']
 */
export function singleCodes(printed: string): readonly string[] {
  return printed
    .split('+')
    .map((part) => part.replace(/[\s.]/g, ''))
    .filter((part) => part !== '')
    .map((part) => {
      const upper = part.toUpperCase();
      const suffixed = `${upper.slice(0, 4)}${upper.slice(4).toLowerCase()}`;
      return [part, upper, suffixed].find((code) => statement(code)) ?? part;
    });
}

const basisWords: Readonly<Record<Basis, string>> = {
  harmonised: 'harmonised classification',
  national: 'a national classification',
  supplier: 'by a supplier’s data sheet',
  listed: 'by REACH Annex IV of 2007, which names it as of minimum risk',
  'by-element': 'read across from other compounds of the element',
  memory: 'from memory, not checked',
  sds: 'maker’s safety data sheet',
};

const surest: readonly Basis[] = ['memory', 'by-element', 'supplier', 'listed', 'national', 'harmonised'];

/** Every row that counts: its own, group entries, precautions by element. */
export const rowsOf = (finding: SubstanceFinding): readonly Substance[] =>
  finding.found === 'group' || finding.found === 'by-element' ? [...finding.rows, ...finding.byElement] : finding.rows;

/** Of several rows the one of the least sure basis is told. */
export const leastSure = (rows: readonly Substance[]): Substance | undefined =>
  [...rows].sort((a, b) => surest.indexOf(a.basis) - surest.indexOf(b.basis))[0];

/** Of several rows the one that brings a statement. */
export const rowWith = (rows: readonly Substance[], code: string): Substance | undefined =>
  rows.find((row) => row.codes.includes(code)) ??
  rows.find((row) => row.codes.some((own) => rootCode(own) === rootCode(code))) ??
  rows[0];

export const sourceOf = (row: Substance | undefined): Pick<Origin, 'basis' | 'source' | 'url'> => ({
  basis: row?.basis ?? 'memory',
  source: row?.source ?? '',
  ...(row?.url && { url: row.url }),
});

export const sheetTitle = ({ supplier, date }: SafetyDataSheet): string =>
  ['maker’s SDS', supplier, date].filter((part) => part !== undefined && part !== '').join(', ');

/** Statements of a classification, each once. */
export const codesOf = (result: MixtureClassification): readonly string[] =>
  [...new Set([...result.classes, ...result.supplementary].map((one) => one.code))].filter((code) => code !== '');

/** Organs and sensitisers that fill the wording of a classification's statements. */
export function fillingsOf({ classes, supplementary }: MixtureClassification): ReadonlyMap<string, Filling> {
  const fillings = new Map<string, Filling>();
  for (const { code, organs } of classes) {
    const all = [fillings.get(code)?.organs, organs].filter((words) => words !== undefined && words !== '').join(', ');
    if (all !== '') fillings.set(code, { organs: all });
  }
  for (const { code, sensitiser } of supplementary) if (sensitiser) fillings.set(code, { sensitiser });
  return fillings;
}

/** What the table says of a substance at its strength. */
interface TableResult {
  readonly classification: MixtureClassification;
  readonly codes: readonly string[];
  readonly strength?: string;
  /** It is sold at many strengths, and none was given. */
  readonly strengthAssumed?: true;
  readonly notes: readonly HazardNote[];
}

const note = (kind: HazardNoteKind, text: string): HazardNote => ({ kind, text });

const metalNote = note(
  'limits-count-metal',
  'The limits of this entry are meant for the metal alone (Note 1); here they are held against the whole salt, ' +
    'which errs on the side of danger.',
);

function tableResult(
  classification: MixtureClassification,
  more: Omit<TableResult, 'classification' | 'codes'>,
): TableResult {
  return { classification, codes: labelCodesOf(codesOf(classification)), ...more };
}

function classifyFromTable({ name, percent, assumed = [] }: SubstanceInUse, rows: readonly Substance[]): TableResult {
  const classification = classificationOfRows(name, rows);
  if (percent === undefined) {
    const result = classifyUndiluted(classification);
    if (!rows.some((row) => row.soldInSolution)) return tableResult(result, { notes: [] });
    const notes = [note('strength-not-given', 'No strength given: taken as undiluted.')];
    return tableResult(result, { notes, strengthAssumed: true });
  }
  const result = classifyMixture([{ classification, percent }], true);
  const countMetal = rows.some((row) => row.limits.length > 0 && row.limitsCountMetal);
  const assumptions = assumed.map((text) => note('strength-assumed', text));
  return tableResult(result, {
    strength: `${Number(Number(percent).toPrecision(3))} % by mass`,
    notes: [...assumptions, ...result.notes, ...(countMetal ? [metalNote] : [])],
  });
}

/** Whether a sheet's statements say at least as much as a statement of the table. */
function sheetSays(sheet: readonly string[], code: string): boolean {
  if (sheet.some((own) => rootCode(own) === rootCode(code))) return true;
  if (code === 'H318' && sheet.includes('H314')) return true;
  if (code === 'H400' && sheet.includes('H410')) return true;
  const [wanted] = classificationOfStatements('', [code]).classes;
  if (!wanted || (wanted.hazardClass === 'STOT SE' && wanted.category === '3')) return false;
  const own = classificationOfStatements('', sheet).classes;
  return !own.includes(wanted) && !gravestOfEach([...own, wanted]).includes(wanted);
}

/** A signal word that every category of a statement asks for. */
function certainWord(code: string): SignalWord | undefined {
  const words = classLabels()
    .filter((label) => label.code === rootCode(code))
    .map((label) => label.signalWord);
  if (words.length === 0) return undefined;
  if (words.every((word) => word === 'Danger')) return 'Danger';
  return words.includes('Warning') ? 'Warning' : words[0];
}

/** A printed signal word that is milder than the statements surely ask for is not believed. */
function sheetSignalWord(
  { signalWord }: SafetyDataSheet,
  codes: readonly string[],
  derived: SignalWord | undefined,
): SignalWord | undefined {
  if (signalWord === undefined) return derived;
  const printed = signalWord === 'none' ? undefined : signalWord;
  const certain = graverWord(codes.map(certainWord));
  return certain === 'Danger' ? certain : (printed ?? certain);
}

const tellsHazards = (sheet: SafetyDataSheet): boolean =>
  sheet.statements.length > 0 || (sheet.pictograms ?? []).length > 0 || sheet.signalWord !== undefined;

function sheetNotes(
  sheetIsFor: string | undefined,
  leftOut: readonly string[],
  rows: readonly Substance[],
  unpublished: readonly string[],
): readonly HazardNote[] {
  const leftOutBasis = basisWords[rowWith(rows, leftOut[0] ?? '')?.basis ?? 'memory'];
  const all: readonly (HazardNote | undefined)[] = [
    sheetIsFor === undefined
      ? undefined
      : note(
          'sheet-for-other-strength',
          `The maker’s sheet is for ${sheetIsFor}; what the table has at the strength used is counted as well.`,
        ),
    leftOut.length === 0
      ? undefined
      : note(
          'sheet-leaves-out',
          `The maker’s sheet leaves out ${leftOut.join(', ')}, which the table has (${leftOutBasis}).`,
        ),
    unpublished.length === 0
      ? undefined
      : note('unpublished-statement', `${unpublished.join(', ')} on the maker’s sheet is no published statement.`),
  ];
  return all.filter((one) => one !== undefined);
}

/** By the maker's sheet; where that is for another strength, with what the table has beside it. */
function classifyBySheet(
  use: SubstanceInUse,
  sheet: SafetyDataSheet,
  { rows }: SubstanceFinding,
  table: TableResult,
): SubstanceHazards {
  const { name } = use;
  const printed = [...new Set(sheet.statements.flatMap(singleCodes))];
  const unpublished = printed.filter((code) => !statement(code));
  const leftOut = rows.length === 0 ? [] : table.codes.filter((code) => !sheetSays(printed, code));
  const also = use.sheetIsFor === undefined ? [] : leftOut;
  const codes = [...printed, ...also];
  const known = classificationOfStatements(name, printed);
  const classes = [...known.classes, ...table.classification.classes.filter((held) => also.includes(held.code))];
  const signalWord = sheetSignalWord(sheet, codes, signalWordOf(classes, known.supplementary));
  const source = sheetTitle(sheet);
  const url = sheet.url ? { url: sheet.url } : {};
  return {
    classes,
    codes,
    printedPictograms: (sheet.pictograms ?? [])
      .map((pictogram) => pictogram.trim().toUpperCase())
      .filter((pictogram) => /^GHS0[1-9]$/.test(pictogram)),
    ...(signalWord && { signalWord }),
    ...(sheet.precautionary && sheet.precautionary.length > 0 && { precautionary: sheet.precautionary }),
    fillings: new Map(),
    originOf: (code) => {
      const row = also.includes(code) ? rowWith(rows, code) : undefined;
      return { from: name, ...(row ? sourceOf(row) : { basis: 'sds' as const, source, ...url }) };
    },
    summary: {
      name,
      ...(use.role !== undefined && { role: use.role }),
      ...(table.strength && { strength: table.strength }),
      found: 'sds',
      basis: 'sds',
      source,
      ...url,
      codes,
      sds: {
        ...(sheet.supplier && { supplier: sheet.supplier }),
        ...(sheet.date && { date: sheet.date }),
        ...url,
      },
      notes: sheetNotes(use.sheetIsFor, leftOut, rows, unpublished),
      ...(leftOut.length > 0 && { leftOutBySds: leftOut }),
      ...(unpublished.length > 0 && { unpublishedCodes: unpublished }),
    },
  };
}

const sentence = (words: string): string => `${words[0]!.toUpperCase()}${words.slice(1)}.`;

/** What must be said with a row, whatever it is classified as. */
const rowNotes = ({ elsewhere, caveat }: Substance): readonly HazardNote[] => [
  ...(elsewhere === '' ? [] : [note('classified-elsewhere', `Others differ. ${sentence(elsewhere)}`)]),
  ...(caveat === '' ? [] : [note('caveat', sentence(caveat))]),
];

function tableNotes(
  use: SubstanceInUse,
  finding: SubstanceFinding,
  { classification, codes, notes }: TableResult,
): readonly HazardNote[] {
  const row = leastSure(finding.rows);
  const pressed = classification.classes.some((held) => held.hazardClass === 'Press. Gas');
  const all: readonly (HazardNote | undefined)[] = [
    ...finding.notes,
    ...notes,
    pressed
      ? note('gas-under-pressure', 'Gas under pressure where it is bottled: H280 or H281 by its packing.')
      : undefined,
    use.sheet
      ? note('sheet-without-statements', 'A safety data sheet is named, but none of its statements is given.')
      : undefined,
    row?.notClassified && codes.length === 0
      ? note('not-classified', `Not classified, ${basisWords[row.basis]}: that is not the same as harmless.`)
      : undefined,
    ...finding.rows.flatMap(rowNotes),
  ];
  return all.filter((one) => one !== undefined);
}

function classifyByTable(use: SubstanceInUse, finding: SubstanceFinding, table: TableResult): SubstanceHazards {
  const { name } = use;
  const { classification, codes } = table;
  const signalWord = signalWordOf(
    classification.classes,
    codes.filter((code) => code.startsWith('EUH')),
  );
  const rows = rowsOf(finding);
  const row = leastSure(rows);
  return {
    classes: classification.classes,
    codes,
    printedPictograms: [],
    fillings: fillingsOf(classification),
    ...(signalWord && { signalWord }),
    originOf: (code) => {
      const from = rowWith(rows, code);
      const isEntry = finding.found === 'group' && from?.basis !== 'by-element';
      const groupEntry = isEntry ? (from?.synonyms[0] ?? from?.name) : undefined;
      const words = [groupEntry && `group entry: ${groupEntry}`, reasonFor(code, classification)];
      const reason = words.filter((part) => part !== undefined).join('; ');
      return {
        from: name,
        ...sourceOf(from),
        ...(groupEntry && { groupEntry }),
        ...(reason !== '' && { note: reason }),
      };
    },
    summary: {
      name,
      ...(use.role !== undefined && { role: use.role }),
      ...(table.strength && { strength: table.strength }),
      found: finding.found,
      codes,
      notes: tableNotes(use, finding, table),
      ...(table.strengthAssumed && { strengthAssumed: true }),
      ...(row && sourceOf(row)),
    },
  };
}

function classify(use: SubstanceInUse): SubstanceHazards {
  const finding = findSubstance(use);
  const { sheet } = use;
  return sheet && tellsHazards(sheet)
    ? classifyBySheet(use, sheet, finding, classifyFromTable(use, finding.rows))
    : classifyByTable(use, finding, classifyFromTable(use, rowsOf(finding)));
}

/** A substance's hazards at its strength; by the maker's sheet where that tells any, else by the table. */
export const classifySubstance = memoise((use: SubstanceInUse) => JSON.stringify(use), classify, 2000);

// Which rows of the table a reagent is: by CAS number, formula or name, by other water, or by the group of its
// elements. What has no row is unknown, however harmless it may seem: nothing here is ever called safe.
import type { HazardNote, HazardNoteKind, Substance, SubstanceFinding, SubstanceQuery } from './contracts.js';
import { compositionOf, elementsIn, formulaText, metalsOf, type SubstanceComposition } from './composition.js';
import { groupBy } from './group-by.js';
import { elementPrecautionsNamed, elementPrecautionsOf, type ElementMatch } from './element-precautions.js';
import { groupEntriesNamed, groupEntriesOf, type GroupMatch } from './group-entries.js';
import { preparedByKey } from '../../tables/prepared.js';
import { casPattern, substancesNamed } from '../../reagents/known-substances.js';
import { compositionsOf, rowsBy, substances } from './substances.js';

type Rows = readonly Substance[];

const byCasNumber = rowsBy('by-cas', ({ casNumbers }) => casNumbers);
const byKnownName = rowsBy('by-name', ({ name }) => [name]);
const byFormulaText = rowsBy('by-formula', ({ formulae }) => formulae.map(formulaText));
const byComposition = rowsBy('by-composition', (row) => compositionsOf(row).map(({ whole }) => whole));
const byDryComposition = rowsBy('by-dry-composition', (row) => compositionsOf(row).map(({ dry }) => dry));

interface Match {
  readonly rows: Rows;
  readonly notes: readonly HazardNote[];
}
const noMatch: Match = { rows: [], notes: [] };
const note = (kind: HazardNoteKind, text: string): HazardNote => ({ kind, text });
const namesOr = (rows: Rows): string => rows.map((row) => row.name).join(' or ');

const severalNote = (name: string, rows: Rows): readonly HazardNote[] =>
  rows.length > 1
    ? [
        note(
          'name-fits-several',
          `The name “${name}” fits ${namesOr(rows)}; all are counted. Give a formula or a CAS number.`,
        ),
      ]
    : [];
const takenNote = (name: string, rows: Rows): readonly HazardNote[] =>
  rows.length > 0 ? [note('name-taken-as', `“${name}” is taken as ${namesOr(rows)}.`)] : [];

function matchName(name: string): Match {
  const { substances: known, exactly } = substancesNamed(name);
  const rows = known.flatMap((one) => byKnownName(one.name));
  const several = exactly || rows.length > 1;
  return { rows, notes: several ? severalNote(name, rows) : takenNote(name, rows) };
}

function matchNames(query: SubstanceQuery): Match {
  for (const name of [query.name, ...(query.alsoCalled ?? [])]) {
    const match = name ? matchName(name) : noMatch;
    if (match.rows.length > 0) return match;
  }
  return noMatch;
}

function matchOtherWater(made: SubstanceComposition): Match {
  const candidates = byDryComposition(made.dry).filter((row) => !row.group);
  if (candidates.length === 0) return noMatch;
  const alike = candidates.filter((row) =>
    compositionsOf(row).some((listed) => listed.dry === made.dry && listed.holdsWater === made.holdsWater),
  );
  const rows = alike.length > 0 ? alike : candidates;
  const listed = rows.map((row) => `${row.name} (${row.formulae.join(', ')})`).join(' or ');
  return {
    rows,
    notes: [note('read-across-water', `The table has ${listed}; read across to another content of water.`)],
  };
}

/** What a query tells, looked up once. */
interface Clues {
  readonly query: SubstanceQuery;
  readonly formula: string;
  readonly made: SubstanceComposition | undefined;
  readonly byCas: Rows;
  readonly byFormula: Rows;
  /** Found by the very text of the formula, not only by its composition. */
  readonly sameText: boolean;
  readonly byName: Match;
  /** The row's formula is not another than the one asked for, water apart. */
  readonly agrees: (row: Substance) => boolean;
}

/** Rows of a form that is not common, pyrophoric or nano, count only where the name says so. */
function inNamedForm(rows: Rows, { name = '', alsoCalled = [] }: SubstanceQuery): Rows {
  const names = [name, ...alsoCalled].join(' ').toLowerCase();
  return rows.filter((row) => row.form === '' || names.includes(row.form));
}

function cluesOf(query: SubstanceQuery): Clues {
  const formula = query.formula?.trim() ?? '';
  const made = formula === '' ? undefined : compositionOf(formula);
  const cas = casPattern.exec(query.cas ?? '')?.[0] ?? '';
  const byText = inNamedForm(byFormulaText(formulaText(formula)), query);
  const byWhole = inNamedForm(made ? byComposition(made.whole) : [], query);
  return {
    query,
    formula,
    made,
    byCas: inNamedForm(byCasNumber(cas), query),
    byFormula: byText.length > 0 ? byText : byWhole,
    sameText: byText.length > 0,
    byName: matchNames(query),
    agrees: (row) => {
      const listed = compositionsOf(row);
      return !made || listed.length === 0 || listed.some(({ dry }) => dry === made.dry);
    },
  };
}

type By = Extract<SubstanceFinding, { found: 'row' }>['by'];
const rowFinding = (by: By, rows: Rows, notes: readonly HazardNote[] = []): SubstanceFinding => ({
  found: 'row',
  by,
  rows,
  notes,
});

function bothCounted(by: By, first: Rows, second: Rows, what: string): SubstanceFinding {
  const rows = [...new Set([...first, ...second])];
  return rowFinding(by, rows, [
    note('identifiers-differ', `${what} do not name the same substance (${namesOr(rows)}); both are counted.`),
  ]);
}

function findByCas({ byCas, byFormula, formula, agrees }: Clues): SubstanceFinding | undefined {
  if (byCas.length === 0) return undefined;
  if (byCas.some(agrees)) return rowFinding('cas', byCas);
  if (byFormula.length > 0) return bothCounted('cas', byCas, byFormula, 'CAS number and formula');
  const { name, formulae } = byCas[0]!;
  const listed = formulae.join(', ');
  return rowFinding('cas', byCas, [
    note(
      'identifiers-differ',
      `The formula ${formula} is not that of ${name} (${listed}); the CAS number is followed.`,
    ),
  ]);
}

/** An organic compound found by its composition alone may be another one of the same composition. */
const mayBeIsomer = ({ query, made, sameText, byName }: Clues): boolean =>
  !sameText &&
  made !== undefined &&
  made.elements.has('C') &&
  made.elements.has('H') &&
  metalsOf(made).length === 0 &&
  query.name !== undefined &&
  byName.rows.length === 0;

function findByFormula(clues: Clues): SubstanceFinding | undefined {
  const { byFormula, byName, made, agrees } = clues;
  if (byFormula.length === 0) return undefined;
  const both = byFormula.filter((row) => byName.rows.includes(row));
  if (both.length > 0) return rowFinding('formula', both);
  const isomers = byName.rows.filter((row) => made && compositionsOf(row).some(({ whole }) => whole === made.whole));
  if (isomers.length > 0) return rowFinding('name', isomers);
  if (byName.rows.length > 0 && !byName.rows.some(agrees))
    return bothCounted('formula', byFormula, byName.rows, 'Name and formula');
  const text = `Found by its composition as ${byFormula[0]!.name}; another substance can have the same composition.`;
  return rowFinding('formula', byFormula, mayBeIsomer(clues) ? [note('found-by-composition', text)] : []);
}

function findByName({ byName, formula, made, agrees }: Clues): SubstanceFinding | undefined {
  if (byName.rows.length === 0) return undefined;
  const fitting = byName.rows.filter(agrees);
  if (fitting.length > 0) return rowFinding('name', fitting, byName.notes);
  const elements = made ? byElements(groupEntriesOf(made), elementPrecautionsOf(made)) : undefined;
  const { name, formulae } = byName.rows[0]!;
  const listed = formulae.join(', ') || 'none';
  const text = `The formula ${formula} is not that of ${name} in the table (${listed}); the name is followed.`;
  return rowFinding(
    'name',
    [...byName.rows, ...(elements?.rows ?? []), ...(elements?.byElement ?? [])],
    [...byName.notes, note('identifiers-differ', text), ...(elements?.notes ?? [])],
  );
}

function findByOtherWater({ made }: Clues): SubstanceFinding | undefined {
  const match = made ? matchOtherWater(made) : noMatch;
  return match.rows.length > 0 ? rowFinding('hydrate', match.rows, match.notes) : undefined;
}

type ElementFinding = Extract<SubstanceFinding, { by: 'elements' }>;

/** Group entries and precautions by element together; undefined where there are neither. */
function byElements(groups: GroupMatch, precautions: ElementMatch): ElementFinding | undefined {
  const { byElement } = precautions;
  if (groups.rows.length === 0 && byElement.length === 0) return undefined;
  return {
    found: groups.rows.length > 0 ? 'group' : 'by-element',
    by: 'elements',
    rows: groups.rows,
    byElement,
    notes: [...groups.notes, ...precautions.notes],
  };
}

function findByElements({ formula, made }: Clues): SubstanceFinding | undefined {
  const parts = made ?? elementsIn(formula);
  const finding = parts && byElements(groupEntriesOf(parts), elementPrecautionsOf(parts));
  if (!finding || !parts.partly) return finding;
  const partly = note('formula-partly-read', `The formula ${formula} cannot be read in full; its elements are.`);
  return { ...finding, notes: [partly, ...finding.notes] };
}

const findByElementName = ({ query, made }: Clues): SubstanceFinding | undefined =>
  made ? undefined : byElements(groupEntriesNamed(query), elementPrecautionsNamed(query));

const lastingHarm = /^H(?:300|301|310|311|330|331|317|334|340|341|350|351|360|361|370|372|410)/;

/** Rows of which an element is the only metal, group entries left out, by its symbol. */
function rowsByOnlyMetal(): ReadonlyMap<string, Rows> {
  const alone = substances().filter(({ group }) => !group);
  return groupBy(alone, (row) =>
    compositionsOf(row).flatMap((made) => (metalsOf(made).length === 1 ? metalsOf(made) : [])),
  );
}

function sharedByRelatives(symbol: string, rows: Rows): readonly HazardNote[] {
  const shared = [...new Set(rows.flatMap((row) => row.codes))]
    .filter((code) => lastingHarm.test(code))
    .map((code) => ({ code, count: rows.filter((row) => row.codes.includes(code)).length }))
    .filter(({ count }) => count >= 2 && count * 2 >= rows.length);
  if (shared.length === 0) return [];
  const counts = shared.map(({ code, count }) => `${code} (${count})`).join(', ');
  const many = shared.every(({ count }) => count * 2 > rows.length) ? 'most' : 'half or more';
  return [
    note(
      'related-substances',
      `Of the ${rows.length} substances in the table with ${symbol} as their only metal, ${many} carry ${counts}.`,
    ),
  ];
}

/**
 * What most substances of which an element is the only metal carry, said beside an unknown compound of that element.
 */
const relativesNote = preparedByKey<readonly HazardNote[]>('hazards of relatives by metal', () =>
  [...rowsByOnlyMetal()].map(([symbol, rows]) => [symbol, sharedByRelatives(symbol, rows)] as const),
);

function unknown({ formula, made }: Clues): SubstanceFinding {
  const parts = made ?? elementsIn(formula);
  return {
    found: 'unknown',
    rows: [],
    notes: [
      note('no-hazard-data', 'No hazard data: not in the table and no group entry for its elements.'),
      ...(parts ? metalsOf(parts).flatMap((symbol) => relativesNote(symbol) ?? []) : []),
    ],
  };
}

/**
 * What is published of a substance's hazards. A CAS number goes before a formula, a formula before a name; a hydrate
 * not listed is read across from the same salt with other water; then the group entries of its elements; else unknown.
 * Where name and formula name different rows, both are given and the notes say so.
 * @example findSubstance({ name: 'Copper(II) sulphate', formula: 'CuSO4·5H2O' }).found // 'row'
 * @example findSubstance({ formula: 'PbI2' }).found // 'group'
 * @example findSubstance({ name: 'dragon’s blood' }).found // 'unknown'
 */
export function findSubstance(query: SubstanceQuery): SubstanceFinding {
  const clues = cluesOf(query);
  return (
    findByCas(clues) ??
    findByFormula(clues) ??
    findByName(clues) ??
    findByOtherWater(clues) ??
    findByElements(clues) ??
    findByElementName(clues) ??
    unknown(clues)
  );
}

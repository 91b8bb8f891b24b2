// The hazard box: pictograms, signal word and statements of everything that stands on the bench, merged without loss.
// Each statement keeps the names it comes from and on whose word it stands; what is unknown is named as unknown.
import { hillFormula, molarMass, parseFormula } from '../chemistry/index.js';
import { hazardBoxSmallPacksTable } from '../tables/compiled/hazards/hazard-box-small-packs.js';
import { statementsPrecautionsTable } from '../tables/compiled/hazards/statements-precautions.js';
import { statementsPrecautionsCoverTable } from '../tables/compiled/hazards/statements-precautions-cover.js';
import {
  classifyMixture,
  knownOf,
  knownOfCodes,
  massPercent,
  undiluted,
  withoutLesser,
  type Known,
  type MixtureResult,
  type Strength,
} from './mixture.js';
import { labelCodesOf, pictogramsOf, signalWordOf } from './pictograms.js';
import { classLabels, labelOf, rootCode } from './statements-classes.js';
import { statement, wording } from './statements.js';
import { findSubstance, type Basis, type Finding, type HazardClass, type Substance } from './substances.js';

/** Why a statement stands in a box: the substance it comes from, and on whose word. */
export interface Origin {
  readonly from: string;
  readonly basis: Basis;
  /** Title of the source, ready to print. */
  readonly source: string;
  readonly url?: string;
  /** `group entry for lead compounds`, `specific limit C>=5%` … */
  readonly note?: string;
}

export interface StatementShown {
  readonly code: string;
  readonly text: string;
  /** Names of the substances it comes from. */
  readonly from: readonly string[];
  /** One for each substance and source. */
  readonly origins?: readonly Origin[];
  readonly note?: string;
  /** A milder statement of other substances that this one takes the place of: H410 of H400, H314 of H318. */
  readonly standsFor?: { readonly code: string; readonly from: readonly string[] };
  /** Precautionary: among the few that a label would carry. */
  readonly first?: boolean;
}

/** What the box rests on, substance by substance. */
export interface SubstanceShown {
  readonly name: string;
  readonly role?: string;
  /** Strength as reckoned with: `60 % by mass`. */
  readonly strength?: string;
  readonly found: 'row' | 'group' | 'sds' | 'unknown';
  readonly basis?: Basis;
  readonly source?: string;
  readonly url?: string;
  /** Statements at this strength; empty with `found: 'row'` means the source says: not classified. */
  readonly codes: readonly string[];
  readonly notes: readonly string[];
  readonly sds?: { readonly supplier?: string; readonly date?: string; readonly url?: string };
  /** Statements of the table that the maker's sheet leaves out. */
  readonly leftOutBySds?: readonly string[];
}

export interface HazardBox {
  /** GHS01 … GHS09 in order of display. */
  readonly pictograms: readonly string[];
  readonly signalWord?: 'Danger' | 'Warning';
  readonly statements: readonly StatementShown[];
  readonly precautionary: readonly StatementShown[];
  /** Names of substances of which nothing is known; said loudly. */
  readonly unknown: readonly string[];
  readonly substances?: readonly SubstanceShown[];
  /** Assumptions and doubts, as sentences. */
  readonly notes?: readonly string[];
}

/** The maker's own sheet for a reagent, as on the shelf. */
export interface SheetFacts {
  readonly statements: readonly string[];
  readonly precautionary?: readonly string[];
  readonly pictograms?: readonly string[];
  readonly signalWord?: 'Danger' | 'Warning' | 'none';
  readonly supplier?: string;
  readonly date?: string;
  readonly url?: string;
}

export interface BenchSubstance {
  readonly name: string;
  readonly alsoCalled?: readonly string[];
  readonly formula?: string;
  readonly cas?: string;
  readonly role?: string;
  /** Left out: taken as undiluted, and said so where the table's row is of a solution. */
  readonly strength?: Strength;
  readonly sheet?: SheetFacts;
  /** The sheet is for this other strength, as written: then the table at the strength used is counted as well. */
  readonly sheetIsFor?: string;
}

/** Label of a small pack. */
export interface LabelElements {
  readonly pictograms: readonly string[];
  readonly signalWord?: 'Danger' | 'Warning';
  readonly statements: readonly StatementShown[];
  readonly precautionary: readonly StatementShown[];
  /** Statements that the rule allows to leave off this size of pack. */
  readonly leftOff: readonly string[];
  /** The rule used, with its basis. */
  readonly rules: readonly string[];
  readonly unknown: readonly string[];
}

/** `H302 + H312`, `h350I` as a sheet prints them, in the published spelling, combined ones taken apart: nothing is lost. */
export function singleCodes(printed: string): readonly string[] {
  return printed
    .split('+')
    .map((part) => part.replace(/[\s.]/g, ''))
    .filter((part) => part !== '')
    .map((part) => {
      if (statement(part)) return part;
      const upper = part.toUpperCase();
      if (statement(upper)) return upper;
      const suffixed = `${upper.slice(0, 4)}${upper.slice(4).toLowerCase()}`;
      return statement(suffixed) ? suffixed : part;
    });
}

interface Shown {
  readonly substance: SubstanceShown;
  readonly classes: readonly HazardClass[];
  readonly codes: readonly string[];
  readonly origin: (code: string) => Origin;
  readonly fillings: ReadonlyMap<string, { organs?: string; sensitiser?: string }>;
  readonly printed: readonly string[];
  readonly signalWord?: 'Danger' | 'Warning';
  readonly precautionary?: readonly string[];
}

const basisWords: Readonly<Record<Basis, string>> = {
  harmonised: 'harmonised classification',
  national: 'a national classification',
  memory: 'from memory, not checked',
  sds: 'maker’s safety data sheet',
};

/** Of several rows the least sure basis is told. */
const weakest = (rows: readonly Substance[]): Substance | undefined =>
  [...rows].sort(
    (a, b) =>
      ['memory', 'national', 'harmonised'].indexOf(a.basis) - ['memory', 'national', 'harmonised'].indexOf(b.basis),
  )[0];

const rowOf = (rows: readonly Substance[], code: string): Substance | undefined =>
  rows.find((row) => row.codes.includes(code)) ??
  rows.find((row) => row.codes.some((own) => rootCode(own) === rootCode(code))) ??
  rows[0];

const solute = (formula: string | undefined): { readonly molarMass?: string; readonly hill: string } => {
  const read = formula ? parseFormula(formula) : undefined;
  if (!read?.ok) return { hill: '' };
  const mass = molarMass(read.value);
  return { hill: hillFormula(read.value), ...(mass.ok && { molarMass: mass.value.low.toString() }) };
};

const say = (name: string, notes: readonly string[]): readonly string[] =>
  notes.map((note) => (note.startsWith(name) || note.startsWith('“') ? note : `${name}: ${note}`));

/** Organs and sensitisers that fill the wording of this substance's statements. */
function fillingsOf(result: MixtureResult): Shown['fillings'] {
  const into = new Map<string, { organs?: string; sensitiser?: string }>();
  for (const held of result.classes) {
    const organs = [into.get(held.code)?.organs, held.organs]
      .filter((words) => words !== undefined && words !== '')
      .join(', ');
    if (organs !== '') into.set(held.code, { organs });
  }
  for (const extra of result.supplementary)
    if (extra.sensitiser) into.set(extra.code, { sensitiser: extra.sensitiser });
  return into;
}

/** What the table says of a substance at its strength. */
function fromTable(
  bench: BenchSubstance,
  finding: Finding,
): { readonly result: MixtureResult; readonly strength?: string; readonly notes: readonly string[] } {
  const known = knownOf(bench.name, finding.rows);
  const solution = finding.rows.some((row) => row.name.includes('…'));
  if (bench.strength === undefined) {
    return {
      result: undiluted(known),
      notes: solution && !known.unknown ? ['No strength given: taken as undiluted.'] : [],
    };
  }
  const { molarMass: mass, hill: composition } = solute(bench.formula ?? finding.rows[0]?.formula);
  const percent = massPercent(bench.strength, mass, composition);
  if (!percent.ok) return { result: undiluted(known), notes: [`${percent.fault.message} Taken as undiluted.`] };
  const result = classifyMixture([{ known, percent: percent.value.percent }], true);
  const metal = finding.rows.some((row) => row.limits.length > 0 && /CLP notes:[^.]*\b1\b/.test(row.note));
  return {
    result,
    strength: `${Number(Number(percent.value.percent).toPrecision(3))} % by mass`,
    notes: [
      ...percent.value.notes,
      ...result.notes,
      ...(metal
        ? [
            'The limits of this entry are meant for the metal alone (Note 1); here they are held against the whole salt, which errs on the side of danger.',
          ]
        : []),
    ],
  };
}

/** Whether a sheet's statements say at least as much as a statement of the table. */
function covers(sheet: readonly string[], code: string): boolean {
  if (sheet.includes(code) || sheet.some((own) => rootCode(own) === rootCode(code))) return true;
  const wanted = knownOfCodes('', [code]).classes[0];
  if (!wanted) return false;
  const own = knownOfCodes('', sheet).classes;
  if (wanted.hazardClass === 'STOT SE' && wanted.category === '3') return false;
  return (
    (!withoutLesser([...own, wanted]).includes(wanted) && !own.includes(wanted)) ||
    (code === 'H318' && sheet.includes('H314')) ||
    (code === 'H400' && sheet.includes('H410'))
  );
}

/** A signal word that every category of a statement asks for. */
const certainWord = (code: string): 'Danger' | 'Warning' | undefined => {
  const words = classLabels()
    .filter((label) => label.code === rootCode(code))
    .map((label) => label.signalWord);
  return words.length === 0
    ? undefined
    : words.every((word) => word === 'Danger')
      ? 'Danger'
      : words.includes('Warning')
        ? 'Warning'
        : words[0];
};

const remembered = new Map<string, Shown>();
const mostRemembered = 2000;

/** The same reagent stands in many entries: what is found of it is kept. */
function show(bench: BenchSubstance): Shown {
  const key = JSON.stringify(bench);
  let shown = remembered.get(key);
  if (!shown) {
    shown = look(bench);
    if (remembered.size >= mostRemembered) remembered.clear();
    remembered.set(key, shown);
  }
  return shown;
}

function look(bench: BenchSubstance): Shown {
  const finding = findSubstance(bench);
  const table = fromTable(bench, finding);
  const tableCodes = labelCodesOf(
    [
      ...new Set([
        ...table.result.classes.map((held) => held.code),
        ...table.result.supplementary.map((extra) => extra.code),
      ]),
    ].filter((code) => code !== ''),
  );
  const { sheet } = bench;
  const told =
    sheet !== undefined &&
    (sheet.statements.length > 0 || (sheet.pictograms ?? []).length > 0 || sheet.signalWord !== undefined);
  const role = bench.role === undefined ? {} : { role: bench.role };

  if (sheet && told) {
    const codes = [...new Set(sheet.statements.flatMap(singleCodes))];
    const strange = codes.filter((code) => !statement(code));
    const leftOut = finding.found === 'unknown' ? [] : tableCodes.filter((code) => !covers(codes, code));
    const source = ['maker’s SDS', sheet.supplier, sheet.date]
      .filter((part) => part !== undefined && part !== '')
      .join(', ');
    const also = bench.sheetIsFor === undefined ? [] : leftOut;
    const known = knownOfCodes(bench.name, codes);
    const classes = [...known.classes, ...table.result.classes.filter((held) => also.includes(held.code))];
    const derived = signalWordOf(classes, known.supplementary);
    const certain = [...codes, ...also].map(certainWord);
    const printedWord = sheet.signalWord === 'none' ? undefined : sheet.signalWord;
    const signalWord =
      sheet.signalWord === undefined
        ? derived
        : certain.includes('Danger') || printedWord === 'Danger'
          ? ('Danger' as const)
          : (printedWord ?? (certain.includes('Warning') ? ('Warning' as const) : undefined));
    return {
      classes,
      codes: [...codes, ...also],
      printed: (sheet.pictograms ?? [])
        .map((pictogram) => pictogram.trim().toUpperCase())
        .filter((pictogram) => /^GHS0[1-9]$/.test(pictogram)),
      ...(signalWord && { signalWord }),
      ...(sheet.precautionary && sheet.precautionary.length > 0 && { precautionary: sheet.precautionary }),
      fillings: new Map(),
      origin: (code) => {
        const row = also.includes(code) ? rowOf(finding.rows, code) : undefined;
        return row
          ? { from: bench.name, basis: row.basis, source: row.source, ...(row.url && { url: row.url }) }
          : { from: bench.name, basis: 'sds', source, ...(sheet.url && { url: sheet.url }) };
      },
      substance: {
        name: bench.name,
        ...role,
        ...(table.strength && { strength: table.strength }),
        found: 'sds',
        basis: 'sds',
        source,
        ...(sheet.url && { url: sheet.url }),
        codes: [...codes, ...also],
        sds: {
          ...(sheet.supplier && { supplier: sheet.supplier }),
          ...(sheet.date && { date: sheet.date }),
          ...(sheet.url && { url: sheet.url }),
        },
        notes: [
          ...(bench.sheetIsFor === undefined
            ? []
            : [
                `The maker’s sheet is for ${bench.sheetIsFor}; what the table has at the strength used is counted as well.`,
              ]),
          ...(leftOut.length > 0
            ? [
                `The maker’s sheet leaves out ${leftOut.join(', ')}, which the table has (${basisWords[rowOf(finding.rows, leftOut[0]!)?.basis ?? 'memory']}).`,
              ]
            : []),
          ...(strange.length > 0 ? [`${strange.join(', ')} on the maker’s sheet is no published statement.`] : []),
        ],
        ...(leftOut.length > 0 && { leftOutBySds: leftOut }),
      },
    };
  }

  const row = weakest(finding.rows);
  const pressed = table.result.classes.some((held) => held.hazardClass === 'Press. Gas');
  const notes = [
    ...finding.notes,
    ...table.notes,
    ...(pressed ? ['Gas under pressure where it is bottled: H280 or H281 by its packing.'] : []),
    ...(sheet ? ['A safety data sheet is named, but none of its statements is given.'] : []),
    ...(row?.notClassified && tableCodes.length === 0
      ? [`Not classified, ${basisWords[row.basis]}: that is not the same as harmless.`]
      : []),
  ];
  return {
    classes: table.result.classes,
    codes: tableCodes,
    printed: [],
    fillings: fillingsOf(table.result),
    ...(signalWordOf(
      table.result.classes,
      tableCodes.filter((code) => code.startsWith('EUH')),
    ) && {
      signalWord: signalWordOf(
        table.result.classes,
        tableCodes.filter((code) => code.startsWith('EUH')),
      )!,
    }),
    origin: (code) => {
      const from = rowOf(finding.rows, code);
      const why = [...table.result.classes, ...table.result.supplementary].find((one) => one.code === code)?.why;
      const note = [
        finding.found === 'group' ? `group entry: ${from?.synonyms[0] ?? from?.name ?? ''}` : '',
        table.strength || /limit/.test(why ?? '') ? (why ?? '') : '',
      ]
        .filter((part) => part !== '')
        .join('; ');
      return {
        from: bench.name,
        basis: from?.basis ?? 'memory',
        source: from?.source ?? '',
        ...(from?.url && { url: from.url }),
        ...(note !== '' && { note }),
      };
    },
    substance: {
      name: bench.name,
      ...role,
      ...(table.strength && { strength: table.strength }),
      found: finding.found,
      codes: tableCodes,
      notes,
      ...(row && { basis: row.basis, source: row.source, ...(row.url && { url: row.url }) }),
    },
  };
}

const rankOfCode = (code: string): string => (code.startsWith('EUH') ? `Z${code}` : code);
const byCode = (a: { readonly code: string }, b: { readonly code: string }): number =>
  rankOfCode(a.code) < rankOfCode(b.code) ? -1 : 1;

/** Statements of all, each once, with every name it comes from. */
function mergeStatements(shown: readonly Shown[]): readonly StatementShown[] {
  const origins = new Map<string, Origin[]>();
  const fillings = new Map<string, { organs: string[]; sensitiser: string[] }>();
  for (const one of shown) {
    for (const code of one.codes) {
      origins.set(code, [...(origins.get(code) ?? []), one.origin(code)]);
      const filling = one.fillings.get(code);
      const so = fillings.get(code) ?? { organs: [], sensitiser: [] };
      fillings.set(code, {
        organs: [...so.organs, ...(filling?.organs ? [filling.organs] : [])],
        sensitiser: [...so.sensitiser, ...(filling?.sensitiser ? [filling.sensitiser] : [])],
      });
    }
  }
  const standsFor = new Map<string, { code: string; from: readonly string[] }>();
  for (const [grave, lesser] of [
    ['H410', 'H400'],
    ['H314', 'H318'],
  ] as const) {
    if (!origins.has(grave) || !origins.has(lesser)) continue;
    const only = origins
      .get(lesser)!
      .map((origin) => origin.from)
      .filter((name) => !origins.get(grave)!.some((origin) => origin.from === name));
    if (only.length > 0) {
      standsFor.set(grave, { code: lesser, from: [...new Set(only)] });
    }
    origins.delete(lesser);
  }
  return [...origins]
    .map(([code, list]): StatementShown => {
      const filling = fillings.get(code)!;
      const text = wording(code, {
        ...(filling.organs.length > 0 && { organs: [...new Set(filling.organs)].join('; ') }),
        ...(filling.sensitiser.length > 0 && { sensitiser: [...new Set(filling.sensitiser)].join(', ') }),
      });
      return {
        code,
        text: text ?? 'Not a published statement; see the maker’s safety data sheet.',
        from: [...new Set(list.map((origin) => origin.from))],
        origins: list,
        ...(standsFor.has(code) && {
          standsFor: standsFor.get(code)!,
          note: `stands also for ${standsFor.get(code)!.code} of ${standsFor.get(code)!.from.join(', ')}`,
        }),
      };
    })
    .sort(byCode);
}

const mostOnLabel = 6;

interface Advice {
  readonly code: string;
  readonly weight: number;
  readonly source: string;
}
let advice: ReadonlyMap<string, readonly Advice[]> | undefined;

/** Precautionary statements that go with a hazard statement. */
function adviceFor(code: string): readonly Advice[] {
  if (!advice) {
    const into = new Map<string, Advice[]>();
    for (const row of statementsPrecautionsTable())
      into.set(row.h_code, [
        ...(into.get(row.h_code) ?? []),
        { code: row.p_code, weight: row.weight, source: row.source },
      ]);
    advice = into;
  }
  return advice.get(rootCode(code)) ?? [];
}

/** Precautionary statements for the hazard statements, or those of a maker's sheet for its substance; general ones first. */
function precautions(shown: readonly Shown[], statements: readonly StatementShown[]): readonly StatementShown[] {
  const found = new Map<string, { from: Set<string>; weight: number; wants: number; origins: Origin[] }>();
  const add = (code: string, from: string, weight: number, origin: Origin): void => {
    let one = found.get(code);
    if (!one) found.set(code, (one = { from: new Set<string>(), weight, wants: 0, origins: [] }));
    if (!one.from.has(from)) one.origins.push(origin);
    one.from.add(from);
    one.weight = Math.min(one.weight, weight);
    one.wants += 1;
  };
  const ownSheet = new Set(shown.filter((one) => one.precautionary).map((one) => one.substance.name));
  for (const one of shown) {
    if (one.precautionary)
      for (const printed of one.precautionary)
        add(printed.replace(/\s/g, '').toUpperCase(), one.substance.name, 1, one.origin(''));
  }
  for (const shownStatement of statements) {
    for (const row of adviceFor(shownStatement.code)) {
      for (const name of shownStatement.from) {
        if (ownSheet.has(name)) continue;
        add(row.code, name, row.weight, { from: name, basis: 'memory', source: row.source });
      }
    }
  }
  for (const row of statementsPrecautionsCoverTable()) {
    const keeps = found.get(row.keeps);
    const covered = found.get(row.covers);
    if (!keeps || !covered) continue;
    for (const name of covered.from) keeps.from.add(name);
    found.delete(row.covers);
  }
  const first = new Set(
    [...found]
      .sort(([a, x], [b, y]) => x.weight - y.weight || y.wants - x.wants || (a < b ? -1 : 1))
      .slice(0, mostOnLabel)
      .map(([code]) => code),
  );
  return [...found]
    .map(
      ([code, one]): StatementShown => ({
        code,
        text: wording(code) ?? 'Not a published statement; see the maker’s safety data sheet.',
        from: [...one.from],
        origins: one.origins,
        ...(first.has(code) && { first: true }),
      }),
    )
    .sort(byCode);
}

const caution = 'What is unknown is treated as hazardous: read its safety data sheet before use.';

function boxOf(shown: readonly Shown[]): HazardBox {
  const statements = mergeStatements(shown);
  const classes = shown.flatMap((one) => one.classes);
  const derived = pictogramsOf(classes);
  const printed = shown
    .flatMap((one) => one.printed)
    .filter(
      (pictogram) =>
        !(
          pictogram === 'GHS07' &&
          (derived.includes('GHS06') || classes.some((held) => labelOf(held)?.pictograms.includes('GHS07')))
        ),
    );
  const words = shown.map((one) => one.signalWord);
  const signalWord = words.includes('Danger')
    ? ('Danger' as const)
    : words.includes('Warning')
      ? ('Warning' as const)
      : undefined;
  const unknown = [
    ...new Set(shown.filter((one) => one.substance.found === 'unknown').map((one) => one.substance.name)),
  ];
  const notes = [...new Set(shown.flatMap((one) => say(one.substance.name, one.substance.notes)))];
  return {
    pictograms: [...new Set([...derived, ...printed])].sort(),
    ...(signalWord && { signalWord }),
    statements,
    precautionary: precautions(shown, statements),
    unknown,
    substances: shown.map((one) => one.substance),
    notes: unknown.length > 0 ? [caution, ...notes] : notes,
  };
}

/**
 * The box of all that stands on the bench: each substance at its strength, statements merged with the names they come
 * from, pictograms and signal word by precedence, unknown substances named.
 * @example hazardBox([{ name: 'nitric acid', formula: 'HNO3', strength: { of: 'mass', percent: '10' } }]).pictograms // ['GHS05']
 */
export function hazardBox(bench: readonly BenchSubstance[]): HazardBox {
  const key = JSON.stringify(bench);
  let box = boxes.get(key);
  if (!box) {
    box = boxOf(bench.map(show));
    if (boxes.size >= mostRemembered) boxes.clear();
    boxes.set(key, box);
  }
  return box;
}
const boxes = new Map<string, HazardBox>();

/**
 * The box of one mixture: what is not given of the hundred percent is taken as water.
 * @param percent percent by weight of each ingredient, decimal as text
 * @example mixtureBox('pickle', [{ substance: { name: 'hydrochloric acid', formula: 'HCl' }, percent: '15' }]).statements[0]?.code // 'H315'
 */
export function mixtureBox(
  name: string,
  ingredients: readonly { readonly substance: BenchSubstance; readonly percent: string }[],
): HazardBox {
  const findings = ingredients.map(({ substance }) => ({
    substance,
    finding: findSubstance(substance),
    codes: (substance.sheet?.statements ?? []).flatMap(singleCodes),
  }));
  const known = findings.map(
    ({ substance, finding, codes }): Known =>
      codes.length > 0 ? knownOfCodes(substance.name, codes) : knownOf(substance.name, finding.rows),
  );
  const result = classifyMixture(
    ingredients.map(({ percent }, place) => ({ known: known[place]!, percent })),
    ingredients.filter((_, place) => known[place]!.classes.length > 0 || known[place]!.unknown).length === 1,
  );
  const codes = [
    ...new Set([...result.classes.map((held) => held.code), ...result.supplementary.map((extra) => extra.code)]),
  ].filter((code) => code !== '');
  const originOf = (from: string, code: string, why: string): Origin => {
    const at = findings.find((one) => one.substance.name === from);
    const row = at && at.codes.length === 0 ? rowOf(at.finding.rows, code) : undefined;
    const sheet = at?.substance.sheet;
    return at && at.codes.length > 0
      ? {
          from,
          basis: 'sds',
          source: ['maker’s SDS', sheet?.supplier, sheet?.date].filter(Boolean).join(', '),
          note: why,
        }
      : {
          from,
          basis: row?.basis ?? 'memory',
          source: row?.source ?? '',
          ...(row?.url && { url: row.url }),
          note: why,
        };
  };
  const shownFor = (place: number): Shown => {
    const from = findings[place]!.substance.name;
    const mine = codes.filter(
      (code) =>
        result.classes.some((held) => held.code === code && held.from.includes(from)) ||
        result.supplementary.some((extra) => extra.code === code && extra.from === from),
    );
    const classes = result.classes.filter((held) => held.from.includes(from));
    const word = signalWordOf(
      classes,
      mine.filter((code) => code.startsWith('EUH')),
    );
    const { finding, substance, codes: printed } = findings[place]!;
    const row = weakest(finding.rows);
    return {
      classes,
      codes: mine,
      printed: [],
      fillings: fillingsOf({
        classes,
        supplementary: result.supplementary.filter((extra) => extra.from === from),
        notes: [],
      }),
      ...(word && { signalWord: word }),
      origin: (code) =>
        originOf(
          from,
          code,
          [...result.classes, ...result.supplementary].find((one) => one.code === code && one.from.includes(from))
            ?.why ?? '',
        ),
      substance: {
        name: from,
        ...(substance.role && { role: substance.role }),
        strength: `${ingredients[place]!.percent} % of ${name}`,
        found: printed.length > 0 ? 'sds' : finding.found,
        codes: mine,
        notes: printed.length > 0 ? [] : finding.notes,
        ...(printed.length > 0
          ? { basis: 'sds' as const }
          : row && { basis: row.basis, source: row.source, ...(row.url && { url: row.url }) }),
      },
    };
  };
  const box = boxOf(findings.map((_, place) => shownFor(place)));
  return { ...box, notes: [...(box.notes ?? []), ...result.notes] };
}

const acuteFamilies = [
  ['H300', 'H310', 'H330'],
  ['H301', 'H311', 'H331'],
  ['H302', 'H312', 'H332'],
  ['H303', 'H313', 'H333'],
];

/** Acute toxicity of one category, by several routes, in one sentence: `H301+H311`. */
function combined(statements: readonly StatementShown[]): readonly StatementShown[] {
  return acuteFamilies.reduce<readonly StatementShown[]>((all, family) => {
    const parts = family.flatMap((code) => all.find((one) => one.code === code) ?? []);
    const code = parts.map((part) => part.code).join('+');
    const text = parts.length > 1 ? wording(code) : undefined;
    if (!text) return all;
    return [
      ...all.filter((one) => !parts.includes(one)),
      {
        code,
        text,
        from: [...new Set(parts.flatMap((part) => part.from))],
        origins: parts.flatMap((part) => part.origins ?? []),
      },
    ].sort(byCode);
  }, statements);
}

/**
 * What goes on the label of a pack: all of it above 125 mL; on a smaller one the statements of the milder classes may
 * be left off, never those of grave ones, of unknown substances, or the pictograms.
 * Source: CLP Article 29 and Annex I 1.5, from memory (each rule says so).
 * @param packMillilitres volume of the pack, mL
 * @param forPublic whether it goes to the public, as a vial posted to a supporter does; then fewer statements may go
 */
export function labelElements(box: HazardBox, packMillilitres: number, forPublic = true): LabelElements {
  const rows = hazardBoxSmallPacksTable().filter(
    (row) => packMillilitres <= row.up_to_ml && (row.public || !forPublic),
  );
  const droppable = box.unknown.length > 0 ? [] : rows;
  const off = box.statements.filter((one) => droppable.some((row) => row.code === rootCode(one.code)));
  const kept = box.statements.filter((one) => !off.includes(one));
  const bare =
    off.length > 0 &&
    box.statements.every((one) => droppable.some((row) => row.code === rootCode(one.code) && row.pictogram_too));
  const wanted = (one: StatementShown): boolean =>
    kept.some((left) => adviceFor(left.code).some((row) => row.code === one.code)) ||
    (one.origins ?? []).some((origin) => origin.basis === 'sds');
  return {
    pictograms: bare ? [] : box.pictograms,
    ...(box.signalWord && { signalWord: box.signalWord }),
    statements: combined(kept),
    precautionary: box.precautionary.filter((one) => one.first && wanted(one)),
    leftOff: off.map((one) => one.code),
    rules:
      off.length > 0
        ? [
            ...new Set(
              droppable.filter((row) => off.some((one) => row.code === rootCode(one.code))).map((row) => row.source),
            ),
          ]
        : packMillilitres <= 125
          ? ['CLP Annex I 1.5.2, from memory: nothing may be left off here']
          : ['full label: the pack is over 125 mL (CLP Annex I 1.5.2, from memory)'],
    unknown: box.unknown,
  };
}

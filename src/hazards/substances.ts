// What is published of a substance's hazards: a row of the table, a group entry for its element, or nothing (unknown).
// What has no row is unknown, however harmless it may seem: nothing here is ever called safe.
import { composition, elements, hillFormula, parseFormula } from '../chemistry/index.js';
import { substancesTable } from '../tables/compiled/hazards/substances.js';
import { substancesChargesTable } from '../tables/compiled/hazards/substances-charges.js';
import { substancesGroupsTable, type SubstancesGroupsRow } from '../tables/compiled/hazards/substances-groups.js';
import { heldClasses } from './statements-classes.js';
import { nameKey, plainNameKey, plainWords, statelessKey } from './substances-names.js';

/** One hazard class and category, with the statement that belongs to it. */
export interface HazardClass {
  /** GHS short name: `Acute Tox.`, `Skin Corr.`, `Aquatic Chronic` … */
  readonly hazardClass: string;
  /** `1`, `1A`, `2`, `4`, `1B` … ; empty where the class has none */
  readonly category: string;
  /** Exposure route of acute toxicity. */
  readonly route?: 'oral' | 'dermal' | 'inhalation';
  /** Organs affected (STOT), as the source writes them. */
  readonly organs?: string;
  /** H-statement; empty where the statement depends on packing (gas under pressure). */
  readonly code: string;
}

/** A specific concentration limit: from `low` to `high` percent by weight the solution has this class. */
export interface SpecificLimit {
  readonly low: string;
  readonly lowIncluded: boolean;
  /** Upper bound, never included; undefined up to 100 %. */
  readonly high?: string;
  /** Undefined for a limit on an EUH statement. */
  readonly gives?: HazardClass;
  readonly code: string;
}

export interface AcuteToxicityEstimate {
  readonly route: 'oral' | 'dermal' | 'inhalation';
  /** mg/kg, or mg/L (dust, mist, vapour) */
  readonly value: string;
  readonly form?: 'dust' | 'vapour' | 'gas';
}

/** Where a classification comes from. */
export type Basis =
  | 'harmonised' // EU CLP Annex VI
  | 'national' // a government's own result
  | 'memory' // known, no document seen: doubtful
  | 'sds'; // the maker's safety data sheet, from the shelf

/** A row of the table of substances. */
export interface Substance {
  readonly name: string;
  readonly synonyms: readonly string[];
  readonly formula: string;
  readonly cas: string;
  readonly hydrateCas: readonly string[];
  readonly indexNumber: string;
  readonly classes: readonly HazardClass[];
  /** EUH statements of the row. */
  readonly supplementary: readonly string[];
  /** Every statement of the classification, as the source orders them. */
  readonly codes: readonly string[];
  /** Statements that the source prints on the label. */
  readonly labelCodes: readonly string[];
  readonly pictograms: readonly string[];
  readonly signalWord?: 'Danger' | 'Warning';
  readonly limits: readonly SpecificLimit[];
  readonly multiplyAcute: number;
  readonly multiplyChronic: number;
  readonly estimates: readonly AcuteToxicityEstimate[];
  /** The source says expressly that it is not classified. */
  readonly notClassified: boolean;
  readonly group: boolean;
  readonly note: string;
  readonly basis: Basis;
  readonly source: string;
  readonly url: string;
}

export interface SubstanceQuery {
  readonly name?: string;
  readonly alsoCalled?: readonly string[];
  readonly formula?: string;
  readonly cas?: string;
}

/** What is known: by rows of its own (more than one where name and formula allow several), by group entries (all that apply), or nothing. */
export type Finding =
  | {
      readonly found: 'row';
      readonly rows: readonly Substance[];
      readonly by: 'cas' | 'name' | 'formula' | 'hydrate';
      readonly notes: readonly string[];
    }
  | {
      readonly found: 'group';
      readonly rows: readonly Substance[];
      readonly by: 'elements';
      readonly notes: readonly string[];
    }
  | { readonly found: 'unknown'; readonly rows: readonly []; readonly notes: readonly string[] };

/** Names that a row's name holds, with `;` between them. */
const list = (cell: string): readonly string[] =>
  cell
    .split(';')
    .map((part) => part.trim())
    .filter((part) => part !== '');
const casPattern = /\b\d{2,7}-\d{2}-\d\b/;

const limitPattern = /^(?:(?<low>[\d.]+)%(?<lowSign><=?)C<(?:=)?(?<high>[\d.]+)%|C>=(?<from>[\d.]+)%)\s+(?<gives>.+)$/;
const estimatePattern =
  /^(?:(?<first>Oral|Dermal|Inhalation) ATE|ATE (?<second>oral|dermal|inhalation)) = (?<value>[\d.]+) m?g\/(?:kg(?: bw)?|L)(?: \((?<form>[^)]+)\))?$/i;
const factorPattern = /^M=(?<factor>\d+)$/;

function readLimits(
  written: readonly string[],
): Pick<Substance, 'limits' | 'estimates' | 'multiplyAcute' | 'multiplyChronic'> {
  const limits: SpecificLimit[] = [];
  const estimates: AcuteToxicityEstimate[] = [];
  const factors: number[] = [];
  for (const part of written) {
    const factor = factorPattern.exec(part);
    const estimate = estimatePattern.exec(part);
    const limit = limitPattern.exec(part);
    if (factor) factors.push(Number(factor.groups!['factor']));
    else if (estimate) {
      const { first, second, value, form } = estimate.groups!;
      estimates.push({
        route: (first ?? second)!.toLowerCase() as AcuteToxicityEstimate['route'],
        value: value!,
        ...(form && {
          form: /vapour/i.test(form) ? ('vapour' as const) : /gas/i.test(form) ? ('gas' as const) : ('dust' as const),
        }),
      });
    } else if (limit) {
      const { low, lowSign, high, from, gives } = limit.groups!;
      const words = gives!.split(' ');
      const code = words.pop()!;
      limits.push({
        low: (low ?? from)!,
        lowIncluded: lowSign !== '<',
        ...(high && { high }),
        code,
        ...(words.length > 0 && { gives: heldClasses(words.join(' '), code)[0] }),
      });
    } else throw new Error(`hazards/substances.csv: a limit that cannot be read: ${part}`);
  }
  return { limits, estimates, multiplyAcute: factors[0] ?? 1, multiplyChronic: factors[1] ?? factors[0] ?? 1 };
}

function read(): readonly Substance[] {
  return substancesTable().map((row) => {
    const { synonyms, h_codes: codes } = row;
    const notClassified = row.classification === 'not classified';
    return {
      name: row.name,
      synonyms: synonyms
        .filter((synonym) => !casPattern.test(synonym))
        .map((synonym) => synonym.replace(/^group entry: /, '')),
      formula: row.formula,
      cas: row.cas,
      hydrateCas: synonyms.flatMap((synonym) => casPattern.exec(synonym)?.[0] ?? []),
      indexNumber: row.ec_index_no,
      classes: notClassified
        ? []
        : heldClasses(row.classification, codes.filter((code) => !code.startsWith('EUH')).join('; ')),
      supplementary: codes.filter((code) => code.startsWith('EUH')),
      codes,
      labelCodes: row.label_h_codes,
      pictograms: row.pictograms,
      ...(row.signal_word !== '' && { signalWord: row.signal_word }),
      ...readLimits(row.specific_conc_limits),
      notClassified,
      group: synonyms.some((synonym) => synonym.startsWith('group entry: ')),
      note: row.note,
      basis: row.basis,
      source: row.source_title || 'from memory, no document seen',
      url: row.source_url,
    };
  });
}

/** Formula as plain text, so that two spellings of the same dots and digits are one: `CuSO4·5H2O` and `CuSO4.5H2O`. */
const formulaText = (formula: string): string =>
  formula
    .normalize('NFKC')
    .replace(/\((?:s|l|g|aq)\)\s*$/, '')
    .replace(/[·•∙⋅‧*∗×]/g, '.')
    .replace(/\s+/g, '');

interface Made {
  readonly text: string;
  readonly whole: string;
  /** Composition without water of crystallisation. */
  readonly dry: string;
  readonly waters: boolean;
  readonly elements: ReadonlyMap<string, number>;
  /** Only the elements could be made out, not how many of each. */
  readonly partly?: boolean;
}

/** What a formula is made of, or undefined if it cannot be read. */
function madeOf(formula: string): Made | undefined {
  const read = parseFormula(formula);
  if (!read.ok) return undefined;
  const isWater = (nodes: (typeof read.value.parts)[number]): boolean =>
    hillFormula({
      ...read.value,
      parts: [
        {
          ...nodes,
          multiplier: {
            low: nodes.multiplier.low.div(nodes.multiplier.low),
            high: nodes.multiplier.high.div(nodes.multiplier.high),
          },
        },
      ],
    }) === 'H2O';
  const dryParts =
    read.value.parts.length > 1
      ? read.value.parts.filter((part) => part.multiplier.low.isZero() || !isWater(part))
      : read.value.parts;
  const dry = { ...read.value, parts: dryParts };
  return {
    text: formulaText(formula),
    whole: hillFormula(read.value),
    dry: hillFormula(dry),
    waters: dryParts.length < read.value.parts.length,
    elements: new Map(
      [...composition(dry)].map(([symbol, count]) => [symbol, count.low.plus(count.high).div(2).toNumber()]),
    ),
  };
}

/** The elements of a formula that cannot be read in full, such as `Pb(Cr,Mo,S)O4`. */
function partlyMadeOf(formula: string): Made | undefined {
  const text = formulaText(formula);
  const known = elements();
  const symbols = (formula.normalize('NFKC').match(/[A-Z][a-z]?(?![a-z])/g) ?? []).filter((symbol) =>
    known.has(symbol),
  );
  return symbols.length === 0
    ? undefined
    : {
        text,
        whole: '',
        dry: '',
        waters: false,
        elements: new Map(symbols.map((symbol) => [symbol, 1])),
        partly: true,
      };
}

interface Index {
  readonly rows: readonly Substance[];
  readonly made: ReadonlyMap<Substance, Made>;
  readonly byCas: ReadonlyMap<string, readonly Substance[]>;
  readonly byName: ReadonlyMap<string, readonly Substance[]>;
  readonly byPlainName: ReadonlyMap<string, readonly Substance[]>;
  readonly byStateless: ReadonlyMap<string, readonly Substance[]>;
  readonly byText: ReadonlyMap<string, readonly Substance[]>;
  readonly byWhole: ReadonlyMap<string, readonly Substance[]>;
  readonly byDry: ReadonlyMap<string, readonly Substance[]>;
}

const namesOf = (row: Substance): readonly string[] => [row.name, ...list(row.name), ...row.synonyms];

function indexOf(rows: readonly Substance[]): Index {
  const index = (keys: (row: Substance) => readonly string[]): ReadonlyMap<string, readonly Substance[]> => {
    const into = new Map<string, Substance[]>();
    for (const row of rows) {
      for (const key of new Set(keys(row))) if (key !== '') into.set(key, [...(into.get(key) ?? []), row]);
    }
    return into;
  };
  const made = new Map(
    rows.flatMap((row): [Substance, Made][] => {
      const parts = row.formula === '' ? undefined : madeOf(row.formula);
      return parts ? [[row, parts]] : [];
    }),
  );
  return {
    rows,
    made,
    byCas: index((row) => [row.cas, ...row.hydrateCas]),
    byName: index((row) => namesOf(row).map(nameKey)),
    byPlainName: index((row) => namesOf(row).map(plainNameKey)),
    byStateless: index((row) => namesOf(row).map(statelessKey)),
    byText: index((row) => [formulaText(row.formula)]),
    byWhole: index((row) => [made.get(row)?.whole ?? '']),
    byDry: index((row) => [made.get(row)?.dry ?? '']),
  };
}

let built: Index | undefined;
const table = (): Index => (built ??= indexOf(read()));

/** Every row of the table, group entries included. @example substances().length > 160 */
export const substances = (): readonly Substance[] => table().rows;

interface Hit {
  readonly rows: readonly Substance[];
  readonly notes: readonly string[];
}
const nothing: Hit = { rows: [], notes: [] };
const or = (names: readonly string[]): string => names.join(' or ');

const hasState = (key: string): boolean => /\((?:i|ii|iii|iv|v|vi|vii)(?:,[iv]+)*\)/.test(key);

function byOneName(name: string): Hit {
  const { byName, byPlainName, byStateless } = table();
  const exact = byName.get(nameKey(name)) ?? byName.get(plainNameKey(name));
  if (exact)
    return {
      rows: exact,
      notes:
        exact.length > 1
          ? [
              `The name “${name}” fits ${or(exact.map((row) => row.name))}; all are counted. Give a formula or a CAS number.`,
            ]
          : [],
    };
  const plain = byPlainName.get(plainNameKey(name));
  if (plain)
    return {
      rows: plain,
      notes:
        plain.length > 1
          ? [
              `The name “${name}” fits ${or(plain.map((row) => row.name))}; all are counted. Give a formula or a CAS number.`,
            ]
          : [],
    };
  const loose = byStateless.get(statelessKey(name)) ?? [];
  if (hasState(plainNameKey(name))) {
    const silent = loose.filter((row) => !namesOf(row).some((known) => hasState(nameKey(known))));
    return {
      rows: silent,
      notes: silent.length > 0 ? [`“${name}” is taken as ${or(silent.map((row) => row.name))}.`] : [],
    };
  }
  if (loose.length === 1) return { rows: loose, notes: [`“${name}” is taken as ${loose[0]!.name}.`] };
  return loose.length > 1
    ? {
        rows: loose,
        notes: [
          `The name “${name}” fits ${or(loose.map((row) => row.name))}; all are counted. Give a formula or a CAS number.`,
        ],
      }
    : nothing;
}

function byNames(query: SubstanceQuery): Hit {
  for (const name of [query.name, ...(query.alsoCalled ?? [])]) {
    if (!name) continue;
    const hit = byOneName(name);
    if (hit.rows.length > 0) return hit;
  }
  return nothing;
}

function byHydrate(made: Made): Hit {
  const candidates = (table().byDry.get(made.dry) ?? []).filter((row) => !row.group);
  if (candidates.length === 0) return nothing;
  const sameKind = candidates.filter((row) => (table().made.get(row)?.waters ?? false) === made.waters);
  const rows = sameKind.length > 0 ? sameKind : candidates;
  return {
    rows,
    notes: [
      `The table has ${or(rows.map((row) => `${row.name} (${row.formula})`))}; read across to another content of water.`,
    ],
  };
}

const metal = (symbol: string): boolean =>
  !['H', 'B', 'C', 'N', 'O', 'F', 'Si', 'P', 'S', 'Cl', 'Se', 'Br', 'I', 'He', 'Ne', 'Ar'].includes(symbol);

/** Mean oxidation state of an element, where those of all others are the usual ones; undefined where one is not known. */
function stateOf(symbol: string, made: Made): number | undefined {
  const usual = new Map(substancesChargesTable().map((row) => [row.symbol, row.state]));
  let charge = 0;
  for (const [other, count] of made.elements) {
    if (other === symbol) continue;
    const state = usual.get(other);
    if (state === undefined) return undefined;
    charge += state * count;
  }
  return -charge / made.elements.get(symbol)!;
}

/** Whether chromium is hexavalent: by the written anion, by charges, or, where these do not tell, by much oxygen. */
function holdsChromate(made: Made): boolean {
  if (/Cr(?:O4|2O7|3O10)|Cr(?:,[A-Za-z]+)*\)O4/.test(made.text)) return true;
  if (made.partly) return false;
  const state = stateOf('Cr', made);
  if (state !== undefined) return state > 5.5;
  const others = ['S', 'P', 'C', 'N', 'Si', 'Cl'].some((symbol) => made.elements.has(symbol));
  return !others && (made.elements.get('O') ?? 0) / made.elements.get('Cr')! >= 3.5;
}
const holdsArsenate = (made: Made): boolean =>
  /As(?:O4|2O7)/.test(made.text) || (!made.partly && made.elements.has('O') && stateOf('As', made) === 5);

const salt = (made: Made): boolean => [...made.elements.keys()].some(metal) || /NH4/.test(made.text);
const conditions: Readonly<Record<SubstancesGroupsRow['holds'], (made: Made) => boolean>> = {
  '': () => true,
  'chromium(VI)': holdsChromate,
  arsenate: holdsArsenate,
  'not-arsenate': (made) => !holdsArsenate(made),
  inorganic: (made) => !(made.elements.has('C') && made.elements.has('H')),
  'simple-cyanide': (made) =>
    salt(made) &&
    /CN/.test(made.text) &&
    !/SCN|OCN|CNO|CNS/.test(made.text) &&
    !['Fe', 'Co', 'Cr'].some((symbol) => made.elements.has(symbol)) &&
    !(made.elements.has('Hg') && made.elements.has('O')),
  oxalate: (made) => salt(made) && /C2O4/.test(made.text),
  thiocyanate: (made) => salt(made) && /SCN|CNS|NCS/.test(made.text),
};

function byElements(made: Made): Hit {
  if (made.elements.size < 2) return nothing;
  const set = [...made.elements.keys()].sort().join('+');
  const hits = substancesGroupsTable().filter((row) => {
    if (!row.elements.every((symbol) => made.elements.has(symbol))) return false;
    if (row.not_element_sets.includes(set)) return false;
    if (row.not_formulae.some((formula) => !made.partly && madeOf(formula)?.dry === made.dry)) return false;
    return conditions[row.holds](made);
  });
  return groupHit(hits, '');
}

const groupHit = (hits: readonly SubstancesGroupsRow[], how: string): Hit => ({
  rows: hits.map((hit) => table().rows.find((row) => row.group && row.indexNumber === hit.index_no)!),
  notes: hits.map(
    (hit) =>
      `No row of its own: the group entry for ${hit.group} is used${how}, a minimum that the maker’s safety data sheet may go beyond.`,
  ),
});

/** Group entries by a systematic name alone: `cadmium nitrate`, not `cadmium red hue`. */
function byElementName(query: SubstanceQuery): Hit {
  const words = [query.name, ...(query.alsoCalled ?? [])]
    .flatMap((name) => (name ? [plainWords(name)] : []))
    .find((parts) => parts.length > 1 && /(?:ate|ite|ide)$/.test(parts.at(-1)!));
  if (!words) return nothing;
  const has = (listed: readonly string[]): boolean => listed.some((word) => words.includes(word));
  return groupHit(
    substancesGroupsTable().filter((row) => has(row.words) && !has(row.not_words)),
    ' because of its name',
  );
}

const lasting = /^H(?:300|301|310|311|330|331|317|334|340|341|350|351|360|361|370|372|410)/;

/** What most substances of an element in the table carry, said beside an unknown compound of that element. */
function relatives(made: Made): readonly string[] {
  return [...made.elements.keys()].filter(metal).flatMap((symbol) => {
    const rows = table().rows.filter((row) => !row.group && table().made.get(row)?.elements.has(symbol));
    const shared = [...new Set(rows.flatMap((row) => row.codes))]
      .filter((code) => lasting.test(code))
      .map((code) => ({ code, count: rows.filter((row) => row.codes.includes(code)).length }))
      .filter(({ count }) => count >= 2 && count * 2 >= rows.length);
    return shared.length > 0
      ? [
          `Of the ${rows.length} substances with ${symbol} in the table, most carry ${shared.map(({ code, count }) => `${code} (${count})`).join(', ')}.`,
        ]
      : [];
  });
}

/**
 * What is published of a substance's hazards. A CAS number goes before a formula, a formula before a name; a hydrate
 * not listed is read across from the same salt with other water; then the group entries of its elements; else unknown.
 * Where name and formula name different rows, both are given and the notes say so.
 * @example findSubstance({ name: 'Copper(II) sulphate', formula: 'CuSO4·5H2O' }).found // 'row'
 * @example findSubstance({ formula: 'PbI2' }).found // 'group'
 * @example findSubstance({ name: 'dragon’s blood' }).found // 'unknown'
 */
export function findSubstance(query: SubstanceQuery): Finding {
  const index = table();
  const formula = query.formula?.trim() ?? '';
  const made = formula === '' ? undefined : madeOf(formula);
  const cas = (query.cas !== undefined && casPattern.exec(query.cas)?.[0]) || '';
  const dryOf = (row: Substance): string | undefined => index.made.get(row)?.dry;
  const byCas = index.byCas.get(cas) ?? [];
  const byText = formula === '' ? [] : (index.byText.get(formulaText(formula)) ?? []);
  const byFormula = byText.length > 0 ? byText : made ? (index.byWhole.get(made.whole) ?? []) : [];
  const names = byNames(query);
  const agree = (row: Substance): boolean => !made || dryOf(row) === undefined || dryOf(row) === made.dry;

  const both = (
    first: readonly Substance[],
    second: readonly Substance[],
    by: 'cas' | 'formula' | 'name',
    what: string,
  ): Finding => ({
    found: 'row',
    by,
    rows: [...new Set([...first, ...second])],
    notes: [
      `${what} do not name the same substance (${or([...new Set([...first, ...second])].map((row) => row.name))}); both are counted.`,
    ],
  });

  if (byCas.length > 0) {
    if (byFormula.length > 0 && !byCas.some(agree)) return both(byCas, byFormula, 'cas', 'CAS number and formula');
    return {
      found: 'row',
      by: 'cas',
      rows: byCas,
      notes: byCas.some(agree)
        ? []
        : [
            `The formula ${formula} is not that of ${byCas[0]!.name} (${byCas[0]!.formula}); the CAS number is followed.`,
          ],
    };
  }
  if (byFormula.length > 0) {
    const overlap = byFormula.filter((row) => names.rows.includes(row));
    if (overlap.length > 0) return { found: 'row', by: 'formula', rows: overlap, notes: [] };
    const isomers = names.rows.filter((row) => index.made.get(row)?.whole === made?.whole && made !== undefined);
    if (isomers.length > 0) return { found: 'row', by: 'name', rows: isomers, notes: [] };
    if (names.rows.length > 0 && !names.rows.some(agree))
      return both(byFormula, names.rows, 'formula', 'Name and formula');
    return {
      found: 'row',
      by: 'formula',
      rows: byFormula,
      notes:
        byText.length > 0 ||
        !made?.elements.has('C') ||
        !made.elements.has('H') ||
        [...made.elements.keys()].some(metal) ||
        query.name === undefined ||
        names.rows.length > 0
          ? []
          : [`Found by its composition as ${byFormula[0]!.name}; another substance can have the same composition.`],
    };
  }
  if (names.rows.length > 0) {
    const fits = names.rows.filter(agree);
    const groups = made && fits.length === 0 ? byElements(made) : nothing;
    return {
      found: 'row',
      by: 'name',
      rows: [...(fits.length > 0 ? fits : names.rows), ...groups.rows],
      notes: [
        ...names.notes,
        ...(fits.length > 0
          ? []
          : [
              `The formula ${formula} is not that of ${names.rows[0]!.name} in the table (${names.rows[0]!.formula || 'none'}); the name is followed.`,
            ]),
        ...groups.notes,
      ],
    };
  }
  const partly = made ?? partlyMadeOf(formula);
  if (made) {
    const hydrate = byHydrate(made);
    if (hydrate.rows.length > 0) return { found: 'row', by: 'hydrate', ...hydrate };
  }
  if (partly) {
    const groups = byElements(partly);
    if (groups.rows.length > 0)
      return {
        found: 'group',
        by: 'elements',
        ...groups,
        notes: [
          ...(partly.partly ? [`The formula ${formula} cannot be read in full; its elements are.`] : []),
          ...groups.notes,
        ],
      };
  }
  if (!made) {
    const groups = byElementName(query);
    if (groups.rows.length > 0) return { found: 'group', by: 'elements', ...groups };
  }
  return {
    found: 'unknown',
    rows: [],
    notes: [
      'No hazard data: not in the table and no group entry for its elements.',
      ...(partly ? relatives(partly) : []),
    ],
  };
}

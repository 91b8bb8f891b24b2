// The table of substances: what is published of each one's hazards, row by row.
import { substancesTable, type SubstancesRow } from '../../tables/compiled/hazards/ghs/substances.js';
import type { AcuteToxicityEstimate, Route, SpecificLimit, Substance } from './contracts.js';
import { knownSubstances, type KnownSubstance } from '../../reagents/known-substances.js';
import { readClassification } from './hazard-classes.js';

const limitPattern = /^(?:(?<low>[\d.]+)%(?<lowSign><=?)C<(?:=)?(?<high>[\d.]+)%|C>=(?<from>[\d.]+)%)\s+(?<gives>.+)$/;
const estimatePattern = new RegExp(
  '^(?:(?<first>Oral|Dermal|Inhalation) ATE|ATE (?<second>oral|dermal|inhalation))' +
    ' = (?<value>[\\d.]+) m?g/(?:kg(?: bw)?|L)(?: \\((?<form>[^)]+)\\))?$',
  'i',
);
const factorPattern = /^M=(?<factor>\d+)$/;

type Groups = Readonly<Record<string, string | undefined>>;

function formOf(words: string): NonNullable<AcuteToxicityEstimate['form']> {
  if (/vapour/i.test(words)) return 'vapour';
  return /gas/i.test(words) ? 'gas' : 'dust';
}

const estimateOf = ({ first, second, value, form }: Groups): AcuteToxicityEstimate => ({
  route: (first ?? second)!.toLowerCase() as Route,
  value: value!,
  ...(form && { form: formOf(form) }),
});

function limitOf({ low, lowSign, high, from, gives }: Groups): SpecificLimit {
  const words = gives!.split(' ');
  const code = words.pop()!;
  return {
    low: (low ?? from)!,
    lowIncluded: lowSign !== '<',
    ...(high && { high }),
    code,
    ...(words.length > 0 && { gives: readClassification(words.join(' '), code)[0] }),
  };
}

type Limits = Pick<Substance, 'limits' | 'estimates' | 'acuteMFactor' | 'chronicMFactor'>;

function readLimits(written: readonly string[]): Limits {
  const limits: SpecificLimit[] = [];
  const estimates: AcuteToxicityEstimate[] = [];
  const factors: number[] = [];
  for (const part of written) {
    const factor = factorPattern.exec(part)?.groups;
    const estimate = estimatePattern.exec(part)?.groups;
    const limit = limitPattern.exec(part)?.groups;
    if (factor) factors.push(Number(factor['factor']));
    else if (estimate) estimates.push(estimateOf(estimate));
    else if (limit) limits.push(limitOf(limit));
    else throw new Error(`hazards/ghs/substances.csv: a limit that cannot be read: ${part}`);
  }
  return { limits, estimates, acuteMFactor: factors[0] ?? 1, chronicMFactor: factors[1] ?? factors[0] ?? 1 };
}

function substanceOf(row: SubstancesRow, known: KnownSubstance): Substance {
  const { h_codes: codes } = row;
  const { synonyms, formula, cas, hydrateCas, group } = known;
  const notClassified = row.classification === 'not classified';
  const statements = codes.filter((code) => !code.startsWith('EUH'));
  return {
    name: row.name,
    synonyms,
    formula,
    cas,
    hydrateCas,
    indexNumber: row.ec_index_no,
    classes: notClassified ? [] : readClassification(row.classification, statements.join('; ')),
    supplementary: codes.filter((code) => code.startsWith('EUH')),
    codes,
    labelCodes: row.label_h_codes,
    pictograms: row.pictograms,
    ...(row.signal_word !== '' && { signalWord: row.signal_word }),
    ...readLimits(row.specific_conc_limits),
    limitsCountMetal: row.clp_notes.includes('1'),
    soldInSolution: row.clp_notes.includes('B'),
    notClassified,
    group,
    note: row.note,
    basis: row.basis,
    source: row.source_title || 'from memory, no document seen',
    url: row.source_url,
  };
}

let rows: readonly Substance[] | undefined;

/** Every row of the table, group entries included. @example substances().length > 160 */
export const substances = (): readonly Substance[] => (rows ??= joined());

function joined(): readonly Substance[] {
  const known = new Map(knownSubstances().map((one) => [one.name, one]));
  return substancesTable().map((row) => {
    const substance = known.get(row.name);
    if (!substance) throw new Error(`reagents/known-substances.csv: has no ${row.name}`);
    return substanceOf(row, substance);
  });
}

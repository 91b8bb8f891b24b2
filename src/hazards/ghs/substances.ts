// The table of substances: what is published of each one's hazards, row by row.
import { substancesTable, type SubstancesRow } from '../../tables/compiled/hazards/ghs/substances.js';
import type { AcuteToxicityEstimate, SpecificLimit, Substance } from './contracts.js';
import { knownSubstances, type KnownSubstance } from '../../reagents/known-substances.js';
import { readClassification } from './hazard-classes.js';

const limitPattern = /^(?:(?<low>[\d.]+)%(?<lowSign><=?)C<(?:=)?(?<high>[\d.]+)%|C>=(?<from>[\d.]+)%)\s+(?<gives>.+)$/;
type Groups = Readonly<Record<string, string | undefined>>;

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

function readLimit(written: string): SpecificLimit {
  const limit = limitPattern.exec(written)?.groups;
  if (!limit) throw new Error(`hazards/ghs/substances.csv: a limit that cannot be read: ${written}`);
  return limitOf(limit);
}

const estimateOf = ({ form, value }: SubstancesRow['ate'][number]): AcuteToxicityEstimate =>
  form === 'oral' || form === 'dermal' ? { route: form, value } : { route: 'inhalation', value, form };

function substanceOf(row: SubstancesRow, known: KnownSubstance): Substance {
  const { synonyms, formulae, casNumbers, group } = known;
  const codes = row.h_codes;
  const notClassified = row.classification === 'not classified';
  const statements = codes.filter((code) => !code.startsWith('EUH'));
  return {
    name: row.name,
    synonyms,
    formulae,
    casNumbers,
    indexNumber: row.ec_index_no,
    classes: notClassified ? [] : readClassification(row.classification, statements.join('; ')),
    supplementary: codes.filter((code) => code.startsWith('EUH')),
    codes,
    labelCodes: row.label_h_codes,
    pictograms: row.pictograms,
    ...(row.signal_word !== '' && { signalWord: row.signal_word }),
    limits: row.specific_conc_limits.map(readLimit),
    limitsCountMetal: row.clp_notes.includes('1'),
    soldInSolution: row.clp_notes.includes('B'),
    acuteMFactor: row.m_acute ?? 1,
    chronicMFactor: row.m_chronic ?? row.m_acute ?? 1,
    estimates: row.ate.map(estimateOf),
    notClassified,
    group,
    form: row.form,
    elsewhere: row.elsewhere,
    caveat: row.caveat,
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

// GHS hazard (H, EUH) and precautionary (P) statements: their published wording, and the wording filled in for a use.
import { hStatementsTable } from '../../tables/compiled/hazards/ghs/h-statements.js';
import { pStatementsTable } from '../../tables/compiled/hazards/ghs/p-statements.js';
import { statementBlanksTable } from '../../tables/compiled/hazards/ghs/statement-blanks.js';
import type { Filling } from './contracts.js';

/** A statement of the published lists. */
export interface Statement {
  /** `H302`, `H360FD`, `H301+H311`, `EUH032`, `P280` */
  readonly code: string;
  /** Published wording, placeholders included. */
  readonly text: string;
  /** `UN+CLP`, `CLP only`, `UN only`, `CLP suffix`, `CLP` */
  readonly scheme: string;
  /** `source` where the wording was read in a copy of the text, else `memory`. */
  readonly basis: string;
  readonly source: string;
  readonly url: string;
}

let byCode: ReadonlyMap<string, Statement> | undefined;

const key = (code: string): string => code.replace(/\s+/g, '');

function statements(): ReadonlyMap<string, Statement> {
  if (!byCode) {
    const rows = [...hStatementsTable(), ...pStatementsTable()];
    byCode = new Map(
      rows.map((row) => [
        key(row.code),
        {
          code: row.code,
          text: row.text,
          scheme: row.scheme,
          basis: row.basis,
          source: row.source_title,
          url: row.source_url,
        },
      ]),
    );
  }
  return byCode;
}

/**
 * The published statement of a code, spaces round `+` ignored; undefined if there is none.
 * @example statement('H302 + H312')?.text // 'Harmful if swallowed or in contact with skin'
 */
export const statement = (code: string): Statement | undefined => statements().get(key(code));

/** Behind the wording of what the UN publishes and CLP has not taken over, so that no label passes it off as CLP's. */
const notOfClp = ' (UN GHS, not in CLP)';

/**
 * A statement of the UN's GHS that CLP does not have; two that CLP has, said in one sentence, are none.
 * @example isOnlyOfUn('H402') // true
 */
export const isOnlyOfUn = (code: string): boolean =>
  key(code)
    .split('+')
    .some((part) => statement(part)?.scheme === 'UN only');

/**
 * A statement's wording ready to print: placeholders filled or taken out, one full stop at the end.
 * @returns undefined for a code that no list has
 * @example wording('H370', { organs: 'eyes' }) // 'Causes damage to organs (eyes).'
 * @example wording('H402') // 'Harmful to aquatic life (UN GHS, not in CLP).'
 */
export function wording(code: string, filling: Filling = {}): string | undefined {
  if (filling.organs || filling.sensitiser) return filled(code, filling);
  if (!plain.has(code)) {
    const text = filled(code, {});
    if (text === undefined) return undefined; // a maker's misprint is not kept
    plain.set(code, text);
  }
  return plain.get(code);
}

const plain = new Map<string, string>();

function filled(code: string, filling: Filling): string | undefined {
  const found = statement(code);
  if (!found) return undefined;
  let text = found.text
    .replace(/<or state all organs affected, if known>/, filling.organs ? `(${filling.organs})` : '')
    .replace(/<name of sensitising substance>/, filling.sensitiser ?? 'a sensitising substance')
    .replace(/<[^>]*>/g, '');
  for (const row of statementBlanksTable()) text = text.replace(row.published, row.printed);
  text = text
    .replace(/\s+/g, ' ')
    .replace(/ ([.,;])/g, '$1')
    .replace(/\.{2,}/g, '.')
    .trim();
  if (isOnlyOfUn(code)) text = `${text.replace(/\.$/, '')}${notOfClp}`;
  return /[.!:]$/.test(text) ? text : `${text}.`;
}

/** The wording of a statement, or a sentence that says that none is published. */
export const statementText = (code: string, filling: Filling = {}): string =>
  wording(code, filling) ?? 'Not a published statement; see the maker’s safety data sheet.';

// GHS hazard classes: names and categories as sources write them, the statement, pictogram and signal word of each.
import { statementsClassNamesTable } from '../tables/compiled/hazards/statements-class-names.js';
import { statementsClassesTable } from '../tables/compiled/hazards/statements-classes.js';
import type { HazardClass } from './substances.js';

/** A class and category with what the label carries for it. */
export interface ClassLabel {
  readonly hazardClass: string;
  readonly category: string;
  readonly route: string;
  readonly code: string;
  readonly pictograms: readonly string[];
  readonly signalWord?: 'Danger' | 'Warning';
  /** Place in the table: within one class, graver comes first. */
  readonly rank: number;
}

let labels: readonly ClassLabel[] | undefined;
export function classLabels(): readonly ClassLabel[] {
  labels ??= statementsClassesTable().map((row, rank) => ({
    hazardClass: row.class,
    category: row.category,
    route: row.route,
    code: row.code ?? '',
    pictograms: row.pictogram,
    ...(row.signal_word !== '' && { signalWord: row.signal_word }),
    rank,
  }));
  return labels;
}

/** H350i and H350, H360FD and H360 stand for the same class. @example rootCode('H360Df') // 'H360' */
export const rootCode = (code: string): string => /^H\d{3}/.exec(code)?.[0] ?? code;

/** What the label carries for a class; undefined if there is no such class. */
export function labelOf(held: HazardClass): ClassLabel | undefined {
  if (!byClass) {
    const into = new Map<string, ClassLabel[]>();
    for (const label of classLabels())
      into.set(`${label.hazardClass} ${label.category}`, [
        ...(into.get(`${label.hazardClass} ${label.category}`) ?? []),
        label,
      ]);
    byClass = into;
  }
  const root = rootCode(held.code);
  const same = byClass.get(`${held.hazardClass} ${held.category}`) ?? [];
  return same.find((label) => label.code === root) ?? (root === '' ? same[0] : undefined);
}
let byClass: ReadonlyMap<string, readonly ClassLabel[]> | undefined;

/** The gravest class that a statement can stand for: all that is known where only the code is printed. */
export function classOfCode(code: string): HazardClass | undefined {
  const label = classLabels().find((candidate) => candidate.code !== '' && candidate.code === rootCode(code));
  return (
    label && {
      hazardClass: label.hazardClass,
      category: label.category,
      code,
      ...(label.route && { route: label.route as 'oral' }),
    }
  );
}

/**
 * Classes as a source writes them, each with its statement, which stands at the same place of the second list.
 * A gas under pressure has no statement of its own in the source: it depends on the packing.
 * @example heldClasses('Acute Tox. 4 (oral); Skin Irrit. 2', 'H302; H315')[0]?.route // 'oral'
 */
export function heldClasses(classification: string, codes: string): readonly HazardClass[] {
  const names = statementsClassNamesTable();
  const queue = codes
    .split(';')
    .map((code) => code.trim())
    .filter((code) => code !== '');
  const held = splitClasses(classification).map((written): HazardClass => {
    const long = names.find((row) => written.startsWith(row.written));
    const text = long ? `${long.class}${written.slice(long.written.length)}`.replace(/ - category /, ' ') : written;
    if (text === 'Press. Gas') return { hazardClass: 'Press. Gas', category: '', code: '' };
    const code = queue.shift();
    const parts =
      /^(?<hazardClass>[A-Z][-A-Za-z.]*(?: [A-Z][-A-Za-z.]*)*)(?: (?:\((?<place>[^)]*)\) )?(?<category>\d[A-D]?))?(?: \((?<more>.*)\))?$/.exec(
        text,
      )?.groups;
    if (!parts || code === undefined) throw new Error(`hazards: a class that cannot be read: ${written}`);
    const sameCode = classLabels().filter((label) => label.code === rootCode(code));
    const category =
      parts['category'] ?? sameCode.find((label) => label.hazardClass === parts['hazardClass'])?.category ?? '';
    const route = sameCode[0]?.route;
    const organs = /^STOT/.test(parts['hazardClass']!) && parts['category'] !== '3' ? parts['more'] : undefined;
    return {
      hazardClass: parts['hazardClass']!,
      category,
      code,
      ...(route && { route: route as 'oral' }),
      ...(organs && { organs }),
    };
  });
  if (queue.length > 0) throw new Error(`hazards: more statements than classes: ${classification} / ${codes}`);
  return held;
}

/** Semicolons between classes, but not those inside brackets. */
const splitClasses = (text: string): readonly string[] =>
  text
    .split(/;(?![^(]*\))/)
    .map((part) => part.trim())
    .filter((part) => part !== '');

// GHS hazard classes: names and categories as sources write them, the statement, pictogram and signal word of each.
import { once } from '../../once.js';
import { hazardClassNamesTable } from '../../tables/compiled/hazards/ghs/hazard-class-names.js';
import { hazardClassesTable } from '../../tables/compiled/hazards/ghs/hazard-classes.js';
import { groupBy } from './group-by.js';
import type { HazardClass, Route, SignalWord } from './contracts.js';

/** A class and category with what the label carries for it. */
export interface ClassLabel {
  readonly hazardClass: string;
  readonly category: string;
  readonly route?: Route;
  readonly code: string;
  readonly pictograms: readonly string[];
  readonly signalWord?: SignalWord;
  /** Place in the table: within one class, graver comes first. */
  readonly rank: number;
}

let labels: readonly ClassLabel[] | undefined;
export function classLabels(): readonly ClassLabel[] {
  labels ??= hazardClassesTable().map((row, rank) => ({
    hazardClass: row.class,
    category: row.category,
    ...(row.route && { route: row.route }),
    code: row.code ?? '',
    pictograms: row.pictogram,
    ...(row.signal_word !== '' && { signalWord: row.signal_word }),
    rank,
  }));
  return labels;
}

/** H350i and H350, H360FD and H360 stand for the same class. @example rootCode('H360Df') // 'H360' */
export const rootCode = (code: string): string => /^H\d{3}/.exec(code)?.[0] ?? code;

let byClass: ReadonlyMap<string, readonly ClassLabel[]> | undefined;

/** What the label carries for a class; undefined if there is no such class. */
export function labelOf(held: HazardClass): ClassLabel | undefined {
  byClass ??= groupBy(classLabels(), (label) => [`${label.hazardClass} ${label.category}`]);
  const root = rootCode(held.code);
  const same = byClass.get(`${held.hazardClass} ${held.category}`) ?? [];
  return same.find((label) => label.code === root) ?? (root === '' ? same[0] : undefined);
}

/** Labels by their statement; what has none stands under no code. */
const labelsByCode = once(() => groupBy(classLabels(), ({ code }) => (code === '' ? [] : [code])));
const labelsOfCode = (root: string): readonly ClassLabel[] => labelsByCode().get(root) ?? [];

/** The gravest class that a statement can stand for: all that is known where only the code is printed. */
export function classOfCode(code: string): HazardClass | undefined {
  const [label] = labelsOfCode(rootCode(code));
  return (
    label && {
      hazardClass: label.hazardClass,
      category: label.category,
      code,
      ...(label.route && { route: label.route }),
    }
  );
}

const writtenClass = new RegExp(
  '^(?<hazardClass>[A-Z][-A-Za-z.]*(?: [A-Z][-A-Za-z.]*)*)' +
    '(?: (?:\\((?<place>[^)]*)\\) )?(?<category>\\d(?:\\.\\d)?[A-D]?))?' +
    '(?: \\((?<more>.*)\\))?$',
);

/** `Acute toxicity - category 4` is `Acute Tox. 4`. */
function inShortNames(written: string): string {
  const long = hazardClassNamesTable().find((row) => written.startsWith(row.written));
  return long ? `${long.class}${written.slice(long.written.length)}`.replace(/ - category /, ' ') : written;
}

function readClass(text: string, code: string): HazardClass | undefined {
  const parts = writtenClass.exec(text)?.groups;
  if (!parts) return undefined;
  const hazardClass = parts['hazardClass']!;
  const sameCode = labelsOfCode(rootCode(code));
  const ofClass = sameCode.find((label) => label.hazardClass === hazardClass);
  const route = sameCode[0]?.route;
  const organs = hazardClass.startsWith('STOT') && parts['category'] !== '3' ? parts['more'] : undefined;
  return {
    hazardClass,
    category: parts['category'] ?? ofClass?.category ?? '',
    code,
    ...(route && { route }),
    ...(organs && { organs }),
  };
}

/**
 * Classes as a source writes them, each with its statement, which stands at the same place of the second list.
 * A gas under pressure has no statement of its own in the source: it depends on the packing.
 * @throws an error where the table is wrong: a class that cannot be read, or not as many statements as classes
 * @example readClassification('Acute Tox. 4 (oral); Skin Irrit. 2', 'H302; H315')[0]?.route // 'oral'
 */
export function readClassification(classification: string, codes: string): readonly HazardClass[] {
  const queue = codes
    .split(';')
    .map((code) => code.trim())
    .filter((code) => code !== '');
  const classes = splitClasses(classification).map((written): HazardClass => {
    const text = inShortNames(written);
    if (text === 'Press. Gas') return { hazardClass: 'Press. Gas', category: '', code: '' };
    const code = queue.shift();
    const held = code === undefined ? undefined : readClass(text, code);
    if (!held) throw new Error(`hazards: a class that cannot be read: ${written}`);
    return held;
  });
  if (queue.length > 0) throw new Error(`hazards: more statements than classes: ${classification} / ${codes}`);
  return classes;
}

/** Semicolons between classes, but not those inside brackets. */
const splitClasses = (text: string): readonly string[] =>
  text
    .split(/;(?![^(]*\))/)
    .map((part) => part.trim())
    .filter((part) => part !== '');

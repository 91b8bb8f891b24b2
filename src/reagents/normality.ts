// Strengths in normality, `2N NaOH`, `N/10 HCl`: of an acid or an alkali that gives or takes a fixed number of
// protons, whatever it is titrated to, they are so many mol/L. Of anything else they depend on the reaction, and are
// asked about.
import { acidBaseOf } from '../chemistry/index.js';
import { isFormula } from './identity.js';
import { materialNamed } from './names.js';
import { inEnglish } from './other-languages.js';

/** `2 N`, `0,5 n`, `N/10`, `normal`, `N` before a name. */
const normal =
  /(?<=^|[\s,;(])(?:(\d+(?:[.,]\d+)?|[.,]\d+)\s?-?(?:N|n|normal(?:e[rs]?)?)|[Nn]\s?\/\s?(\d{1,4})|normale?r?|N(?=\s))(?=[\s,;)]|$)/;
const mayBeNormal = /[\d\s]-?n(?:ormale?[rs]?)?(?:[\s,;)/]|$)|^n(?:\s|\s?\/|ormal)/i;

/** Amounts beside a name, which are none of it. */
const amounts = /(?<![A-Za-z\d])[~≈]?\d+(?:[.,]\d+)?\s?(?:[mcdµ]?[lL]|[mk]?g|drops|Tropfen|gouttes)(?![A-Za-z])/g;

/** What a name or a formula is, if it is a plain acid or alkali. */
function formulaNamed(words: string): string | undefined {
  if (isFormula(words)) return words;
  const english = inEnglish(words);
  return (materialNamed(words) ?? (english === undefined ? undefined : materialNamed(english)))?.formula;
}

/** Protons of a formula unit, where they are the same up to every end of a titration. */
function protonsOf(formula: string): number | undefined {
  const ends = [undefined, 'phenolphthalein', 'methyl orange'].map((end) => acidBaseOf(formula, end)?.equivalents);
  const [all] = ends;
  return all !== undefined && ends.every((end) => end?.eq(all)) ? all.toNumber() : undefined;
}

/**
 * A line with a normality in mol/L, where that can only be one; as it is where it cannot.
 * @example inMolarity('sulfuric acid 0.5 N') // 'sulfuric acid 0.25 mol/L'
 */
export function inMolarity(line: string): string {
  if (!mayBeNormal.test(line)) return line;
  const found = normal.exec(line);
  if (!found) return line;
  const [whole, number, part] = found;
  const name = `${line.slice(0, found.index)} ${line.slice(found.index + whole.length)}`
    .replace(amounts, ' ')
    .replace(/[,;()]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  const formula = name === '' ? undefined : formulaNamed(name);
  const protons = formula === undefined ? undefined : protonsOf(formula);
  if (protons === undefined) return line;
  const strength = part === undefined ? Number((number ?? '1').replace(',', '.')) : 1 / Number(part);
  const molar = `${Number((strength / protons).toPrecision(4))} mol/L`;
  return line.slice(0, found.index) + molar + line.slice(found.index + whole.length);
}

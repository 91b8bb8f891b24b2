// A colour as a phone, an instrument or a maker writes it down.
import { found, type Path } from '../../remarks/findings.js';
import { hexMeant } from '../values.js';
import { isKeys, set, type Mending } from './mending.js';

/** A colour in one text that has the code of one in it: `#a05a9c, by the window`. */
export function ofColour(value: string, path: Path, subject: string): Mending[] {
  const code = /#[0-9a-f]{6}\b/i.exec(value)?.[0] ?? hexMeant(value.replace(/\s*\([^()\d]*\)$/, ''));
  if (readingsFile.test(value.trim())) {
    const spectrum = value.trim();
    const facts = { subject, written: value, meant: `{ spectrum: ${spectrum} }`, actual: value };
    return [{ path, mend: set({ spectrum }), found: found('read-as', facts) }];
  }
  if (code === undefined) {
    const lab = ofLab(value, path, subject);
    return lab.length > 0 ? lab : ofWords(value, path, subject);
  }
  const why = 'a rough estimate; a photo that shows a chart beside the sample tells more (`masstone colour --help`)';
  const facts = { subject, written: value, meant: `{ srgb: "${code}" }`, why, actual: value };
  return [{ path, mend: set({ srgb: code }), found: found('read-as', facts) }];
}

/** A colour in words, of a sample of which nothing else says how it looks: it is what an eye saw. */
function ofWords(value: string, path: Path, subject: string): Mending[] {
  if (
    path.length !== 3 ||
    path[0] !== 'samples' ||
    /[\d#]|^(?:cie)?lab\b|^rgb\b/i.test(value) ||
    !/[^\W_]{3}|[^ -~]{3}/.test(value)
  )
    return [];
  const meant = `looks: ${JSON.stringify(value.trim())}`;
  const mend: Mending['mend'] = (parent, last) => {
    const { looks } = parent;
    delete parent[last];
    parent.looks = typeof looks === 'string' ? `${looks}; ${value.trim()}` : (looks ?? value.trim());
  };
  const why = 'words are what an eye saw, and are not measured; instead of the key `colour`';
  const facts = { subject, written: value, meant, why, actual: value };
  return [{ path, mend, found: found('read-as', facts) }];
}

/** `{ L: 58.2, a: 14.1, b: 44 }`, `{ r: 181, g: 129, b: 58 }`, `{ rgb: [181, 129, 58] }`: figures under keys. */
export function ofColourKeys(here: unknown, path: Path): Mending[] {
  if (!isKeys(here) || !path.includes('colour')) return [];
  const figures = new Map(Object.entries(here).map(([key, value]) => [key.toLowerCase().replace('*', ''), value]));
  const three = (letters: string): readonly string[] | undefined => {
    const together = figures.get(letters);
    const each: readonly unknown[] = Array.isArray(together) ? together : [...letters].map((one) => figures.get(one));
    return each.length === 3 && each.every((one) => typeof one === 'string' || typeof one === 'number')
      ? each.map((one) => String(one).replace(',', '.').replace('−', '-'))
      : undefined;
  };
  const [lab, rgb] = ['lab' in here ? undefined : three('lab'), three('rgb')];
  const code = lab === undefined && rgb !== undefined ? hexMeant(`rgb(${rgb.join(', ')})`) : undefined;
  if (code === undefined && (lab === undefined || !lab.every((one) => /^-?\d+(?:\.\d+)?$/.test(one)))) return [];
  const isFigure = (key: string): boolean => /^(?:[labrg]\*?|rgb)$/i.test(key);
  const rest = Object.fromEntries(Object.entries(here).filter(([key]) => !isFigure(key)));
  const told = code === undefined ? { lab: lab!.map(Number) } : { srgb: code };
  const shown = code === undefined ? `lab: [${lab!.join(', ')}]` : `srgb: "${code}"`;
  const written = Object.keys(here).filter(isFigure).join(', ');
  const facts = { subject: '`colour`', written, meant: shown, actual: written };
  return [{ path, mend: set({ ...told, ...rest }), found: found('read-as', facts) }];
}

/** A file of readings by its path alone. */
const readingsFile = /^[^\s{}[\]]+\.(?:csv|txt|tsv|cxf|xml|cgats|mes|sp)$/i;

/** `L*=41.2 a*=3.3 b*=-37` */
const labelled =
  /^(L\*?\s*[=:]?\s*[\d.,]+[\s,;]+a\*?\s*[=:]?\s*[-−]?[\d.,]+[\s,;]+b\*?\s*[=:]?\s*[-−]?[\d.,]+)[\s,;]*\(?(.*)$/s;

/** `Lab 50 10 10`, `CIELAB: 50,3 -10,2 4,0 (D50/2°)`: the figures, and the light and the observer that are named. */
function ofLab(value: string, path: Path, subject: string): Mending[] {
  const [, figures = '', light = ''] =
    /^(?:cie)?\s*l\*?a\*?b\*?\s*[=:]?\s*\(([^a-z()]+)\)[\s,;]*\(?(.*)$/is.exec(value) ??
    /^(?:cie)?\s*l\*?a\*?b\*?\s*[=:]?\s*([^a-z(]+)\s*\(?(.*)$/is.exec(value) ??
    labelled.exec(value) ??
    [];
  const lab = threeIn(figures.replace(/[\s,;]+$/, ''));
  if (lab === undefined) return [];
  const illuminant = /\b(?:D50|D65|A|F2|F11|LED-B3)\b/.exec(light)?.[0];
  const observer = /(?:^|[\s,/])(2|10)\s*(?:°|deg|$)/.exec(light)?.[1];
  const meant = {
    lab,
    ...(illuminant !== undefined && { illuminant }),
    ...(observer !== undefined && { observer: Number(observer) }),
  };
  const shown = [
    `lab: [${lab.join(', ')}]`,
    ...(illuminant === undefined ? [] : [`illuminant: ${illuminant}`]),
    ...(observer === undefined ? [] : [`observer: ${observer}`]),
  ];
  const facts = { subject, written: value, meant: `{ ${shown.join(', ')} }`, actual: value };
  return [{ path, mend: set(meant), found: found('read-as', facts) }];
}

/** Three figures in one text: `53.0, 23.1, -17.9`, `53,0; 23,1; −17,9`, `L* 53 a* 23.1 b* -17.9`. */
export function ofTriple(value: string, path: Path, subject: string): Mending[] {
  const three = threeIn(value);
  if (three === undefined) return [];
  const facts = { subject, written: value, meant: `[${three.join(', ')}]`, actual: value };
  return [{ path, mend: set(three), found: found('read-as', facts) }];
}

function threeIn(value: string): readonly number[] | undefined {
  const bare = value
    .replaceAll('−', '-')
    .replace(/[[\]]|\b[LabXYZ]\*?\s*[=:]?(?=\s*-?\d)/g, ' ')
    .replace(/\s+\/\s+/g, ' ; ')
    .trim();
  const withCommas = /;/.test(bare) || !/[.,]\s/.test(`${bare} `);
  const parts = bare.split(withCommas ? /\s*;\s*|\s+/ : /\s*[,;]\s*|\s+/).map((part) => part.replace(',', '.'));
  const isThree = parts.length === 3 && parts.every((part) => /^-?\d+(?:\.\d+)?$/.test(part));
  return isThree ? parts.map(Number) : undefined;
}

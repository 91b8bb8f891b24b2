// What spectrometers measure besides reflectance: named, so that none of it is read as the colour of a paint.
import type { Outcome } from '../faults.js';
import { faultAt, type FilePlace } from './reading.js';

interface Quantity {
  readonly name: string;
  /** The quantity in a heading of a column. */
  readonly heading: RegExp;
}

/** More telling names first: `log(1/R)` holds an R, `reflectance` would be found in it. */
const quantities: readonly Quantity[] = [
  { name: 'log(1/R)', heading: /log(?:10)?\s*\(?\s*1\s*\/\s*r|[-−]\s*log(?:10)?\s*\(?\s*r/i },
  { name: 'K/S', heading: /(?<![a-z])k\s*\/\s*s(?![a-z])|kubelka/i },
  { name: 'a derivative', heading: /deriv|d\s*r\s*\/\s*d/i },
  { name: 'transmittance', heading: /trans(?:mi|par)|^\s*%\s*t\b|^\s*t\s*(?:%|\(%\)|\[%\]|$)/i },
  { name: 'absorbance', heading: /absor[bp]|extin[ck]t|optical\s+density|^\s*(?:abs|od)\.?\s*(?:$|[[(])/i },
  { name: 'irradiance', heading: /irradian/i },
  { name: 'radiance', heading: /radian(?:ce|t|z)(?!\s+factor)/i },
  { name: 'luminance', heading: /luminan/i },
  {
    name: 'emission',
    heading: /emis+i|emitt|fluoresc|luminesc|spectral\s+power|\bspd\b|ambient|[mµuμ]?w\s*[/·]\s*(?:c?m|nm|sr)/i,
  },
  {
    name: 'counts',
    heading: /\bcounts?\b|intensit|\braw\s+(?:data|signal|spectrum)|arbitrary\s+units|\ba\.\s?u\.|\badc\b/i,
  },
];

const reflectance =
  /refle[ck]t|remission|reflexion|réfle[xc]|rifle[ts]|radian(?:ce|t|z)\s+factor|^\s*%?\s*r\b(?!\s*\/)/i;

/**
 * The quantity other than reflectance that a text names; undefined where it names none, or reflectance as well.
 * @example otherQuantity('Absorbance (AU)') // 'absorbance'
 */
export function otherQuantity(text: string): string | undefined {
  const found = quantities.find(({ heading }) => heading.test(text));
  if (!found) return undefined;
  // `log(1/R)` and `K/S (from reflectance)` stay what they are; `reflectance (counts corrected)` is reflectance.
  return reflectance.test(text) && !['log(1/R)', 'K/S', 'a derivative'].includes(found.name) ? undefined : found.name;
}

/** The fault of a file that holds another quantity. */
export const notReflectance = (quantity: string, place: FilePlace | undefined): Outcome<never> =>
  faultAt(place, {
    code: 'not-reflectance',
    message: `The file holds ${quantity}, not reflectance.`,
    expected: 'reflectance, 0 to 1 or per cent',
    cure:
      `Export the reflectance; ${quantity} does not tell the colour of a paint. If it is reflectance, correct ` +
      'its heading.',
  });

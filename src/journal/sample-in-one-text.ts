// A sample told in one text instead of under keys: `A 34 g black`, `sample B: 31 g, greyish`, `1,98g`.
import { sampleIdPattern } from './values.js';

/** A sample as its keys say it. */
export interface SampleWritten {
  readonly sample?: string;
  readonly obtained?: string;
  readonly differs?: string;
}

const called = 'samples?|probe|muster|échantillon|echantillon|essai|muestra|campione|batch|versuch|charge';
/** `sample A`, `Probe 2`, as a key or before the rest of a text. */
const sampleKey = new RegExp(String.raw`^(?:${called})[\s_-]*([A-Za-z]|\d{1,3})$`, 'iu');
const leading = new RegExp(
  String.raw`^(?:(?:${called})[\s_-]+)?([A-Z]|\d{1,2}(?=\s*[:)]))` + String.raw`(?:\s*[:.)–-]\s*|\s+)(?=\S)`,
  'u',
);
const masses = /(?<![\d.,])~?\d+(?:[.,]\d+)?\s*(?:mg|kg|g|grams?|grammes?|gramm|grammi|gramos)(?![a-zß-ɏ\d])/giu;

/** The id in the key of a sample. @example sampleOfKey('sample A') // 'A' */
export const sampleOfKey = (key: string): string | undefined => sampleKey.exec(key.trim())?.[1]?.toUpperCase();

/** A key that is itself a sample's id: a letter or a number. */
export const isBareId = (key: string): boolean => /^(?:[A-Za-z]|\d{1,3})$/.test(key) && sampleIdPattern.test(key);

/**
 * What a text tells of a sample: what was obtained only where one mass stands in it. Undefined where none does.
 * @example sampleInOneText('A 34 g black') // { sample: 'A', obtained: '34 g', differs: 'black' }
 */
export function sampleInOneText(text: string, id?: string): SampleWritten | undefined {
  const letter = id ?? leading.exec(text)?.[1];
  const rest = id === undefined ? text.replace(leading, '') : text;
  const [mass, ...others] = rest.match(masses) ?? [];
  if (mass === undefined || others.length > 0) return undefined;
  const words = rest
    .replace(mass, ' ')
    .replace(/\s+/g, ' ')
    .replace(/^[\s,;:.]+|[\s,;:]+$/g, '');
  const obtained = mass
    .replace(/(?<=\d),(?=\d)/, '.')
    .replace(/(?<=\d)(?=\p{L})/u, ' ')
    .replace(/\s*(?:gram|gr)\p{L}*$/iu, ' g');
  return {
    ...(letter !== undefined && { sample: letter }),
    obtained,
    ...(words !== '' && { differs: words }),
  };
}

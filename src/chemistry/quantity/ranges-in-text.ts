// Ranges that stand among other words, as people say them: `between 4.8 and 5.0 g`, `4,4 bis 4,6 g`, `4.4 g - 4.6 g`.

const number = String.raw`\d+(?:[.,]\d+)?`;
const unit =
  '(?:mg|kg|dag|g|grams?|grammes?|gramm|grammi|gramos|gr|mls?|m[lL]|[cd][lL]|[lL]|lit(?:re|er)s?|oz|lbs?|%|°\\s?C)';
const until = String.raw`(?:\s?[-–—]\s?|\s+(?:to|till|bis|à|a|tot|til|do|до)\s+)`;
const north = 'tussen|van|mellan|mellem|mellom|między|между|от';
const said = String.raw`(?:between|from|zwischen|von|entre|de|tra|fra|da|${north})`;
const joined = String.raw`(?:\s+(?:and|to|und|bis|et|à|y|a|e|en|tot|och|og|i|a|и|до)\s+|\s?[-–—]\s?)`;
const ends = String.raw`(?<!\S)`;
const inWords = new RegExp(
  String.raw`${ends}${said}\s+(${number})\s?(${unit})?${joined}(${number})\s?(${unit})(?![A-Za-z])`,
  'gi',
);
const inSigns = new RegExp(
  String.raw`(?<![\w.,/-])(${number})(?:\s?(${unit}))?${until}(${number})\s?(${unit})(?![A-Za-z])`,
  'gi',
);

const rises = (low: string, high: string): boolean => Number(low.replace(',', '.')) < Number(high.replace(',', '.'));

/**
 * A text in which every range of amounts stands as `4.8-5.0 g`; what does not rise, and a bare number at the very
 * beginning with spaces about the hyphen (`1 - 2 g`: a number of a list), is left as it is.
 * @example rangesInSigns('alum, between 4.8 and 5.0 g (it jumped)') // 'alum, 4.8-5.0 g (it jumped)'
 */
export function rangesInSigns(text: string): string {
  if (!/\d\D+\d/.test(text)) return text;
  const plain = (all: string, low: string, one: string | undefined, high: string, other: string): string =>
    !rises(low, high) || (one !== undefined && one.toLowerCase() !== other.toLowerCase())
      ? all
      : `${low.replace(',', '.')}-${high.replace(',', '.')} ${other}`;
  return text.replace(inWords, plain).replace(inSigns, (all, low: string, one: string, high: string, other: string) => {
    const isOfList = text.startsWith(all) && /^\d+\s+[-–—]/.test(all);
    return isOfList ? all : plain(all, low, one, high, other);
  });
}

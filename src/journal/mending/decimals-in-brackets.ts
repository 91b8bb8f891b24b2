// Decimal commas in the items of a list in square brackets, where YAML ends an item at each comma: `[quartz 20,5 g]`.

/** A number with a decimal comma and a unit behind it, so that it is no two items; `1,500 g` may be thousands. */
const decimal =
  /^(0,\d+|\d+,(?:\d{1,2}|\d{4,}))(?=\s?(?:[mkµ]?g|gr|[mcdµ]?[lL]|m?mol(?:\/L)?|oz|lb|h|min|vol|M|N|%|[°º]C?)(?![\p{L}\d]))/u;
/** No number that a maker writes is longer, with its unit. */
const longest = 40;

/** Signs on the line before which a bracket or a quotation mark begins something. */
const opensBehind = new Set(['', ':', '[', '{', ',', '-']);

/** What stands open where a text is read. */
interface Open {
  readonly brackets: readonly string[];
  readonly quote: string;
}

function openAfter({ brackets, quote }: Open, sign: string, before: string): Open {
  if (quote !== '') return { brackets, quote: sign === quote ? '' : quote };
  if ((sign === '"' || sign === "'") && opensBehind.has(before)) return { brackets, quote: sign };
  if ((sign === '[' || sign === '{') && (brackets.length > 0 || opensBehind.has(before)))
    return { brackets: [...brackets, sign], quote };
  return sign === ']' || sign === '}' ? { brackets: brackets.slice(0, -1), quote } : { brackets, quote };
}

/**
 * Text with a full stop for each of them, every sign at its place.
 * @example decimalsInBrackets('reagents: [quartz 20,5 g, chalk 8,3 g]') // 'reagents: [quartz 20.5 g, chalk 8.3 g]'
 */
export function decimalsInBrackets(text: string): string {
  const read: string[] = [];
  let open: Open = { brackets: [], quote: '' };
  let before = '';
  for (let at = 0; at < text.length; at += 1) {
    const sign = text[at]!;
    open = openAfter(open, sign, before);
    const mayBegin = open.quote === '' && open.brackets.at(-1) === '[' && /\d/.test(sign);
    const number = mayBegin && !/[\d.,]/.test(text[at - 1] ?? '') ? decimal.exec(text.slice(at, at + longest)) : null;
    read.push(number ? number[1]!.replace(',', '.') : sign);
    if (number) at += number[1]!.length - 1;
    if (sign === '\n') before = '';
    else if (sign.trim() !== '') before = sign;
  }
  return read.join('');
}

// Formulae as they are copied from pages and papers: HTML and TeX are taken away, and every character keeps its place.

/** Text without markup; `places[i]` is where its character i stood (its length: where the text ended). */
export interface PlainText {
  readonly text: string;
  readonly places: readonly number[];
}

const entities: Readonly<Record<string, string>> = {
  middot: '·',
  sdot: '·',
  bull: '·',
  '#183': '·',
  minus: '-',
  ndash: '-',
  '#8722': '-',
  plus: '+',
  nbsp: ' ',
  thinsp: ' ',
  '#160': ' ',
  rarr: '→',
  '#8594': '→',
  rArr: '⇒',
  harr: '↔',
  hArr: '⇌',
};
const commands: Readonly<Record<string, string>> = {
  cdot: '·',
  bullet: '·',
  ast: '*',
  times: '×',
  to: '→',
  rightarrow: '→',
  longrightarrow: '→',
  Rightarrow: '→',
  rightleftharpoons: '⇌',
  leftrightharpoons: '⇌',
  leftrightarrow: '⇌',
  left: '',
  right: '',
  uparrow: '↑',
  downarrow: '↓',
};

type Rewrite = (match: RegExpExecArray) => readonly (string | { readonly from: number; readonly to: number })[];

/** Replaces each match by new text (which stands where the match began) and by stretches of the old text. */
function rewritten({ text, places }: PlainText, pattern: RegExp, rewrite: Rewrite): PlainText {
  let out = '';
  const kept: number[] = [];
  const keep = (from: number, to: number): void => {
    out += text.slice(from, to);
    kept.push(...places.slice(from, to));
  };
  let done = 0;
  for (const match of text.matchAll(pattern) as IterableIterator<RegExpExecArray>) {
    keep(done, match.index);
    for (const piece of rewrite(match)) {
      if (typeof piece !== 'string') keep(piece.from, piece.to);
      else {
        out += piece;
        for (let at = 0; at < piece.length; at += 1) kept.push(places[match.index]!);
      }
    }
    done = match.index + match[0].length;
  }
  keep(done, text.length);
  return { text: out, places: [...kept, places[text.length]!] };
}

/** The inside of a match whose opening and closing take so many characters. */
const inside =
  (opening: number, closing: number): Rewrite =>
  ({ index, 0: whole }) => [{ from: index + opening, to: index + whole.length - closing }];

/**
 * Takes HTML (`<sub>`, `<sup>`, `&middot;`) and TeX (`\ce{…}`, `$…$`, `_{2}`, `\cdot`, `\rightarrow`) away; undefined
 * where there is none.
 * @example withoutMarkup('SO<sub>4</sub><sup>2-</sup>')?.text // 'SO4^2-'
 */
export function withoutMarkup(written: string): PlainText | undefined {
  if (!/[<&\\$_]/.test(written) || !/<\/?su[bp]>|&#?\w+;|\\|^\s*\$.+\$\s*$|_[{\d(nxyz]/i.test(written))
    return undefined;
  let plain: PlainText = { text: written, places: Array.from({ length: written.length + 1 }, (_, at) => at) };
  plain = rewritten(plain, /<(\/?)(su[bp])>/gi, ([, close, tag]) => [
    close === '' && tag!.toLowerCase() === 'sup' ? '^' : '',
  ]);
  plain = rewritten(plain, /&(#?\w+);/g, ([whole, name]) => [entities[name!] ?? whole]);
  plain = rewritten(plain, /^(\s*)(\${1,2})(.+)\2(\s*)$/gs, (match) => [
    { from: match[1]!.length + match[2]!.length, to: match[0].length - match[4]!.length - match[2]!.length },
  ]);
  plain = rewritten(plain, /^\s*\\(?:ce|mathrm|text|mathsf)\{(.+)\}\s*$/gs, (match) => {
    const from = match[0].indexOf('{') + 1;
    return [{ from, to: from + match[1]!.length }];
  });
  plain = rewritten(plain, /\\(?:mathrm|text|mathsf)\{([^{}]*)\}/g, (match) =>
    inside(match[0].indexOf('{') + 1, 1)(match),
  );
  plain = rewritten(plain, /\\([A-Za-z]+) ?/g, ([whole, name]) => [commands[name!] ?? whole]);
  plain = rewritten(plain, /\\[,;!: ]/g, () => ['']);
  plain = rewritten(plain, /_\{([^{}]*)\}/g, inside(2, 1));
  plain = rewritten(plain, /_(?=[\d(nxyz])/g, () => ['']);
  return plain;
}

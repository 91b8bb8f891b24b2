// Which foreseen hazards a maker's `against:` names: by gas, by the id or the words of its rule, by both partners, or
// by the kind of danger where that can only mean one. Forgiving in spelling, but one answer does not silence two
// dangers.
import { memoise } from '../../memoise.js';
import { onceFor } from '../../once.js';
import { inEnglish } from '../../reagents/index.js';
import type { Foreseen } from './contracts.js';
import { gases } from './gases.js';

/** Words of rules, gases and answers are asked for again and again. */
const plain: (text: string) => string = memoise(
  (text) => text,
  (text) =>
    ` ${text
      .toLowerCase()
      .replace(/sulph/g, 'sulf')
      .replace(/[^a-z0-9()]+/g, ' ')
      .trim()} `,
  5000,
);

let aliases: readonly (readonly [string, string])[] | undefined;
/** Names of gases, the longest first, so that `hydrogen sulfide` is not taken for hydrogen. */
function gasNames(): readonly (readonly [string, string])[] {
  aliases ??= [...gases().values()]
    .flatMap((gas) => [gas.name, ...gas.aliases].map((name) => [plain(name).trim(), gas.formula] as const))
    .filter(([name]) => name.length > 2)
    .sort((a, b) => b[0].length - a[0].length);
  return aliases;
}

/** Formulae of the gases that a text names, by name or, as written, by formula. */
export const gasesNamed: (text: string) => ReadonlySet<string> = memoise((text) => text, lookForGases, 2000);

function lookForGases(text: string): ReadonlySet<string> {
  const named = new Set<string>();
  const all = gasNames();
  let left = plain(text).replace(/ gas(?:es)? /g, ' ');
  for (const name of new Set(all.map(([alias]) => alias))) {
    if (!left.includes(` ${name} `) && !left.includes(` ${name}s `)) continue;
    for (const [alias, formula] of all) if (alias === name) named.add(formula);
    left = left.replaceAll(` ${name} `, ' . ').replaceAll(` ${name}s `, ' . ');
  }
  const anyCase = text.toLowerCase();
  for (const formula of gases().keys()) {
    const bare = formula.replace(/[()]/g, '');
    if (!anyCase.includes(bare.toLowerCase())) continue;
    if (
      bare.length > 2
        ? new RegExp(`(?<![A-Za-z0-9])${bare}(?![A-Za-z0-9])`, /\d/.test(bare) ? 'i' : '').test(text)
        : new RegExp(`^\\W*${bare}\\W*$`).test(text)
    )
      named.add(formula);
  }
  return named;
}

const kinds: readonly (readonly [string, RegExp])[] = [
  ['fire', /\b(?:fire|burn|burns|burning|ignit\w*|flames?|flammable)\b/],
  ['explosion', /\b(?:explo\w*|burst\w*|detonat\w*)\b/],
  ['froth', /\b(?:froth\w*|foam\w*|fizz\w*|bubbl\w*|effervesc\w*|overflow\w*|boil\w* over)\b/],
  ['heat', /\b(?:heat|spatter\w*|spit\w*|splash\w*)\b/],
  ['dust', /\bdust\b/],
  ['fume', /\bfumes?\b/],
];
const kindsOf: (text: string) => ReadonlySet<string> = memoise(
  (text) => text,
  (text) => new Set(kinds.filter(([, pattern]) => pattern.test(plain(text))).map(([kind]) => kind)),
  2000,
);

/**
 * Kinds of danger by which a hazard may be named. A danger goes by the gravest that it does, which its rule writes
 * first: where gas poisons, an answer to fire or froth does not silence it.
 */
function kindsThatName({ severity, consequence, gases: own = [] }: Foreseen): ReadonlySet<string> {
  const froth = own.some(({ formula }) => formula === 'CO2') ? ' froth' : '';
  if (severity !== 'danger') return kindsOf(`${consequence}${froth}`);
  for (const part of consequence.split(';')) {
    const kinds = kindsOf(part);
    if (kinds.has('fire') || kinds.has('explosion')) return kindsOf(`${part} fire explosion`);
    if (kinds.size > 0 || /toxic|poison|asphyx|carcinogen/.test(part)) return kinds;
  }
  return kindsOf(froth);
}

/**
 * Whether one of the gases named is what the hazard is feared for. Oxygen or carbon dioxide is not, beside a gas that
 * poisons, however little of it, or where the danger is fire.
 */
function namesItsGas(named: ReadonlySet<string>, { severity, consequence, gases: own = [] }: Foreseen): boolean {
  const meant = own.filter(({ formula }) => named.has(formula));
  if (meant.some(({ formula }) => !isHarmless(formula))) return true;
  if (meant.length === 0 || !own.every(({ formula }) => isHarmless(formula))) return false;
  return severity !== 'danger' || /gas|foam|froth|asphyx|pressure/.test(consequence);
}
const isHarmless = (formula: string): boolean => gases().get(formula)?.severity === 'note';

const small = new Set([
  'with',
  'from',
  'other',
  'another',
  'material',
  'heated',
  'strongly',
  'concentrated',
  'dilute',
  'solution',
  'salt',
  'metal',
  'strong',
  'weak',
  'reactive',
  'anhydrous',
  'powder',
  'excess',
  'gives',
  'reaction',
  'written',
  'soluble',
  'hydrogen',
  'cold',
  'acid',
]);
const wordsOf = (text: string): readonly string[] =>
  plain(text)
    .split(' ')
    .filter((word) => word.length > 3 && !small.has(word));
const hasWord = (text: string, word: string): boolean =>
  text.includes(` ${word} `) ||
  text.includes(` ${word}s `) ||
  (word.endsWith('s') && text.includes(` ${word.slice(0, -1)} `));

/** Both sides of `nitrite with weak acid`, or both partners by name, stand in the text. */
function namesBoth(text: string, { title, partners }: Foreseen): boolean {
  const [left = '', right = ''] = title.split(' with ');
  const side = (phrase: string): boolean => {
    const words = wordsOf(phrase);
    return words.length > 0
      ? words.some((word) => hasWord(text, word))
      : /\bacid\b/.test(phrase) && /\b(?:acid\w*|vinegar)\b/.test(text);
  };
  if (right !== '' && side(left) && side(right)) return true;
  const mentioned = partners.filter((partner) => text.includes(plain(partner)));
  return partners.length > 1 && mentioned.length >= 2;
}

/** Ids of rules, and only those, that stand in the text as they are written: `nitrite-weak-acid`. */
function rulesNamed(against: string, foreseen: readonly Foreseen[]): ReadonlySet<string> {
  const text = against.toLowerCase();
  const mayBe = foreseen.map(({ rule }) => rule).filter((rule) => text.includes(rule));
  if (mayBe.length === 0) return new Set();
  const written = new Set(text.split(/[^\p{L}\p{N}-]+/u));
  return new Set(mayBe.filter((rule) => written.has(rule)));
}

/**
 * Positions in `foreseen` of the hazards that `against` names. Ids of rules name those hazards and no others that have
 * words in common with them.
 * @example answeredBy('hydrogen sulphide', foreseen)
 */
export function answeredBy(against: string, foreseen: readonly Foreseen[]): readonly number[] {
  const ids = rulesNamed(against, foreseen);
  if (ids.size === 0) return answeredByWords(against, foreseen);
  const rest = [...ids].reduce((left, id) => left.toLowerCase().replaceAll(id, ' '), against);
  const others = new Set(answeredByWords(rest, foreseen));
  return foreseen.flatMap(({ rule }, at) => (ids.has(rule) || others.has(at) ? [at] : []));
}

/** Two rules that say it of the same things speak of one danger: permanganate with sugar, a fire by either. */
const isOfTheSame = (other: Foreseen, one: Foreseen): boolean =>
  other.partners.length === one.partners.length && other.partners.every((partner) => one.partners.includes(partner));

/** Words of the rule itself, plain; the names of its gases are looked at by themselves. */
const ownWords = onceFor(({ gases: own = [], answers }: Foreseen): readonly string[] => {
  const named = new Set(
    own.flatMap(({ formula }) => {
      const known = gases().get(formula);
      return known ? [formula, known.name, ...known.aliases].map(plain) : [];
    }),
  );
  return answers.map(plain).filter((words) => words.trim().length > 3 && !named.has(words));
});

/** Words in plain; of `nitrogen (ammonium dichromate heated)` those in the bracket as they stand without it. */
const inPlain = (against: string): string => plain(against.replace(/^([^()]*) \((.*)\)\s*$/, '$1 $2'));

/**
 * `brown fumes` where the acid dissolves copper and there is spirit in it too: what may explode is not answered by a
 * gas that something else gives off beside it without.
 */
const explodesBeside = (
  { consequence }: Foreseen,
  gas: ReadonlySet<string>,
  kind: ReadonlySet<string>,
  foreseen: readonly Foreseen[],
): boolean =>
  consequence.startsWith('toxic gas') &&
  consequence.includes('explosion') &&
  !kind.has('explosion') &&
  !kind.has('fire') &&
  foreseen.some((other) => namesItsGas(gas, other) && !other.consequence.includes('explosion'));

/** Words in plain, and what of them names something in another language in English too: `Lappen` are rags. */
const inPlainEnglish = memoise(
  (against: string) => against,
  (against) => {
    const english = against.split(/[^\p{L}]+/u).flatMap((word) => (word.length > 3 ? (inEnglish(word) ?? []) : []));
    return plain([inPlain(against), ...english].join(' '));
  },
  2000,
);

function answeredByWords(against: string, foreseen: readonly Foreseen[]): readonly number[] {
  const text = inPlainEnglish(against);
  const gas = gasesNamed(against);
  const kind = kindsOf(against);
  return foreseen.flatMap((one, at) => {
    if (namesItsGas(gas, one) && !explodesBeside(one, gas, kind, foreseen)) return [at];
    if (ownWords(one).some((words) => text.includes(words)) || namesBoth(text, one)) return [at];
    const shared = [...kindsThatName(one)].filter((name) => kind.has(name));
    if (shared.length === 0 || gas.size > 0) return [];
    const rivals = foreseen.filter(
      (other, place) =>
        place !== at &&
        !isOfTheSame(other, one) &&
        other.severity === one.severity &&
        shared.some((name) => kindsOf(other.consequence).has(name)),
    );
    // The kind of danger is what its rivals are too: `silica dust` names no other dust.
    const mentioned = [...wordsOf(one.title), ...one.partners.flatMap(wordsOf)].some(
      (word) => kindsOf(word).size === 0 && hasWord(text, word),
    );
    return rivals.length === 0 || mentioned ? [at] : [];
  });
}

/** How a maker would name a hazard in `against:`: its gas, or else the rule's title. */
export function nameToAnswer(one: Foreseen): string {
  const [gas] = one.gases?.filter(({ formula }) => one.gas?.includes(formula)) ?? [];
  if (gas?.formula === 'CO2' && one.severity === 'note') return 'carbon dioxide froth';
  const named = one.gas === 'NO + NO2' ? 'nitrogen oxides' : gas?.name;
  return named === undefined ? one.title : `${named} (${one.title})`;
}

/** Whether `against` has the hazard's own name in it: its rule's id or title, or its gas by name or formula. */
export function namesOutright(against: string, { rule, title, gases: own = [] }: Foreseen): boolean {
  const text = inPlain(against);
  return [rule, title, ...own.flatMap(({ formula, name }) => [formula, name])].some((name) =>
    text.includes(plain(name)),
  );
}

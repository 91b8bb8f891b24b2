// A list or keys where words are wanted.
import { isFormula } from '../../reagents/index.js';
import { found, type Path } from '../../remarks/findings.js';
import { isKeys, set, type Mending } from './mending.js';
import { keysOfUse } from './uses.js';

/** A precaution in one sentence: it says what it is against, and what is done. */
export function ofSentence(value: string, path: Path, subject: string): Mending[] {
  const against = /\bagainst\s+(?:the\s+)?(\S+(?:\s+\S+){0,2})/i.exec(value)?.[1] ?? value;
  const meant = { against, do: value };
  const facts = { subject, meant: keysOfUse(meant), actual: value };
  return [{ path, mend: set(meant), found: found('precaution-in-one-text', facts) }];
}

/** Lists whose items may be a text. */
const listsOfTexts: ReadonlySet<unknown> = new Set(['steps', 'ideas', 'cautions', 'notes']);

/** `- Step one: heat`, which YAML takes for a key: a text with a colon in it. */
export function ofColonInItem(item: unknown, path: Path): Mending[] {
  if (!isKeys(item) || !listsOfTexts.has(path.at(-2)) || typeof path.at(-1) !== 'number') return [];
  const [only, ...others] = Object.entries(item);
  if (only === undefined || others.length > 0 || typeof only[1] !== 'string') return [];
  return [{ path, mend: set(`${only[0]}: ${only[1]}`) }];
}

/** Keys whose text tells something in as many sentences as it takes. */
const proseKeys: ReadonlySet<unknown> = new Set([
  'waste',
  'if-it-goes-wrong',
  'question',
  'answer',
  'failed',
  'abandoned',
  'withdrawn',
  'note',
  'learned',
  'careful',
  'do',
]);

/** What is meant is told, and cannot be pasted. */
const told = { inWords: true } as const;

/** An item of a list as a sentence of a text: words, a number, or `- first: pour it off`; undefined of all else. */
function sentenceOf(item: unknown): string | undefined {
  const [only, ...others] = isKeys(item) ? Object.entries(item) : [];
  if (only && others.length === 0 && typeof only[1] === 'string') return sentenceOf(`${only[0]}: ${only[1]}`);
  if (typeof item !== 'string' && typeof item !== 'number') return undefined;
  const words = String(item).trim();
  return /[.!?;:]$/.test(words) ? words : `${words}.`;
}

/** Several texts where one is wanted: its sentences. What became of the waste is judged by them. */
export function ofTexts(value: unknown, path: Path, subject: string): Mending[] {
  if (!Array.isArray(value) || value.length === 0) return [];
  if (!proseKeys.has(path.at(-1))) return ofPhrases(value, path, subject);
  const sentences = value.map(sentenceOf);
  if (sentences.includes(undefined)) return [];
  const facts = { subject, written: 'a list', meant: 'one text, each item a sentence', ...told, actual: 'a list' };
  return [{ path, mend: set(sentences.join(' ')), found: found('read-as', facts) }];
}

/** Keys whose text is a phrase. */
const phraseKeys: ReadonlySet<unknown> = new Set(['title', 'looks', 'differs', 'caption', 'shows']);

/** A list of one text, or of phrases, where one text is wanted. */
function ofPhrases(value: readonly unknown[], path: Path, subject: string): Mending[] {
  const isTexts = value.every((item) => typeof item === 'string');
  if (!isTexts || typeof path.at(-1) !== 'string' || (value.length > 1 && !phraseKeys.has(path.at(-1)))) return [];
  const meant = value.join(', ');
  const facts = { subject, written: 'a list', meant: `'${meant.slice(0, 60)}'`, ...told, actual: 'a list' };
  return [{ path, mend: set(meant), found: found('read-as', facts) }];
}

/** `differs: { temperature: 20 °C, addition: fast }`: its keys and what they say, as words. */
export function ofKeysAsWords(value: unknown, path: Path, subject: string): Mending[] {
  if (!isKeys(value) || path.at(-1) !== 'differs') return [];
  const pairs = Object.entries(value);
  if (pairs.length === 0 || pairs.some(([, told]) => typeof told !== 'string')) return [];
  const meant = pairs.map(([key, told]) => `${key} ${String(told)}`).join(', ');
  const facts = { subject, written: 'keys of its own', meant: `'${meant}'`, ...told, actual: 'keys of its own' };
  return [{ path, mend: set(meant), found: found('read-as', facts) }];
}

/** `malachite, Cu2CO3(OH)2`: a name with its formula behind it. */
export function ofPigment(value: string, path: Path, subject: string): Mending[] {
  if (/^[A-Z(]\S*\d\S*$/.test(value) && isFormula(value) && namesTwo.test(value))
    return [{ path, mend: set({ name: value, formula: value }) }];
  const [, name = '', last = ''] = /^(.*[^\s,;:(])[\s,;:]+(\S+)$/su.exec(value.trim()) ?? [];
  const formula = /^\((.*)\)$/s.exec(last)?.[1] ?? last;
  if (name === '' || !/^[A-Z([].*[A-Z\d(]/.test(formula) || !isFormula(formula) || !namesTwo.test(formula)) return [];
  const meant = { name, formula };
  const facts = { subject, written: value, meant: keysOfUse(meant), actual: value };
  return [{ path, mend: set(meant), found: found('read-as', facts) }];
}
const namesTwo = /[A-Z][^A-Z]*[A-Z]/;

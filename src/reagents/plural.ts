// Whether a name is of several things, so that sentences about it are said of them: `iodine crystals are`.

/** `brass`, `asbestos`, `plaster of Paris`, `gas`, `copperas`, `aqua fortis` end so and are one. */
const oneThing = /(?:ss|us|is|os|as)$/i;

/**
 * Whether an English name is a plural, by its last word outside brackets.
 * @example isPlural('iodine crystals') // true
 * @example isPlural('copperas') // false
 */
export function isPlural(name: string): boolean {
  const last =
    /(\p{L}+)\s*$/u.exec(
      name
        .replace(/\([^)]*\)/g, '')
        .split(/,| (?:of|for|from|in|with) /)[0]!
        .trim(),
    )?.[1] ?? '';
  return /[a-z]{3}s$/.test(last) && !oneThing.test(last);
}

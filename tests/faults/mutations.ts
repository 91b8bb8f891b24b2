// Entries of the demonstration as a tired hand would have written them: slips by chance, from one seed.
const seed = 20260314;

/** Numbers by chance, the same in every run: a linear congruence (Numerical Recipes, 3rd edition, 7.1.7). */
function chances(): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

type Slip = readonly [how: string, where: RegExp, slip: (all: string, ...parts: string[]) => string];

const amount = /(?<=amount: )(\d+)\.(\d+) (g|mL)/g;
const slips: readonly Slip[] = [
  ['decimal comma', amount, (_, whole, digits, unit) => `${whole},${digits} ${unit}`],
  ['decimal comma in quotes', amount, (_, whole, digits, unit) => `"${whole},${digits} ${unit}"`],
  ['gr', /(?<=amount: )(\d+\.\d+) g(?= )/g, (_, number) => `${number} gr`],
  ['no space', amount, (_, whole, digits, unit) => `${whole}.${digits}${unit}`],
  ['unit typed twice', /(?<=amount: \d+\.\d+) g(?= )/g, () => ' gg'],
  ['no unit', /(?<=amount: \d+\.\d+) g(?= )/g, () => ''],
  ['range in words', amount, (_, whole, digits, unit) => `${whole}.${digits} to ${Number(whole) + 1} ${unit}`],
  ['key in capitals', /\b(amount|reagent)(?=: )/g, (key) => key.toUpperCase()],
  ['key misspelt', /\bamount(?=: )/g, () => 'ammount'],
  ['key in German', /\bamount(?=: )/g, () => 'Menge'],
  ['key in French', /\bamount(?=: )/g, () => 'quantité'],
  ['key with another letter', /\bamount(?=: )/g, () => '\u0430mount'],
  ['status otherwise', /^status: finished$/gm, () => 'status: done'],
  ['status misspelt', /^status: finished$/gm, () => 'status: finnished'],
  ['date otherwise', /^date: (\d{4})-(\d{2})-(\d{2})$/gm, (_, year, month, day) => `date: ${day}.${month}.${year}`],
  ['date with slashes', /^date: (\d{4})-(\d{2})-(\d{2})$/gm, (_, year, month, day) => `date: ${year}/${month}/${day}`],
  ['curly quotes', /(?<=: )"([^"\n]*)"(?= [,}])/g, (_, words) => `“${words}”`],
  ['digit in water', /(?<=·\d)H2O/g, () => 'H20'],
  ['second colon', /^title: (.*)$/gm, (_, words) => `title: ${words}: again`],
  ['tab', /^ {2}- /gm, () => '\t- '],
  ['id misspelt', /(?<=reagent: [a-z]{3})([a-z])(?=[a-z-]{3,})/g, () => ''],
];

/** Each slip in so many entries. */
const timesEach = 3;

/** Entries with one slip each: file, text, which slip. */
export function mutated(entries: Readonly<Record<string, string>>): readonly (readonly [string, string, string])[] {
  const chance = chances();
  return slips.flatMap(([how, where, slip]) => {
    const may = Object.entries(entries).filter(([, text]) => text.search(where) >= 0);
    return Array.from({ length: Math.min(timesEach, may.length) }, (): readonly [string, string, string] => {
      const [[file, text] = ['', '']] = may.splice(chance(may.length), 1);
      const count = text.match(where)?.length ?? 0;
      let left = chance(count);
      const slipped = text.replace(where, (all: string, ...parts: string[]) => {
        left -= 1;
        return left === -1 ? slip(all, ...parts) : all;
      });
      return [file, slipped, how];
    });
  });
}

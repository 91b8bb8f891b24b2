// The small journal that an example stands for.
import type { Example, ExampleFile } from './rule.js';

/** The entry that an example without files writes about. */
export const exampleEntry = 'entries/001-example.md';

/** The shelf of every example. */
const shelf = `blue-vitriol: { name: copper(II) sulfate pentahydrate, formula: CuSO4·5H2O }
soda: { name: "sodium carbonate, anhydrous", formula: Na2CO3 }
epsom-salt: { name: magnesium sulfate heptahydrate, formula: MgSO4·7H2O }
caustic-soda: { name: sodium hydroxide solution, formula: NaOH, strength: 2.0 mol/L, density: 1.08 g/mL }
vinegar: { name: acetic acid, formula: CH3COOH, strength: 60 %, density: 1.06 g/mL }
nitrite: { name: sodium nitrite, formula: NaNO2 }
water: { name: water, formula: H2O }
`;
const settings = `title: An example
author: The workshop
address: https://example.org/journal/
balance: 0.01 g
`;

/** Keys that an entry can't do without; added where an example does not write them. */
const indispensable = { number: '1', title: 'An example', date: '2026-01-02', status: 'finished' };

/**
 * Text of an entry from lines of its front matter and, after a line `---`, its body.
 * @example exampleEntryText('samples: [{ sample: A }]')
 */
export function exampleEntryText(matter: string): string {
  const [front = '', ...body] = matter.split(/^---$/m);
  const added = Object.entries(indispensable)
    .filter(([key]) => !new RegExp(`^${key}:`, 'm').test(front))
    .map(([key, value]) => `${key}: ${value}\n`);
  return `---\n${added.join('')}${front.trim()}\n---\n${body.join('---').trim()}\n`;
}

/**
 * Every file of an example's journal.
 * @example Object.keys(exampleFiles('')) // ['journal.yaml', 'shelf.yaml', 'entries/001-example.md']
 */
export function exampleFiles(example: Example): Readonly<Record<string, ExampleFile>> {
  const { matter, files = {} } = typeof example === 'string' ? { matter: example } : example;
  const hasEntry = matter !== undefined || !Object.keys(files).some((file) => file.startsWith('entries/'));
  return {
    'journal.yaml': settings,
    'shelf.yaml': shelf,
    ...(hasEntry && { [exampleEntry]: exampleEntryText(matter ?? '') }),
    ...files,
  };
}

/** What stands in a file of an example; undefined where it is absent. @example bytesOf({ hex: 'fffe' })?.length // 2 */
export function bytesOf(file: ExampleFile): Uint8Array | undefined {
  if (typeof file === 'string') return new TextEncoder().encode(file);
  if ('absent' in file) return undefined;
  if ('hex' in file) return Uint8Array.from(file.hex.match(/../g) ?? [], (byte) => Number.parseInt(byte, 16));
  return new TextEncoder().encode('times' in file ? file.text.repeat(file.times) : file.text);
}

// Prepares what follows from the tables alone, once the code is compiled, and the tables themselves:
// `dist/prepared/<name>.json`, which the command line reads. Nothing in it is more than the code would find by itself.
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import '../hazards/index.js';
import '../reagents/index.js';
import '../reckoning/colour-method.js';
import { linesOf } from './items-at-hand.js';
import { preparedFolder } from './prepared-files.js';
import { preparations } from './prepared.js';

/** JSON in plain ASCII. */
const asciiJson = (data: unknown): string =>
  JSON.stringify(data).replace(/[^\0-\x7f]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);

function write(name: string, data: unknown): void {
  const file = join(preparedFolder, `${name}.json`);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, Array.isArray(data) ? linesOf(data, asciiJson) : asciiJson(data));
}

/** Every table as its compiled module gives it, by room and name: `tables/chemistry/metals`. */
async function writeTables(): Promise<void> {
  const compiled = fileURLToPath(new URL('./compiled/', import.meta.url));
  const modules = readdirSync(compiled, { recursive: true, encoding: 'utf8' })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => path.endsWith('.js'));
  for (const path of modules) {
    const exported = (await import(`./compiled/${path}`)) as Readonly<Record<string, () => unknown>>;
    const rows = Object.entries(exported).find(([name]) => name.endsWith('Table'))![1];
    write(`tables/${path.replace(/\.js$/, '')}`, rows());
  }
}

rmSync(preparedFolder, { recursive: true, force: true });
for (const [name, make] of preparations()) write(name, make());
await writeTables();

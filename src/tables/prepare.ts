// Prepares what follows from the tables and the format alone, once the code is compiled, and the tables themselves:
// texts of `dist/prepared/`, which the command line reads. Nothing in it is more than the code would find by itself.
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import '../crosslinks/gaps.js';
import '../hazards/index.js';
import '../journal/json-schema.js';
import '../reagents/index.js';
import '../reckoning/appearance/colour-method.js';
import '../reckoning/treatment/drying.js';
import '../reckoning/amounts/other-amounts.js';
import { linesOf } from './items-at-hand.js';
import { placesName, preparedFolder, textsName, type Places } from './prepared-files.js';
import { preparations } from './prepared.js';

/** Every table as its compiled module gives it, by room and name: `tables/chemistry/metals`. */
async function tables(): Promise<readonly (readonly [name: string, text: string])[]> {
  const compiled = fileURLToPath(new URL('./compiled/', import.meta.url));
  const modules = readdirSync(compiled, { recursive: true, encoding: 'utf8' })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => path.endsWith('.js'));
  const texts: (readonly [string, string])[] = [];
  for (const path of modules) {
    const exported = (await import(`./compiled/${path}`)) as Readonly<Record<string, () => readonly unknown[]>>;
    const rows = Object.entries(exported).find(([name]) => name.endsWith('Table'))![1];
    texts.push([`tables/${path.replace(/\.js$/, '')}`, linesOf(rows())]);
  }
  return texts;
}

const texts = [...[...preparations()].map(([name, make]) => [name, make()] as const), ...(await tables())];
const places: Record<string, Places[string]> = {};
let from = 0;
for (const [name, { length }] of texts) {
  places[name] = [from, length];
  from += length;
}
rmSync(preparedFolder, { recursive: true, force: true });
mkdirSync(preparedFolder);
writeFileSync(join(preparedFolder, textsName), texts.map(([, text]) => text).join(''));
writeFileSync(join(preparedFolder, placesName), JSON.stringify(places));

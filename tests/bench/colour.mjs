// How long the colour takes: the command as a process, reading a file, reckoning an entry with four spectra. Prints;
// asserts nothing.
// Run: npm run build && node tests/bench/colour.mjs
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readReadings } from '../../dist/src/colour/index.js';
import { reckonAppearance } from '../../dist/src/reckoning/appearance/appearance.js';
import { packageFolder } from '../../dist/src/package-folder.js';

const median = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
const timed = (times, work) =>
  Array.from({ length: times }, () => {
    const began = performance.now();
    work();
    return performance.now() - began;
  });
const told = (what, ms, allowed) =>
  console.log(`${what.padEnd(58)} ${ms.toFixed(3).padStart(8)} ms${allowed ? `   allowed ${allowed} ms` : ''}`);

const names = ['cobalt-blue', 'emerald-green', 'vermilion', 'zinc-white'];
const file = (name) => join(packageFolder, `tests/reference/colour/reflectance/${name}-over-white.csv`);
const files = new Map(names.map((name) => [`${name}.csv`, readFileSync(file(name), 'utf8')]));

const probe =
  'data:text/javascript,process.on("exit",()=>{const{user,system}=process.cpuUsage();process.stderr.write(`\\ncpu ' +
  '${(user+system)/1000}`)})';
const cpu = (...words) =>
  median(
    Array.from({ length: 7 }, () =>
      Number(
        /cpu ([\d.]+)/.exec(
          spawnSync(
            process.execPath,
            ['--import', probe, join(packageFolder, 'dist/src/commands/masstone.js'), ...words],
            { encoding: 'utf8' },
          ).stderr,
        )[1],
      ),
    ),
  );
told('masstone --help, processor time', cpu('--help'));
told(
  'masstone colour FILE --against FILE, processor time',
  cpu('colour', file(names[0]), '--against', file(names[1]), '--json'),
);

told('reading a spectrum of 31 values', median(timed(501, () => readReadings(files.get('cobalt-blue.csv')))));
const entry = {
  file: 'entries/001.md',
  matter: '',
  matterLine: 2,
  samples: names.map((name, i) => ({
    sample: 'ABCD'[i],
    colour: { spectrum: `${name}.csv` },
    opacity: { 'over-black': 20, 'over-white': 40 },
  })),
};
const context = { settings: {}, shelf: new Map(), lot: () => undefined, reading: (path) => files.get(path) };
told(
  'colour of an entry with four spectra, median of 501',
  median(timed(501, () => reckonAppearance(entry, context))),
  1,
);

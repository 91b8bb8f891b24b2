// How long the chemistry takes: the commands as processes, balancing, reckoning the demonstration journal. Prints;
// asserts nothing.
// Run: npm run build && node tests/bench/chemistry.mjs
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { balance } from '../../dist/src/chemistry/equation/index.js';
import { readJournal } from '../../dist/src/journal/index.js';
import { lotsOf, reckonAmounts } from '../../dist/src/reckoning/amounts/amounts.js';
import { packageFolder } from '../../dist/src/package-folder.js';

const median = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
const timed = (times, work) =>
  Array.from({ length: times }, () => {
    const began = performance.now();
    work();
    return performance.now() - began;
  });
const told = (what, ms, allowed) =>
  console.log(`${what.padEnd(58)} ${ms.toFixed(2).padStart(8)} ms   allowed ${allowed} ms`);

const probe =
  'data:text/javascript,process.on("exit",()=>{const{user,system}=process.cpuUsage();process.stderr.write(`\\ncpu ' +
  '${(user+system)/1000}`)})';
const long = 'K4[Fe(CN)6] + KMnO4 + H2SO4 -> KHSO4 + Fe2(SO4)3 + MnSO4 + HNO3 + CO2 + H2O';
for (const words of [
  ['formula', '--json', 'Fe4[Fe(CN)6]3'],
  ['balance', '--json', long],
  [
    'weigh',
    '--json',
    '--reaction',
    'CuSO4 + Zn -> Cu + ZnSO4',
    '--reagent',
    'CuSO4·5H2O 5.00 g',
    '--reagent',
    'Zn excess',
  ],
]) {
  const cpu = Array.from({ length: 5 }, () =>
    Number(
      /cpu ([\d.]+)/.exec(
        spawnSync(
          process.execPath,
          ['--import', probe, join(packageFolder, 'dist/src/commands/masstone.js'), ...words],
          { encoding: 'utf8' },
        ).stderr,
      )[1],
    ),
  );
  told(`masstone ${words[0]}, processor time`, median(cpu), 200);
}
const twelve = 'Bi(NO3)3·5H2O + NaVO3 + NaOH + Na2MoO4 + KCl + CaCO3 -> BiVO4 + NaNO3 + H2O + K2MoO4 + CaCl2 + Na2CO3';
told('balancing twelve substances', median(timed(21, () => balance(twelve))), 20);

const { journal } = await readJournal(join(packageFolder, 'content'), { drafts: true });
const lots = new Map();
const context = {
  settings: journal.settings,
  shelf: journal.shelf.reagents,
  lot: (name) => lots.get(name),
  reading: () => undefined,
};
for (const entry of journal.entries)
  for (const lot of lotsOf(entry, reckonAmounts(entry, context).amounts)) lots.set(lot.lot, lot);
told(
  `reckoning the amounts of an entry, median of ${journal.entries.length}`,
  median(journal.entries.map((entry) => median(timed(9, () => reckonAmounts(entry, context))))),
  2,
);

// npm run attack [-- --minutes 5 --seed 1 --only journals,writes]: attacks for as many minutes as are given, by
// chance that can be had again, and prints what was tried and what did harm. Harm ends with exit code 1.
import { chance } from './chance.mjs';
import { attackBrowser } from './browser.mjs';
import { attackJournals } from './mutated.mjs';
import { attackKills, attackPairs } from './processes.mjs';
import { attackServer } from './server.mjs';
import { attackWrites } from './writes.mjs';

const value = (name, otherwise) => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? otherwise : process.argv[at + 1];
};
const minutes = Number(value('minutes', 5));
const seed = Number(value('seed', Date.now() % 2 ** 31));
const most = Number(value('most', Infinity));

/** Each attack, with the share of the time that it takes. */
const attacks = {
  journals: ['mutated journals and reading files', 4, attackJournals],
  writes: ['faults and kills at every write', 3, attackWrites],
  kills: ['publications killed at random', 2, attackKills],
  pairs: ['pairs of publications', 2, attackPairs],
  browser: ['injections in Chromium', 2, attackBrowser],
  server: ['attacks on the reading copy', 1, attackServer],
};
const chosen = value('only', Object.keys(attacks).join(',')).split(',');
const untold = chosen.filter((name) => !Object.hasOwn(attacks, name));
if (untold.length > 0) {
  process.stderr.write(`No attack is called ${untold.join(', ')}; there are ${Object.keys(attacks).join(', ')}.\n`);
  process.exit(2);
}
const shares = chosen.reduce((sum, name) => sum + attacks[name][1], 0);

process.stdout.write(`seed ${seed}, ${minutes} minutes\n`);
const rows = [];
let harm = 0;
for (const name of chosen) {
  const [what, share, attack] = attacks[name];
  const began = Date.now();
  const until = began + (minutes * 60_000 * share) / shares;
  await attack({
    random: chance(seed),
    until,
    only: most,
    report: ({ tried, found, words }) => {
      harm += found.length;
      rows.push([what, tried, found.length, `${((Date.now() - began) / 1000).toFixed(0)} s`, words]);
      for (const one of found.slice(0, 10)) process.stdout.write(`HARM ${name}: ${one}\n`);
    },
  });
  const [, tried, harmed] = rows.at(-1);
  process.stdout.write(`${name}: ${tried} tried, ${harmed} did harm\n`);
}
process.stdout.write('\n');
for (const [what, tried, harmed, time, words] of rows)
  process.stdout.write(
    `${what.padEnd(36)} ${String(tried).padStart(7)} tried ${String(harmed).padStart(4)} harm ` +
      `${time.padStart(7)}   ${words}\n`,
  );
process.exitCode = harm > 0 ? 1 : 0;

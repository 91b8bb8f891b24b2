// npm run sameness [-- --steps 1000 --seed 1 --search 25 --jars 500]: edits a journal by chance and holds what is made of the
// changes against what is made of everything, byte by byte. Any difference ends it with exit code 1.
import { chance } from '../attack/chance.mjs';
import { sameness } from './sameness.mjs';

const value = (name, otherwise) => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? otherwise : Number(process.argv[at + 1]);
};
const steps = value('steps', 1000);
const seed = value('seed', Date.now() % 2 ** 31);
process.stdout.write(`seed ${seed}, ${steps} steps\n`);
const began = Date.now();
const { found, counts } = await sameness({
  random: chance(seed),
  steps,
  search: value('search', 25),
  jars: value('jars', 0),
  tell: ({ step, done, published, found: so }) => {
    if (process.argv.includes('--tell')) process.stdout.write(`${step} ${published} ${done.join(' + ')}\n`);
    if (so.length > 0 && so.length <= 5) process.stdout.write(`${so.at(-1)}\n`);
  },
});
const seconds = ((Date.now() - began) / 1000).toFixed(0);
process.stdout.write(`${JSON.stringify(counts)} in ${seconds} s, ${found.length} differences\n`);
for (const one of found.slice(0, 20)) process.stdout.write(`${one}\n`);
process.exitCode = found.length > 0 ? 1 : 0;

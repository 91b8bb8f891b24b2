// One seed for all property tests: a run of the tests says whether a change broke something, and a mutant lives or dies
// the same way every time. MASSTONE_SEED=new takes another seed each time (npm run test:seeds), to find what one
// misses.
import fc from 'fast-check';

if (process.env['MASSTONE_SEED'] !== 'new') fc.configureGlobal({ seed: 20260314 });

// One seed for all property tests, so that a mutant lives or dies the same way every time.
import fc from 'fast-check';

fc.configureGlobal({ seed: 20260314 });

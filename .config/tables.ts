// Compiles the data tables before the tests run, so that they run without a build, and stops where a table has a fault.
import { compileTables } from '../src/tables/compile.ts';

export default async function setup(): Promise<void> {
  const faults = await compileTables();
  if (faults.length > 0) throw new Error(`The data tables have faults:\n${faults.join('\n')}`);
}

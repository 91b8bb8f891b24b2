/**
 * Test files that need a process of their own, each with the reason. All others share one for each core, with the modules
 * that are loaded in it and what these keep.
 */
export const alone: Readonly<Record<string, string>> = {
  'tests/journal/read-at-once.test.ts': 'loads modules anew, with another library in the place of one',
  'tests/kept/kept.test.ts': 'changes where temporary files lie',
  'tests/reading/unwatched.test.ts': 'has folders that cannot be watched',
  'tests/remarks/rules.test.ts': 'has files that cannot be read',
  'tests/tables/prepared.test.ts': 'lists what the modules that it loads prepare, and no others',
};

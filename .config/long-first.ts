// The order of the test files: what takes long begins early, so that in the end no core waits for the last one of them.
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** These are short to read and long to run; the others begin by their length. */
const long = [
  'tests/commands/packed.test.ts',
  'tests/browser/pages.test.ts',
  'tests/faults/attack.test.ts',
  'tests/browser/paper.test.ts',
  'tests/browser/search.test.ts',
  'tests/colour/second-camera.test.ts',
  'tests/kept/sameness.test.ts',
  'tests/site/threads.test.ts',
];

export default class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const placeOf = ({ moduleId }: TestSpecification): number => {
      const place = long.findIndex((path) => moduleId.endsWith(`/${path}`));
      return place < 0 ? long.length : place;
    };
    // Those that have a process of their own stay before those that share one, which would else end in between.
    const isAlone = ({ project }: TestSpecification): number => (project.config.isolate ? 0 : 1);
    return sorted.sort((a, b) => isAlone(a) - isAlone(b) || placeOf(a) - placeOf(b));
  }
}

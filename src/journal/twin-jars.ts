// Jars that hold the same substance under different names: `cupric oxide` beside copper(II) oxide.
import { identify } from '../reagents/index.js';

/** What is written of a jar. */
export interface JarWritten {
  readonly id: string;
  readonly name: string;
  readonly formula?: string;
  readonly cas?: string;
  readonly strength?: string;
}

/** The same for the same substance with the same water; undefined where nothing tells which it is. */
function contentOf({ name, formula, cas }: JarWritten): string | undefined {
  const substance = identify({
    name,
    ...(formula !== undefined && { formula }),
    ...(cas !== undefined && { cas }),
  })?.substance;
  if (!substance || substance.roughly) return undefined;
  const { dry, water } = substance.constituents;
  return `${dry} ${water}`;
}

/**
 * The jar among some that holds the same as another; of solutions, those of the same strength.
 * @example twinOf({ id: 'b', name: 'cupric oxide' }, [{ id: 'a', name: 'copper(II) oxide' }])?.id // 'a'
 */
export function twinOf(jar: JarWritten, others: readonly JarWritten[]): JarWritten | undefined {
  const content = contentOf(jar);
  if (content === undefined) return undefined;
  return others.find((other) => (other.strength ?? '') === (jar.strength ?? '') && contentOf(other) === content);
}

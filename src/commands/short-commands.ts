/**
 * Commands that are over at once, so that starting is most of what they take. The build puts them together in few files
 * and leaves the others where they are; the launcher and the end of a run know them too.
 */
export const shortCommands: readonly string[] = ['balance', 'foresee', 'formula', 'weigh'];

/** Those of them that look at a journal: what they answer is kept beside it, and told again (`told-again.ts`). */
export const answeredAgain: readonly string[] = ['foresee', 'weigh'];

// What follows from the tables alone: reckoned once when the house is built, and read as data by the command line.
// Where nothing was prepared (tests on the sources, a browser, another program), it is reckoned when it is first
// asked for.

const makers = new Map<string, () => unknown>();
let readPrepared: (name: string) => string | undefined = () => undefined;

/**
 * Something that follows from the tables alone, made when it is first asked for.
 * @param name of the file that keeps it, without its ending
 * @param make gives data that JSON keeps; numbers in decimals become text
 * @returns what gives these data, the same whether they were prepared or are made now
 */
export function prepared<Data>(name: string, make: () => unknown): () => Data {
  makers.set(name, make);
  let data: Data | undefined;
  return () => (data ??= JSON.parse(readPrepared(name) ?? JSON.stringify(make())) as Data);
}

/**
 * Answers to what is asked of texts that stand in the tables, where they were prepared; none where they were not, since
 * then each is cheaper to find when it is asked for.
 * @param make gives every text with its answer
 */
export function preparedAnswers<Answer>(
  name: string,
  make: () => readonly (readonly [text: string, answer: Answer])[],
): () => ReadonlyMap<string, Answer> {
  makers.set(name, make);
  let answers: ReadonlyMap<string, Answer> | undefined;
  return () => (answers ??= new Map(JSON.parse(readPrepared(name) ?? '[]') as readonly (readonly [string, Answer])[]));
}

/** Says where what was prepared is read; a name of which nothing is there is answered with undefined. */
export function takePreparedFrom(read: (name: string) => string | undefined): void {
  readPrepared = read;
}

/** Everything that can be prepared by the modules that are loaded, by name. */
export const preparations = (): ReadonlyMap<string, () => unknown> => makers;

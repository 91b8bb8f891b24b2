// Files of the next site that the one before has already with the same content. They are not made anew: they get a
// second name, or lie already in the folder that the next site is built in, where that was the folder of the site
// before last. So what has not changed keeps its times, and a disk has less to do. What is there is believed only byte
// by byte.
import { closeSync, linkSync, lstatSync, openSync, readSync, renameSync, rmSync, type Stats } from 'node:fs';

/** Files are compared so many bytes at a time. */
const comparedAtOnce = 65_536;
const room = [Buffer.allocUnsafe(comparedAtOnce), Buffer.allocUnsafe(comparedAtOnce)] as const;

/** What is at a path: a link is taken for itself, whatever it leads to. */
const found = (path: string): Stats | undefined => lstatSync(path, { throwIfNoEntry: false });

/** Does it with an open file, which is closed in any case. */
function withOpen<T>(file: string, work: (handle: number) => T): T {
  const handle = openSync(file, 'r');
  try {
    return work(handle);
  } finally {
    closeSync(handle);
  }
}

/** What the system refuses is a no: then the file is made anew. */
function ifPossible(work: () => boolean): boolean {
  try {
    return work();
  } catch {
    return false;
  }
}

/** Whether a file is there with just these bytes. */
export const hasBytes = (file: string, bytes: Uint8Array): boolean =>
  ifPossible(() => {
    const stats = found(file);
    if (!stats?.isFile() || stats.size !== bytes.length) return false;
    const [own] = room;
    return withOpen(file, (handle) => {
      for (let at = 0; at < bytes.length; ) {
        const more = readSync(handle, own, 0, comparedAtOnce, at);
        if (more === 0 || own.compare(bytes, at, Math.min(bytes.length, at + more), 0, more) !== 0) return false;
        at += more;
      }
      return true;
    });
  });

/** Whether two files are there with the same bytes. */
const areAlike = (one: string, other: string): boolean => {
  const [size, second] = [found(one)?.size, found(other)];
  if (size === undefined || !second?.isFile() || second.size !== size) return false;
  return withOpen(one, (handle) =>
    withOpen(other, (otherHandle) => {
      for (let at = 0; at < size; ) {
        const [more, also] = [handle, otherHandle].map((each, which) =>
          readSync(each, room[which]!, 0, comparedAtOnce, at),
        );
        if (more === 0 || more !== also || room[0].compare(room[1], 0, more, 0, more) !== 0) return false;
        at += more!;
      }
      return true;
    }),
  );
};

/** Whether two paths are names of one file. */
const areOneFile = (one: string, other: string): boolean => {
  const [a, b] = [found(one), found(other)];
  return a !== undefined && b !== undefined && a.ino === b.ino && a.dev === b.dev;
};

/** Gives a file a second name, in place of what has that name. */
function nameAgain(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    rmSync(to);
    linkSync(from, to);
  }
}

/** A file of the next site, and the same file in the site before. */
export interface InBoth {
  readonly file: string;
  readonly before: string;
}

/**
 * Whether the file of the site before, with these bytes, has a second name in the next already: in a folder that was
 * that of the site before last.
 */
export const isThereAlready = ({ file, before }: InBoth, bytes: Uint8Array): boolean =>
  ifPossible(() => areOneFile(file, before)) && hasBytes(file, bytes);

/**
 * Gives the file of the site before a second name in the next one, if it has these bytes.
 * @returns false where it could not be; then nothing is there under that name
 */
export const takeSame = ({ file, before }: InBoth, bytes: Uint8Array): boolean =>
  ifPossible(() => {
    nameAgain(before, file);
    // What has the name now is looked at: nobody can put another file in its place.
    if (hasBytes(file, bytes)) return true;
    rmSync(file);
    return false;
  });

/** Puts the file of the site before in the place of one that was just written, if both are alike. */
export const putSameInPlace = ({ file, before }: InBoth): boolean =>
  ifPossible(() => {
    const beside = `${file}.same`;
    try {
      linkSync(before, beside);
      if (!areAlike(file, beside)) return false;
      renameSync(beside, file);
      return true;
    } finally {
      rmSync(beside, { force: true });
    }
  });

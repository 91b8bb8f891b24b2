// What a maker is told when something could not be done: a sentence that says what, where and what to do; never a
// stack trace.
import type { JsonError } from './command.js';
import { shownPath } from './command.js';

type Told = JsonError['error'];

/** Something went wrong outside the journal's own words; `consequence` says what has become of what was there. */
export class Stopped extends Error {
  override readonly name = 'Stopped';
  constructor(
    readonly why: unknown,
    readonly consequence: string,
  ) {
    super(consequence, { cause: why });
  }
}

/** A fault that says itself what to do. */
export class Refused extends Error {
  override readonly name = 'Refused';
  constructor(readonly told: Told) {
    super(told.message);
  }
}

// Known by their names: a command and the dispatcher may each have been built with a copy of these classes.
const isStopped = (error: unknown): error is Stopped => error instanceof Error && error.name === 'Stopped';
const isRefused = (error: unknown): error is Refused => error instanceof Error && error.name === 'Refused';

interface SystemFault {
  readonly code: string;
  /**
   * @param where the file or folder, in words: `the file site/index.html`, or `something` where the system does not
   * name it
   */
  readonly message: (where: string) => string;
  readonly cure: string;
}

const noSpace: SystemFault = {
  code: 'no-space',
  message: (where) => `There is no space left on the disk for ${where}.`,
  cure: 'Free some space there, or name a folder on another disk, and run it again.',
};
const noPermission: SystemFault = {
  code: 'no-permission',
  message: (where) => `You have no permission to read or write ${where}.`,
  cure: 'Change the permissions of the file or of its folder, or name another folder.',
};
const tooManyFiles: SystemFault = {
  code: 'too-many-files',
  message: (where) => `Too many files are open on this machine to open ${where}.`,
  cure: 'Close other programs, or raise the limit (ulimit -n), and run it again.',
};
const busy: SystemFault = {
  code: 'busy',
  message: (where) => `Another program, or the system itself, is using ${where}.`,
  cure: 'Close what uses it (it may be a folder on which a disk is mounted), and run it again.',
};

/** By the system's own code (errno). */
const systemFaults: Readonly<Record<string, SystemFault>> = {
  ENOSPC: noSpace,
  EDQUOT: noSpace,
  EFBIG: { ...noSpace, code: 'too-large', message: (where) => `The disk takes no file as large as ${where}.` },
  EACCES: noPermission,
  EPERM: noPermission,
  EROFS: {
    code: 'read-only',
    message: (where) => `The disk that holds ${where} can only be read.`,
    cure: 'Name a folder on another disk, or make this one writable.',
  },
  ENOTDIR: {
    code: 'not-a-folder',
    message: (where) => `A part of the path of ${where} is a file, where a folder should be.`,
    cure: 'Move that file away, or name another folder.',
  },
  EISDIR: {
    code: 'not-a-file',
    message: (where) => `There is a folder where a file should be: ${where}.`,
    cure: 'Move the folder away, or name another file.',
  },
  ENOENT: {
    code: 'missing',
    message: (where) => `There is no such file or folder: ${where}.`,
    cure: 'If something took it away meanwhile, bring it back; or name another.',
  },
  EEXIST: {
    code: 'exists',
    message: (where) => `There is something already where ${where} should be written.`,
    cure: 'Move it away, or name another place.',
  },
  ENOTEMPTY: {
    code: 'not-empty',
    message: (where) => `Something was put into ${where} meanwhile.`,
    cure: 'Run it again; nothing that was put there is taken away.',
  },
  EBUSY: busy,
  ETXTBSY: busy,
  EMFILE: tooManyFiles,
  ENFILE: tooManyFiles,
  EAGAIN: { ...tooManyFiles, code: 'busy', message: () => 'The system can start no further program just now.' },
  ENOMEM: {
    code: 'no-memory',
    message: (where) => `There is not enough memory for ${where}.`,
    cure: 'Close other programs and run it again.',
  },
  EXDEV: {
    code: 'other-disk',
    message: (where) => `${where} lies on another disk than the folder beside it.`,
    cure: 'Name a folder that is not itself a mounted disk: the new site is built beside it and takes its place.',
  },
  ENAMETOOLONG: {
    code: 'name-too-long',
    message: (where) => `The name is longer than the disk takes: ${where}.`,
    cure: 'Name a folder with a shorter path.',
  },
  ELOOP: {
    code: 'loop',
    message: (where) => `A link leads back to itself on the way to ${where}.`,
    cure: 'Take that link away.',
  },
  EIO: {
    code: 'disk-fault',
    message: (where) => `The disk reports a fault with ${where}.`,
    cure: 'Make a copy of your journal now, and look after the disk.',
  },
  EPIPE: {
    code: 'output-closed',
    message: () => 'The program that was reading this output has ended.',
    cure: 'Run it again without that program.',
  },
};

/** Files of our own making that a maker does not know, by the names of those that they are for. */
const beside = /(^|\/)\.([^/]+?)\.(?:(?:staging|former)-[0-9a-f]{12}|lock(?:-[0-9a-f]{12})?|[0-9a-f]{12})(?=\/|$)/;

function whereOf({ path, syscall = '' }: NodeJS.ErrnoException): string {
  if (path !== undefined && path !== '') return shownPath(path.replace(beside, '$1$2'));
  return syscall === 'write' ? 'what was being written' : 'it';
}

/** What is said of an error that the system reported; undefined where it is none. */
function systemFault(error: NodeJS.ErrnoException): Told | undefined {
  const { code = '', syscall } = error;
  const known = Object.hasOwn(systemFaults, code) ? systemFaults[code] : undefined;
  if (known) return { code: known.code, message: known.message(whereOf(error)), cure: known.cure };
  if (syscall === undefined || !/^E[A-Z0-9]+$/.test(code)) return undefined;
  return {
    code: 'system',
    message: `The system refused (${code}): ${whereOf(error)}.`,
    cure: 'Look at the disk and its permissions, and run it again.',
  };
}

const reasonOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

const unexpected = (error: unknown): Told => ({
  code: 'fault',
  message: `Masstone met something that it was not made for: ${reasonOf(error)}.`,
  cure: 'This is a fault of Masstone. Run the same with --debug and report what it prints to whoever you have it from.',
});

/**
 * What a maker is told about any error.
 * @example toldOf(Object.assign(new Error(), { code: 'ENOSPC', path: 'site' })).code // 'no-space'
 */
export function toldOf(error: unknown): Told {
  if (isRefused(error)) return error.told;
  if (isStopped(error)) {
    const { message, ...rest } = toldOf(error.why);
    return { ...rest, message: `${message} ${error.consequence}` };
  }
  return (error instanceof Error && systemFault(error)) || unexpected(error);
}

/** The trace of an error, down to its first cause, for --debug. */
export function traceOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const own = error.stack ?? error.message;
  return error.cause === undefined ? own : `${own}\nbecause of ${traceOf(error.cause)}`;
}

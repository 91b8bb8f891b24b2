// What a command says: the result on stdout, remarks on stderr, each written at once where that can be done.
import { writeSync } from 'node:fs';
import type { Answer } from '../kept/answers.js';
import type { Streams } from './command.js';
import { toldOf } from './faults.js';

const standardOutput = 1;

/** The two streams of a command. */
export class Output {
  /** Everything that was said, in order. */
  readonly said: Answer['said'][number][] = [];
  /** The result could not be written. */
  isFaulty = false;
  /** Nobody reads the result any more. */
  isClosed = false;
  /** Standard error and standard output as streams, where they were opened. */
  private errorStream: NodeJS.WriteStream | undefined;
  private outputStream: NodeJS.WriteStream | undefined;

  /** @param isShort the command has ended before opening a stream would have paid for itself */
  constructor(private readonly isShort: boolean) {}

  readonly streams: Streams = this.streamsHere();

  private streamsHere(): Streams {
    const besides = (): NodeJS.WriteStream => this.besides();
    return {
      result: (text) => {
        this.said.push(['result', text]);
        if (this.needsStream()) this.output().write(text);
        else this.writeAtOnce(text);
      },
      aside: (text) => {
        this.said.push(['aside', text]);
        besides().write(text);
      },
      get terminal() {
        return Boolean(besides().isTTY);
      },
    };
  }

  /**
   * A closed pipe (`masstone … | head`) is not an error: what is being done is done to its end, and is no longer told.
   */
  private readonly endOutput = (error: NodeJS.ErrnoException): void => {
    if (error.code === 'EPIPE') this.isClosed = true;
    if (this.isFaulty || error.code === 'EPIPE') return;
    this.isFaulty = true;
    this.streams.aside(`The result could not be written. ${toldOf(error).message} ${toldOf(error).cure ?? ''}\n`);
    process.exitCode = 1;
  };

  private besides(): NodeJS.WriteStream {
    this.errorStream ??= process.stderr.on('error', () => undefined);
    return this.errorStream;
  }

  private output(): NodeJS.WriteStream {
    this.outputStream ??= process.stdout.on('error', this.endOutput);
    return this.outputStream;
  }

  /** Writes at once, without opening a stream; only a reader that is not ready is waited for by one. */
  private writeAtOnce(text: string): void {
    const bytes = Buffer.from(text);
    let written = 0;
    try {
      while (written < bytes.length) written += writeSync(standardOutput, bytes, written);
    } catch (error) {
      const fault = error as NodeJS.ErrnoException;
      if (fault.code === 'EAGAIN') this.output().write(bytes.subarray(written));
      else this.endOutput(fault);
    }
  }

  /** A console of Windows takes its signs from a stream only. */
  private needsStream(): boolean {
    return !this.isShort || this.outputStream !== undefined || process.platform === 'win32';
  }

  /**
   * Ends a short command where all is written, without the tidying up of memory that comes when nothing is left to
   * do; a stream may still have to tell that it could not write.
   */
  endWhereAllIsWritten(): void {
    if (!this.outputStream && !this.errorStream) process.exit();
    setImmediate(() => {
      if (!this.outputStream?.writableLength && !this.errorStream?.writableLength) process.exit();
    });
  }
}

// What was made before and is kept: found again by the identity of all that it was made of.
import { identityOf } from './inputs.js';
import { PackFile } from './pack-file.js';
import { pack, unpack } from './packed.js';

/** Keeps plain data by text keys that say everything the data were made of. What is not there is made anew. */
export interface Kept {
  readonly get: (key: string) => unknown;
  /** Whether something is kept under the key, without asking for it. */
  readonly has: (key: string) => boolean;
  readonly put: (key: string, value: unknown) => void;
  /** The same where it is JSON already. */
  readonly putJson: (key: string, json: string) => void;
  /** The same for what is large and seldom asked for. */
  readonly hasLarge: (key: string) => boolean;
  /** May be missing all the same, where it turns out to be damaged. */
  readonly getLarge: (key: string) => unknown;
  readonly putLarge: (key: string, value: unknown) => void;
  /** The same where it is packed already. */
  readonly putPacked: (key: string, packed: Uint8Array) => void;
  /** What is large, where it need not be loaded. */
  readonly atHand?: (key: string) => unknown;
  /**
   * What was asked for in this run of what is kept under keys that begin with some names, as JSON.
   * @param isAllAsked whether what was not asked for is of no use any more. Default: it is not
   */
  readonly askedFor?: (
    names: readonly string[],
    isAllAsked?: boolean,
  ) => Iterable<readonly [key: string, json: string]>;
}

/** Keeps nothing. */
export const keptNowhere: Kept = {
  get: () => undefined,
  has: () => false,
  put: () => undefined,
  putJson: () => undefined,
  hasLarge: () => false,
  getLarge: () => undefined,
  putLarge: () => undefined,
  putPacked: () => undefined,
};

/**
 * What something is kept under that is made of some inputs. Where nothing is kept nothing is looked for, and the inputs
 * need not be told from others.
 * @param name of what is made; different things made of the same inputs have different names
 */
export const keyUnder = (kept: Kept, name: string, inputs: () => unknown): string =>
  kept === keptNowhere ? '' : `${name} ${identityOf(inputs())}`;

/** Keeps what was asked for since the turn before the last, so that it does not grow without end. */
export class KeptInMemory implements Kept {
  private readonly all = new Map<string, { value: unknown; asked: number }>();
  private now = 0;

  /** What is not asked for between this turn and the next is forgotten. */
  turn(): void {
    for (const [key, { asked }] of this.all) if (asked < this.now) this.all.delete(key);
    this.now += 1;
  }

  readonly get = (key: string): unknown => {
    const one = this.all.get(key);
    if (one) one.asked = this.now;
    return one?.value;
  };

  readonly has = (key: string): boolean => this.all.has(key);

  readonly put = (key: string, value: unknown): void => {
    this.all.set(key, { value, asked: this.now });
  };

  readonly putJson = (key: string, json: string): void => this.put(key, JSON.parse(json));

  readonly hasLarge = (key: string): boolean => this.get(key) !== undefined;
  readonly getLarge = this.get;
  readonly atHand = this.get;
  readonly putLarge = this.put;
  readonly putPacked = (key: string, packed: Uint8Array): void => this.put(key, unpack(packed));
}

/** Keeps for one run what it makes: on the disk, and what is large packed, so that many entries take little room. */
export class KeptForOneRun implements Kept {
  private readonly texts = new PackFile();
  private readonly packs = new PackFile();

  readonly get = (key: string): unknown => {
    const json = this.texts.get(key);
    return json && JSON.parse(Buffer.from(json).toString('utf8'));
  };
  readonly has = (key: string): boolean => this.texts.has(key);
  readonly put = (key: string, value: unknown): void => this.putJson(key, JSON.stringify(value));
  readonly putJson = (key: string, json: string): void => this.texts.put(key, Buffer.from(json));
  readonly hasLarge = (key: string): boolean => this.packs.has(key);
  readonly getLarge = (key: string): unknown => {
    const packed = this.packs.get(key);
    return packed && unpack(packed);
  };
  readonly putLarge = (key: string, value: unknown): void => this.putPacked(key, pack(value));
  readonly putPacked = (key: string, packed: Uint8Array): void => {
    this.packs.put(key, packed);
  };
}

/**
 * What `make` makes of the inputs, or has made of them before.
 * @param name of what is made; different things made of the same inputs have different names
 * @param inputs all that `make` draws on, as plain data
 * @param make gives plain data, never undefined
 */
export function madeOf<T>(kept: Kept, name: string, inputs: unknown, make: () => T): T {
  const key = keyUnder(kept, name, () => inputs);
  const before = kept.get(key);
  if (before !== undefined) return before as T;
  const made = make();
  kept.put(key, made);
  return made;
}

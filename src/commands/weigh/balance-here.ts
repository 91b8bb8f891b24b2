// The balance that a weighing list is for: the one that is asked for, else that of the journal that is named.
import { join } from 'node:path';
import type { Decimal } from '../../chemistry/index.js';
import { existsSync, readFileSync } from '../../kept/noted-files.js';
import { balanceOf, type Balance } from '../../reckoning/balance.js';
import { stepOf, usualStep } from './options.js';

export interface BalanceHere {
  /** Smallest step, g, to which masses are rounded. */
  readonly step: Decimal;
  /** g; absent where nothing is said of a balance, so that written digits alone decide what ± a weighing has. */
  readonly halfWidth?: Decimal;
}

/** `balance: 0.01 g`, without its comment: most journals have it in one line, and need not be read for it. */
const inOneLine = /^balance:[ \t]*(\d[^#\n]*?)[ \t]*(?:#.*)?$/m;

async function ofJournal(folder: string | undefined): Promise<Balance | undefined> {
  if (folder === undefined) return undefined;
  const file = join(folder, 'journal.yaml');
  const text = existsSync(file) ? readFileSync(file, 'utf8') : '';
  const written = inOneLine.exec(text)?.[1];
  if (written !== undefined) return balanceOf({ balance: written });
  if (!/^balance:/m.test(text)) return undefined;
  const { readSettings } = await import('../../journal/yaml-file.js');
  const { settings } = readSettings('journal.yaml', text);
  return balanceOf(settings);
}

/**
 * The balance that is asked for, else that of the journal in a folder, if one is named.
 * @param asked `0.01 g`
 */
export async function balanceHere(asked: string | undefined, journal: string | undefined): Promise<BalanceHere> {
  if (asked !== undefined) {
    const step = stepOf(asked);
    return { step, halfWidth: step.div(2) };
  }
  return (await ofJournal(journal)) ?? { step: stepOf(usualStep) };
}

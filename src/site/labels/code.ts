// The QR code of an address: its modules, its error level, and how large a module may be printed.
import { encode } from 'uqr';

/** Error level of a QR code: how much of it may be lost. Source: ISO/IEC 18004, Table 1 (M 15 %, L 7 %). */
export type ErrorLevel = 'L' | 'M';

export interface AddressCode {
  readonly address: string;
  readonly level: ErrorLevel;
  readonly version: number;
  /** Modules on a side, without the quiet zone. */
  readonly modules: number;
  /** Dark modules as the path of a drawing, one unit a module, the quiet zone counted in. */
  readonly path: string;
}

/**
 * White modules on each side. Source: ISO/IEC 18004, 6.3.8 (from memory); DENSO WAVE, qrcode.com/en/howto/code.html.
 */
export const quietZone = 4;

/**
 * Sizes of a module that are tried, mm, the most readable first. 0.33 mm is four dots at 300 dpi, which DENSO WAVE asks
 * for; 0.25 mm is four at 600 dpi with something to spare, and what its standard hand scanners read.
 * Source: DENSO WAVE, qrcode.com/en/howto/cell.html, tables of printers and scanners.
 */
export const moduleSizes = [0.42, 0.38, 0.33, 0.29, 0.25] as const;
/** Below this a printer of 300 dpi has fewer than four dots for a module. */
export const safeModule = 0.33;

/** Runs of dark modules, one rectangle each. */
function pathOf(data: readonly (readonly boolean[])[]): string {
  const runs = data.flatMap((row, y) => {
    const found: string[] = [];
    for (let x = 0; x < row.length; x += 1) {
      if (!row[x]) continue;
      const from = x;
      while (row[x + 1]) x += 1;
      found.push(`M${from + quietZone} ${y + quietZone}h${x + 1 - from}v1h-${x + 1 - from}z`);
    }
    return found;
  });
  return runs.join('');
}

/** The code of an address at an error level. */
export function addressCode(address: string, level: ErrorLevel): AddressCode {
  const { version, size, data } = encode(address, { ecc: level, border: 0 });
  return { address, level, version, modules: size, path: pathOf(data) };
}

/** Side of a code with its quiet zone, in modules. */
export const modulesAcross = ({ modules }: AddressCode): number => modules + 2 * quietZone;

// A report of mutants → how many the tests killed, by file; survivors that change nothing are counted apart.

/** The part of the mutation testing report's format (mutation-testing-report-schema, version 2) that is read here. */
export interface Report {
  readonly files: Readonly<Record<string, ReportedFile>>;
}

export interface ReportedFile {
  readonly source: string;
  readonly mutants: readonly ReportedMutant[];
}

export interface ReportedMutant {
  readonly mutatorName: string;
  readonly replacement?: string;
  readonly status: string;
  /** Lines and columns are counted from 1; the end is the first place after it. */
  readonly location: { readonly start: Position; readonly end: Position };
}

interface Position {
  readonly line: number;
  readonly column: number;
}

/** A mutant that no test can notice, and why. */
export interface Equivalent {
  readonly file: string;
  /** The source line on which the mutant begins, without the space around it. */
  readonly line: string;
  /** What is replaced and by what, as `survivors` says it. */
  readonly change: string;
  readonly reason: string;
}

export interface Survivor {
  readonly file: string;
  readonly place: string;
  readonly line: string;
  readonly change: string;
  /** False where no test even runs the place. */
  readonly covered: boolean;
}

export interface FileScore {
  readonly file: string;
  /** Killed by a failing test, or by running into the time limit. */
  readonly killed: number;
  /** Killed and survived, without the equivalent ones. */
  readonly total: number;
  readonly equivalent: number;
  readonly survivors: readonly Survivor[];
  /** Rows of the list of equivalents that name no survivor: the code or the tests have moved on. */
  readonly outlived: readonly Equivalent[];
}

const killing = new Set(['Killed', 'Timeout', 'RuntimeError']);
const surviving = new Set(['Survived', 'NoCoverage']);

const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();

function textBetween(lines: readonly string[], { start, end }: ReportedMutant['location']): string {
  const inside = lines.slice(start.line - 1, end.line);
  const last = inside.length - 1;
  return inside
    .map((line, index) => line.slice(index === 0 ? start.column - 1 : 0, index === last ? end.column - 1 : undefined))
    .join('\n');
}

function survivor(file: string, lines: readonly string[], mutant: ReportedMutant): Survivor {
  const { start } = mutant.location;
  const replaced = oneLine(textBetween(lines, mutant.location));
  return {
    file,
    place: `${start.line}:${start.column}`,
    line: (lines[start.line - 1] ?? '').trim(),
    change: `${replaced} → ${oneLine(mutant.replacement ?? mutant.mutatorName)}`,
    covered: mutant.status !== 'NoCoverage',
  };
}

const isEquivalent = (found: Survivor, listed: Equivalent): boolean =>
  listed.file === found.file && listed.line === found.line && listed.change === found.change;

/** The score of each file of a report, in the order of their paths. */
export function scores(report: Report, equivalents: readonly Equivalent[]): FileScore[] {
  return Object.entries(report.files)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([file, { source, mutants }]) => {
      const lines = source.split('\n');
      const killed = mutants.filter(({ status }) => killing.has(status)).length;
      const alive = mutants.filter(({ status }) => surviving.has(status)).map((each) => survivor(file, lines, each));
      const survivors = alive.filter((found) => !equivalents.some((listed) => isEquivalent(found, listed)));
      return {
        file,
        killed,
        total: killed + survivors.length,
        equivalent: alive.length - survivors.length,
        survivors,
        outlived: equivalents.filter(
          (listed) => listed.file === file && !alive.some((found) => isEquivalent(found, listed)),
        ),
      };
    });
}

/** Killed of total in percent, to one decimal; a file without mutants has no score. */
export const percent = ({ killed, total }: { killed: number; total: number }): string =>
  total === 0 ? '–' : ((100 * killed) / total).toFixed(1);

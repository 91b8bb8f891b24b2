// Runs a command as the command line does, and gathers what it says.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import type { Command, ExitCode } from '../../src/commands/command.js';
import { packageFolder } from '../../src/package-folder.js';

export interface Said {
  readonly code: ExitCode;
  readonly result: string;
  readonly aside: string;
  readonly json: any;
}

export async function run(command: Command, ...words: string[]): Promise<Said> {
  const { values, positionals } = parseArgs({
    args: words,
    options: { ...command.options, json: { type: 'boolean' }, journal: { type: 'string' } },
    allowPositionals: true,
  });
  let result = '';
  let aside = '';
  const code = await command.run(
    {
      values: values as never,
      positionals,
      journal: String(values.journal ?? 'content'),
      journalNamed: values.journal !== undefined,
      json: values.json === true,
    },
    {
      result: (text) => {
        result += text;
      },
      aside: (text) => {
        aside += text;
      },
      terminal: false,
    },
  );
  return { code, result, aside, json: values.json === true ? JSON.parse(result) : undefined };
}

/** Files of code that a program loads for a command in a process of its own, by their paths inside the package. */
function loadedBy(program: string, words: readonly string[]): string[] {
  const folder = mkdtempSync(join(tmpdir(), 'masstone-loaded-'));
  try {
    spawnSync(process.execPath, [join(packageFolder, program), ...words], {
      env: { ...process.env, NODE_V8_COVERAGE: folder },
    });
    const [written] = readdirSync(folder);
    const { result } = JSON.parse(readFileSync(join(folder, written!), 'utf8')) as { result: { url: string }[] };
    return result.flatMap(({ url }) => (url.startsWith('file:') ? [relative(packageFolder, fileURLToPath(url))] : []));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Files of code that a command loads where each module is a file of its own. */
export const filesLoaded = (...words: string[]): string[] => loadedBy('dist/src/commands/masstone.js', words);

/** Files of code that a command loads as it is installed. */
export const filesStarted = (...words: string[]): string[] => loadedBy('dist/command-line/masstone.cjs', words);

/** Put before a program: tells of each script whether what was compiled of it before was taken. */
const tellsWhatWasTaken = `
  import { writeSync } from 'node:fs';
  import { basename } from 'node:path';
  import vm from 'node:vm';
  const taken = [];
  vm.Script = class extends vm.Script {
    constructor(code, options) {
      super(code, options);
      if (this.cachedDataRejected === false) taken.push(basename(options.filename).split(/[-.]/)[0]);
    }
  };
  process.on('exit', () => writeSync(2, JSON.stringify(taken)));
`;

/** The files of the command line, by their first words, of which what Node compiled was taken. */
export function compiledBefore(...words: string[]): string[] {
  const told = `data:text/javascript,${encodeURIComponent(tellsWhatWasTaken)}`;
  const program = join(packageFolder, 'dist/command-line/masstone.cjs');
  return JSON.parse(spawnSync(process.execPath, ['--import', told, program, ...words], { encoding: 'utf8' }).stderr);
}

/** Data tables among the files that a command loads: `chemistry/ions`. */
export const tablesLoaded = (...words: string[]): string[] =>
  filesLoaded(...words)
    .flatMap((path) => /^dist\/src\/tables\/compiled\/(.*)\.js$/.exec(path)?.[1] ?? [])
    .sort();

/** Rooms and packages among the files that a command loads: `src/chemistry`, `decimal.js`. */
export const roomsLoaded = (...words: string[]): string[] =>
  [
    ...new Set(
      filesLoaded(...words).map(
        (path) =>
          /(?:^|\/)node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(path)?.[1] ??
          /^dist\/(src(?:\/[^/]+(?=\/))?)/.exec(path)?.[1] ??
          path,
      ),
    ),
  ].sort();

// The pure rooms run in a browser: bundled whole, they reckon there what the README shows, as in Node.
import { readFileSync, readdirSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createContext, runInContext } from 'node:vm';
import type { Browser } from 'playwright-core';
import { rolldown } from 'rolldown';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { command as colourCommand } from '../../src/commands/colour.js';
import { command as foreseeCommand } from '../../src/commands/foresee.js';
import { command as formulaCommand } from '../../src/commands/formula.js';
import { command as weighCommand } from '../../src/commands/weigh.js';
import { run } from '../commands/bench.js';
import { launch } from './browser.js';
import { readmeExample } from './readme-example.js';

const project = fileURLToPath(new URL('../..', import.meta.url));
const rooms = ['chemistry', 'reagents', 'hazards', 'colour'];
const modules = rooms.flatMap((room) =>
  readdirSync(join(project, 'src', room), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.ts') && !/\.d\.ts$|tables\.schema\.ts$/.test(path))
    .map((path) => join(project, 'src', room, path)),
);
const spectrum = (name: string): string => join(project, 'content/spectra', name);
const files = ['004-A.csv', '004-B.csv', '006-B.cxf'].map((name) => readFileSync(spectrum(name), 'utf8'));

interface Bundle {
  readonly code: string;
  /** What the bundler warned of, and what it left for the browser to load. */
  readonly open: readonly string[];
  readonly inside: readonly string[];
}

/** Every module of the rooms and the example in one script that sets `rooms`. */
async function bundled(): Promise<Bundle> {
  const entry = '\0rooms';
  const open: string[] = [];
  const bundle = await rolldown({
    input: entry,
    platform: 'browser',
    onLog: (_, { message }) => void open.push(message),
    plugins: [
      {
        name: 'every module of the rooms',
        resolveId: (id) => (id === entry ? id : undefined),
        load: (id) =>
          id === entry
            ? [
                ...modules.map((path, at) => `export * as module${at} from ${JSON.stringify(path)};`),
                `export { readmeExample } from ${JSON.stringify(join(project, 'tests/browser/readme-example.ts'))};`,
              ].join('\n')
            : undefined,
      },
    ],
  });
  const { output } = await bundle.generate({ format: 'iife', name: 'rooms' });
  await bundle.close();
  const [script] = output;
  return {
    code: script.code,
    open: [...open, ...script.imports, ...script.dynamicImports],
    inside: Object.keys(script.modules),
  };
}

/**
 * The last digits of a logarithm or a power are each engine's own affair: numbers agree to nine decimals, all else to
 * the letter.
 */
function nearly(value: unknown): unknown {
  if (typeof value === 'number') return expect.closeTo(value, 9);
  if (Array.isArray(value)) return value.map(nearly);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, nearly(one)]));
}

let bundle: Bundle;
beforeAll(async () => {
  bundle = await bundled();
});

describe('the bundle of chemistry, reagents, hazards and colour', () => {
  it('holds every module of theirs, and leaves nothing to be found elsewhere', () => {
    expect(modules.length).toBeGreaterThan(60);
    expect(modules.filter((path) => !bundle.inside.includes(path))).toEqual([]);
    expect(bundle.open).toEqual([]);
  });
  it('holds no part of Node, no reader of CSV and no schema', () => {
    const foreign = new RegExp(
      `^(?:node:)?(?:${builtinModules.join('|')})$|node_modules/(?:zod|csv-parse)/|tables\\.schema|src/tables/c[^/]*\\.ts`,
    );
    expect(bundle.inside.filter((path) => foreign.test(path))).toEqual([]);
  });
  it('reckons the example without anything that only Node has', () => {
    const bare = createContext({ files });
    runInContext(bundle.code, bare);
    // Plain data goes out as text, since a context has an Array of its own.
    const answer = runInContext('JSON.stringify(rooms.readmeExample(files))', bare) as string;
    expect(JSON.parse(answer)).toEqual(readmeExample(files));
    expect(runInContext('[typeof process, typeof require, typeof Buffer].join()', bare)).toBe(
      'undefined,undefined,undefined',
    );
  });

  describe('in a browser', () => {
    let browser: Browser;
    beforeAll(async () => {
      browser = await launch();
    });
    afterAll(() => browser.close());

    it('reckons what the README shows as Node does', async () => {
      const page = await browser.newPage();
      const wrong: string[] = [];
      page.on('pageerror', ({ message }) => wrong.push(message));
      await page.addScriptTag({ content: bundle.code });
      const answer = await page.evaluate(`rooms.readmeExample(${JSON.stringify(files)})`);
      expect(wrong).toEqual([]);
      expect(answer).toEqual(nearly(readmeExample(files)));
    });
  });
});

describe('the example', () => {
  const example = readmeExample(files);
  const answerOf = async (...asked: Parameters<typeof run>) => (await run(...asked)).json;

  it('has the molar mass that the command prints', async () => {
    const answer = await answerOf(formulaCommand, '--json', 'CuSO4·5H2O');
    expect(example.formula.molarMass).toBe(answer.molarMass.value);
  });
  it('has the limiting reagent and the theoretical yield that the command prints', async () => {
    const answer = await answerOf(
      weighCommand,
      '--json',
      '--reaction',
      'CuSO4 + Na2CO3 -> CuCO3 + Na2SO4',
      '--reagent',
      'CuSO4·5H2O 5.00 g',
      '--reagent',
      'Na2CO3 2.50 g',
    );
    expect(example.weigh.limiting).toBe(answer.limiting);
    expect(example.weigh.theoreticalYield).toBe(answer.product.theoreticalYield.value);
  });
  it('has the hazards that the command foresees', async () => {
    const asked = ['--json', 'sodium nitrite 5 g', 'acetic acid 60 % 10 mL', '--room', '25 m3'];
    const answer = await answerOf(foreseeCommand, ...asked, '--journal', join(project, 'no-such-journal'));
    expect(example.foresee.foreseen.length).toBeGreaterThan(0);
    expect(example.foresee.foreseen).toEqual(answer.foreseen);
  });
  it('has the difference that the command prints', async () => {
    const answer = await answerOf(colourCommand, '--json', spectrum('004-A.csv'), '--against', spectrum('004-B.csv'));
    expect(example.difference.de00).toBeCloseTo(answer.difference.de00, 6);
  });
});

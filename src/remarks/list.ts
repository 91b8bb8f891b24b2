// Every rule of the proof as a list: for a terminal, and for other programs.
import { ruleIds, rules } from './registry.js';
import type { Severity } from './remark.js';
import type { Example, ExampleFile, Rule } from './rule.js';

/** A rule as `--json` gives it. */
export interface RuleJson {
  readonly rule: string;
  /** Several where it hangs on what was found. */
  readonly severities: readonly Severity[];
  readonly when: string;
  readonly advice: string;
  readonly fires: Example;
  readonly silent: Example;
}

const severitiesOf = ({ severity }: Rule<never>): readonly Severity[] =>
  typeof severity === 'string' ? [severity] : severity.among;

/** Every rule, sorted by id. @example rulesAsJson()[0]?.rule // 'above-100-percent' */
export const rulesAsJson = (): RuleJson[] =>
  [...ruleIds].sort().map((id) => {
    const described: Rule<never> = rules[id];
    const { when, advice, fires, silent } = described;
    return { rule: id, severities: severitiesOf(described), when, advice, fires, silent };
  });

/** Longer files of an example are cut on a terminal; JSON has them whole. */
const mostLines = 12;

function fileLines(file: ExampleFile): string[] {
  if (typeof file === 'string') {
    const lines = file.trimEnd().split('\n');
    const more = lines.length - mostLines;
    return more > 0 ? [...lines.slice(0, mostLines), `(and ${more} more lines)`] : lines;
  }
  if ('absent' in file) return ['(there is none)'];
  if ('hex' in file) return [`(the bytes ${file.hex})`];
  return 'times' in file
    ? [`(${file.times} times '${file.text.trim()}')`]
    : [file.text.trimEnd(), '(which the machine does not let be read)'];
}

function exampleLines(example: Example): string[] {
  if (typeof example === 'string') return example === '' ? ['(an entry with nothing more)'] : example.split('\n');
  const { matter, files = {}, finished, published } = example;
  return [
    ...(published ? ['(published before)'] : []),
    ...(finished ? ['(without planned and running entries)'] : []),
    ...(matter === undefined ? [] : matter.split('\n')),
    ...Object.entries(files).flatMap(([name, file]) => [`${name}:`, ...fileLines(file).map((line) => `  ${line}`)]),
  ];
}

const indented = (label: string, lines: readonly string[]): string[] =>
  lines.map((line, at) => `  ${(at === 0 ? label : '').padEnd(9)}${line}`.trimEnd());

/** Every rule with its severity, what it looks for, what to do and its two examples. */
export const printRules = (): string =>
  rulesAsJson()
    .flatMap(({ rule, severities, when, advice, fires, silent }) => [
      `${rule} (${severities.join(' or ')})`,
      ...indented('when', [when]),
      ...indented('do', [advice]),
      ...indented('fires', exampleLines(fires)),
      ...indented('silent', exampleLines(silent)),
      '',
    ])
    .join('\n');

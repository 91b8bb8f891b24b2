// The hazard box: pictograms, signal word and statements of all that is used and made, merged without loss.
// Each statement keeps the names it comes from and on whose word it stands; what is unknown is named as unknown.
import type { HazardBox, HazardNote, LabelStatement, Origin, SubstanceHazards, SubstanceInUse } from './contracts.js';
import { classOfCode, labelOf } from './hazard-classes.js';
import { memoise } from '../../memoise.js';
import { graverWord, pictogramsOf } from './pictograms.js';
import { precautionaryStatements } from './precautions.js';
import { statementText } from './statements.js';
import { classifySubstance } from './substance-hazards.js';

/** H statements by number, then the EUH statements. */
export const byStatementCode = (a: { readonly code: string }, b: { readonly code: string }): number => {
  const [first, second] = [a, b].map(({ code }) => (code.startsWith('EUH') ? `Z${code}` : code)) as [string, string];
  return first < second ? -1 : 1;
};

interface Gathered {
  readonly origins: readonly Origin[];
  readonly organs: readonly string[];
  readonly sensitisers: readonly string[];
}

function gatherStatements(substances: readonly SubstanceHazards[]): Map<string, Gathered> {
  const gathered = new Map<string, Gathered>();
  for (const { codes, fillings, originOf } of substances) {
    for (const code of codes) {
      const { origins, organs, sensitisers } = gathered.get(code) ?? { origins: [], organs: [], sensitisers: [] };
      const filling = fillings.get(code);
      gathered.set(code, {
        origins: [...origins, originOf(code)],
        organs: filling?.organs ? [...organs, filling.organs] : organs,
        sensitisers: filling?.sensitiser ? [...sensitisers, filling.sensitiser] : sensitisers,
      });
    }
  }
  return gathered;
}

/** CLP Article 27: a statement that says the same as another, only milder, is not repeated. */
const covering = [
  { grave: 'H410', mild: 'H400' },
  { grave: 'H314', mild: 'H318' },
] as const;

/** Takes out the milder statements, and tells for each graver one whose it stands for besides. */
function takeOutCovered(gathered: Map<string, Gathered>): ReadonlyMap<string, LabelStatement['standsFor']> {
  const standsFor = new Map<string, LabelStatement['standsFor']>();
  for (const { grave, mild } of covering) {
    const [kept, covered] = [gathered.get(grave), gathered.get(mild)];
    if (!kept || !covered) continue;
    const names = new Set(kept.origins.map((origin) => origin.from));
    const others = covered.origins.map((origin) => origin.from).filter((name) => !names.has(name));
    if (others.length > 0) standsFor.set(grave, { code: mild, from: [...new Set(others)] });
    gathered.delete(mild);
  }
  return standsFor;
}

/** The signal word that a statement alone asks for, of the gravest class that it can stand for. */
function wordOfCode(code: string): Pick<LabelStatement, 'signalWord'> {
  const held = classOfCode(code);
  const signalWord = held && labelOf(held)?.signalWord;
  return signalWord ? { signalWord } : {};
}

function mergeStatements(substances: readonly SubstanceHazards[]): readonly LabelStatement[] {
  const gathered = gatherStatements(substances);
  const standsFor = takeOutCovered(gathered);
  return [...gathered]
    .map(([code, { origins, organs, sensitisers }]): LabelStatement => {
      const other = standsFor.get(code);
      return {
        code,
        text: statementText(code, {
          ...(organs.length > 0 && { organs: [...new Set(organs)].join('; ') }),
          ...(sensitisers.length > 0 && { sensitiser: [...new Set(sensitisers)].join(', ') }),
        }),
        ...wordOfCode(code),
        from: [...new Set(origins.map((origin) => origin.from))],
        origins,
        ...(other && { standsFor: other, note: `stands also for ${other.code} of ${other.from.join(', ')}` }),
      };
    })
    .sort(byStatementCode);
}

/** Pictograms of the classes, and those that sheets print; a printed GHS07 only where precedence has not dropped it. */
function mergePictograms(substances: readonly SubstanceHazards[]): readonly string[] {
  const classes = substances.flatMap((one) => one.classes);
  const derived = pictogramsOf(classes);
  const judged07 = derived.includes('GHS06') || classes.some((held) => labelOf(held)?.pictograms.includes('GHS07'));
  const printed = substances
    .flatMap((one) => one.printedPictograms)
    .filter((pictogram) => pictogram !== 'GHS07' || !judged07);
  return [...new Set([...derived, ...printed])].sort();
}

const unknownNote: HazardNote = {
  kind: 'unknown-is-hazardous',
  text: 'What is unknown is treated as hazardous: read its safety data sheet before use.',
};

const about = ({ summary }: SubstanceHazards): readonly HazardNote[] =>
  summary.notes.map((note) => ({ ...note, about: summary.name }));

/** @example noteSentence({ kind: 'caveat', about: 'gypsum', text: 'Dust.' }) // 'gypsum: Dust.' */
export const noteSentence = (note: HazardNote): string =>
  note.about === undefined ? note.text : `${note.about}: ${note.text}`;

const withoutRepeats = (notes: readonly HazardNote[]): readonly HazardNote[] => [
  ...new Map(notes.map((note) => [noteSentence(note), note])).values(),
];

/** The box of substances whose hazards are known one by one. */
export function mergeHazards(substances: readonly SubstanceHazards[]): HazardBox {
  const statements = mergeStatements(substances);
  const signalWord = graverWord(substances.map((one) => one.signalWord));
  const summaries = substances.map((one) => one.summary);
  const unknown = [...new Set(summaries.filter((one) => one.found === 'unknown').map((one) => one.name))];
  return {
    pictograms: mergePictograms(substances),
    ...(signalWord && { signalWord }),
    statements,
    precautionary: precautionaryStatements(substances, statements),
    unknown,
    substances: summaries,
    notes: [...(unknown.length > 0 ? [unknownNote] : []), ...withoutRepeats(substances.flatMap(about))],
  };
}

/**
 * The box of all that is used and made: each substance at its strength, statements merged with the names they come
 * from, pictograms and signal word by precedence, unknown substances named.
 * @example hazardBox([{ name: 'nitric acid', percent: '10' }]).pictograms // ['GHS05']
 */
export const hazardBox = memoise(
  (substances: readonly SubstanceInUse[]) => JSON.stringify(substances),
  (substances) => mergeHazards(substances.map(classifySubstance)),
  2000,
);

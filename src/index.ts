// The library's public face. Its examples are run by the tests.
//
// Units, everywhere: masses g, volumes mL, amounts of substance mol, temperatures °C, wavelengths nm, rooms m3;
// strengths as shares of one by mass; yields in percent. Figures of a reckoned entry are decimals as text with their
// unit beside them.
// Errors: what a maker writes never throws. The pure rooms answer `{ ok: false, fault }`, where `fault` says code,
// message and cure; a journal comes back with remarks, each with file, line and column. Only a slip of the
// programmer's, or the file system under `publish`, throws.

/**
 * The rooms by themselves, pure, for a browser too. Here: formulae, equations, amounts, uncertainty, statistics.
 * @example chemistry.sampleStatistics([1.98, 1.95, 2.01]).mean // 1.98
 */
export * as chemistry from './chemistry/index.js';
/**
 * What a maker wrote → one substance with strength and amount.
 * @example reagents.resolveText('vinegar 10 mL').value.substance.formula // 'CH3COOH'
 */
export * as reagents from './reagents/index.js';
/**
 * Classification and labels; what could go wrong.
 * @example hazards.hazardBox([{ name: 'nitric acid', percent: '10' }]).signalWord // 'Danger'
 */
export * as hazards from './hazards/index.js';
/**
 * Spectra, CIELAB, differences, families, opacity, tints.
 * @example colour.deltaE00([50, 2.6772, -79.7751], [50, 0, -82.7485]) // 2.0425
 */
export * as colour from './colour/index.js';

/**
 * A formula: its molar mass (g/mol) and composition. Fault: the place and the cure of what cannot be read.
 * @example molarMass(parseFormula('CuSO4·5H2O').value).value.low // 249.677
 */
export { massFractions, molarMass, parseFormula } from './chemistry/index.js';

/**
 * An equation with the smallest whole coefficients. Faults: `no-solution`, `underdetermined`, and those of reading.
 * @example balance('Fe + O2 -> Fe2O3').value.text // '4 Fe + 3 O2 -> 2 Fe2O3'
 */
export { balance, parseEquation } from './chemistry/index.js';

/**
 * What a maker wrote as one resolved reagent: which substance, how strong, how much. Fault: what cannot be read of it.
 * @example resolveText('blue vitriol 5.00 g').value.substance.formula // 'CuSO4.5H2O'
 */
export { resolveText } from './reagents/index.js';

/**
 * What could go wrong when things meet and are heated, with gas at worst in litres and ppm of a room. Nothing foreseen
 * is no all-clear; `unknown` names what could not be judged.
 * @example
 * foresee({ ingredients: ['sodium nitrite 5 g', 'acetic acid 60 % 10 mL'].map((line) => ({ reagent:
 * resolveText(line).value })), }).foreseen[0].rule // 'nitrite-weak-acid'
 */
export { foresee } from './hazards/index.js';

/**
 * A weighing list of a reaction: amounts filled in, scaled to the mol of product that are `wanted`, rounded to the
 * balance's `step` in g; the limiting reagent and the yield to hope for. Faults: `nothing-limits`, `no-yield`.
 * @example
 * weighingList({
 *   equation: parseEquation('CuSO4 + Zn -> Cu + ZnSO4').value,
 *   product: parseEquation('CuSO4 + Zn -> Cu + ZnSO4').value.products[0],
 *   step: chemistry.exact('0.01'),
 *   lines: ['CuSO4', 'Zn'].map((name, index) => ({
 *     role: 'reactant',
 *     takesPart: true,
 *     measure: {
 *       id: name,
 *       name,
 *       formula: parseFormula(name).value,
 *       amount: chemistry.parseQuantity(['5.00 g', '1.00 g'][index]).value,
 *     },
 *   })),
 * }).value.limiting // 'Zn'
 */
export {
  weighingList,
  weighingNoteWords,
  type WeighingAsked,
  type WeighingList,
  type WeighingNote,
} from './reckoning/amounts/weighing.js';

/**
 * Colour: readings of an instrument's file (CSV, CGATS, CxF), and CIELAB under each lamp from them.
 * Faults name line and column of the file.
 * @example colourFromFile({ spectra: [], values: [{ space: 'lab', value: [50, 0, 0] }] }, {}).ok // true
 */
export { colourFromFile, readReadings } from './colour/index.js';

/**
 * A journal's folder, read: entries, shelf, settings, and every remark.
 * @example (await readJournal('content')).journal.settings.title // 'Copperas Lane'
 */
export { readEntry, readJournal, type Entry, type Journal, type ReadOptions } from './journal/index.js';

/**
 * Entries with everything that is computed of them; lots of earlier entries are followed. `reckonJournal` reckons all.
 * @example
 * reckonJournal((await readJournal('content')).journal)
 *   .some(({ amounts }) => amounts.samples.some((sample) => sample.percentYield?.unit === '%')) // true
 */
export { reckonEntry, reckonJournal } from './reckoning/reckon.js';
export type { Figure, ReckonedEntry, ReckoningContext } from './reckoning/contracts.js';

/**
 * Reads, reckons and joins a journal: series, colour families, lineage.
 * @example (await openJournal('content')).model.entries.length > 20 // true
 */
export { openJournal, hasErrors, type OpenedJournal } from './open.js';
export type { JournalModel } from './crosslinks/model.js';

/**
 * Every remark of a journal, nothing written.
 * @example hasErrors((await proof('content')).remarks) // false
 */
export { proof, type Proof } from './site/proof.js';
export { remark, severityOf, type Remark } from './remarks/remark.js';
export { printRemarks } from './remarks/print.js';

/**
 * Proofs a journal and writes its site, all of it or nothing: with an error among the remarks the old site stays.
 * Throws what the file system refuses, and `NotOurs` where the folder holds somebody else's files.
 * @example (await publish('content', { to: emptyFolder, search: false, threads: 0 })).published // true
 */
export { publish, type Publication, type PublishOptions } from './site/publish.js';

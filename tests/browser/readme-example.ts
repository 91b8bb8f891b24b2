// The commands that the README shows, reckoned by the rooms alone; runs wherever JavaScript does.
import {
  balancedOrAfresh,
  exact,
  massFractions,
  molarMass,
  parseEquation,
  parseFormula,
} from '../../src/chemistry/index.js';
import { compare, readReadings, colourFromSpectra, type SampleColour } from '../../src/colour/index.js';
import { findSubstance, foresee, hazardBox, type Foresight } from '../../src/hazards/index.js';
import type { Outcome } from '../../src/outcome.js';
import { resolveText } from '../../src/reagents/index.js';
import { weighingList } from '../../src/reckoning/amounts/weighing.js';

/** The value of an outcome; the example has no faults. */
function valueOf<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.fault.message);
  return outcome.value;
}

function formulaExample(written: string) {
  const formula = valueOf(parseFormula(written));
  return {
    molarMass: valueOf(molarMass(formula)).low.toFixed(),
    massFractions: [...valueOf(massFractions(formula))].map(([symbol, share]) => [symbol, share.toFixed(10)]),
  };
}

function weighExample(reaction: string, reagents: readonly string[]) {
  const { equation } = valueOf(balancedOrAfresh(valueOf(parseEquation(reaction))));
  const lines = reagents.map((text) => {
    const { portion } = valueOf(resolveText(text));
    return { role: 'reactant', takesPart: true, measure: portion };
  });
  const list = valueOf(weighingList({ equation, product: equation.products[0]!, lines, step: exact('0.01') }));
  return {
    limiting: list.limiting,
    theoreticalYield: list.theoretical.mass!.value.toSignificantDigits(12).toFixed(),
    left: list.lines.map(({ name, left }) => [name, left?.value.toFixed(6)]),
  };
}

function foreseeExample(reagents: readonly string[], room: string): Foresight {
  const ingredients = reagents.map((text) => ({ reagent: valueOf(resolveText(text)) }));
  return foresee({ ingredients, heating: [], extraction: false, roomCubicMetres: room });
}

function colourOf(file: string): SampleColour {
  return colourFromSpectra(
    valueOf(readReadings(file)).spectra.map(({ spectrum }) => spectrum),
    10,
  );
}

/** Everything as plain data. @param files texts of readings; the first two are compared, as in the README */
export function readmeExample(files: readonly string[]) {
  const colours = files.map(colourOf);
  const example = {
    formula: formulaExample('CuSO4·5H2O'),
    weigh: weighExample('CuSO4 + Na2CO3 -> CuCO3 + Na2SO4', ['CuSO4·5H2O 5.00 g', 'Na2CO3 2.50 g']),
    foresee: foreseeExample(['sodium nitrite 5 g', 'acetic acid 60 % 10 mL'], '25'),
    colours,
    difference: valueOf(compare(colours[0]!, colours[1]!)),
    substance: findSubstance({ name: 'sodium nitrite' }),
    box: hazardBox([{ name: 'sodium nitrite', formula: 'NaNO2' }]),
  };
  return JSON.parse(JSON.stringify(example)) as typeof example;
}

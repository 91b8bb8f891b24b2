// masstone balance: the balanced equation.
import { balance, imbalances, imbalanceSentence, parseEquation, type Term } from '../chemistry/equation/index.js';
import { answerFault } from './formula.js';
import { WrongUse, type Command } from './command.js';

export const command: Command = {
  name: 'balance',
  summary: 'the balanced equation',
  help: `
Use: masstone balance EQUATION [--json]

Smallest whole coefficients that conserve every element and the charge. Coefficients that are there are not kept.
Says so when there is no solution, or more than one that is independent. Where a substance stands on the wrong side, the
equation is printed as it would be with the sides put right; the exit code is 1.

  masstone balance 'CuSO4 + Na2CO3 + H2O -> Cu2CO3(OH)2 + Na2SO4 + CO2'
  masstone balance 'MnO4^- + Fe^2+ + H^+ -> Mn^2+ + Fe^3+ + H2O'
  masstone balance 'Pb + H2O + O2 + CO2 → 2PbCO3·Pb(OH)2'

Arrows: -> → = ⇌. States (s) (l) (g) (aq) and the electron e^- are allowed.
`,
  options: {},
  run: async ({ positionals, json }, streams) => {
    if (positionals.length !== 1)
      throw new WrongUse("Give one equation, in quotes: masstone balance 'H2 + O2 -> H2O'.");
    const [written] = positionals as [string];
    const outcome = balance(written);
    if (!outcome.ok) {
      const { fault } = outcome;
      // What it would be with the substances on their right sides is an answer of a kind.
      if (fault.correction !== undefined && !json) streams.result(`${fault.correction}\n`);
      const unanswered = fault.code === 'no-solution' || fault.code === 'underdetermined';
      if (unanswered) return answerFault(fault, written, json, streams);
      const { faultOfEquationInWords } = await import('./named-formula.js');
      return answerFault(faultOfEquationInWords(fault, written), written, json, streams, 'syntax');
    }
    const { equation, text } = outcome.value;
    for (const doubt of equation.doubts) streams.aside(`${doubt.message} ${doubt.cure ?? ''}\n`);
    if (json) {
      const side = (terms: readonly Term[]): { formula: string; coefficient: number }[] =>
        terms.map(({ label, coefficient }) => ({ formula: label, coefficient: coefficient.toNumber() }));
      const { reactants, products } = equation;
      const answer = { balanced: text, reactants: side(reactants), products: side(products) };
      streams.result(`${JSON.stringify(answer)}\n`);
      return 0;
    }
    streams.result(`${text}\n`);
    const asWritten = parseEquation(written);
    if (asWritten.ok && [...asWritten.value.reactants, ...asWritten.value.products].some(({ given }) => given)) {
      const off = imbalances(asWritten.value);
      if (off.length > 0) streams.aside(`As written it does not balance. ${imbalanceSentence(off)}\n`);
    }
    return 0;
  },
};

// A reagent in one line: every way of writing it, every word accounted for, and what is wrong with the rest.
import { describe, expect, it, test } from 'vitest';
import { inEnglish, mayBeginForeign } from '../../src/reagents/other-languages.js';
import { otherLanguagesTable } from '../../src/tables/compiled/reagents/other-languages.js';
import {
  contentsOf,
  cupboardOf,
  readReagentText,
  resolveText,
  resolveUse,
  type AmountWritten,
  type ReagentWritten,
  type ResolvedReagent,
} from '../../src/reagents/index.js';

const reagent = (text: string): ReagentWritten => {
  const outcome = readReagentText(text);
  if (!outcome.ok) throw new Error(`${text}: ${outcome.fault.message}`);
  return outcome.value;
};
const wordsOf = (amount: AmountWritten | undefined): string => {
  if (amount?.kind === 'measured') return amount.quantity.written;
  return amount?.kind ?? '';
};

describe('a reagent in one line', () => {
  const shown = ({ name, formula, amount, strength, purity, density, dropVolume }: ReagentWritten): string =>
    [
      name,
      formula ? 'formula' : 'name',
      wordsOf(amount),
      ...[strength, purity, density, dropVolume].map((one) => one?.written ?? ''),
    ].join('|');
  test.each([
    ['CuSO4·5H2O 5.00 g', 'CuSO4·5H2O|formula|5.00 g||||'],
    ['HCl 25 mL 2.0 mol/L', 'HCl|formula|25 mL|2.0 mol/L|||'],
    ['CH3COOH 3 mL 99.7 % 1.049 g/mL', 'CH3COOH|formula|3 mL|99.7 %||1.049 g/mL|'],
    ['Zn 10 g purity 95 %', 'Zn|formula|10 g||95 %||'],
    ['acetic acid 60 % 10 mL', 'acetic acid|name|10 mL|60 %|||'],
    ['acetic acid CH3COOH 60 % 10 mL', 'acetic acid|formula|10 mL|60 %|||'],
    ['C2H5OH=1.500 L d=0.7894 g/mL', 'C2H5OH|formula|1.500 L|||0.7894 g/mL|'],
    ['[Au(CN)2]^-=400.0 L 3.30E-4 M', '[Au(CN)2]^-|formula|400.0 L|3.30E-4 M|||'],
    ['2PbCO3·Pb(OH)2 5 g', '2PbCO3·Pb(OH)2|formula|5 g||||'],
    ['CuSO4 · 5 H2O 5 g', 'CuSO4 · 5 H2O|formula|5 g||||'],
    ['Zn excess', 'Zn|formula|excess||||'],
    ['NaOH', 'NaOH|formula|||||'],
    ['iron(III) chloride 5.0 g ± 0.1 g purity ≥ 97 %', 'iron(III) chloride|name|5.0 g ± 0.1 g||≥ 97 %||'],
    ['CH3COOH 5 drops drop 0.05 mL 99.7 % 1.05 g/mL', 'CH3COOH|formula|5 drops|99.7 %||1.05 g/mL|0.05 mL'],
    ['K2CO3 1 000 g', 'K2CO3|formula|1 000 g||||'],
    ['Na2CO3 2.50 g, purity 95-99 %', 'Na2CO3|formula|2.50 g||95-99 %||'],
    ['25.0 mL of 0.100 M NaOH', 'NaOH|formula|25.0 mL|0.100 M|||'],
    ['5.00 g CuSO4·5H2O', 'CuSO4·5H2O|formula|5.00 g||||'],
    ['HCl 25 mL of 2.0 M', 'HCl|formula|25 mL|2.0 M|||'],
    ['hydrochloric acid HCl (37 %, 1.19 g/mL) 10 mL', 'hydrochloric acid|formula|10 mL|37 %||1.19 g/mL|'],
    ['brick cleaner (HCl 18 %) 10 mL', 'brick cleaner|name|10 mL|18 %|||'],
    ['drain opener (sulfuric, 96 %) 10 mL', 'drain opener|name|10 mL|96 %|||'],
    ['Al2(SO4)3 x 18 H2O 5 g', 'Al2(SO4)3 x 18 H2O|formula|5 g||||'],
    ['CuSO4 5H2O 5.00 g', 'CuSO4 5H2O|formula|5.00 g||||'],
    ['CuSO4 pentahydrate 2.5 g', 'CuSO4 pentahydrate|formula|2.5 g||||'],
    ['Na2CO3 (anhydrous) 1 g', 'Na2CO3|formula|1 g||||'],
    ['CuSO4·5H2O: 5.00 g', 'CuSO4·5H2O|formula|5.00 g||||'],
    ['CuSO4·5H2O - 5.00 g', 'CuSO4·5H2O|formula|5.00 g||||'],
    ['FeSO4 - 7 H2O 5 g', 'FeSO4 7 H2O|formula|5 g||||'],
    ['Zn 4 - 5 g', 'Zn|formula|4 - 5 g||||'],
    ['Zn mass 5.00 g, 99 % pure', 'Zn|formula|5.00 g||99 % pure||'],
    ['Zn in excess', 'Zn|formula|excess||||'],
    ['excess Zn', 'Zn|formula|excess||||'],
    ['CuSO4 25 mL 100 g/L', 'CuSO4|formula|25 mL|100 g/L|||'],
    ['NaOH 10 mL 0.5 mol dm⁻³', 'NaOH|formula|10 mL|0.5 mol dm⁻³|||'],
    ['2-propanol 5 mL', '2-propanol|name|5 mL||||'],
    ['K2CO3 2 grams', 'K2CO3|formula|2 grams||||'],
  ])('%s', (text, expected) => expect(shown(reagent(text))).toBe(expected));
  test.each([
    ['5 g', 'no-reagent'],
    ['Cu 5 g 3 g', 'twice'],
    ['Cu 5 h', 'quantity'],
    ['Cu 5 gg', 'unit'],
    ['Cu 5gg', 'unit'],
    ['Cu 5,00 g', 'comma'],
    ['Cu 1 250,5 mg', 'comma'],
    ["Cu 5'000 mg", 'comma'],
    ['Cu -5 g', 'number'],
    ['Cu 5.00', 'unit-missing'],
    ['Cu 5 g purity 120 %', 'over-hundred'],
    ['KMnO4 5 mL 0.5N', 'unit'],
    ['Cu 1e400 g', 'number'],
    ['', 'no-reagent'],
    ['x'.repeat(1000), 'too-long'],
  ])('%s is refused: %s', (text, code) => {
    const outcome = readReagentText(text);
    expect(!outcome.ok && outcome.fault.code).toBe(code);
  });
});

describe('every word is accounted for', () => {
  test.each([
    ['dilute acetic acid', 'dilute acetic acid', [], []],
    ['warm acetic acid', 'acetic acid', ['warm'], []],
    ['conc. nitric acid 5 mL', 'nitric acid', ['conc.'], []],
    ['acetic acid (dilute, warm)', 'acetic acid', ['dilute', 'warm'], []],
    ['glacial acetic acid 5 mL', 'glacial acetic acid', [], []],
    ['acetic acid, glacial, 5 mL', 'acetic acid', ['glacial'], []],
    ['Na2CO3, anhydrous, ACS reagent, 10.6 g', 'Na2CO3', ['anhydrous', 'acs', 'reagent'], ['acs']],
    ['BaCl2·2H2O – 2.44 g – Sigma', 'BaCl2·2H2O', ['sigma'], ['sigma']],
    ['iron(III) chloride, hexahydrate 5 g', 'iron(III) chloride hexahydrate', [], []],
    ['soda, vinegar 5 g', 'soda vinegar', [], []],
    ['Na2CO3 (anhydrous) 1 g', 'Na2CO3', ['anhydrous'], []],
    ['Zn 5 g dust', 'Zn', ['dust'], []],
    ['HCl 5 mL dilute', 'HCl', ['dilute'], []],
    ['acetic acid [CH3COOH] (50 %) 10 mL', 'acetic acid', [], []],
    ['CuSO4 5 g blue', 'CuSO4', ['blue'], ['blue']],
    ['soda (from the shed) 5 g', 'soda', ['from', 'the', 'shed'], ['from', 'the', 'shed']],
  ])('%s', (text, name, state, unused) => {
    const read = reagent(text);
    expect([read.name, read.state ?? [], read.unused ?? []]).toEqual([name, state, unused]);
  });
});

describe('a name in another language', () => {
  // Source: the names as German, French and Italian catalogues of chemicals have them, from memory.
  test.each([
    ['Schwefel', 'S'],
    ['zolfo', 'S'],
    ['Kupfer', 'Cu'],
    ['Kupfersulfat', 'CuSO4'],
    ['Kupfersulfat Pentahydrat', 'CuSO4·5H2O'],
    ['Kupfersulfat-Pentahydrat', 'CuSO4·5H2O'],
    ['sulfate de cuivre pentahydraté', 'CuSO4·5H2O'],
    ['solfato di rame pentaidrato', 'CuSO4·5H2O'],
    ['Eisen(II)-sulfat Heptahydrat', 'FeSO4·7H2O'],
    ['Natriumcarbonat Decahydrat', 'Na2CO3·10H2O'],
    ['Bremer Blau', 'Cu(OH)2'],
  ])('%s is %s, and so for its amount', (name, formula) => {
    const resolved = resolveText(`${name} 1.00 g`);
    if (!resolved.ok) throw new Error(resolved.fault.message);
    expect(resolved.value.substance?.formula).toBe(formula);
    expect(resolved.value.taken.substance).toBeDefined();
  });
});

describe('a kitchen measure in German', () => {
  // Source: Teelöffel 5 mL and Esslöffel 15 mL, as metric spoons are sold; common practice, no source.
  test.each([
    ['alum 2 Esslöffel', '30'],
    ['alum 1 gestrichener EL', '15'],
    ['2 TL alum', '10'],
  ])('%s is %s mL', (line, millilitres) => {
    const resolved = resolveText(line);
    if (!resolved.ok) throw new Error(resolved.fault.message);
    expect(resolved.value).toMatchObject({ name: 'alum', amount: 'rough' });
    expect(resolved.value.taken.volume?.value.toFixed()).toBe(millilitres);
  });
});

describe('names of several words in another language', () => {
  const rows = otherLanguagesTable();
  const wordsOf = (...parts: readonly string[]): string[] =>
    rows.filter(({ part }) => parts.includes(part)).flatMap(({ words }) => words);
  const metals = wordsOf('metal').filter((word) => !word.includes(' '));
  const salts = wordsOf('anion', 'shape').flatMap((salt) =>
    metals.flatMap((metal) => [`${metal} ${salt}`, `${salt} de ${metal}`, `${metal}(II) ${salt} pentahydrat`]),
  );
  const adjectives = wordsOf('anion').flatMap((salt) => wordsOf('adjective').map((metal) => `${salt} ${metal}`));
  const known = [...wordsOf('name', 'word'), ...salts, ...adjectives].filter(
    (name) => name.includes(' ') && inEnglish(name) !== undefined,
  );

  test('each is looked for from its first word on', () => {
    const passedOver = known.filter((name) => {
      const [first = ''] = name.split(' ');
      return !mayBeginForeign(first) && inEnglish(first) === undefined;
    });
    expect(passedOver).toEqual([]);
    expect(known.length).toBeGreaterThan(5000);
  });

  test('most words of a sentence begin none', () => {
    // But for `in`, of `in polvere`.
    const words = 'Stirred in slowly with a glass rod and left overnight under the hood'.split(' ');
    expect(words.filter(mayBeginForeign)).toEqual(['in']);
  });
});

describe('a jar of the shelf called by its id', () => {
  const shelf = new Map([
    ['water', { name: 'water, deionised', formula: 'H2O' }],
    ['lye', { name: 'sodium hydroxide solution', formula: 'NaOH', strength: '10 % w/w' }],
  ]);
  const cupboard = cupboardOf(shelf, () => undefined);
  const circumstances = (line: string): readonly string[] => {
    const read = resolveText(line, cupboard);
    if (!read.ok) throw new Error(read.fault.message);
    return [...contentsOf(read.value).circumstances];
  };
  test.each(['water 300 mL in a closed jar', 'lye 20 mL in a closed jar', 'water in a closed jar'])(
    '%s is closed all the same',
    (line) => expect(circumstances(line)).toContain('closed'),
  );
});

describe('parts in parts beside a name', () => {
  it.each(['ammonia 1:4', 'ammonia (1 + 4)', 'ammonia solution, 1:4', 'ammonia 1+4 20 mL'])(
    'tell no strength: %s',
    (text) => {
      const { substance, strength } = resolved(text);
      expect(substance?.formula).toBe('NH3');
      expect(strength.basis).toBe('not-given');
    },
  );
  it('leave what is no ratio', () => {
    expect(resolved('ammonia').strength.basis).not.toBe('not-given');
    expect(resolved('ammonia 20 mL').substance?.formula).toBe('NH3');
  });
  it('do not make a jar unknown, whatever its id ends in', () => {
    for (const id of ['ammonia14', 'spirit', 'ammonia-14']) {
      const cupboard = cupboardOf(new Map([[id, { name: 'ammonia 1:4' }]]), () => undefined);
      const { contents, unaccounted } = contentsOf(resolveUse({ reagent: id, amount: '20 mL' }, cupboard));
      expect([contents.length > 0 || unaccounted.length === 0, unaccounted]).toEqual([true, []]);
    }
  });
});

function resolved(text: string): ResolvedReagent {
  const outcome = resolveText(text);
  if (!outcome.ok) throw new Error(outcome.fault.message);
  return outcome.value;
}

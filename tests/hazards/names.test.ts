// Names: put together from whole words, so that one letter makes another substance.
import { describe, expect, it } from 'vitest';
import { constituents } from '../../src/reagents/constituents.js';
import { groups } from '../../src/hazards/foresee/groups.js';
import { materialNamed } from '../../src/reagents/names.js';
import { readReagentText } from '../../src/reagents/text.js';
import type { AmountWritten } from '../../src/reagents/contracts.js';
import { beginningWith, longestName, meaningOf } from '../../src/reagents/contents/lexicon.js';
import { namesInWords } from '../../src/reagents/contents/names-in-words.js';
import { phraseKey } from '../../src/reagents/contents/phrase-key.js';
import { readPhrase } from '../../src/reagents/contents/read-phrase.js';
import { nameOfContent } from '../../src/reagents/contents/contents.js';
import { contentsOf, resolveNamed, resolveText } from '../../src/reagents/index.js';
import { inEnglish } from '../../src/reagents/other-languages.js';
import { productsTable } from '../../src/tables/compiled/reagents/contents/products.js';
import { stemReadingsTable } from '../../src/tables/compiled/reagents/contents/stem-readings.js';
import { stemWordsTable } from '../../src/tables/compiled/reagents/contents/stem-words.js';
import { phraseWordsTable } from '../../src/tables/compiled/reagents/contents/phrase-words.js';
import { misspeltWordsTable } from '../../src/tables/compiled/reagents/contents/misspelt-words.js';
import { namedMaterialsTable } from '../../src/tables/compiled/reagents/named-materials.js';
import { namePartsTable } from '../../src/tables/compiled/reagents/name-parts.js';
import { otherLanguagesTable } from '../../src/tables/compiled/reagents/other-languages.js';

const writtenOf = (amount: AmountWritten | undefined): string | undefined => {
  if (amount === undefined) return undefined;
  return 'words' in amount ? amount.words : amount.quantity?.written;
};

describe('salts are put together from the words of their ions', () => {
  // source: formulae of the named salts, IUPAC Red Book 2005 names
  it.each([
    ['potassium sulfite', 'K2SO3'],
    ['potassium sulphite', 'K2SO3'],
    ['ammonium sulfide', '(NH4)2S'],
    ['calcium hypochlorite', 'Ca(ClO)2'],
    ['sodium nitrate', 'NaNO3'],
    ['sodium nitrite', 'NaNO2'],
    ['iron(III) nitrate nonahydrate', 'Fe(NO3)3·9H2O'],
    ['copper(II) sulfate pentahydrate', 'CuSO4·5H2O'],
    ['disodium hydrogenphosphate', 'Na2HPO4'],
    ['sodium hydrogen carbonate', 'NaHCO3'],
    ['potassium metabisulfite', 'K2S2O5'],
    ['barium peroxide', 'BaO2'],
    ['lead dioxide', 'PbO2'],
    ['tin tetrachloride', 'SnCl4'],
    ['potassium ferricyanide', 'K3Fe(CN)6'],
    ['ferric chloride', 'FeCl3'],
    ['cobalt(II) nitrate', 'Co(NO3)2'],
    ['zinc phosphide', 'Zn3P2'],
    ['ammonium dichromate', '(NH4)2Cr2O7'],
    ['sodium chlorate', 'NaClO3'],
    ['sodium perchlorate', 'NaClO4'],
    ['zinc hexacyanoferrate(II)', 'Zn2[Fe(CN)6]'],
    ['dipotassium chromate', 'K2CrO4'],
    ['arsenic trisulfide', 'As2S3'],
    ['antimony trisulfide', 'Sb2S3'],
    ['arsenic pentoxide', 'As2O5'],
    ['vanadium pentoxide', 'V2O5'],
    ['molybdenum trioxide', 'MoO3'],
    ['diiron trioxide', 'Fe2O3'],
    ['lead monoxide', 'PbO'],
    ['phosphorus pentachloride', 'PCl5'],
    ['nitrate of silver', 'AgNO3'],
    ['chromate of zinc', 'ZnCrO4'],
    ['sulphate of iron', 'FeSO4·7H2O'],
    ['citric acid monohydrate', 'C6H8O7·H2O'],
    ['finely powdered zinc sulfide', 'ZnS'],
    ['cobalt(II,III) oxide', 'Co3O4'],
    ['ammonium ferrous sulfate', '(NH4)2Fe(SO4)2'],
    ['caesium aluminium sulfate', 'CsAl(SO4)2'],
    // Names of 1787 to 1860, from memory.
    ['phosphuret of zinc', 'Zn3P2'],
    ['seleniuret of zinc', 'ZnSe'],
    ['hydriodate of potash', 'KI'],
    ['pernitrate of mercury', 'Hg(NO3)2'],
    ['protosulphuret of iron', 'FeS'],
    ['permuriate of cobalt', 'CoCl3'],
    ['supersulphate of soda', 'NaHSO4'],
    ['superoxalate of soda', 'NaHC2O4'],
    ['binoxide of barium', 'BaO2'],
    ['persulphate of soda', 'Na2S2O8'],
    ['hyperoxymuriate of baryta', 'Ba(ClO3)2'],
    ['hydrate of strontia', 'Sr(OH)2'],
    ['carbazotate of lead', 'Pb(C6H2N3O7)2'],
  ])('%s is %s', (name, formula) => {
    const found = constituents(materialNamed(name)?.formula ?? 'X');
    const wanted = constituents(formula);
    expect(found.ok && wanted.ok && [found.value.dry, found.value.water]).toEqual(
      wanted.ok && [wanted.value.dry, wanted.value.water],
    );
  });
  it.each([
    'sodium',
    'copper(I,II) sulfide',
    'potassium unobtainate',
    'unobtainium nitrate',
    'sodium nitrited',
    'mystery powder',
    '',
  ])('%j is not made into a salt', (name) => {
    expect(materialNamed(name)?.formula ?? 'none').toMatch(/^(?:none|Na)$/);
  });
});

describe('the table of named materials', () => {
  it('has a formula that can be read, groups that exist and a source, in every row', () => {
    for (const row of namedMaterialsTable()) {
      expect(constituents(row.formula).ok, `${row.name} ${row.formula}`).toBe(true);
      expect(row.source, row.name).not.toBe('');
      for (const group of row.groups.filter((id) => id !== 'drying_oil'))
        expect(groups().has(group), `${row.name} ${group}`).toBe(true);
    }
  });
});

/** Formulae that a reagent may be, and how strong at most. */
function heldIn(text: string): {
  readonly formulas: readonly string[];
  readonly percent: readonly (string | undefined)[];
} {
  const read = resolveText(text);
  if (!read.ok) throw new Error(read.fault.message);
  const { contents } = contentsOf(read.value);
  const held = contents.length > 0 ? contents.map(({ reagent }) => reagent) : [read.value];
  return {
    formulas: held.map(({ substance }) => substance?.formula ?? 'unknown'),
    percent: held.map(({ strength }) => ('atMost' in strength ? strength.atMost.massFraction?.toFixed() : undefined)),
  };
}

describe('names as they are written in a hurry', () => {
  // source: common practice, no source
  it.each([
    ['manganese (dioxide)', 'MnO2'],
    ['lead (red)', 'Pb3O4'],
    ['manganese (black oxide)', 'MnO2'],
    ['zinc (chips)', 'Zn'],
    ['copper (carbonate)', 'Cu2(OH)2CO3'],
    ['sulphate of amonia', '(NH4)2SO4'],
    ['yellow phosphorous', 'P4'],
    ['phosphorous acid', 'H3PO3'],
    ['berthollets salt', 'KClO3'],
  ])('%s is %s', (text, formula) => {
    const wanted = constituents(formula);
    const dry = wanted.ok && wanted.value.dry;
    const found = heldIn(text).formulas.map((one) => constituents(one));
    expect(found.map((one) => one.ok && one.value.dry)).toEqual(found.map(() => dry));
    expect(found.length).toBeGreaterThan(0);
  });

  it('what was boiled down has not the strength any more that it was sold with', () => {
    expect(heldIn('battery acid').percent.every((share) => Number(share) < 0.5)).toBe(true);
    expect(heldIn('battery acid, boiled down').percent).toEqual(['1']);
    expect(heldIn('battery acid, concentrated by boiling').percent).toEqual(['1']);
  });

  it('a word of state stands once, so that no row is silently outdone by another', () => {
    const keys = phraseWordsTable().map(({ word }) => phraseKey(word));
    expect(keys.filter((key, at) => keys.indexOf(key) !== at)).toEqual([]);
  });

  it('no word is taken for a misspelling of itself, nor twice', () => {
    const words = misspeltWordsTable().map(({ word }) => word);
    expect(new Set(words).size).toBe(words.length);
    expect(misspeltWordsTable().filter(({ word, meant }) => word === meant || words.includes(meant))).toEqual([]);
  });
});

/** What the words of a phrase were read as. */
function phraseRead(text: string): { readonly namesNothing: boolean; readonly told: readonly string[] } {
  const { namesNothing, circumstances } = readPhrase(text);
  return { namesNothing, told: [...circumstances].sort() };
}

describe('what is done is no stuff', () => {
  // source: common practice, no source
  it.each([
    ['stirred to a paste', []],
    ['dried on a plate at 50', []],
    ['cut in strips', ['damaged']],
    ['dried', []],
    ['left standing', []],
    ['tube, capped', ['closed']],
    ['bottle with bung pushed home', ['closed']],
    ['jar, lid with a hole', []],
    ['knocked over', ['spilt']],
    ['sucked up with the house vacuum', ['vacuumed']],
    ['microwave 3 min', ['microwaved']],
    ['hand cast in it till hard', ['casting', 'skin']],
    ['both parts mixed', ['catalysed']],
  ])('%s', (text, told) => {
    expect(phraseRead(text)).toEqual({ namesNothing: true, told });
  });

  it.each(['some powder', 'powder, lid on', 'dressing in a bottle', 'Thinning', 'spread with unobtainate'])(
    '%s may be anything',
    (text) => {
      expect(phraseRead(text).namesNothing).toBe(false);
    },
  );

  it.each([
    ['open bowl, microwave 15 seconds', 50],
    ['microwave 1 min', 95],
    ['microwave 5 min', 105],
    ['in the microwave', 105],
  ])('%s is at most %i °C', (text, celsius) => {
    expect(readPhrase(text).celsius).toBe(celsius);
  });
});

it.each([
  ['fused with soda', 400],
  ['red heat with potash', 700],
  ['calcined soda', undefined],
])('%s is at %s °C', (text, celsius) => {
  const [part] = readPhrase(text).parts;
  expect(part && (part.celsius ?? (part.melted ? 400 : undefined))).toBe(celsius);
});

describe('old names', () => {
  // source: from memory, of the older literature
  it.each([
    ["Canton's phosphorus", 'CaS'],
    ["Fowler's solution", 'KAsO2'],
    ['smoking liquor of Libavius', 'SnCl4'],
    ['butter of arsenic', 'AsCl3'],
    ['nitrum flammans', 'NH4NO3'],
    ['carbazotic acid', 'C6H3N3O7'],
    ['oxymuriate of potash', 'KClO3'],
    ['phosphuret of lime', 'Ca3P2'],
    ['Derbyshire spar', 'CaF2'],
    ['calx of silver', 'Ag2O'],
    ['tutty', 'ZnO'],
    ['spelter lumps', 'Zn'],
  ])('%s is %s', (text, formula) => {
    const wanted = constituents(formula);
    const found = heldIn(text).formulas.map((one) => constituents(one));
    expect(found.map((one) => one.ok && one.value.dry)).toEqual([wanted.ok && wanted.value.dry]);
  });
});

describe('what stands behind an amount, and heat without its unit', () => {
  // source: common practice, no source
  it.each([
    ['yellow ochre 10 g moist, in an open dish in the oven', 'yellow ochre', '10 g'],
    ['water 1 tsp, in a bottle cap', 'water', '1 tsp'],
  ])('%s', (text, name, amount) => {
    const read = readReagentText(text);
    expect(read.ok && [read.value.name, writtenOf(read.value.amount)]).toEqual([name, amount]);
  });
  it.each([
    ['heavy spar 100 g reduced with charcoal at 1000, cooled', 1000],
    ['clay fired to 950 for an hour', 950],
    ['heavy spar, bought at 1000 g', undefined],
    ['sold to 2000 people', undefined],
  ])('%s is heated to %s', (text, celsius) => {
    expect(
      readPhrase(text)
        .parts.map((part) => part.celsius)
        .find((one) => one !== undefined),
    ).toBe(celsius);
  });
  it.each(['12 V charger running', 'current on overnight', 'two spoons as electrodes'])('%s: a current', (text) => {
    expect(readPhrase(text).circumstances).toContain('current');
  });
  it.each(['12 V battery', 'zinc anodes', 'currants'])('%s: no current', (text) => {
    expect(readPhrase(text).circumstances).not.toContain('current');
  });
});

describe('what words tell by their stems, in any order', () => {
  // source: common practice, no source
  it.each([
    ['lead white knocked through a stocking', 'airborne'],
    ['sifting the dry pigment', 'airborne'],
    ['bolted through silk gauze', 'airborne'],
    ['grinding it in a mortar', 'rubbed'],
    ['ground bone dry in the ball mill', 'rubbed'],
    ['sawing the pack in two', 'damaged'],
    ['prising the lid off with a screwdriver', 'damaged'],
    ['ripped apart with pliers', 'damaged'],
    ['regulator hissing', 'damaged'],
    ['cylinder emptying itself overnight', 'damaged'],
    ['gas bottle, slow leak', 'damaged'],
    ['in a wide dish to evaporate', 'evaporating'],
    ['poured out over the floor', 'evaporating'],
    ['lid off, standing about', 'evaporating'],
    ['by candlelight', 'ignition'],
    ['a glowing splint put in', 'ignition'],
    ['a live coal laid on', 'ignition'],
    ['car battery, croc clips, two nails', 'current'],
    ['anode and cathode of graphite, 6 volts', 'current'],
    ['two carbon rods, 12 V', 'current'],
    ['drawn from the clamp this morning', 'fresh'],
    ['tin shut tight', 'closed'],
    ['old tin, label says 1931', 'old'],
    ['rinsed out under the hot tap', 'wet'],
    ['washed down the sink', 'wet'],
    ['chucked in a bucket of water', 'wet'],
    ['roof dripped in it', 'wet'],
    ['kettle poured over it', 'wet'],
  ] as const)('%s: %s', (text, told) => {
    expect(readPhrase(text).circumstances).toContain(told);
  });
  it.each([
    ['lake drained on muslin', 'airborne'],
    ['pigment not sifted', 'airborne'],
    ['ground in oil', 'rubbed'],
    ['ground wet with a muller', 'rubbed'],
    ['valve shut, hose empty', 'damaged'],
    ['window left open', 'evaporating'],
    ['candle wax melted', 'flame'],
    ['red iron oxide', 'flame'],
    ['set aside in the light', 'flame'],
    ['out of the retort three days ago, cold', 'fresh'],
    ['jar not shut', 'closed'],
    ['water 1931 g', 'old'],
    ['gas tap left on under the bench', 'wet'],
    ['a few drops of water', 'wet'],
    ['quenched in oil', 'wet'],
  ] as const)('%s: not %s', (text, told) => {
    expect(readPhrase(text).circumstances).not.toContain(told);
  });
  it.each([
    ['magnesium swarf, caught light', 700],
    ['a spoon of it over the spirit lamp', 700],
    ['magnesium swarf in the light', undefined],
  ])('%s is heated to %s', (text, celsius) => {
    const { parts, celsius: nameless } = readPhrase(text);
    expect(parts.map((part) => part.celsius).find((one) => one !== undefined) ?? nameless).toBe(celsius);
  });
  it('a verb that tells what is done is no unknown stuff', () => {
    expect(phraseRead('hacksawed in two').namesNothing).toBe(true);
    expect(phraseRead('wide bowl').namesNothing).toBe(true);
    expect(readPhrase('hacksaw').unaccounted).toEqual([]);
  });
  it('every stem that is read is in the table, once, and says something', () => {
    const stems = stemWordsTable().map(({ stem }) => stem);
    expect(new Set(stems).size).toBe(stems.length);
    const used = new Set(stemReadingsTable().flatMap(({ all_of: all, unless }) => [...all, ...unless]));
    expect([...used].filter((stem) => !stems.includes(stem))).toEqual([]);
    expect(stems.filter((stem) => !used.has(stem))).toEqual([]);
  });
});

describe('what may begin a name is told by its first word', () => {
  const named = [
    ...namedMaterialsTable().flatMap(({ name, also }) => [name, ...also]),
    ...productsTable().flatMap(({ product, also }) => [product, ...also]),
  ];
  const salts = namePartsTable()
    .filter(({ part }) => part === 'cation')
    .flatMap(({ name }) => [`${name} chloride`, `di${name} sulphate`, `${name}(II) oxide powder`]);
  const beside = ['powdered', 'finely ground', 'old', 'solution of'].map((words) => `${words} copper sulphate`);
  it('of every name that is known', () => {
    const missed = [...named, ...salts, ...beside].filter((name) => {
      const words = name.split(/\s+/);
      if (words.length < 2 || words[1] === 'of' || meaningOf(name) === undefined) return false;
      const { longest, isComposed } = beginningWith(words[0]!);
      return !isComposed && longest < Math.min(words.length, longestName);
    });
    expect(missed).toEqual([]);
  });
  it('of every name in another language, and of salts put together', () => {
    const rows = (part: string) => otherLanguagesTable().filter((row) => row.part === part);
    const whole = [...rows('name'), ...rows('word')].flatMap(({ words }) => words);
    const metals = rows('metal').flatMap(({ words }) => words);
    const anions = rows('anion').flatMap(({ words }) => words);
    const both = metals.flatMap((metal) => [`${metal.padEnd(3)}${anions[0]}`, `${anions[0]} de ${metal}`]);
    expect([...whole, ...both].filter((name) => inEnglish(name) === undefined)).toEqual([]);
  });
  it.each([
    ['Then powdered nitrate of lead went in.', 'nitrate of lead'],
    ['Then sulphate de cuivre went in.', 'sulphate de cuivre'],
    ['Then Kupfersulfat Pentahydrat went in.', 'copper sulfate pentahydrate'],
    ['Then finely ground lead chromate went in.', 'lead chromate'],
    ['Then dipotassium chromate went in.', 'dipotassium chromate'],
  ])('%s', (sentence, name) => expect(namesInWords(sentence).map((one) => one.name)).toContain(name));
  it('and nothing is looked for behind most words of a sentence', () => {
    for (const word of ['which', 'settled', 'stirring', 'afterwards'])
      expect(beginningWith(word), word).toMatchObject({ isComposed: false });
    expect(beginningWith('afterwards').longest).toBeLessThan(2);
  });
});

describe('a deed that is called as a stuff is', () => {
  it.each([
    'Wipe the slab with a wet cloth.',
    'Straight away screw the lid down as hard as it will go.',
    'Slowly butter the tin.',
    'Now oil the hinge.',
  ])('is none: %s', (sentence) => expect(namesInWords(sentence)[0]?.onlySpokenOf ?? true).toBe(true));
  it.each(['Now bleach went in.', 'Slowly lime was stirred in.'])('is one: %s', (sentence) =>
    expect(namesInWords(sentence)[0]?.onlySpokenOf).toBe(false),
  );
});

describe('where something was found is not what it is', () => {
  // brook is one letter from broom (Dutch for bromine), Eifel from eisel (vinegar), Pyrenees two from pyrene.
  it.each([
    'brook',
    'brookside',
    'Eifel',
    'Pyrenees',
    'Pennines',
    'butte',
    'grove',
    'skerry',
    'Savoy',
    'Thames',
    'Tiber',
  ])('ochre from the %s', (place) => {
    const names = (text: string): string => JSON.stringify(contentsOf(resolveNamed(text)).contents.map(nameOfContent));
    expect(names(`ochre from the ${place}`)).toBe(names('ochre from the stream'));
  });
});

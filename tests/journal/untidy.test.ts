// What a maker writes who has seen no more than an example: read as what it can only mean, and said; what may mean two
// things is asked. `begin`, `proof` and `foresee` take the same, as all of them read entries here.
import { describe, expect, it } from 'vitest';
import { readEntry, readJournal } from '../../src/journal/index.js';
import { readReagentText } from '../../src/reagents/index.js';
import { entryOf, journalOf, told } from './folder.js';

const read = (lines: string, four = 'number: 1\ntitle: T\ndate: 2026-03-14\nstatus: finished') =>
  readEntry('entries/001-x.md', `---\n${four}\n${lines}\n---\nWords.\n`);
const rulesOf = (lines: string) => read(lines).remarks.map(({ ruleId }) => ruleId);
/** `alum 10 g` for each reagent. */
const reagentsOf = (lines: string) =>
  read(lines).entry?.reagents.map(({ reagent, amount = '' }) => `${String(reagent)}|${amount}`);

describe('keys in the words of other languages', () => {
  it.each([
    ['Nummer: 1\nTitel: T\nDatum: 2026-03-14\nStatus: fertig', 'Reagenzien', 'Ausbeute'],
    ['numéro: 1\ntitre: T\ndate: 2026-03-14\nstatut: terminé', 'Réactifs', 'rendement'],
    ['número: 1\ntítulo: T\nfecha: 2026-03-14\nestado: terminado', 'reactivos', 'rendimiento'],
    ['numero: 1\ntitolo: T\ndate: 2026-03-14\nstato: finito', 'reagenti', 'resa'],
  ])('%s', (four, reagents, obtained) => {
    const { entry, remarks } = read(`${reagents}:\n  - soda 5 g\n${obtained}: 1,9 g`, four);
    expect(entry).toMatchObject({ number: 1, title: 'T', date: '2026-03-14', status: 'finished' });
    expect(entry?.reagents).toEqual([expect.objectContaining({ reagent: 'soda', amount: '5 g' })]);
    expect(entry?.samples).toEqual([expect.objectContaining({ sample: 'A', obtained: '1.9 g' })]);
    expect(remarks.filter(({ fatal }) => fatal === true)).toEqual([]);
  });

  it('a list of what went in under a key that nobody knows is never told to be taken out', () => {
    const { entry, remarks } = read('zzz:\n  - copper sulfate 5 g\n  - soda 2 g');
    const [one] = remarks;
    expect(one).toMatchObject({ ruleId: 'unknown-key', fatal: true, line: 6 });
    expect(one?.note).toContain('under `reagents:`');
    expect(entry?.leftOut).toEqual([{ path: ['zzz'], value: ['copper sulfate 5 g', 'soda 2 g'] }]);
  });
});

describe('where a jar comes from, in the words of other languages', () => {
  const jarOf = async (lines: string) =>
    (
      await readJournal(
        journalOf({
          'shelf.yaml': `soda:
  name: soda
${lines.replace(/^/gm, '  ')}
`,
        }),
      )
    ).journal?.shelf.reagents.get('soda');
  it.each([
    ['gekauft: { menge: 500 g, datum: 2026-01-05 }'],
    ['acheté: { quantité: 500 g, date: 2026-01-05 }'],
    ['comprato: { quantità: 500 g, data: 2026-01-05 }'],
    ['comprado: { cantidad: 500 g, fecha: 2026-01-05 }'],
    ['Acquistato: { quantità: 500 g, data: 2026-01-05 }'],
  ])('%s', async (line) => expect((await jarOf(line))?.bought).toEqual({ amount: '500 g', date: '2026-01-05' }));
  it.each(['Lieferant', 'Bezugsquelle', 'gekauft bei', 'fournisseur', 'fornitore', 'proveedor', 'vendor'])(
    '%s: Apotheke',
    async (key) => expect((await jarOf(`${key}: Apotheke`))?.supplier).toBe('Apotheke'),
  );
  it('where only is told under a word for bought, it is no amount, and no error', async () => {
    const { remarks, journal } = await readJournal(
      journalOf({ 'shelf.yaml': 'soda: { name: soda, gekauft: im Laden }\n' }),
    );
    expect(journal?.shelf.reagents.get('soda')?.bought).toBeUndefined();
    expect(remarks.map(({ ruleId, fatal }) => [ruleId, fatal])).toContainEqual(['unknown-key', false]);
  });
});

describe('a colour as it comes', () => {
  const colourOf = (written: string) =>
    read(`samples:\n  - sample: A\n    colour: ${written}`).entry?.samples[0]?.colour;
  it.each([
    ['rgb(42, 127, 98)', { srgb: '#2a7f62' }],
    ['RGB 42 127 98', { srgb: '#2a7f62' }],
    ['"#2A7"', { srgb: '#22aa77' }],
    ['{ srgb: 2a7f62 }', { srgb: '#2a7f62' }],
    ['{ hex: rgb(42 127 98) }', { srgb: '#2a7f62' }],
    ['Lab 50 10 -10', { lab: [50, 10, -10] }],
    ['"L*a*b*: 50,3 -10,2 4,0 (D50/2°)"', { lab: [50.3, -10.2, 4], illuminant: 'D50', observer: 2 }],
    ['"CIELAB 50.3, -10.2, 4.0, D65"', { lab: [50.3, -10.2, 4], illuminant: 'D65' }],
    ['lab=50;10;-10', { lab: [50, 10, -10] }],
  ])('%s', (written, colour) => expect(colourOf(written)).toMatchObject(colour));
  it.each(['rgb(300, 0, 0)', 'RAL 6005', 'Lab green'])('%s is asked, with how it is written', (written) => {
    const { remarks } = read(`samples:\n  - sample: A\n    colour: ${written}`);
    expect(remarks.find(({ fatal }) => fatal)?.note).toContain('illuminant: D65');
  });
  it('says that # begins a comment, where a code was swallowed by it', () => {
    const { remarks } = read('samples:\n  - sample: A\n    colour: #2a7f62');
    const one = remarks.find(({ ruleId }) => ruleId === 'empty-key');
    expect(one?.reason).toContain('comment');
    expect(one?.note).toBe('Put it in quotes: colour: "#2a7f62"');
  });
});

describe('so many times a measure', () => {
  it.each([
    ['- Wasser dest. 2x 50 ml', ['Wasser dest.|100 ml']],
    ['- water 3 × 100 mL', ['water|300 mL']],
    ['- 2 x 25 mL ammonia', ['ammonia|50 mL']],
    ['- { reagent: water, amount: 2x50 mL }', ['water|100 mL']],
    ['- { reagent: soda, amount: "2 x 1,25 g" }', ['soda|2.50 g']],
    ['- Eisen(III)-chlorid FeCl3·6H2O 2,70 g', ['Eisen(III)-chlorid FeCl3·6H2O|2.70 g']],
    ['- 3,20 g yellow prussiate K4[Fe(CN)6]·3H2O', ['yellow prussiate K4[Fe(CN)6]·3H2O|3.20 g']],
    ['- zinc sulfate ZnSO4·7H2O - 7 g', ['zinc sulfate ZnSO4·7H2O|7 g']],
    ['- Al2(SO4)3 x 18H2O 5 g', ['Al2(SO4)3 x 18H2O|5 g']],
  ])('%s', (lines, reagents) => expect(reagentsOf(`reagents:\n  ${lines}`)).toEqual(reagents));
  it.each(['~10', 'about 10', 'ca. 10', '10'])('%s alone has no unit, and that is said', (amount) =>
    expect(rulesOf(`reagents: [{ reagent: soda, amount: ${amount} }]`)).toContain('amount-not-read'),
  );
  it.each(['~10 g', 'about 3 scoops', 'about 2 cups', 'some'])('%s is no such thing', (amount) =>
    expect(rulesOf(`reagents: [{ reagent: soda, amount: ${amount} }]`)).not.toContain('amount-not-read'),
  );
});

describe('strengths and purities as labels have them', () => {
  it.each(['10 %ig', '10%ige', '10-prozentig', '10 Gew.-%', '10 pct', '5 Vol.-%', '10% wv', '2 mol/Liter'])(
    '%s',
    (written) => expect(rulesOf(`reagents: [{ reagent: vinegar, strength: "${written}" }]`)).toEqual([]),
  );
  it.each(['99.9+ %', '98+%', '97 % min.', '95 % or better', 'minimum 97 %'])('%s', (written) =>
    expect(rulesOf(`reagents: [{ reagent: soda, purity: "${written}" }]`)).toEqual([]),
  );
  it.each(['0.1N', '0.5 n', '2 normal'])('%s is asked, and why', (written) => {
    const [one] = read(`reagents: [{ reagent: vinegar, strength: "${written}" }]`).remarks;
    expect(one?.note).toContain('for an acid of one proton it is the same number');
  });
});

describe('reagents as they come', () => {
  it.each([
    ['a comma for the point', '- sulphur 1,5 g', ['sulphur|1.5 g']],
    ['names as keys of a list', '- alum: 10 g\n- soda ash: a splash', ['alum|10 g', 'soda ash|a splash']],
    ['names as keys', '  sand: 60 g\n  malachite: 15 g', ['sand|60 g', 'malachite|15 g']],
    [
      'all in one text',
      '  zinc vitriol 10 g, soda 8 g, water 200 ml',
      ['zinc vitriol|10 g', 'soda|8 g', 'water|200 ml'],
    ],
    ['numbers in words', '- two and a half grams of washing soda', ['washing soda|2.5 grams']],
    ['a measure behind a comma', '- honey, 3 spoons', ['honey|3 spoons']],
    ['words that tell more', '- Flussspat, gemahlen 10 g', ['Flussspat, gemahlen|10 g']],
    ['a name as a key, and words', '- Natronlauge 10 %: bis pH 9', ['Natronlauge 10 %|bis pH 9']],
    ['a hyphen between', '- vinegar (5%) - 2 cups\n- salt - 1 tbsp', ['vinegar|2 cups', 'salt|1 tbsp']],
    ['curly quotes about the name', '- “sulfate de cuivre” 3 g', ['sulfate de cuivre|3 g']],
    ['nothing else', '- soda 1 g\n- rien d’autre', ['soda|1 g']],
    ['nothing', '- none\n- n/a\n- soda 1 g', ['soda|1 g']],
  ])('%s', (_, lines, expected) => {
    expect(reagentsOf(`reagents:\n${lines}`)).toEqual(expected);
    expect(read(`reagents:\n${lines}`).remarks.filter(({ fatal }) => fatal === true)).toEqual([]);
  });

  it('a lot one level too deep is the lot, and its keys stand beside it', () => {
    const { entry, remarks } = read('reagents:\n  - { reagent: { lot: 1/A }, amount: 4.0 g }');
    expect(entry?.reagents).toEqual([expect.objectContaining({ lot: '1/A', amount: '4.0 g' })]);
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['read-as']);
    const deeper = read('reagents:\n  - { reagent: { lot: 1/A, amount: 4.0 g, role: additive } }').entry;
    expect(deeper?.reagents).toEqual([expect.objectContaining({ lot: '1/A', amount: '4.0 g', role: 'additive' })]);
  });

  it.each([
    ['potash 1O g', /letter O/],
    ['potash 12.oo g', /letters stand where digits/],
    ['potash 12,oo g', /letters stand where digits/],
    ['potash l2 g', /letter l stands where a digit should/],
    ['soda 1,250 g', /comma inside a number/],
  ])('what may mean two things is asked: %s', (item, why) => {
    const [one] = read(`reagents:\n  - ${item}`).remarks;
    expect(one).toMatchObject({ ruleId: 'wrong-type', fatal: true, line: 7 });
    expect(one?.reason).toMatch(why);
    expect(one?.note).toContain('{ reagent: …, amount: … }');
  });

  it('the same words are read alike where they are typed', () => {
    const typed = readReagentText('two and a half grams of washing soda');
    expect(typed.ok && [typed.value.name, typed.value.amount]).toMatchObject(['washing soda', { kind: 'measured' }]);
  });
});

describe('amounts', () => {
  const used = (use: string) => read(`reagents:\n  - ${use}`);
  it.each([
    ['{ reagent: soda, amount: 17 gr }', '17 g'],
    ['{ reagent: soda, amount: "2,5 gr" }', '2.5 g'],
    ['{ reagent: soda, amount: 2.5 Gr. }', '2.5 g'],
    ['soda 17 gr', '17 g'],
    ['17 gr of soda', '17 g'],
    ['soda: 17 gr', '17 g'],
  ])('%s is grams, and what else it may be is said', (use, meant) => {
    const { entry, remarks } = used(use);
    expect(entry?.reagents).toEqual([expect.objectContaining({ reagent: 'soda', amount: meant })]);
    expect(remarks.map(({ ruleId }) => ruleId)).toContain('read-as');
    expect(remarks.some(({ reason }) => /grains/.test(reason))).toBe(true);
  });

  it.each(['12.oo g', '1O g', '1.5og', 'l2 g', '1o.5 g', '2S g'])(
    'letters that stand for digits are named: %s',
    (amount) => {
      const { entry, remarks } = used(`{ reagent: soda, amount: ${amount} }`);
      expect(entry?.reagents[0]).not.toHaveProperty('amount', amount.replaceAll(/[oO]/g, '0'));
      expect(remarks.map(({ reason }) => reason).join('\n')).toMatch(/stands? where (?:a digit|digits) should/);
      expect(remarks.map(({ note }) => note).join('\n')).toMatch(/Write \d[\d.]* g, if that is meant/);
    },
  );

  it('that stand under the other key are read so', () => {
    const { entry, remarks } = read(
      'reagents:\n  - { reagent: 5 g, amount: soda }\n  - { reagent: alum, amount: 2 g }',
    );
    expect(entry?.reagents).toMatchObject([
      { reagent: 'soda', amount: '5 g' },
      { reagent: 'alum', amount: '2 g' },
    ]);
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['read-as', 'read-as']);
    expect(reagentsOf('reagents: [{ reagent: 5 g, amount: 2 g }]')).toEqual(['5 g|2 g']);
  });
});

describe('other words', () => {
  it.each([
    ['fertig!', 'finished'],
    ['done!!', 'finished'],
    ['läuft noch', 'running'],
    ['failed - kiln tripped', 'failed'],
    ['not done', 'abandoned'],
  ])('of a status: %s is %s', (status, meant) => {
    const { entry } = read('', `Nr.: 1\ntitle: T\ndate: 2026-03-14\nstatus: ${status}`);
    expect(entry).toMatchObject({ number: 1, status: meant });
  });

  it.each(['done? no', 'fertig ist es nicht'])('%s is no status', (status) => {
    expect(read('', `number: 1\ntitle: T\ndate: 2026-03-14\nstatus: ${status}`).entry).toBeUndefined();
  });

  it.each([
    ['850C 10hrs', '850 °C', '10hrs'],
    ['600 °C 2 h', '600 °C', '2 h'],
  ])('of a heating: %s', (written, to, time) => {
    expect(read(`heating: ${written}`).entry?.heating).toMatchObject([{ to, for: time }]);
  });

  it('of a heating that there was none', () => {
    expect(read('heat: none').entry?.heating).toEqual([]);
  });
});

describe('what came out under a key that nobody knows', () => {
  it.each([
    ['product: 1 oz', 'A|1 oz'],
    ['product: 2.1 g', 'A|2.1 g'],
    ['Produkt: 2,1 g grün', 'A|2.1 g|grün'],
    ['produit: 3 g', 'A|3 g'],
  ])('%s', (lines, expected) => {
    const [one] = read(lines).entry?.samples ?? [];
    expect([one?.sample, one?.obtained, one?.differs].filter((part) => part !== undefined).join('|')).toBe(expected);
  });

  it('is no sample where it tells no amount', () => {
    const { entry, remarks } = read('product: malachite');
    expect(entry?.samples).toEqual([]);
    expect(entry?.pigment).toMatchObject({ name: 'malachite' });
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['another-word']);
  });
});

describe('hazards that a maker writes', () => {
  it.each(['hazards: none really', 'dangers: none', 'risks: low'])(
    '%s release nothing, and are told where',
    (lines) => {
      const [one] = read(lines).remarks;
      expect(one?.ruleId).toBe('unknown-key');
      expect(one?.note).toMatch(/precautions/);
      expect(one?.note).not.toMatch(/[Tt]ake it out/);
    },
  );
});

describe('a pigment in one text', () => {
  it('with its formula behind it', () => {
    for (const written of ['malachite, Cu2CO3(OH)2', 'malachite (Cu2CO3(OH)2)', 'malachite Cu2CO3(OH)2']) {
      const { entry, remarks } = read(`pigment: "${written}"`);
      expect(entry?.pigment).toMatchObject({ name: 'malachite', formula: 'Cu2CO3(OH)2' });
      expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['read-as']);
    }
    expect(read('pigment: malachite, a green').entry?.pigment).toMatchObject({ name: 'malachite, a green' });
    expect(read('pigment: Bone black I').entry?.pigment).toMatchObject({ name: 'Bone black I' });
  });
});

describe('samples told in plain words', () => {
  const samplesOf = (lines: string) =>
    read(lines).entry?.samples.map(({ sample, obtained = '', differs = '' }) => `${sample}|${obtained}|${differs}`);
  it.each([
    ['items', 'samples:\n  - A 34 g black\n  - B: 31 g greyish', ['A|34 g|black', 'B|31 g|greyish']],
    ['words alone', 'samples:\n  - Probe 1: 3 g white\n  - Probe 2: nothing', ['1|3 g|white', '2||nothing']],
    ['keys', 'sample A: hot, 71 g\nsample B: cold, 70.5 g', ['A|71 g|hot', 'B|70.5 g|cold']],
    ['a yield', 'yield: 40g', ['A|40 g|']],
    ['results', 'results: 1,98 g', ['A|1.98 g|']],
    ['ids as keys', 'samples:\n  A: 12 gr, fin\n  B: 8 gr, grossier', ['A|12 g|fin', 'B|8 g|grossier']],
    ['half an ounce', 'yield: .5 oz', ['A|.5 oz|']],
    ['gr', 'Ergebnis: 2 gr grün', ['A|2 g|grün']],
    ['prose', 'samples: A was cold and gave 1.9 g, B was hot and gave 2.1 g', ['A|1.9 g|was cold', 'B|2.1 g|was hot']],
    ['prose, and', 'samples: A (cold) 1.9 g and B (hot) 2.1 g', ['A|1.9 g|(cold)', 'B|2.1 g|(hot)']],
    ['German', 'Proben: A war kalt und ergab 1,9 g; B war heiß, 2,1 g', ['A|1.9 g|war kalt', 'B|2.1 g|war heiß']],
    ['sentences', 'samples: A came to 1.9 g. B came to 2.1 g.', ['A|1.9 g|', 'B|2.1 g|']],
    [
      'a list',
      'samples: ["cold, in the fridge, got 9.4g", "warm, got 8.1 g, greener"]',
      ['A|9.4 g|cold, in the fridge', 'B|8.1 g|warm, greener'],
    ],
    ['without letters', 'samples: cold 1.9 g, hot 2.1 g', ['A|1.9 g|cold', 'B|2.1 g|hot']],
    ['words as keys', 'samples:\n  - cold one: 1.9 g\n  - hot one: 2.1 g', ['A|1.9 g|cold one', 'B|2.1 g|hot one']],
  ])('%s', (_, lines, expected) => {
    expect(samplesOf(lines)).toEqual(expected);
    expect(rulesOf(lines)).toContain('read-as');
  });

  it('are shown their keys where two masses stand in them', () => {
    const [one] = read('samples:\n  - first 3 g and then 4 g').remarks;
    expect(one).toMatchObject({ ruleId: 'wrong-type', fatal: true });
    expect(one?.note).toContain('{ sample: A, obtained: 1.98 g');
  });
});

describe('dates', () => {
  const dated = (date: string) => read('', `number: 1\ntitle: T\ndate: ${date}\nstatus: finished`);
  it.each([
    ['2 avril 2026', '2026-04-02'],
    ['March 3rd 26', '2026-03-03'],
    ['20260801', '2026-08-01'],
    ['2026-07-01 evening', '2026-07-01'],
    ['12. Juli 2026', '2026-07-12'],
    ['3 de marzo de 2026', '2026-03-03'],
    ['Mittwoch, 4. März 2026', '2026-03-04'],
    ['1er août 2026', '2026-08-01'],
    ['5 dicembre 2026', '2026-12-05'],
  ])('%s is %s', (written, meant) => {
    expect(dated(written).entry?.date).toBe(meant);
    expect(dated(written).remarks.map(({ ruleId }) => ruleId)).toEqual(['read-as']);
  });

  it('that may be two days are asked', () => {
    const [one] = dated('06/07/2026').remarks;
    expect(one?.reason).toContain('may be 2026-07-06 or 2026-06-07');
    expect(one?.note).toContain('whichever is meant');
    expect(dated('31/02/2026').remarks.map(({ ruleId }) => ruleId)).toEqual(['date']);
  });

  it('and a number that is missing is that of the file', () => {
    const [one] = readEntry('entries/009-x.md', '---\ntitle: T\ndate: 2026-03-14\nstatus: finished\n---\n').remarks;
    expect(one?.note).toBe('Add number: 9');
  });
});

describe('numbers', () => {
  it('that two entries have are told also of one that is read in part', async () => {
    const second = entryOf(1).replace(/date: .*/, 'date: 2026-08-32');
    const { remarks } = await readJournal(journalOf({ 'entries/001-a.md': entryOf(1), 'entries/002-b.md': second }));
    expect(told(remarks)).toContain('entries/002-b.md:2:9 error duplicate-number');
  });
});

describe('formulae', () => {
  it.each([
    ['CuS04.5H20', 'CuSO4.5H2O'],
    ['CuS04·5H2O', 'CuSO4·5H2O'],
    ['Fe203', 'Fe2O3'],
    ['Na2C03·10H20', 'Na2CO3·10H2O'],
    ['Ti02', 'TiO2'],
  ])('%s has a zero for the letter O', (written, meant) => {
    const { entry, remarks } = read(`reagents: [{ reagent: { name: x, formula: "${written}" }, amount: 2 g }]`);
    expect(entry?.reagents[0]?.reagent).toMatchObject({ formula: meant });
    expect(remarks.map(({ ruleId }) => ruleId)).toEqual(['read-as']);
  });

  it('with a zero that makes nothing known are errors', () => {
    expect(rulesOf('reagents: [{ reagent: { name: x, formula: Xq0 }, amount: 2 g }]')).toEqual(['formula']);
  });
});

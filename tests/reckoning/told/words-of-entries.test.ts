// Dangers that only the words of an entry tell (steps and their heat, washes, waste, the write-up), by somebody who had
// seen the README alone; what happens is from memory. The first run is told in tests/reference/foreseen/README.md.
import { describe, expect, it } from 'vitest';
import { readEntry, remarksOn } from '../../../src/journal/index.js';
import { reckonDangers } from '../../../src/reckoning/dangers/dangers.js';
import { referenceRows } from '../../reference/read.js';
import { emptyRoom } from '../entries.js';

/** What is told of an entry: as a danger or a warning, and as a note. */
function told({ matter = '', body = '' }: Readonly<Record<string, string>>): { grave: string[]; notes: string[] } {
  const head = '---\nnumber: 7\ntitle: A case\ndate: 2026-01-02\nstatus: finished\n';
  const { entry } = readEntry('entries/007-a.md', `${head}${matter}\n---\n${body}\n`);
  const { dangers, findings } = reckonDangers(entry!, emptyRoom);
  const foreseen = dangers.foreseen ?? [];
  const spoken = remarksOn(entry!, findings).filter(({ ruleId }) => ruleId === 'named-not-judged');
  return {
    grave: foreseen.filter(({ severity }) => severity !== 'note').map((one) => JSON.stringify(one)),
    notes: [...(dangers.cautions ?? []), ...spoken.map(({ reason }) => reason)],
  };
}

/** Of what is only spoken of a note is right. */
const aside: ReadonlySet<string> = new Set(['prose', 'differs', 'precautions']);
const rows = referenceRows('foreseen/words-of-entries.csv');

describe('an entry whose words tell', () => {
  it.each(rows.filter(({ kind }) => kind === 'dangerous').map((row) => [row.id!, row] as const))(
    'of a danger is told it: %s',
    (_, row) => {
      const { grave, notes } = told(row);
      const expected = new RegExp(row.expect!, 'i');
      const isTold = [...grave, ...(aside.has(row.where!) ? notes : [])].some((one) => expected.test(one));
      expect(isTold).toBe(true);
    },
  );
  it.each(rows.filter(({ kind }) => kind === 'harmless').map((row) => [row.id!, row] as const))(
    'of none is told none: %s',
    (_, row) => expect(told(row).grave).toEqual([]),
  );
});

describe('a write-up that alone tells the work', () => {
  const chlorine = /Cl2/;
  it.each([
    'Bleaching the black. Put 30 ml bleach in and then 50 ml vinegar because it was too alkaline. Smelled strong.',
    'Added 20 ml household bleach to it. Afterwards poured in 40 ml vinegar.',
    'Zuerst 30 ml Chlorbleiche hinein, dann 50 ml Essig.',
    'Then bleach 20 ml onto the vinegar.',
    'I poured 30 ml bleach over the warm vinegar.',
  ])('is judged by what it puts in: %s', (body) => {
    expect(told({ body }).grave.some((one) => chlorine.test(one))).toBe(true);
  });
  it.each([
    'Never put 30 ml bleach in with 50 ml vinegar.',
    'I did not add 30 ml bleach, nor 50 ml vinegar.',
    'My aunt talks of bleach and vinegar all day.',
    'Wiped the table with water and looked over the vinegar and the bleach on the shelf.',
  ])('is not judged by what it only speaks of: %s', (body) => expect(told({ body }).grave).toEqual([]));
  it.each([
    [
      'The zinc bucket went into the forge until the zinc ran and burned with a blue flame. White fluff settled on the bench and I swept it up.',
      /zinc/,
    ],
    [
      'Cut the plastic off the telephone wire? Too slow. Burned the PVC cable in the stove instead, then picked out the copper.',
      /PVC heated|plastic/,
    ],
    ['Roasted the cadmium yellow on a shovel over the gas flame to make it redder.', /cadmium/],
    ['Ground the orpiment dry in the coffee mill and sieved it.', /arsenic|dust/],
    [
      'Melted old lead pipe in a tin on the camping stove, skimmed the dross and rubbed it through a tea strainer.',
      /lead/,
    ],
    ['Mit Quecksilber und Schwefel im Mörser verrieben, dann in der Pfanne erhitzt bis es rot wurde.', /mercury/],
    ['Ultramarin in ein Glas, Salzsäure drauf, gerührt bis es grau war.', /H2S|ultramarine/],
    ["J'ai versé de l'acide chlorhydrique sur la poudre de sulfure de zinc.", /H2S|sulfide/],
    ['Covered the malachite with bleach to brighten it, poured that off, and rinsed with vinegar.', /Cl2/],
    ['The jug had a brown ring that would not shift, so I covered it\nwith thick bleach and\nthen vinegar.', /Cl2/],
  ])('is judged by what it does with what it names: %s', (body, danger) => {
    expect(told({ body }).grave.some((one) => danger.test(one))).toBe(true);
  });
  it.each([
    'Nothing done yet. I want to compare the two greens under the lamp.',
    'Washed three times, dried at 60 °C, ground under water. A soft pale blue.',
    'Orpiment was the yellow of the Egyptians; I would never heat it at home.',
    'Put the ochre into water, stirred, let the sand settle and poured the rest off.',
    'The kiln was cold and the lead glaze test from last year stood in it.',
    'Ocker in Wasser geschlämmt, dekantiert und auf dem Balkon getrocknet.',
    'Chalk and water, mixed to a paste and spread on a tile with a knife.',
    'Mixed the madder lake with linseed oil on a slab of marble.',
    'Never put bleach on it; without vinegar, too. Washed with water.',
    "Dissous un peu de gomme dans l'eau, mélangé avec la terre verte.",
    '## What was done\n\nWashed the blue.\n\n## What to try next\n\nPut bleach in, then vinegar.',
  ])('is not alarmed by harmless work: %s', (body) => expect(told({ body }).grave).toEqual([]));
});

describe('a write-up beside reagents that tells of a cleaning', () => {
  const matter =
    'reagents:\n  - { reagent: { name: copperas, formula: FeSO4·7H2O }, amount: 5.00 g }\n' +
    '  - { reagent: { name: soda, formula: Na2CO3 }, amount: 2.50 g }';
  it.each([
    ['Washed the beaker out with Domestos, then gave it a go with Viakal.', /Cl2/],
    ['The stain would not budge.\nI poured neat bleach on, waited,\nand followed it with kettle descaler.', /Cl2/],
    ['Poured the last of the pool shock into the bucket, then a good glug of brick acid over it.', /Cl2/],
    ["Le bocal était taché, versé de l'eau de Javel puis du détartrant.", /Cl2/],
    ['Kolben mit Chlorreiniger gespült und danach mit Entkalker.', /Cl2/],
    ['Limpié el bote con lejía y luego con amoniaco.', /NCl3|NH2Cl|ammonia/],
    ['Lavato il barattolo con candeggina e poi con acido muriatico.', /Cl2/],
    ['Cleaned the spatula with acetone and then with 12 % hydrogen peroxide and a drop of battery acid.', /peroxide/],
    ['Soaked the filter in household ammonia, then squirted bleach on it to whiten it.', /NH2Cl|NCl3|ammonia/],
    ['Scrubbed the pan with caustic soda and then poured neat drain acid on top.', /oil of vitriol/],
  ])('is judged by what it puts together: %s', (body, danger) => {
    expect(told({ matter, body }).grave.some((one) => danger.test(one))).toBe(true);
  });
  it.each([
    'Washed the beaker with bleach, rinsed with plenty of water, and a week later with vinegar.',
    'Cleaned the brushes with white spirit and then with soap.',
    'Bleach and acid are kept in two cupboards, never together.',
    'The label says that bleach with acid gives chlorine.',
    'Rinsed with vinegar and then with water.',
    'I keep the descaler under the sink and the bleach in the shed.',
    'Mit Essig gespült, dann mit Wasser.',
    "Nettoyé au vinaigre, puis à l'eau.",
    'Washed the jug with Viakal and dried it.',
    'Added the vinegar, then the soda. No bleach was near it.',
  ])('is not alarmed by what stays apart: %s', (body) => expect(told({ matter, body }).grave).toEqual([]));
  it('is judged under a key that no entry has too', () => {
    const notes = 'notes: Topf erst mit DanKlorix, dann gleich Essigreiniger hinterher';
    expect(told({ matter: `${matter}\n${notes}` }).grave.some((one) => /Cl2/.test(one))).toBe(true);
  });
});

describe('words of a step', () => {
  const copper = 'reagents:\n  - { reagent: blue vitriol, amount: 5 g }\n';
  it('screw a lid on, and bring in no screw', () => {
    const { grave } = told({ matter: `${copper}steps: [Screw the lid on and shake.]` });
    expect(grave.join()).not.toMatch(/screw/);
  });
  it('say what a product is in a bracket', () => {
    const { grave } = told({ matter: 'steps: [Bleach in a jar., Drain cleaner (caustic soda) into it.]' });
    expect(grave.join()).not.toMatch(/Cl2/);
  });
  it.each(['echarle el agua encima', 'Wasser obendrauf', "l'eau par-dessus"])(
    'say that water comes last: %s',
    (water) => {
      const { grave } = told({ matter: `steps: ["Schwefelsäure 96 % in ein Glas", "${water}"]` });
      expect(grave.join()).toMatch(/water poured onto concentrated sulfuric acid/);
    },
  );
});

describe('a vessel that is shut over something', () => {
  it.each([
    'Iron filings and vinegar in a jar, screw the lid on tight, next day strain through a cloth.',
    'Steel wool into the Kilner jar with vinegar, clip it shut; after two days filter and wash.',
    'Bicarbonate in the bottle, pour in vinegar, cap it tightly, then decant.',
    'mettere gesso e aceto nel barattolo e chiudere subito col coperchio',
    'bicarbonato nella bottiglia, aceto sopra, tappo avvitato',
    'verser le vinaigre sur la craie dans le bocal, visser le couvercle, filtrer le lendemain',
    'poner bicarbonato y vinagre en el frasco, cerrar bien y agitar',
    'Eisenspäne und Essig ins Gurkenglas, sofort zuschrauben, morgen abfiltrieren',
    'Kreide in die Flasche, Essig drauf, gleich zuschrauben',
    'Zinc and battery acid in a jam jar, lid on tight overnight, then rinse out.',
  ])('may burst, whatever is strained afterwards: %s', (step) => {
    const { grave } = told({ matter: `steps: [${JSON.stringify(step)}]` });
    expect(grave.join()).toMatch(/closed vessel/);
  });
  it.each([
    'Chalk and vinegar in a jar, no lid, next day strain.',
    'mettere la calce spenta nel barattolo senza chiudere bene il coperchio',
    'Washed the precipitate, strained it, and shut the damp cake in a jar.',
    'Fenster fest zu, Kreide und Wasser ins Glas.',
  ])('is none where nothing works in it or no lid is on it: %s', (step) => {
    const { grave } = told({ matter: `steps: [${JSON.stringify(step)}]` });
    expect(grave.join()).not.toMatch(/closed vessel/);
  });
});

describe('what is only spoken of', () => {
  it('is told with the fire that would come of it, and not by its gas alone', () => {
    const matter =
      'reagents: [{ reagent: potassium permanganate, amount: 5 g }]\nnotes: A glug of glycerine turns it brown.';
    expect(told({ matter }).notes.join()).toMatch(/glycerine.*permanganate with organic material: fire/);
  });
});

describe('water that only a write-up tells of', () => {
  it.each([
    ['Dropped a lump of calcium carbide into water under the hood.', /carbide with water/],
    ['Stirred aluminium phosphide into water.', /PH3/],
    ['Poured water onto the concentrated sulfuric acid and stirred.', /water poured onto concentrated/],
  ])('meets what it goes to: %s', (body, danger) => expect(told({ body }).grave.join()).toMatch(danger));
  it.each(['Slaked lime and water stirred to a milk.', 'Mixed plaster with water and cast a tile.'])(
    'is no danger where none is: %s',
    (body) => expect(told({ body }).grave).toEqual([]),
  );
});

describe('a pigment that is worked dry where no reagent is listed', () => {
  const lead = 'pigment: { name: lead white, formula: "Pb3(CO3)2(OH)2" }\n';
  it.each([
    ['steps: ["Scrape the flakes off the plates, dry.", Ball mill dry six hours.]'],
    ['steps: [Sieve it dry through 63 µm over a newspaper.]'],
  ])('flies about: %s', (steps) => expect(told({ matter: lead + steps }).grave.join()).toMatch(/lead dust/));
  it('does not where it is ground under oil, or is no poison', () => {
    expect(told({ matter: `${lead}steps: [Grind it in oil on the slab.]` }).grave).toEqual([]);
    const chalk = 'pigment: { name: chalk, formula: CaCO3 }\nsteps: [Sieve it through 63 µm.]';
    expect(told({ matter: chalk }).grave).toEqual([]);
  });
});

describe('what the write-up puts together', () => {
  const reagents = 'reagents: [{ reagent: soda ash, amount: 5 g }, { reagent: blue vitriol, amount: 5 g }]';
  it('is judged for itself where the pot does not hold it', () => {
    const body = 'Poured bleach into the jar. Then squirted in a good glug of descaler.';
    expect(told({ matter: reagents, body }).grave.join()).toMatch(/hypochlorite with/);
  });
  it('is no second pot where it only tells what the pot holds', () => {
    const body = 'Poured the soda ash into the blue vitriol.';
    expect(told({ matter: reagents, body }).grave.join()).toBe(told({ matter: reagents }).grave.join());
  });
});

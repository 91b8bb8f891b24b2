// masstone foresee, as a maker calls it.
import { beforeAll, describe, expect, it } from 'vitest';
import { command } from '../../src/commands/foresee.js';
import { WrongUse } from '../../src/commands/command.js';
import { folderOf, settings } from '../journal-folder.js';
import { roomsLoaded } from './bench.js';

async function run(
  positionals: readonly string[],
  {
    values = {},
    json = false,
    journal = '/nowhere',
  }: { values?: Record<string, string | boolean | string[]>; json?: boolean; journal?: string } = {},
) {
  let out = '';
  const code = await command.run(
    { values, positionals, journal, json },
    {
      result: (text) => {
        out += text;
      },
      aside: () => undefined,
      terminal: false,
    },
  );
  return { code, out, answer: json ? JSON.parse(out) : undefined };
}

it.each([
  'sodium nitrite 5 g, acetic acid 60 % 10 mL',
  'sodium nitrite 5 g; acetic acid 60 % 10 mL',
  'sodium nitrite 5 g + acetic acid 60 % 10 mL',
  'sodium nitrite 5 g and acetic acid 60 % 10 mL',
])('several things with their amounts in one text are each read: %s', async (text) => {
  const { out } = await run([text]);
  expect(out).toContain('Concerns: acetic acid, sodium nitrite.');
  expect(out).not.toContain('given twice');
});

it('words without quotes are put together up to each amount, and that is said', async () => {
  const { out } = await run(['sodium', 'nitrite', '5', 'g', 'acetic', 'acid', '10', 'mL']);
  expect(out).toContain("read as 'sodium nitrite 5 g' 'acetic acid 10 mL'");
  expect(out).toContain('Concerns: acetic acid, sodium nitrite.');
  expect(out).not.toContain('alkali metal');
  const both = (await run(['bleach', 'vinegar', '5', 'mL'])).out;
  expect(both).toContain('hypochlorite with weak acid');
  expect(both).toContain('Put each thing with its amount in quotes');
  const bare = (await run(['bleach', 'vinegar', 'alum'])).out;
  expect(bare).toContain('hypochlorite with weak acid');
  expect(bare).not.toContain('Without quotes');
});

it('a room without a unit is said to be read in cubic metres', async () => {
  expect((await run(['bleach', 'vinegar'], { values: { room: '25' } })).out).toContain('is read as 25 m³');
  expect((await run(['bleach', 'vinegar'], { values: { room: '25 m3' } })).out).not.toContain('has no unit');
});

it('two amounts of one thing are still asked about', async () => {
  expect((await run(['soda 5 g, 10 g'])).out).toContain('given twice');
});

it('what has happened already is told what to do, and no longer what not to do', async () => {
  expect((await run(['smell of rotten eggs from the cake'])).out).toMatch(/^Now: leave at once; /);
  const both = (await run(['bleach', 'ammonia', 'already mixed, my eyes sting'])).out;
  expect(both).toMatch(/^Do not mix these\. It has happened: /);
  expect(both).not.toContain('Only so, if at all: Leave');
});

it('leave is the first thing to do where a froth would fill the room with its gas', async () => {
  const { out } = await run(['whiting 2 kg', 'hydrochloric acid 5 L'], { values: { room: '5 m3' } });
  expect(out).toMatch(/^Do not mix these\. If it has happened: leave at once; /);
});

it('only words that nothing understood are said not to be understood', async () => {
  expect((await run(['blanc fixe, wet cake 10 g'])).out).not.toContain('not understood');
  expect((await run(['CdS 2 g flurble'])).out).toContain('not understood and not used in “CdS 2 g flurble”: flurble.');
});

describe('the answer in JSON', () => {
  it('has the documented shape', async () => {
    const { code, answer } = await run(['sodium nitrite 5 g', 'acetic acid 60 % 10 mL'], {
      json: true,
      values: { room: '25 m3' },
    });
    expect(code).toBe(0);
    const [first] = answer.foreseen;
    expect(first).toMatchObject({
      rule: 'nitrite-weak-acid',
      severity: 'danger',
      consequence: 'toxic gas',
      partners: ['acetic acid', 'sodium nitrite'],
      gas: 'NO + NO2',
      equation: expect.stringContaining('->'),
      precaution: expect.any(String),
      source: expect.any(String),
    });
    // 5 g / 68.995 g/mol = 72.47 mmol of nitrite, less than the acid; 24.4654 mL/mmol; 25 m3
    expect(Number(first.worstCase.mol)).toBeCloseTo(0.07247, 4);
    expect(Number(first.worstCase.litres)).toBeCloseTo(1.773, 3);
    expect(Number(first.worstCase.roomPpm)).toBeCloseTo(70.92, 1);
    expect(first.worstCase.limits[0]).toEqual({
      name: expect.any(String),
      gas: 'NO2',
      ppm: expect.any(String),
      shortTerm: true,
      times: expect.any(String),
      source: expect.any(String),
    });
    expect(Object.keys(answer).sort()).toEqual(['cautions', 'foreseen', 'unknown']);
  });
  it('says that an unknown name cannot be called safe, and exits 1', async () => {
    const { code, answer } = await run(['dragon dust 5 g', 'water'], { json: true });
    expect([code, answer.unknown, answer.foreseen]).toEqual([1, ['dragon dust'], []]);
    expect(answer.cautions.join('\n')).toContain('cannot be called safe');
  });
  it('puts what to do first, the doctor too where harm comes late, and the source last', async () => {
    const { out } = await run(['bleach', 'toilet cleaner']);
    const first = out.split('\n')[0]!;
    expect(first).toMatch(
      /^Do not mix these\. If it has happened: .*leave at once.*112 or 911.*sees a doctor the same day/,
    );
    // The same gas of three rules is one paragraph.
    expect(out.match(/^DANGER: .*Cl2/gm)).toHaveLength(1);
    expect(out).toMatch(/DANGER: hypochlorite with acidic salt; hypochlorite with strong acid/);
    expect(out.indexOf('From: ')).toBeGreaterThan(out.lastIndexOf('When: '));
  });
  it('says beside a lesser danger what the first line has not said', async () => {
    const { out } = await run(['sodium sulfide 5 g', 'vinegar 100 mL', 'magnesium silicide']);
    const [first, ...rest] = out.split('\n');
    expect(first).toMatch(/leave at once/);
    expect(first).not.toMatch(/no flame/);
    expect(rest.join('\n')).toMatch(/DANGER: silicide with acid.*\n {2}If it has happened: no switch, no flame/);
    expect(rest.join('\n')).not.toMatch(/nobody goes back in/);
  });
  it('warns of what it does not know before it says that nothing matched', async () => {
    const { out, code } = await run(['granddad’s powder', 'bleach']);
    expect(code).toBe(1);
    expect(out).toMatch(/^Do not mix these yet\. Not recognised, and so not judged: ‘granddad’s powder’/);
    expect(out.indexOf('Of the rest nothing on our list matched')).toBeGreaterThan(0);
  });
  it('gives no recipe under an order not to', async () => {
    const { out } = await run(['silver nitrate', 'ammonia']);
    expect(out).toMatch(/^Do not mix these/);
    expect(out).toContain('Only so, if at all: Make fresh');
    expect(out).not.toContain('  Do: Make');
  });
  it('never calls silence safe', async () => {
    const { code, answer, out } = await run(['sodium chloride', 'sodium sulfate'], { json: true });
    expect([code, answer.foreseen]).toEqual([0, []]);
    expect(answer.cautions.join('\n')).toContain('The list is incomplete');
    expect(out).not.toMatch(/\b(?:OK|is safe|harmless|no risk)\b/);
  });
});

describe('where it stands', () => {
  const inRoom = (workspace: string): string =>
    folderOf({ 'journal.yaml': `${settings}workspace: ${workspace}\n`, 'shelf.yaml': '{}' });
  const chlorine = ['bleach 50 mL', 'vinegar 50 mL'];
  const ppmIn = (out: string): number => Number(/that is about ([\d.]+) ppm/.exec(out)?.[1]);

  it('is the workspace of the journal where no room is given', async () => {
    const small = inRoom('{ volume: 3 m3, extraction: true }');
    const own = await run(chlorine, { journal: small });
    const bare = await run(chlorine);
    // The same gas in a tenth of the assumed 30 m3.
    expect(ppmIn(own.out)).toBeCloseTo(10 * ppmIn(bare.out), -1);
    expect(own.out).toContain('Judged in the journal’s workspace, a closed room of 3 m³');
    expect(own.out).toContain('The journal’s workspace has extraction; the sums do not count on it.');
    expect(bare.out).toContain('No room was given: vapour was judged as in a closed room of 30 m³');
    const given = await run(chlorine, { journal: small, values: { room: '30 m3' } });
    expect(ppmIn(given.out)).toBe(ppmIn(bare.out));
    expect(given.out).not.toContain('Judged in the journal’s workspace');
    const unread = await run(chlorine, { journal: small, values: { room: 'small' } });
    expect(unread.out).toContain('was not read, so that sums are for 3 m³');
  });
  it('is a room where nobody says, and none where words say outdoors', async () => {
    const vapour = /acid open in a room/;
    expect((await run(['hydrochloric acid 36 % 500 mL'])).out).toMatch(vapour);
    expect((await run(['hydrochloric acid 36 % 500 mL', 'outdoors'])).out).not.toMatch(vapour);
    expect(
      (await run(['hydrochloric acid 36 % 500 mL', 'in the yard'], { journal: inRoom('{ volume: 9 m3 }') })).out,
    ).not.toMatch(vapour);
  });
  it('is under no roof because of a fire', async () => {
    const { out } = await run(['barbecue'], { journal: inRoom('{ volume: 30 m3 }') });
    expect(out).not.toMatch(/DANGER: .*under a roof/);
  });
});

describe('in words', () => {
  it('tells what, when, how much, what to do, with two significant figures and the hedges', async () => {
    const { out } = await run(['Na2S.9H2O 5.00 g', 'HCl 12.0 mL 6.00 mol/L'], { values: { room: '25 m3' } });
    expect(out).toContain('DANGER: sulfide with strong acid.');
    expect(out).toContain('up to about 510 mL of hydrogen sulfide');
    expect(out).toContain('about 20 ppm');
    expect(out).toContain('not an exposure assessment');
    expect(out).toContain('Follow the safety data sheets, your local rules and licences');
  });
  it('says that a room was assumed', async () => {
    expect((await run(['Na2S 1 g', 'vinegar 50 mL'])).out).toContain('30 m³ (no room volume was given)');
  });
});

describe('heat, room and other options', () => {
  it('heats everything, or one thing', async () => {
    const nitrate = (await run(['Cu(NO3)2.3H2O 10 g'], { json: true, values: { heat: ['400 °C'] } })).answer.foreseen;
    expect(nitrate.map((one: { rule: string }) => one.rule)).toEqual(['copper-nitrate-heated']);
    expect(
      (
        await run(['Cu(NO3)2.3H2O 10 g', 'sulfur'], { json: true, values: { heat: ['sulfur: 200 °C'] } })
      ).answer.foreseen.map((one: { rule: string }) => one.rule),
    ).not.toContain('copper-nitrate-heated');
    expect(
      (await run(['sulfur'], { json: true, values: { heat: ['600 K'] } })).answer.foreseen.map(
        (one: { rule: string }) => one.rule,
      ),
    ).toContain('sulfur-heated');
  });
  it('takes the product and the reaction into account', async () => {
    expect(
      (await run(['hydrochloric acid 10 %'], { json: true, values: { product: 'CdS' } })).answer.foreseen[0].gas,
    ).toBe('H2S');
    expect(
      (
        await run(['barium nitrate 2 g', 'manganese dioxide 1 g'], {
          json: true,
          values: { reaction: 'Ba(NO3)2 + MnO2 -> BaMnO4 + 2 NO2' },
        })
      ).answer.foreseen.map((one: { gas?: string }) => one.gas),
    ).toContain('NO2');
  });
  it('judges all else where a temperature or a room is none, and says that it was not read', async () => {
    const hot = await run(['bleach', 'vinegar'], { values: { heat: ['until it is done'] } });
    expect(hot.code).toBe(1);
    expect(hot.out).toMatch(/chlorine/);
    expect(hot.out).toContain('--heat ‘until it is done’ was not read, so that heat is NOT judged');
    for (const room of ['5 g', 'small', '0 m3', '2 x 3 m']) {
      const { code, out } = await run(['Na2S 1 g', 'vinegar 50 mL'], { values: { room } });
      expect([room, code]).toEqual([room, 1]);
      expect(out).toMatch(/^Do not mix these/);
      expect(out).toContain(`--room ‘${room}’ was not read, so that sums are for 30 m³`);
    }
  });
  it('refuses nothing at all', async () => {
    await expect(run([])).rejects.toThrow(WrongUse);
  });
  it('takes a room by its sides', async () => {
    for (const room of [
      '14.4',
      '14.4 m3',
      '2 x 3 x 2.4 m',
      '2m x 3m x 2.4m',
      '14.4 cubic metres',
      '200 × 300 × 240 cm',
    ])
      expect((await run(['Na2S 1 g', 'vinegar 50 mL'], { values: { room } })).out).toContain('room of 14.4 m³ that');
    // 10 ft by 10 ft by 8 ft: 800 cubic feet of 0.028316846592 m3, NIST SP 811 (2008), B.8.
    for (const room of ['10x10x8 ft', '800 cubic feet'])
      expect((await run(['Na2S 1 g', 'vinegar 50 mL'], { values: { room } })).out).toContain('of 22.6534772736 m³');
  });
});

describe('ids of the shelf', () => {
  let journal: string;
  beforeAll(() => {
    journal = '';
  });
  it('bring their formula and strength', async () => {
    journal = folderOf({
      'journal.yaml': settings,
      'shelf.yaml':
        'spirit: { name: spirit of the shop, formula: HCl, strength: 10 % }\nyellow: { name: our yellow, ' +
        'formula: CdS }\n',
    });
    const { code, answer } = await run(['spirit 5 mL', 'yellow 1 g'], { json: true, journal });
    expect([code, answer.foreseen[0].rule, answer.foreseen[0].partners]).toEqual([
      0,
      'metal-sulfide-strong-acid',
      ['our yellow', 'spirit of the shop'],
    ]);
    expect(answer.foreseen[0].worstCase).toBeDefined();
  });
});

it('reads the many ways in which a reagent is written', async () => {
  for (const line of [
    'acetic acid [CH3COOH] (50 %)',
    'CH3COOH 50 %',
    'acetic acid CH3COOH 50 % 10 mL',
    'vinegar',
    'dilute acetic acid',
    'acetic acid (dilute, warm)',
    'CH3COOH 10 mL 99.7 % 1.049 g/mL',
    'CH₃COOH 5 mL',
    '5 mL vinegar',
    'Acetic Acid (5 mL)',
    'acetic acid, 50%',
    'CH3COOH 5 mL dilute',
  ]) {
    const { answer, code } = await run([line, 'KNO2 1 g'], { json: true });
    expect([line, code, answer.foreseen.map((one: { rule: string }) => one.rule)]).toEqual([
      line,
      0,
      expect.arrayContaining(['nitrite-weak-acid']),
    ]);
  }
});

it('loads no reader of tables and no schema, so that it answers at once', () =>
  expect(
    roomsLoaded('foresee', '--journal', 'no-such-journal', 'sodium nitrite 5 g', 'acetic acid 60 % 10 mL'),
  ).toEqual([
    'decimal.js',
    'src',
    'src/chemistry',
    'src/commands',
    'src/hazards',
    'src/kept',
    'src/reagents',
    'src/tables',
  ]));

it('gr on the line is grams, and that is said', async () => {
  const { out } = await run(['sodium nitrite 5 gr', 'vinegar 10 mL']);
  expect(out).toContain('gr mostly stands for grams');
  expect(out).toMatch(/At worst: [^]* nitrogen dioxide/);
});

describe('what a thing is by itself', () => {
  // H314 of sodium hydroxide above 5 %, H350 of chromates of zinc, strontium: CLP Annex VI.
  it.each([
    ['Natronlauge 30 % 50 mL', 'Natronlauge: DANGER. Causes severe skin burns and eye damage. (H314)'],
    ['sulfuric acid 96 % 50 mL', 'H314'],
    ['zinc chromate 5 g', 'May cause cancer.'],
    ['strontium chromate 5 g', 'H350'],
  ])('stands where nothing else is foreseen of it: %s', async (text, words) => {
    const { out } = await run([text]);
    expect(out.replaceAll('\n', ' ')).toMatch(new RegExp(`By itself[^]*${words.replace(/[.()]/g, '\\$&')}`));
    expect((await run([text], { json: true })).answer.cautions.join(' ')).toContain(words);
  });
  it('is not said of what no list classifies, nor of a name that is not known', async () => {
    expect((await run(['chalk 5 g', 'water 10 mL'])).out).not.toContain('By itself');
    expect((await run(['florgle 5 g'])).out).not.toContain('By itself');
  });
});

it('of what a product is sold as, the kind that stands beside it is judged, and no other', async () => {
  const { out } = await run(['limescale remover for toilets, hydrochloric acid 9 % 100 mL', 'bleach 50 mL']);
  expect(out).toContain('hypochlorite with strong acid');
  expect(out).not.toMatch(/ammonia|sulfamic/);
  const both = await run(['oven cleaner and ammonia 10 mL', 'bleach 50 mL']);
  expect(both.out).toContain('caustic soda (NaOH)');
});

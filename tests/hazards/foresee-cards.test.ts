// The cards of foreseen hazards: what must be on them, and the words that never may.
import type { ElementContent } from 'hast';
import { toHtml } from 'hast-util-to-html';
import { describe, expect, it } from 'vitest';
import { foresee } from '../../src/hazards/foresee/foresee.js';
import { kindOfHazard, rulesWith } from '../../src/hazards/foresee/takes-part.js';
import { heatRules, pairRules } from '../../src/hazards/foresee/rules.js';
import { hazardBox } from '../../src/hazards/ghs/index.js';
import type { Entry } from '../../src/journal/entry.js';
import { resolveNamed } from '../../src/reagents/index.js';
import type { DangersReckoning, ForeseenInEntry } from '../../src/reckoning/contracts.js';
import { ingredientOf } from './ingredients.js';
import { dangerLines, dangerStrip } from '../../templates/parts/danger-strip.js';
import { dangersBeforeWork, foreseenInFull, foreseenOnSheet } from '../../templates/parts/foreseen.js';
import { hazardBox as shownBox } from '../../templates/parts/hazard-box.js';
import { reagentRules, type RuleShown } from '../../templates/parts/reagent-rules.js';

const { foreseen } = foresee({
  ingredients: [
    ingredientOf({ name: 'soda', formula: 'Na2CO3', amount: '5 g' }),
    ingredientOf({ name: 'sodium sulfide', formula: 'Na2S', amount: '5 g' }),
    ingredientOf({ name: 'acid', formula: 'HCl', strength: '10 %', amount: '50 mL' }),
  ],
});
const dangers = (answer?: string): DangersReckoning => ({
  box: { pictograms: [], statements: [], precautionary: [], unknown: [] },
  notJudged: ['<odd> powder'],
  cautions: [],
  foreseen: foreseen.map(
    (one): ForeseenInEntry => ({
      ...one,
      samples: ['A'],
      answered: answer && one.severity === 'danger' ? [{ against: 'hydrogen sulfide', do: answer }] : [],
    }),
  ),
  room: { cubicMetres: '30', stated: false, extraction: true },
});
const entry = { reagents: [{}], precautions: [{ against: 'dust', do: 'A mask.' }] } as unknown as Entry;
const html = (children: ElementContent[]): string => toHtml({ type: 'root', children });
const before = html(dangersBeforeWork(dangers('Outdoors, upwind.'), entry));
const after = html(foreseenInFull(dangers('Outdoors, upwind.')));
const strip = toHtml(dangerStrip(dangers('Outdoors, upwind.'), entry, { pictogramsAt: '/style/' }));
const forbidden = /\b(?:OK|okay|safe to|is safe|harmless|all clear|no risk|no danger|all right)\b|✓|✔|optimum|optimal/i;

describe('on an entry’s page', () => {
  it('a danger shows before the work what, from what, and what to do, unfolded', () => {
    const card = before.slice(before.indexOf('data-severity="danger"'), before.indexOf('</article>'));
    for (const words of [
      'Danger',
      'sulfide with strong acid',
      'From acid, sodium sulfide',
      'H<sub>2</sub>S',
      'What to do',
    ])
      expect(card).toContain(words);
    expect(before).not.toContain('<details');
    expect(before).not.toContain('How much at worst');
  });
  it('a danger says under which precaution it is answered, or that it is not', () => {
    const danger = (text: string): string =>
      text.slice(text.indexOf('data-severity="danger"'), text.indexOf('</article>'));
    expect(danger(before)).toContain('<b>Answered above, </b>under ‘hydrogen sulfide’.');
    const open = danger(html(dangersBeforeWork(dangers(), entry)));
    expect(open).not.toContain('Answered above');
    expect(open).toContain('No answer is written for this danger.');
  });
  it('how much at worst, when, and on whose word stand further down, for every foreseen hazard', () => {
    expect(after.match(/<article/g)).toHaveLength(foreseen.length);
    for (const words of [
      'How much at worst',
      '(no room volume was given)',
      'Does smell warn?',
      'Harm later?',
      'Source:',
    ])
      expect(after).toContain(words);
  });
  it('what is lesser is told whole further down, since it stands nowhere else', () => {
    const note = { ...dangers(), foreseen: [{ ...dangers().foreseen![0]!, severity: 'note' as const }] };
    const words = html(dangersBeforeWork(note, entry));
    expect(words).not.toContain('<article');
    expect(words).toContain('Foreseen, as notes: ');
    expect(words).toContain('href="#hazards"');
    expect(html(dangersBeforeWork(dangers(), entry))).not.toContain('as notes');
    for (const words of ['From acid, sodium sulfide', 'What to do'])
      expect(html(foreseenInFull(note))).toContain(words);
  });
  it('says when no answer is written, and names what was not recognised', () => {
    const open = html(dangersBeforeWork(dangers(), entry));
    expect(open).toContain('No answer is written for this danger.');
    expect(open).toContain('Not recognised: &#x3C;odd> powder');
    expect(open).toContain('cannot be called safe');
    expect(open).toContain('What it does when mixed or heated');
    expect(html(dangersBeforeWork({ ...dangers(), notJudged: ['this', 'that'] }, entry))).toContain(
      'Not recognised: this, that. What they do when',
    );
  });
  it('silence is told as silence of the list', () => {
    const nothing = html(dangersBeforeWork({ box: dangers().box, foreseen: [], notJudged: [], cautions: [] }, entry));
    expect(nothing).toContain('Nothing on our list matched. The list is incomplete');
    expect(nothing).not.toMatch(forbidden);
  });
  it('says what to do if it goes wrong', () => {
    const wrong = { ...entry, 'if-it-goes-wrong': 'Step back.' } as Entry;
    expect(html(dangersBeforeWork(dangers(), wrong))).toContain('<b>If it goes wrong. </b>Step back.');
  });
  it('carries no inline style or script', () => expect(before + after + strip).not.toMatch(/style=|<script|on[a-z]+=/));
});

describe('the danger strip', () => {
  const precautions = [
    { against: 'dust', do: 'A mask.' },
    { against: 'hydrogen sulfide', do: 'Outdoors, upwind.' },
  ];
  it(
    'has every precaution of the maker, gravest of what it answers first, and every serious hazard that nobody ' +
      'answered',
    () => {
      const lines = dangerLines(dangers('Outdoors, upwind.'), { precautions });
      expect(lines.map(({ severity, what, own }) => [severity, what, own])).toEqual([
        ['danger', 'hydrogen sulfide', true],
        ...foreseen
          .filter(({ severity }) => severity === 'warning')
          .map(({ consequence, title }) => ['warning', `${consequence}: ${title}`, false]),
        [undefined, 'dust', true],
      ]);
    },
  );
  it('never leaves out a danger that nobody answered', () => {
    const unanswered = dangerLines(dangers(), { precautions: [] });
    expect(unanswered).toHaveLength(foreseen.filter(({ severity }) => severity !== 'note').length);
    expect(unanswered.every(({ own, action }) => !own && action !== '')).toBe(true);
  });
  it('tells the signal word, the gravest statements and what is unknown; nothing of it folds', () => {
    const box = hazardBox([
      { name: 'nitric acid', formula: 'HNO3' },
      { name: 'dragon’s blood' },
      { name: 'sodium carbonate', formula: 'Na2CO3' },
    ]);
    const told = toHtml(dangerStrip({ box }, entry, { pictogramsAt: '/style/' }));
    expect(told).toContain('<b>Danger</b>');
    expect(told).toContain('Causes severe skin burns and eye damage.');
    expect(told).not.toContain('Causes serious eye irritation');
    expect(told).toContain('No hazard data for dragon’s blood: treat as hazardous.');
    expect(told).not.toContain('<details');
  });
  it('says that silence is no all-clear', () => {
    const silent = toHtml(dangerStrip({ box: dangers().box }, { precautions: [] }, { pictogramsAt: '/style/' }));
    expect(silent).toContain('That is no all-clear.');
    expect(silent).not.toMatch(forbidden);
  });
});

it('what hazard statements rest on names each source in full once, and tells the rest that it stands above', () => {
  const box = hazardBox([
    { name: 'copper sulfate', formula: 'CuSO4·5H2O' },
    { name: 'sodium carbonate', formula: 'Na2CO3' },
    { name: 'dragon’s blood' },
  ]);
  const told = toHtml(shownBox(box));
  const rows = [...told.matchAll(/<tr><th>.*?<\/tr>/gs)].map(([row]) => row);
  const full = '<td>classification, EU harmonised: <a href="https://echa.europa.eu/';
  expect(rows.slice(1).map((row) => [row.includes(full), row.includes('harmonised, as above</td>')])).toEqual([
    [true, false],
    [false, true],
    [false, false],
  ]);
  expect(rows[3]).toContain('no hazard data: treat as hazardous');
});

it('on the bench sheet all is unfolded, and the other precautions stand below', () => {
  const sheet = toHtml(foreseenOnSheet(dangers('Outdoors, upwind.'), entry)!);
  expect(sheet).not.toContain('<details');
  expect(sheet).toContain('<b>Dust: </b>A mask.');
});

/** The part of a reagent's page, and so much of it as stands outside every fold. */
function rulesShown(...shown: [rules: readonly RuleShown[], pots?: Parameters<typeof reagentRules>[2]]) {
  const html = toHtml(reagentRules({ base: '/journal' } as never, shown[0], shown[1] ?? []));
  return { html, open: html.replaceAll(/<details>.*?<\/details>/gs, '') };
}

it('formulae are set in conditions and precautions too, and words are left as they are', () => {
  const [rule] = rulesWith(resolveNamed('sodium nitrite', 'NaNO2'));
  const { html } = rulesShown([
    { ...rule!, condition: 'NO turns brown (NO2) above pH 10.5; (Zr,V)SiO4', precaution: 'No H2O2 within 2 m' },
  ]);
  expect(html).toContain('NO turns brown (NO<sub>2</sub>) above pH 10.5; (Zr,V)SiO<sub>4</sub>');
  expect(html).toContain('No H<sub>2</sub>O<sub>2</sub> within 2 m');
});

describe('what a reagent can do, on its page', () => {
  const nitrite = rulesWith(resolveNamed('sodium nitrite', 'NaNO2'));

  it('is every rule in which it takes part, each once', () => {
    expect(nitrite.map(({ rule }) => rule)).toEqual(
      expect.arrayContaining(['nitrite-strong-acid', 'nitrite-ammonium', 'nitrite-heated']),
    );
    expect(nitrite.every(({ severity }) => severity !== 'note')).toBe(true);
    const { html } = rulesShown(nitrite);
    for (const { title } of nitrite) expect(html.toLowerCase()).toContain(title.toLowerCase());
    expect(html.match(/What to do\. /g)).toHaveLength(nitrite.length);
    expect(html).toContain('what is not on it is not thereby safe');
  });
  it('folds what needs another thing, and names that thing outside the fold', () => {
    const { open } = rulesShown(nitrite);
    for (const { meets } of nitrite) for (const one of meets) expect(open).toContain(one);
    expect(nitrite.find(({ rule }) => rule === 'nitrite-ammonium')).toMatchObject({ meets: ['ammonium salt'] });
    expect(open).not.toContain('Nitrite with strong acid');
  });
  it('does not fold what it does by itself or when heated', () => {
    expect(nitrite.find(({ rule }) => rule === 'nitrite-heated')).toMatchObject({ meets: [], heated: true });
    expect(rulesShown(nitrite).open).toMatch(/By itself, or when heated.*Nitrite heated.*What to do\./s);
  });
  it('begins with what was foreseen in the pots of this journal, and does not say it again', () => {
    const pot = { rule: 'nitrite-strong-acid', title: 'nitrite with strong acid', severity: 'danger' } as const;
    const { html, open } = rulesShown(nitrite, [{ ...pot, entries: [9, 8, 7, 6, 5, 4, 3] }]);
    expect(open).toMatch(/own pots.*Nitrite with strong acid.*href="\/journal\/9\/".*and 1 more\..*By itself/s);
    expect(html.match(/Nitrite with strong acid/g)).toHaveLength(1);
  });
  it('says that nothing on the list is no all-clear', () => {
    expect(rulesWith(resolveNamed('dragon dust'))).toEqual([]);
    expect(rulesShown([]).open).toContain(
      'Nothing on our list names it. The list is incomplete; that is no all-clear.',
    );
  });
  it('sorts by the gravest kind, and knows the kind of every consequence', () => {
    expect(kindOfHazard('heat; toxic gas')).toBe('poison');
    expect(kindOfHazard('fire; explosion; toxic gas')).toBe('explosion');
    const serious = [...pairRules(), ...heatRules()].filter(({ severity }) => severity !== 'note');
    const parts = new Set(serious.flatMap(({ consequence }) => consequence.split(';').map((one) => one.trim())));
    expect([...parts].filter((part) => kindOfHazard(part) === 'other')).toEqual([]);
  });
});

it('no word of the tables reassures', () => {
  for (const rule of [...pairRules(), ...heatRules()])
    expect(`${rule.title} ${rule.condition} ${rule.precaution} ${rule.consequence}`, rule.id).not.toMatch(forbidden);
});

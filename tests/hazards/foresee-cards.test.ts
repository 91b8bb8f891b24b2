// The cards of foreseen hazards: what must be on them, and the words that never may.
import { toHtml } from 'hast-util-to-html';
import { describe, expect, it } from 'vitest';
import { foresee } from '../../src/hazards/foresee/foresee.js';
import { rulesWith } from '../../src/hazards/foresee/takes-part.js';
import { heatRules, pairRules } from '../../src/hazards/foresee/rules.js';
import type { Entry } from '../../src/journal/entry.js';
import { resolveNamed } from '../../src/reagents/index.js';
import type { DangersReckoning, ForeseenInEntry } from '../../src/reckoning/contracts.js';
import { ingredientOf } from './ingredients.js';
import { foreseenOnSheet, foreseenSection, ruleList } from '../../templates/parts/foreseen.js';

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
const section = toHtml(foreseenSection(dangers('Outdoors, upwind.'), entry)!);
const forbidden = /\b(?:OK|okay|safe to|is safe|harmless|all clear|no risk|no danger|all right)\b|✓|✔|optimum|optimal/i;

describe('on an entry’s page', () => {
  it('a danger shows what, why, how much, what to do, the answer and the source, unfolded', () => {
    const card = section.slice(section.indexOf('data-severity="danger"'), section.indexOf('</article>'));
    for (const words of [
      'Danger',
      'sulfide with strong acid',
      'From acid, sodium sulfide',
      'H<sub>2</sub>S',
      'What to do',
      'Outdoors, upwind.',
      'How much at worst',
      '(no room volume was given)',
      'Does smell warn?',
      'Harm later?',
      'Source:',
    ])
      expect(card).toContain(words);
    expect(card).not.toContain('<details');
  });
  it('says when no answer is written, and names what was not recognised', () => {
    const open = toHtml(foreseenSection(dangers(), entry)!);
    expect(open).toContain('No answer is written for this danger.');
    expect(open).toContain('Not recognised: &#x3C;odd> powder');
    expect(open).toContain('cannot be called safe');
    expect(open).toContain('What it does when mixed or heated');
    expect(toHtml(foreseenSection({ ...dangers(), notJudged: ['this', 'that'] }, entry)!)).toContain(
      'Not recognised: this, that. What they do when',
    );
  });
  it('silence is told as silence of the list', () => {
    const nothing = toHtml(foreseenSection({ box: dangers().box, foreseen: [], notJudged: [], cautions: [] }, entry)!);
    expect(nothing).toContain('Nothing on our list matched. The list is incomplete');
    expect(nothing).not.toMatch(forbidden);
  });
  it('carries no inline style or script', () => expect(section).not.toMatch(/style=|<script|on[a-z]+=/));
});

it('on the bench sheet all is unfolded, and the other precautions stand below', () => {
  const sheet = toHtml(foreseenOnSheet(dangers('Outdoors, upwind.'), entry)!);
  expect(sheet).not.toContain('<details');
  expect(sheet).toContain('<b>Dust: </b>A mask.');
});

it('formulae are set in conditions and precautions too, and words are left as they are', () => {
  const [rule] = rulesWith(resolveNamed('sodium nitrite', 'NaNO2'));
  const page = toHtml(
    ruleList([
      { ...rule!, condition: 'NO turns brown (NO2) above pH 10.5; (Zr,V)SiO4', precaution: 'No H2O2 within 2 m' },
    ])!,
  );
  expect(page).toContain('NO turns brown (NO<sub>2</sub>) above pH 10.5; (Zr,V)SiO<sub>4</sub>');
  expect(page).toContain('No H<sub>2</sub>O<sub>2</sub> within 2 m');
});

it('a reagent’s page lists the rules it takes part in', () => {
  const rules = rulesWith(resolveNamed('sodium nitrite', 'NaNO2'));
  expect(rules.map(({ rule }) => rule)).toEqual(
    expect.arrayContaining(['nitrite-strong-acid', 'nitrite-ammonium', 'nitrite-heated']),
  );
  expect(rules.every(({ severity }) => severity !== 'note')).toBe(true);
  expect(toHtml(ruleList(rules)!)).toContain('The list is incomplete');
  expect(rulesWith(resolveNamed('dragon dust'))).toEqual([]);
});

it('no word of the tables reassures', () => {
  for (const rule of [...pairRules(), ...heatRules()])
    expect(`${rule.title} ${rule.condition} ${rule.precaution} ${rule.consequence}`, rule.id).not.toMatch(forbidden);
});

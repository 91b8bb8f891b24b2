// Words that are near to a stuff or a danger and mean another thing: a broom, a bed of plaster, a colour that is seen
// while hot, what somebody else had fired, the lid on what cools.
import { describe, expect, it } from 'vitest';
import { readEntry, remarksOn } from '../../../src/journal/index.js';
import { reckonDangers } from '../../../src/reckoning/dangers/dangers.js';
import { emptyRoom } from '../entries.js';

/** All that is told of an entry with a step: of dangers, of what words name, of heat that nobody gives. */
function told(steps: readonly string[], reagent = 'yellow ochre', body = 'Words.'): string {
  const matter = [
    `reagents: [{ reagent: { name: ${JSON.stringify(reagent)} }, amount: 20 g }]`,
    `steps: ${JSON.stringify(steps)}`,
  ].join('\n');
  const head = '---\nnumber: 7\ntitle: A case\ndate: 2026-01-02\nstatus: finished\n';
  const { entry } = readEntry('entries/007-a.md', `${head}${matter}\n---\n${body}\n`);
  const { dangers, findings } = reckonDangers(entry!, emptyRoom);
  const spoken = remarksOn(entry!, findings).filter(({ ruleId }) =>
    ['named-not-judged', 'heat-without-heating', 'step-brings-in'].includes(ruleId),
  );
  const foreseen = (dangers.foreseen ?? []).map(({ title }) => title);
  return [...foreseen, ...(dangers.cautions ?? []), ...spoken.map(({ reason }) => reason)].join('\n');
}

describe('is not told of', () => {
  it.each([
    ['Stir with a broom handle.', /brom/i],
    ['Swept the floor with the soft broom afterwards.', /brom/i],
    ['Paste of pigment and water, paint at once.', /paint/i],
    ['Mull for ten minutes and paint out on primed card.', /paint/i],
    ['Thin with water, paint straight away on paper.', /paint/i],
    ['Lemon yellow while hot, white again when cold.', /lemon yellow/i],
    ['Heat to 300 °C in air; vermilion when hot, brown on cooling.', /vermilion/i],
    ['Wash it; emerald green when wet, duller when dry.', /emerald green/i],
    ['Naples yellow by daylight, pinker under the lamp.', /naples yellow/i],
    ['Wash until barium paper shows hardly any cloud.', /alkali metal|explosion/i],
    ['Wash until a drop of barium shows nothing in the washings.', /alkali metal|explosion/i],
    ['Wash until the barium test is clear.', /alkali metal|explosion/i],
    ['Dry on plaster.', /plaster/i],
    ['Drain the mud on a plaster bat overnight.', /plaster/i],
    ['Spread on a slab of plaster of Paris.', /plaster/i],
    ['Schlamm auf Gips trocknen.', /plaster|gips/i],
    ['Sécher sur une plaque de plâtre.', /plaster|plâtre/i],
    ['pH strip reads 7 to 8 at the end.', /phenolphthalein|C20H14O4/i],
    ['Grind in the mortar (never used for food).', /food/i],
    ['Heat in a pan that is no longer used for food.', /food/i],
    ['Use the old mill, which is not for food any more.', /food/i],
  ])('what only sounds so: %s', (step, what) => expect(told([step])).not.toMatch(what));

  it.each([
    'Boil the water for five minutes to drive the air out, cool with a lid on.',
    'Simmer the earth for an hour, let it cool with the lid on.',
    'Boil for ten minutes, allow to cool, screw the lid on.',
    'Boil it, and when cold put the lid on.',
    'Zehn Minuten kochen, abkühlen lassen, Deckel drauf.',
  ])('a vessel that is closed only to cool: %s', (step) => expect(told([step])).not.toMatch(/closed vessel/));

  it.each([
    'The bones had been charred by the maker, long before my time.',
    'It had been calcined by the supplier at red heat.',
    'The umber was burnt by the colourman and not by me.',
    'The earth was fired by its seller.',
    'It comes already roasted from the mill.',
  ])('heat that others gave it: %s', (body) =>
    expect(told(['Mull with alcohol and water.'], 'bone black', body)).not.toMatch(/no heating|\bfired\b.*dangers/),
  );

  it.each([
    ['ochre clay from the bank below Mercury Bridge', /mercury \(Hg\)|mercury metal/i],
    ['ochre from Silver Hill', /silver/i],
    ['sand from Lead Mill Lane', /lead/i],
    ['clay from the pit at Chlorine Farm', /chlorine/i],
    ['red earth, Copper Beach', /copper/i],
  ])('a place that is called so: %s', (reagent, what) =>
    expect(told(['Stir with water.'], reagent).replaceAll(reagent, '')).not.toMatch(what),
  );
});

describe('is told of', () => {
  it.each([
    ['Pour 5 mL bromine in.', /brom/i],
    ['Stir lemon yellow 2 g in.', /lemon yellow/i],
    ['Stir plaster of Paris into the water.', /plaster/i],
    ['Boil it in the jar with the lid screwed on.', /closed vessel/],
    ['Cool it, screw the lid on tight, then boil the jar.', /closed vessel/],
    ['Heat to 300 °C with the lid screwed on, cool.', /closed vessel/],
  ])('what is there: %s', (step, what) => expect(told([step])).toMatch(what));
  it('a heat that the maker gave it', () =>
    expect(told(['Mull with water.'], 'bone black', 'I charred the bones myself.')).toMatch(/no heating/));
  it('mercury in what is called after it', () =>
    expect(told(['Stir.'], 'mercury from the bridge')).toMatch(/mercury/i));
});

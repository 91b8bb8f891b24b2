// Which words under `do:` say what is done about a hazard. Common practice, no source: the cases are our own.
import { describe, expect, it } from 'vitest';
import { isAnswer, whyNoAnswer } from '../../src/hazards/foresee/says-what-is-done.js';

describe('words that say nothing of what is done', () => {
  it.each([
    'ok',
    'OK.',
    'nothing',
    'None',
    'careful',
    'Carefully!',
    'see above',
    'as usual',
    'Be careful.',
    'ok ok ok ok ok',
    'be very careful as always',
    'see what I wrote above',
    'I will be careful with it',
    'nothing was needed here',
    'not needed, it is safe',
    'take all the necessary precautions',
    'a b c d e f',
    '…',
    '',
    '!!! ??? ---',
    '1 2 3 4 5',
    'siehe oben',
    'Vorsicht, wie immer vorsichtig sein',
    'nicht nötig, nichts gemacht',
    'voir ci-dessus',
    'il faut faire très attention',
    'rien à faire',
  ])('%s', (words) => {
    expect(whyNoAnswer(words)).toBe('nothing');
    expect(isAnswer(words)).toBe(false);
  });
  it('repeat the hazard', () => {
    expect(whyNoAnswer('be careful with the brown fumes', 'brown fumes')).toBe('nothing');
    expect(whyNoAnswer('Careful with the fumes, no brown ones', 'Brown fumes')).toBe('nothing');
  });
});

describe('fewer than four words', () => {
  it.each(['Outdoors.', 'A mask.', 'Glasses on.', 'Outdoors, no flame.', 'Outdoors, 5 g.', '屋外'])(
    '%s are too few',
    (words) => {
      expect(whyNoAnswer(words, 'dust')).toBe('too-short');
    },
  );
});

describe('words that may be an answer', () => {
  it.each([
    'Outdoors, a drop at a time.',
    'Not done at all, ever.',
    'Not mixed at all.',
    'Ground damp under the cover.',
    'Gloves, glasses, old trousers, outdoors.',
    'No flame, no hot plate.',
    'Weak solutions, cold, lye from the pipette, goggles.',
    'Don’t mix it, leave it',
    'Im Freien, tropfenweise, gegen den Wind.',
    'Dehors, goutte à goutte, sans flamme.',
    'ドラフト内で少量ずつ加え、火気を避ける。',
    'В вытяжном шкафу, по каплям.',
  ])('%s', (words) => {
    expect(whyNoAnswer(words, 'nitrogen oxides')).toBeUndefined();
    expect(isAnswer(words, 'nitrogen oxides')).toBe(true);
  });
  it('are not spoilt by naming the hazard', () => {
    expect(whyNoAnswer('Fumes drawn off outdoors by the fan', 'fumes')).toBeUndefined();
  });
});

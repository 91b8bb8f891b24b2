// Heat in words: the published range of a word is what it is taken for, and danger is judged at its top.
import { describe, expect, test } from 'vitest';
import { heatWordsIn, judgedCelsius, readHeat } from '../../src/reagents/index.js';

const ends = (written: string): readonly number[] => {
  const { low, high } = readHeat(written);
  return [low.toNumber(), high.toNumber()];
};

describe('a heat whose scale is told without its sign', () => {
  test.each([
    ['250C', 250],
    ['250 c', 250],
    ['250oC', 250],
    ['250 deg C', 250],
    ['60 celsius', 60],
    ['482F', 250],
    ['482 deg. F', 250],
    ['482 Fahrenheit', 250],
    ['oven, 180C fan', 180],
    ['200-250C', 250],
  ])('%s is %s °C at most', (written, celsius) => {
    expect(readHeat(written).high.toNumber()).toBeCloseTo(celsius, 6);
  });
  test.each(['2 cups', '10 fl oz', '3 cm'])('%s tells no heat', (written) => {
    expect(readHeat(written).known).toBe('not-known');
  });
});

describe('a heat in words', () => {
  // Orton pyrometric cone equivalent temperatures; oven marks of a UK recipe table, exact scale and a cooker's manual;
  // glow colours of two modern scales. Kitchen words and warm places: common practice, no source.
  test.each([
    ['cone 04', 1060, 1063],
    ['cone 6', 1222, 1222],
    ['Cone 022', 586, 630],
    ['gas mark 4', 177, 195],
    ['Gas Mark ½', 110, 130],
    ['cherry red', 700, 750],
    ['red heat', 500, 850],
    ['dull red', 500, 600],
    ['boiling', 99, 101],
    ['water bath', 20, 100],
    ['sun', 45, 75],
    ['warm', 30, 50],
    ['hand hot', 40, 50],
    ['room temperature', 15, 25],
  ])('%s is %f to %f °C', (written, low, high) => {
    expect(ends(written)).toEqual([low, high]);
    expect(readHeat(written).known).toBe('word');
    expect(readHeat(written).source).not.toBe('');
  });
  test('among other words it is found, and of several the hottest, or the one with a number, counts', () => {
    expect(readHeat('in the oven, gas mark 9')).toMatchObject({ word: 'gas mark 9' });
    expect(judgedCelsius('to red heat, in the camp stove')).toBe(850);
    expect(heatWordsIn('cherry red in the camp fire').map(({ word }) => word)).toEqual(['cherry red', 'glowing coals']);
  });
  test('a number goes before words', () => {
    expect(ends('60 °C')).toEqual([60, 60]);
    expect(ends('40-50 °C')).toEqual([40, 50]);
    expect(ends('oven at 180 °C')).toEqual([180, 180]);
    expect(judgedCelsius('about 60 °C')).toBe(66);
    // 212 °F is 100 °C by definition of the scale.
    expect(judgedCelsius('212 °F')).toBeCloseTo(100, 10);
  });
  test('what says nothing of heat is taken at its worst', () => {
    expect(readHeat('until it looks right').known).toBe('not-known');
    expect(judgedCelsius('until it looks right')).toBe(1300);
  });
});

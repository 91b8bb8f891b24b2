// Sentences about a name are of one thing or of several.
import { describe, expect, it } from 'vitest';
import { isPlural } from '../../src/reagents/index.js';

describe('a name of several things', () => {
  it.each([
    'iodine crystals',
    'bleach tablets',
    'iron filings',
    'copper nails',
    'soda crystals (washing soda)',
    'flakes of lye',
    'matches',
  ])('%s', (name) => expect(isPlural(name)).toBe(true));
});
describe('a name of one thing', () => {
  it.each([
    'bleach',
    'brass',
    'asbestos',
    'copperas',
    'aqua fortis',
    'phosphorus',
    'town gas',
    'plaster of Paris',
    'borax',
    'powder for tiles, white',
    'CuS',
    'As',
    '',
  ])('%s', (name) => expect(isPlural(name)).toBe(false));
});

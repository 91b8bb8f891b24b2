// Products that only their use tells, and words that sound like it and mean something else.
import { describe, expect, it } from 'vitest';
import { namesInWords, productsByUse } from '../../src/reagents/index.js';

describe('a product that only its use tells', () => {
  it.each([
    ['most of a tub of the stuff for the drains', 'drain cleaner'],
    ['a cup of the powder that unblocks the sink', 'drain cleaner'],
    ['a glug of the stuff you top up a car battery with', 'battery acid'],
    ['what goes in car batteries', 'battery acid'],
    ['a spoon of stump rotter', 'stump remover'],
    ['the crystals for tree stumps', 'stump remover'],
    ['three spoons of the granules we shock the pool with', 'pool shock'],
    ['the tablets for the swimming pool', 'pool shock'],
    ['the thick stuff for under the lavatory rim', 'toilet cleaner'],
    ['what you clean new brickwork with', 'brick cleaner'],
    ['the liquid that takes the rust off', 'rust remover'],
    ['the powder for sterilising wine bottles', 'campden tablets'],
    ['the stuff that stops the car radiator freezing', 'antifreeze'],
    ['the stuff for getting limescale off the loo', 'limescale remover'],
    ['the powder for making soap', 'lye'],
    ['das Zeug für den verstopften Abfluss', 'drain cleaner'],
    ['das Pulver gegen Kalkflecken', 'limescale remover'],
    ['le produit pour déboucher l’évier', 'drain cleaner'],
    ['la poudre pour la piscine', 'pool shock'],
    ['el producto para desatascar tuberías', 'drain cleaner'],
    ['lo que se echa en la piscina', 'pool shock'],
    ['il prodotto per sturare il lavandino', 'drain cleaner'],
    ['la polvere per i ceppi', 'stump remover'],
  ])('is called by its name: %s', (words, product) => expect(productsByUse(words)).toEqual([product]));
  it.each([
    'the liquid went down the drain',
    'a powder of old bricks',
    'powder for the tiles',
    'the stuff for the oven stood ready',
    'what I took from the battery',
    'crystals for the windows of the dolls’ house',
    'das Pulver für die Fliesen',
    'poudre de briques',
    'polvo de ladrillo',
    'the powder that is not for drains',
    'the granules came from the pool',
    'a gel, and then for the toilet we left',
  ])('is none in other words: %s', (words) => expect(productsByUse(words)).toEqual([]));
  it('stands in a sentence as a product does', () => {
    const [foil, product] = namesInWords('Kitchen foil and then the stuff for the drains.');
    expect([foil!.name, product!.name]).toEqual(['Kitchen foil', 'drain cleaner']);
  });
});

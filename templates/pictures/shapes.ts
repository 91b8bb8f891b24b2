// The shapes that drawings hold by the dozen, made as trees directly: JSX takes several times as long for each.
import type { Element, ElementContent, Properties } from 'hast';
import { box } from './hand.js';

type ShapeProperties = Readonly<Record<string, string | number | string[] | undefined>>;

/** An SVG element; what is undefined among its properties is left out. Names of properties are hast's (`strokeOpacity`). */
export const shape = (tagName: string, properties: ShapeProperties, children: ElementContent[] = []): Element => ({ type: 'element', tagName, properties: properties as Properties, children });

/** Words at a place, beginning there unless anchored otherwise. */
export const label = (x: number, y: number, words: string | number, anchor?: 'middle' | 'end', more: ShapeProperties = {}): Element =>
  shape('text', { x, y, textAnchor: anchor, ...more }, [{ type: 'text', value: String(words) }]);

/** Shapes that share properties. */
export const group = (properties: ShapeProperties, children: ElementContent[]): Element => shape('g', properties, children);

/** A painted field; without a colour an empty outline. */
export const field = (x: number, y: number, width: number, height: number, fill: string | undefined): Element => (fill
  ? shape('path', { d: box(x, y, width, height), fill })
  : shape('path', { className: ['unpainted'], d: box(x + 0.5, y + 0.5, Math.max(0, width - 1), height - 1), fill: 'none', stroke: '#000', strokeDashArray: '4 4' }));

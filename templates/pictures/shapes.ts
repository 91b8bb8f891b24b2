// The shapes that drawings hold by the dozen, made as trees directly: JSX takes several times as long for each.
import type { Element, ElementContent, Properties } from 'hast';
import { tidy } from './hand.js';

type ShapeProperties = Readonly<Record<string, string | number | string[] | undefined>>;

/**
 * An SVG element; what is undefined among its properties is left out. Names of properties are hast's
 * (`strokeOpacity`).
 */
export const shape = (tagName: string, properties: ShapeProperties, children: ElementContent[] = []): Element => ({
  type: 'element',
  tagName,
  properties: properties as Properties,
  children,
});

/** Words at a place, beginning there unless anchored otherwise; what is undefined of it is 0. */
export const label = (
  x: number | undefined,
  y: number | undefined,
  words: string | number,
  anchor?: 'middle' | 'end',
  more: ShapeProperties = {},
): Element => shape('text', { x, y, textAnchor: anchor, ...more }, [{ type: 'text', value: String(words) }]);

/** Shapes that share properties. */
export const group = (properties: ShapeProperties, children: ElementContent[]): Element =>
  shape('g', properties, children);

/**
 * A painted field of a group as broad as its stroke, which takes half the room of a rectangle; without a colour an
 * empty outline.
 */
export const field = (x: number, y: number, width: number, height: number, stroke: string | undefined): Element =>
  stroke
    ? shape('path', { d: `M${tidy(x)} ${tidy(y + height / 2)}h${tidy(width)}`, stroke })
    : shape('rect', {
        className: ['unpainted'],
        x: tidy(x + 0.5),
        y: y + 0.5,
        width: tidy(Math.max(0, width - 1)),
        height: height - 1,
        fill: 'none',
        stroke: '#000',
        strokeWidth: 1,
        strokeDashArray: '4 4',
      });

// The root of every larger drawing: an SVG image with a name and a description in words for those who cannot see it.
import type { Element, ElementContent } from 'hast';
import { shape } from './shapes.js';

export interface DrawingFrame {
  readonly title: string;
  /** What the drawing shows, in words. */
  readonly description: string;
  readonly kind: string;
  readonly width: number;
  readonly height: number;
  /** Keeps its own width instead of the style sheet's, so that its words stay readable. */
  readonly ownWidth?: boolean;
}

/**
 * An SVG image with its text alternative; sizes follow the style sheet, proportions the frame. Words are in
 * currentColor.
 */
export function drawing(
  { title, description, kind, width, height, ownWidth = false }: DrawingFrame,
  content: readonly ElementContent[],
): Element {
  return shape(
    'svg',
    {
      className: ['drawing', ...kind.split(' ')],
      viewBox: `0 0 ${width} ${height}`,
      width: ownWidth ? width : undefined,
      role: 'img',
      ariaLabel: `${title}. ${description}`,
    },
    [...content],
  );
}

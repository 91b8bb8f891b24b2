/** @jsxImportSource hastscript/svg */
// The root of every larger drawing: an SVG image with a title and a description in words for those who cannot see it.
import type { Element, ElementContent } from 'hast';

export interface DrawingFrame {
  /** Unique on its page; the title's and description's ids are made from it. */
  readonly id: string;
  readonly title: string;
  /** What the drawing shows, in words. */
  readonly description: string;
  readonly kind: string;
  readonly width: number;
  readonly height: number;
}

/** An SVG image with its text alternative; sizes follow the style sheet, proportions the frame. Words are in currentColor. */
export function drawing({ id, title, description, kind, width, height }: DrawingFrame, content: readonly ElementContent[]): Element {
  const name = id.replace(/[^\p{L}\p{N}_-]+/gu, '-');
  return (
    <svg class={`drawing ${kind}`} viewBox={`0 0 ${width} ${height}`} width={width} height={height} fill="currentColor" font-size={11} role="img" aria-labelledby={`${name}-title ${name}-desc`}>
      <title id={`${name}-title`}>{title}</title>
      <desc id={`${name}-desc`}>{description}</desc>
      {[...content]}
    </svg>
  ) as Element;
}

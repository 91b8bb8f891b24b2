// Headings of an entry's parts: each is a link to itself, so that a part can be shared.
import type { Element, ElementContent } from 'hast';
import { madeOnce } from '../of-many-pages.js';

/** A heading that leads to itself. */
export const linkedHeading = madeOnce(
  (id: string, title: string) =>
    (
      <h2 id={id}>
        <a href={`#${id}`}>{title}</a>
      </h2>
    ) as Element,
);

/** A part of an entry's page under its heading, as the list of contents names it. */
export interface EntryPart {
  readonly id: string;
  readonly title: string;
  readonly content: readonly ElementContent[];
  readonly className?: string;
}

/**
 * The part as a section under its heading. It has no name of its own: a page of fifteen named regions would hide those
 * that matter from who moves from region to region, and headings lead to the same places.
 */
export const entryPart = ({ id, title, content, className }: EntryPart): Element =>
  (
    <section class={className}>
      {linkedHeading(id, title)}
      {[...content]}
    </section>
  ) as Element;

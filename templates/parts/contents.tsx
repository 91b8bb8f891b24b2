// The list of an entry's parts: beside them on a wide screen, where it stays in sight, and folded above them on a
// narrow one.
import type { Element } from 'hast';

export interface ContentsLine {
  readonly id: string;
  readonly title: string;
}

export const contentsList = (lines: readonly ContentsLine[]): Element =>
  (
    <nav class="contents" aria-label="On this page">
      <details>
        <summary>On this page</summary>
        <ol>
          {lines.map(({ id, title }) => (
            <li>
              <a href={`#${id}`}>{title}</a>
            </li>
          ))}
        </ol>
      </details>
    </nav>
  ) as Element;

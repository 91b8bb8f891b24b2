// How serious a foreseen hazard is: a lozenge, full, half full or open, as the diamonds of the hazard pictograms
// stand beside it.
import type { Element } from 'hast';
import { madeOnce } from '../of-many-pages.js';

export type Severity = 'danger' | 'warning' | 'note';

export const severityWords = { danger: 'Danger', warning: 'Warning', note: 'Note' } as const;

const outline = 'M8 1l7 7-7 7-7-7z';
const lowerHalf = 'M1 8h14l-7 7z';

function lozenge(severity: Severity): Element[] {
  if (severity === 'danger') return [(<path d={outline} fill="currentColor" />) as Element];
  const half = severity === 'warning' ? [(<path d={lowerHalf} fill="currentColor" />) as Element] : [];
  return [(<path d={outline} />) as Element, ...half];
}

/** The mark alone, named for those who hear the page. */
export const severityMark = madeOnce(
  (severity: Severity) =>
    (
      <svg viewBox="0 0 16 16" role="img" aria-label={severityWords[severity]}>
        {lozenge(severity)}
      </svg>
    ) as Element,
);

/** The mark with its word. */
export const severityLabel = madeOnce(
  (severity: Severity) =>
    (
      <span class={severity === 'danger' ? 'severity severity-danger' : 'severity'}>
        <svg viewBox="0 0 16 16" aria-hidden="true">
          {lozenge(severity)}
        </svg>
        {` ${severityWords[severity]}`}
      </span>
    ) as Element,
);

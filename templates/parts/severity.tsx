// How serious a foreseen hazard is: a lozenge, full, half full or open, as the diamonds of the hazard pictograms
// stand beside it.
import type { Element } from 'hast';

export type Severity = 'danger' | 'warning' | 'note';

export const severityWords = { danger: 'Danger', warning: 'Warning', note: 'Note' } as const;

const outline = 'M8 1l7 7-7 7-7-7z';
const filled: Readonly<Record<Severity, string | undefined>> = {
  danger: outline,
  warning: 'M1 8h14l-7 7z',
  note: undefined,
};

/** The mark alone, named for those who hear the page. */
export function severityMark(severity: Severity): Element {
  const full = filled[severity];
  return (
    <svg class="severity-mark" viewBox="0 0 16 16" role="img" aria-label={severityWords[severity]}>
      <path d={outline} />
      {full ? <path d={full} fill="currentColor" /> : null}
    </svg>
  ) as Element;
}

/** The mark with its word. */
export const severityLabel = (severity: Severity): Element =>
  (
    <span class={`severity severity-${severity}`}>
      <svg class="severity-mark" viewBox="0 0 16 16" aria-hidden="true">
        <path d={outline} />
        {filled[severity] ? <path d={filled[severity]} fill="currentColor" /> : null}
      </svg>
      {` ${severityWords[severity]}`}
    </span>
  ) as Element;

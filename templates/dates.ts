// Dates as readers see them.
const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** `2026-03-14` → `14 March 2026`, `2026-03` → `March 2026`; anything else is shown as it is. */
export function longDate(iso: string): string {
  const [year, month, day] = iso.split('-');
  const name = months[Number(month) - 1];
  if (!name) return iso;
  return day ? `${Number(day)} ${name} ${year}` : `${name} ${year}`;
}

/** Words with dates among them. @example withLongDates('data sheet, 2024-05-02') // 'data sheet, 2 May 2024' */
export const withLongDates = (words: string): string => words.replaceAll(/\b\d{4}-\d{2}-\d{2}\b/g, longDate);

/** `2026-03` → `March`; anything else is shown as it is. */
export const monthName = (iso: string): string => months[Number(iso.split('-')[1]) - 1] ?? iso;

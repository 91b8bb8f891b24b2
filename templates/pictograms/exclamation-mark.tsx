// GHS07, exclamation mark.
import type { Element } from 'hast';

export const exclamationMark = (): readonly Element[] => [
  (<path d="M100 42c-9 0-15 7-14 17l7 62c.5 4 3 7 7 7s6.500-3 7-7l7-62c1-10-5-17-14-17Z" />) as Element,
  (<circle cx="100" cy="146" r="12.500" />) as Element,
];

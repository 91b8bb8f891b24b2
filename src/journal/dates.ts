// Days in their order, of which some are known to their month only.

/**
 * Whether one date is after another on whatever day of its month that was.
 * @param one `2025-07-03`, or `2025-07` where the day is not known
 * @example isSurelyAfter('2025-07-03', '2025-07') // false: it may have been the 4th
 */
export const isSurelyAfter = (one: string, other: string): boolean => one > other && !one.startsWith(other);

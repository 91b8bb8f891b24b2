/** From so many entries on memory counts for more than a few hundredths of the time. */
export const manyEntries = 1500;

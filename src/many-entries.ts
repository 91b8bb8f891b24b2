/** From so many entries on memory counts for more than a few hundredths of the time. */
export const manyEntries = 1500;

/** Of so many entries what is soon asked for again is held where there are many. */
export const fewEntries = 100;

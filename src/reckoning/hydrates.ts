// Salts that are usually sold with water of crystallisation: written without it, they get a question.
export { usualHydrate } from '../reagents/index.js';

/** Words with which a maker says that the salt is free of water. */
export const anhydrousWords = /\b(?:anhydrous|calcined|dried|dehydrated|fused|water-free|burnt)\b/i;

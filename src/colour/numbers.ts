// The shapes of numbers that colour is told in.

/** X, Y, Z (Y = 100 for white) or L*, a*, b*. */
export type Triple = readonly [number, number, number];

/** CIE standard observer: 2° (1931) or 10° (1964). */
export type Observer = 2 | 10;

/** Illuminants whose tables are here. */
export const illuminants = ['D65', 'D50', 'A', 'F2', 'F11', 'LED-B3'] as const;
export type Illuminant = (typeof illuminants)[number];

/** The lamps that a sample is shown under, daylight first. */
export const lamps = ['D65', 'D50', 'A', 'F11', 'LED-B3'] as const;
export type Lamp = (typeof lamps)[number];

/** What each lamp is called on a page. */
export const lampNames: Readonly<Record<Illuminant, string>> = {
  D65: 'daylight',
  D50: 'warm daylight',
  A: 'lamplight',
  F2: 'office light',
  F11: 'shop light',
  'LED-B3': 'modern lamp',
};

/** The same after 'under': `under a modern lamp`. */
export const underNames: Readonly<Record<Illuminant, string>> = { ...lampNames, 'LED-B3': 'a modern lamp' };

export const isIlluminant = (text: string): text is Illuminant => (illuminants as readonly string[]).includes(text);

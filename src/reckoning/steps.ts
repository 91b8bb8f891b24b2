// One step of an entry, whether it is written as words alone or with keys.
import type { Entry } from '../journal/entry.js';
import { judgedCelsius } from '../reagents/index.js';

export type StepWritten = NonNullable<Entry['steps']>[number];

/** What it says is done. */
export const wordsOfStep = (step: StepWritten): string => (typeof step === 'string' ? step : step.do);

/** °C that its key of heat says, if it has one. */
export const heatOfStep = (step: StepWritten): readonly number[] =>
  typeof step === 'string' || step.heat === undefined ? [] : [judgedCelsius(step.heat)];

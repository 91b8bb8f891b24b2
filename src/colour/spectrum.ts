// A reflectance spectrum: what it may be, its mean, and its values at the wavelengths of the CIE tables.
import { onceFor } from '../once.js';
import { bad, good, type Fault, type Outcome } from './faults.js';

/** Reflectance factors (0 … 1; a little over 1 is possible) at rising wavelengths in nanometres. */
export interface Spectrum {
  readonly wavelengths: readonly number[];
  readonly reflectance: readonly number[];
}

/** First, last and step of the CIE tables that are summed over, nm. */
export const tableRange = { first: 380, last: 780, step: 5, count: 81 } as const;

/** What lies outside is not looked at: the CIE tables summed over end here, nm. */
export const visibleRange = { from: 380, to: 780 } as const;

/**
 * The coarsest step that can be reckoned with, and the range that must be covered, nm (ASTM E308 gives weights up to
 * 20 nm).
 */
export const coarsestStep = 20;
export const neededRange = { first: 400, last: 700 } as const;

/** Spectrometers give odd wavelengths: 400.3 to 699.8 nm is the whole range, 401 to 699 is not. */
const short = 1;

/** Of steps between neighbours, the one that half of them are under. */
const usualStep = (wavelengths: readonly number[]): number => {
  const steps = wavelengths
    .slice(1)
    .map((nm, index) => nm - wavelengths[index]!)
    .sort((a, b) => a - b);
  return steps[Math.floor(steps.length / 2)] ?? 0;
};

/** What is wrong with a row of wavelengths, and at which of them. */
export type WavelengthFault = Fault & { readonly at: number };

/** Units that a row which is not in nanometres may be in. */
function unitCure(nm: number): string {
  if (nm > 0.15 && nm < 3) return 'These look like micrometres; give nanometres.';
  if (nm > 3000) return 'If these are ångströms or wavenumbers, give nanometres.';
  return 'Give wavelengths in nanometres.';
}

function notAWavelength(wavelengths: readonly number[]): WavelengthFault | undefined {
  const at = wavelengths.findIndex((nm) => !Number.isFinite(nm) || nm < 150 || nm > 3000);
  if (at < 0) return undefined;
  return {
    code: 'not-a-wavelength',
    message: `${wavelengths[at]} is not a wavelength in nanometres.`,
    at,
    expected: 'a wavelength in nm, 400 to 700 at least',
    cure: unitCure(wavelengths[at]!),
  };
}

function orderFault(wavelengths: readonly number[]): WavelengthFault | undefined {
  const at = wavelengths.findIndex((nm, i) => i > 0 && nm <= wavelengths[i - 1]!);
  if (at < 0) return undefined;
  const [before, nm] = [wavelengths[at - 1]!, wavelengths[at]!];
  if (nm === before)
    return {
      code: 'wavelength-twice',
      message: `${nm} nm stands twice.`,
      at,
      cure: 'Leave one of the two rows out.',
    };
  return {
    code: 'wrong-order',
    message: `${nm} nm follows ${before} nm.`,
    at,
    expected: 'rising wavelengths',
    cure: 'Sort the rows by rising wavelength.',
  };
}

/** A step over this many times the usual one is a gap. */
const gapOver = 1.5;

function stepFault(wavelengths: readonly number[]): WavelengthFault | undefined {
  const step = usualStep(wavelengths);
  if (step > coarsestStep)
    return {
      code: 'step-too-coarse',
      message: `The step is ${step} nm.`,
      at: 1,
      expected: `steps of ${coarsestStep} nm or finer`,
      cure: 'Export the spectrum in finer steps.',
    };
  const widest = Math.min(gapOver * step, coarsestStep);
  const at = wavelengths.findIndex((nm, i) => i > 0 && nm - wavelengths[i - 1]! > widest);
  if (at < 0) return undefined;
  const before = wavelengths[at - 1]!;
  return {
    code: 'gap',
    message: `Nothing is given between ${before} and ${wavelengths[at]} nm.`,
    at,
    expected: `a value at ${before + step} nm`,
    cure: 'Give the missing values, or export the spectrum again.',
  };
}

function rangeFault(wavelengths: readonly number[]): WavelengthFault | undefined {
  const first = wavelengths[0]!;
  const last = wavelengths.at(-1)!;
  const startsLate = first >= neededRange.first + short;
  if (!startsLate && last > neededRange.last - short) return undefined;
  return {
    code: 'range-too-short',
    message: `The spectrum goes from ${first} to ${last} nm.`,
    at: startsLate ? 0 : wavelengths.length - 1,
    expected: `${neededRange.first} to ${neededRange.last} nm at least`,
    cure: 'Measure or export the whole visible range; what is missing cannot be guessed.',
  };
}

/**
 * The fault of a row of wavelengths, or undefined if they will do. `at` is the index of the wavelength that is wrong.
 * @example wavelengthFault([400, 410, 400])?.code // 'wrong-order'
 */
export function wavelengthFault(wavelengths: readonly number[]): WavelengthFault | undefined {
  if (wavelengths.length < 2)
    return {
      code: 'too-few-values',
      message: 'There are fewer than two wavelengths.',
      at: 0,
      cure: 'Give a spectrum from 400 to 700 nm in steps of 20 nm or finer.',
    };
  return notAWavelength(wavelengths) ?? orderFault(wavelengths) ?? stepFault(wavelengths) ?? rangeFault(wavelengths);
}

/**
 * A spectrum, if it can be one: finite reflectance of 0 to 1.5 at wavelengths that will do.
 * @example makeSpectrum([400, 420], [0.1]).ok // false
 */
export function makeSpectrum(wavelengths: readonly number[], reflectance: readonly number[]): Outcome<Spectrum> {
  const fault = wavelengthFault(wavelengths);
  if (fault) return bad(fault);
  if (wavelengths.length !== reflectance.length)
    return bad({
      code: 'missing-value',
      message: `${wavelengths.length} wavelengths have ${reflectance.length} values.`,
      cure: 'Give one value for each wavelength.',
    });
  for (const [at, value] of reflectance.entries()) {
    if (!Number.isFinite(value))
      return bad({ code: 'not-a-number', message: `The value at ${wavelengths[at]} nm is not a number.` });
    if (value < 0)
      return bad({ code: 'negative-reflectance', message: `The reflectance at ${wavelengths[at]} nm is negative.` });
  }
  return good({ wavelengths, reflectance });
}

/**
 * The mean of several readings at the same wavelengths.
 * @example meanSpectrum([s, s]) // s
 */
export function meanSpectrum(spectra: readonly Spectrum[]): Spectrum {
  const first = spectra[0];
  if (!first) throw new Error('the mean of no spectra');
  if (spectra.length === 1) return first;
  const same = spectra.every(
    ({ wavelengths }) =>
      wavelengths.length === first.wavelengths.length && wavelengths.every((nm, i) => nm === first.wavelengths[i]),
  );
  if (same)
    return {
      wavelengths: first.wavelengths,
      reflectance: first.wavelengths.map(
        (_, i) => spectra.reduce((sum, { reflectance }) => sum + reflectance[i]!, 0) / spectra.length,
      ),
    };
  // Readings of different instruments: the mean is taken at the wavelengths of the CIE tables that all of them cover.
  const from = Math.max(...spectra.map(({ wavelengths }) => wavelengths[0]!));
  const to = Math.min(...spectra.map(({ wavelengths }) => wavelengths.at(-1)!));
  const nodes = spectra.map(atTableWavelengths);
  const kept = Array.from({ length: tableRange.count }, (_, i) => i).filter((i) => {
    const nm = tableRange.first + i * tableRange.step;
    return nm >= from && nm <= to;
  });
  return {
    wavelengths: kept.map((i) => tableRange.first + i * tableRange.step),
    reflectance: kept.map((i) => nodes.reduce((sum, node) => sum + node[i]!, 0) / spectra.length),
  };
}

/**
 * Reflectance at 380, 385 … 780 nm: read off where measured, interpolated between (Sprague's fifth-order formula for
 * even steps, a natural cubic spline for uneven ones), first and last value held outside the measured range.
 * Sources: CIE 167:2005 (formulae as carried by colour-science); ASTM E308 (ends held).
 * @example atTableWavelengths(spectrum)[4] // the reflectance at 400 nm
 */
export const atTableWavelengths = onceFor(({ wavelengths, reflectance }: Spectrum): Float64Array => {
  const first = wavelengths[0]!;
  const last = wavelengths.at(-1)!;
  const step = (last - first) / (wavelengths.length - 1);
  const even = wavelengths.every((nm, i) => Math.abs(nm - first - i * step) < 1e-6 * step) && wavelengths.length >= 6;
  const between = even ? sprague(first, step, reflectance) : cubicSpline(wavelengths, reflectance);
  const values = new Float64Array(tableRange.count);
  for (let i = 0; i < tableRange.count; i += 1) {
    const nm = tableRange.first + i * tableRange.step;
    if (nm <= first) values[i] = reflectance[0]!;
    else values[i] = nm >= last ? reflectance.at(-1)! : between(nm);
  }
  return values;
});

/** The mean step of a spectrum, nm. */
export const meanStep = ({ wavelengths }: Spectrum): number =>
  (wavelengths.at(-1)! - wavelengths[0]!) / (wavelengths.length - 1);

/** Reflectance at the table wavelengths by straight lines between the measured ones, to be set beside the curve. */
export function straightTableValues({ wavelengths, reflectance }: Spectrum): Float64Array {
  let at = 0;
  return Float64Array.from({ length: tableRange.count }, (_, i) => {
    const nm = Math.min(Math.max(tableRange.first + i * tableRange.step, wavelengths[0]!), wavelengths.at(-1)!);
    while (at < wavelengths.length - 2 && wavelengths[at + 1]! < nm) at += 1;
    const share = (nm - wavelengths[at]!) / (wavelengths[at + 1]! - wavelengths[at]!);
    return reflectance[at]! * (1 - share) + reflectance[at + 1]! * share;
  });
}

/** The two points beyond an end, from its six nearest (nearest first). CIE 167:2005, as carried by colour-science. */
const beyond = (y: readonly [number, number, number, number, number, number]): [number, number] => [
  (508 * y[0] - 540 * y[1] + 488 * y[2] - 367 * y[3] + 144 * y[4] - 24 * y[5]) / 209,
  (884 * y[0] - 1960 * y[1] + 3033 * y[2] - 2648 * y[3] + 1080 * y[4] - 180 * y[5]) / 209,
];

function sprague(first: number, step: number, y: readonly number[]): (nm: number) => number {
  const n = y.length;
  const [before1, before2] = beyond([y[0]!, y[1]!, y[2]!, y[3]!, y[4]!, y[5]!]);
  const [after1, after2] = beyond([y[n - 1]!, y[n - 2]!, y[n - 3]!, y[n - 4]!, y[n - 5]!, y[n - 6]!]);
  const r = [before2, before1, ...y, after1, after2];
  return (nm) => {
    const place = (nm - first) / step;
    const i = Math.min(Math.floor(place + 1e-9), n - 2);
    const x = place - i;
    if (Math.abs(x) < 1e-9) return y[i]!;
    const [p, q, s, t, u, v] = [r[i]!, r[i + 1]!, r[i + 2]!, r[i + 3]!, r[i + 4]!, r[i + 5]!];
    const a1 = (2 * p - 16 * q + 16 * t - 2 * u) / 24;
    const a2 = (-p + 16 * q - 30 * s + 16 * t - u) / 24;
    const a3 = (-9 * p + 39 * q - 70 * s + 66 * t - 33 * u + 7 * v) / 24;
    const a4 = (13 * p - 64 * q + 126 * s - 124 * t + 61 * u - 12 * v) / 24;
    const a5 = (-5 * p + 25 * q - 50 * s + 50 * t - 25 * u + 5 * v) / 24;
    return s + x * (a1 + x * (a2 + x * (a3 + x * (a4 + x * a5))));
  };
}

/** Natural cubic spline through points at uneven steps (second derivative 0 at the ends), by the tridiagonal method. */
function cubicSpline(x: readonly number[], y: readonly number[]): (nm: number) => number {
  const n = x.length;
  const second = new Float64Array(n);
  const carried = new Float64Array(n);
  for (let i = 1; i < n - 1; i += 1) {
    const share = (x[i]! - x[i - 1]!) / (x[i + 1]! - x[i - 1]!);
    const pivot = share * second[i - 1]! + 2;
    const bend = (y[i + 1]! - y[i]!) / (x[i + 1]! - x[i]!) - (y[i]! - y[i - 1]!) / (x[i]! - x[i - 1]!);
    second[i] = (share - 1) / pivot;
    carried[i] = ((6 * bend) / (x[i + 1]! - x[i - 1]!) - share * carried[i - 1]!) / pivot;
  }
  for (let i = n - 2; i > 0; i -= 1) second[i] = second[i]! * second[i + 1]! + carried[i]!;
  let at = 0;
  return (nm) => {
    if (x[at]! > nm) at = 0;
    while (at < n - 2 && x[at + 1]! <= nm) at += 1;
    const h = x[at + 1]! - x[at]!;
    const a = (x[at + 1]! - nm) / h;
    const b = 1 - a;
    return a * y[at]! + b * y[at + 1]! + (((a ** 3 - a) * second[at]! + (b ** 3 - b) * second[at + 1]!) * h * h) / 6;
  };
}

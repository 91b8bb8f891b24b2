// Curves by which pigments are told apart: made when a page is, as they take more room than the readings themselves.
import { firstDerivative, kubelkaMunkCurve } from '../../colour/index.js';
import type { AppearanceReckoning, Identification } from './appearance-contracts.js';

/** K/S and slope of the reflectance of every sample of which a spectrum was read. */
export const identificationOf = ({ samples }: Pick<AppearanceReckoning, 'samples'>): Identification[] =>
  samples.flatMap(({ sample, curve }) => {
    if (!curve || curve.length < 2) return [];
    const spectrum = { wavelengths: curve.map(({ nm }) => nm), reflectance: curve.map(({ r }) => r) };
    return [{ sample, ks: kubelkaMunkCurve(spectrum), slope: firstDerivative(spectrum) }];
  });

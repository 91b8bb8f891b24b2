// Lab and XYZ that a surface can have, so that slips of the keyboard and of an export are found before they are
// reckoned with.
import { bad, good, type Outcome } from './faults.js';
import type { Triple } from './numbers.js';

/** Over twice the white: nothing that reflects or fluoresces is lighter. */
const highestXyz = 250;

/** X, Y, Z that a surface can have (Y = 100 for white); or what is wrong with them. */
export function checkXyz(xyz: readonly number[]): Outcome<Triple> {
  const [x, y, z] = xyz;
  const fits = xyz.length === 3 && xyz.every((value) => Number.isFinite(value) && value >= 0 && value <= highestXyz);
  if (fits) return good([x!, y!, z!]);
  return bad({
    code: 'not-xyz',
    message: 'XYZ needs three numbers of 0 or more.',
    expected: 'X, Y, Z with Y = 100 for white',
    cure: 'Give X, Y and Z with Y = 100 for white.',
  });
}

/** A Lab that a surface can have; or what is wrong with it. */
export function checkLab(lab: readonly number[]): Outcome<Triple> {
  if (lab.length !== 3 || lab.some((value) => !Number.isFinite(value)))
    return bad({
      code: 'not-lab',
      message: 'Lab needs three numbers.',
      expected: 'L*, a*, b*',
      cure: 'Give for example 54.1 -30.2 6.0.',
    });
  const [l, a, b] = lab as [number, number, number];
  if (l < 0 || l > 110)
    return bad({
      code: 'not-lab',
      message: `L* of ${l} cannot be.`,
      expected: '0 to 100',
      cure: 'Check the order of the numbers: L*, a*, b*.',
    });
  if (Math.abs(a) > 200 || Math.abs(b) > 200)
    return bad({
      code: 'not-lab',
      message: `a* ${a}, b* ${b} cannot be of a surface.`,
      expected: '−128 to 128',
      cure: 'Check the numbers.',
    });
  return good([l, a, b]);
}

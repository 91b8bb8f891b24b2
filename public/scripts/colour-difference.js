// CIEDE2000 for the page that compares samples: the same as src/colour/difference.ts, which reckons everything else (a
// test holds both against the published pairs). ISO/CIE 11664-6; Sharma, Wu, Dalal 2005.
const degrees = (radians) => (radians * 180) / Math.PI;
const radians = (degree) => (degree * Math.PI) / 180;
const seventh = (chroma) => Math.sqrt(chroma ** 7 / (chroma ** 7 + 25 ** 7));

function hueOf(a, b) {
  return a === 0 && b === 0 ? 0 : (degrees(Math.atan2(b, a)) + 360) % 360;
}

/** The way from one hue to another, the short way round. */
function hueStep(from, to) {
  const step = to - from;
  if (Math.abs(step) <= 180) return step;
  return step > 0 ? step - 360 : step + 360;
}

function meanHue(one, other, grey) {
  if (grey) return one + other;
  const sum = one + other;
  if (Math.abs(one - other) <= 180) return sum / 2;
  return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
}

const hueWeight = (hue) =>
  1 -
  0.17 * Math.cos(radians(hue - 30)) +
  0.24 * Math.cos(radians(2 * hue)) +
  0.32 * Math.cos(radians(3 * hue + 6)) -
  0.2 * Math.cos(radians(4 * hue - 63));

/** How far two colours of one illuminant and observer lie apart: [L*, a*, b*] each. */
export function deltaE00([l1, a1, b1], [l2, a2, b2]) {
  const stretch = 1.5 - 0.5 * seventh((Math.hypot(a1, b1) + Math.hypot(a2, b2)) / 2);
  const [x1, x2] = [a1 * stretch, a2 * stretch];
  const [c1, c2] = [Math.hypot(x1, b1), Math.hypot(x2, b2)];
  const [h1, h2] = [hueOf(x1, b1), hueOf(x2, b2)];
  const grey = c1 * c2 === 0;
  const chromaHue = grey ? 0 : 2 * Math.sqrt(c1 * c2) * Math.sin(radians(hueStep(h1, h2) / 2));
  const lightness = (l1 + l2) / 2;
  const chroma = (c1 + c2) / 2;
  const hue = meanHue(h1, h2, grey);
  const middle = (lightness - 50) ** 2;
  const dL = (l2 - l1) / (1 + (0.015 * middle) / Math.sqrt(20 + middle));
  const dC = (c2 - c1) / (1 + 0.045 * chroma);
  const dH = chromaHue / (1 + 0.015 * chroma * hueWeight(hue));
  const turn = -Math.sin(radians(60 * Math.exp(-(((hue - 275) / 25) ** 2)))) * 2 * seventh(chroma);
  return Math.sqrt(dL ** 2 + dC ** 2 + dH ** 2 + turn * dC * dH);
}

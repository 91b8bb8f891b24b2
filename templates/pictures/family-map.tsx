// The map of the colour families: a cut at one lightness, each family a field of its own colour with its name.
import type { Element, ElementContent } from 'hast';
import type { FamilyCut, FamilyRegion, FamilySector } from '../../src/colour/family-map.js';
import { drawing } from './drawing.js';
import { paint, tidy } from './hand.js';
import { label, shape } from './shapes.js';

const size = 300;
const centre = size / 2;
const reach = 128;

/** Fields smaller than this share of the cut have no room for a name. */
const leastNamed = 0.012;

function place(chroma: number, hue: number, most: number): readonly [number, number] {
  const [across, angle] = [(chroma / most) * reach, (hue * Math.PI) / 180];
  return [tidy(centre + across * Math.cos(angle)), tidy(centre - across * Math.sin(angle))];
}

/** A piece of a ring as a path; a whole ring in two halves, as an arc cannot end where it begins. */
function sectorPath({ from, to, inner, outer }: FamilySector, most: number): string {
  if (to - from >= 360)
    return [180, 360].map((end) => sectorPath({ from: end - 180, to: end, inner, outer }, most)).join('');
  const radius = (chroma: number): number => tidy((chroma / most) * reach);
  const large = to - from > 180 ? 1 : 0;
  const out = `M${place(outer, from, most)}A${radius(outer)} ${radius(outer)} 0 ${large} 0 ${place(outer, to, most)}`;
  if (inner === 0) return `${out}L${centre} ${centre}Z`;
  const back = `A${radius(inner)} ${radius(inner)} 0 ${large} 1 ${place(inner, from, most)}`;
  return `${out}L${place(inner, to, most)}${back}Z`;
}

const field = (region: FamilyRegion, most: number): Element => {
  const fill = paint(region.hex) ?? 'none';
  const d = region.sectors.map((sector) => sectorPath(sector, most)).join('');
  // The stroke in its own colour closes the hairlines between sectors.
  return shape('path', { d, fill, stroke: fill, strokeWidth: 0.5 });
};

function nameOf({ family, middle }: FamilyRegion, { lightness, mostChroma }: FamilyCut): Element {
  const neutral = ['white', 'grey', 'black'].includes(family);
  const [x, y] = neutral ? [centre, centre] : place(middle.chroma, middle.hue, mostChroma);
  return label(x, tidy(y + 4), family, 'middle', { fill: lightness < 50 ? '#fff' : '#000', fontSize: 12 });
}

/** A cut: hue runs round from +a* on the right, chroma from the centre to the edge. */
export function familyMap(cut: FamilyCut): Element {
  const { regions, lightness, mostChroma } = cut;
  const content: ElementContent[] = [
    ...regions.map((region) => field(region, mostChroma)),
    ...regions
      .filter(({ share, family }) => share > leastNamed || ['white', 'grey', 'black'].includes(family))
      .map((region) => nameOf(region, cut)),
    label(2, 14, `L* ${lightness}`),
    label(size, centre - 4, '+a*', 'end', { fontSize: 11 }),
    label(centre, 11, '+b*', 'middle', { fontSize: 11 }),
  ];
  const shares = [...regions].sort((a, b) => b.share - a.share);
  return drawing(
    {
      title: `Colour families at L* ${lightness}`,
      description: shares.map(({ family, share }) => `${family} ${Math.round(100 * share)} % of the cut`).join(', '),
      kind: 'family-map',
      width: size,
      height: size,
    },
    content,
  );
}

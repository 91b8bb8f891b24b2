// GHS03, flame over circle: an oxidiser.
import type { Element } from 'hast';
import { flameHollow, flameShape } from './flame.js';

export const flameOverCircle = (): readonly Element[] => [
  (
    <g transform="translate(12 3) scale(.88)">
      <g transform="translate(13 -14) scale(.87)">
        <path d={flameShape} />
        <path d={flameHollow} fill="#fff" />
      </g>
      <circle cx="100" cy="129" r="22" fill="#fff" stroke="#000" stroke-width="9" />
      <path d="M68 158h64v8H68Z" />
    </g>
  ) as Element,
];

// GHS02, flame.
import type { Element } from 'hast';

/** A flame that stands on the point (100, 142) of the field, 90 high. */
export const flameShape =
  'M104 50C109 68 101 77 93 87 88 78 89 71 91 65 79 75 70 91 70 107 70 127 82 141 100 142 119 142 131 128 131 ' +
  '109 131 96 125 87 121 78 122 88 120 94 115 99 118 80 114 62 104 50Z';
export const flameHollow =
  'M100 137C90 137 83 130 83 120 83 112 87 106 92 100 93 106 95 109 99 111 103 106 105 101 104 94 112 102 117 ' +
  '110 117 120 117 130 110 137 100 137Z';

export const flame = (): readonly Element[] => [
  (
    <g transform="translate(0 -4)">
      <path d={flameShape} />
      <path d={flameHollow} fill="#fff" />
      <path d="M68 147h64v9H68Z" />
    </g>
  ) as Element,
];

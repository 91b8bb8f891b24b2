// GHS08, health hazard: harm inside the body, late or lasting.
import type { Element } from 'hast';

export const healthHazard = (): readonly Element[] => [
  (
    <g transform="translate(9 5) scale(.91)">
      {/* head, neck and shoulders */}
      <path d="M100 34C88 34 80 43 80 55 80 66 85 74 91 79V86C82 92 62 93 55 104 51 111 49 119 48 127L86 165H114L152 127C151 119 149 111 145 104 138 93 118 92 109 86V79C115 74 120 66 120 55 120 43 112 34 100 34Z" />
      {/* the star in the chest */}
      <path
        d="M99 92 104 112 118 97 112 116 132 111 116 123 133 133 113 131 119 150 104 136 99 156 94 136 79 150 85 131 65 133 82 123 66 111 86 116 80 97 94 112Z"
        fill="#fff"
      />
    </g>
  ) as Element,
];

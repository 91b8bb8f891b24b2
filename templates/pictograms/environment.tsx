// GHS09, environment: a dead tree, a dead fish.
import type { Element } from 'hast';

export const environment = (): readonly Element[] => [
  (
    <g transform="translate(10 15) scale(.88)">
      {/* tree */}
      <g stroke="#000" stroke-linecap="round" fill="none">
        <path d="M86 116V48" stroke-width="9" />
        <path
          d="M86 84 64 64M86 72 104 52M86 58 76 38M86 98 108 80M70 70 57 71M98 58 101 40M102 85 116 86"
          stroke-width="5.500"
        />
      </g>
      <path d="M77 120C80 112 81 108 81.500 100H90.500C91 108 94 115 98 121Z" />
      {/* ground and water */}
      <path d="M46 118H92C100 118 103 124 110 125L104 138H62Z" />
      {/* fish, belly up */}
      <path
        d="M91 131C100 112 122 109 138 118L152 109C149 119 149 127 152 137L138 129C124 144 104 145 91 131Z"
        stroke="#fff"
        stroke-width="4"
      />
      <path d="M101 123 108 130M108 123 101 130" stroke="#fff" stroke-width="3" />
    </g>
  ) as Element,
];

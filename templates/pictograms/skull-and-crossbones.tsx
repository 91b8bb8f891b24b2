// GHS06, skull and crossbones.
import type { Element } from 'hast';

export const skullAndCrossbones = (): readonly Element[] => [
  (
    <g transform="translate(20 9) scale(.8)">
      {/* bones behind */}
      <g stroke="#000" stroke-width="10" stroke-linecap="round">
        <path d="M54 121 146 150M146 121 54 150" />
      </g>
      <g>
        <circle cx="51" cy="115" r="7.500" />
        <circle cx="46" cy="125" r="7.500" />
        <circle cx="149" cy="115" r="7.500" />
        <circle cx="154" cy="125" r="7.500" />
        <circle cx="51" cy="156" r="7.500" />
        <circle cx="47" cy="146" r="7.500" />
        <circle cx="149" cy="156" r="7.500" />
        <circle cx="153" cy="146" r="7.500" />
      </g>
      {/* skull */}
      <path
        d="M100 38C74 38 60 56 60 78 60 91 65 99 72 104L75 126C76 132 81 134 86 134H114C119 134 124 132 125 126L128 104C135 99 140 91 140 78 140 56 126 38 100 38Z"
        stroke="#fff"
        stroke-width="5"
      />
      {/* eyes, nose, teeth */}
      <g fill="#fff">
        <ellipse cx="83" cy="83" rx="11" ry="10" />
        <ellipse cx="117" cy="83" rx="11" ry="10" />
        <path d="M100 95 108 110H92Z" />
      </g>
      <path d="M88 118v14M96 118v14M104 118v14M112 118v14" stroke="#fff" stroke-width="3" />
    </g>
  ) as Element,
];

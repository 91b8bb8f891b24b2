// GHS05, corrosion: a liquid eats into metal and into a hand.
import type { Element } from 'hast';

export const corrosion = (): readonly Element[] => [
  (
    <g transform="translate(8 2) scale(.92)">
      {/* two vessels, tilted, with what runs out of them */}
      <path d="M40 88C36 82 38 78 42 75L82 47 94 64 54 92C49 95 44 94 40 88ZM160 88C164 82 162 78 158 75L118 47 106 64 146 92C151 95 156 94 160 88Z" />
      <path d="M48 83 80 61 84 67 52 89ZM152 83 120 61 116 67 148 89Z" fill="#fff" />
      <path
        d="M84 70C88 72 88 76 88 80V92M116 70C112 72 112 76 112 80V92M88 97v9M112 97v9"
        fill="none"
        stroke="#000"
        stroke-width="5.500"
      />
      {/* metal, eaten */}
      <path d="M50 112H78C79 118 82 120 85 120 87 124 91 124 93 120 95 119 96 116 97 112H98V136H50Z" />
      {/* hand, eaten */}
      <path d="M103 122C103 115 106 112 109 112 110 118 113 119 115 118 117 122 121 121 122 116 124 114 126 112 129 112L153 107C159 106 161 113 155 115L138 120H148V124H139V128H146V132H137V136H118C108 136 103 131 103 122Z" />
    </g>
  ) as Element,
];

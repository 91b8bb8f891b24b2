// GHS01, exploding bomb.
import type { Element } from 'hast';

export const explodingBomb = (): readonly Element[] => [
  (<circle cx="93" cy="124" r="29" />) as Element,
  (
    <path
      d="M88 76 97 98 84 104 99 108 101 128 109 112 128 123 117 104 140 100 116 92 122 74 106 88Z"
      fill="#fff"
      stroke="#fff"
      stroke-width="5"
    />
  ) as Element,
  (
    <path d="M98 92 95 52 107 86ZM112 92 142 62 120 97ZM116 104 160 103 117 111ZM110 114 138 142 103 119Z" />
  ) as Element,
  (
    <path d="M76 84 68 68 79 74 84 88ZM118 60 126 48 129 60 121 68ZM58 98 44 92 52 86 64 92ZM143 84 156 78 153 89 144 92ZM84 62 80 50 89 56ZM146 122 158 128 148 133 141 128Z" />
  ) as Element,
];

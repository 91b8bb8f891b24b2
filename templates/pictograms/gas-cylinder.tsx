// GHS04, gas cylinder: gas under pressure.
import type { Element } from 'hast';

export const gasCylinder = (): readonly Element[] => [
  (
    <g transform="translate(16 16) scale(.84) rotate(-38 100 100)">
      <path d="M55 84H126C139 84 146 91 150 95H158V91H169V109H158V105H150C146 109 139 116 126 116H55C44 116 38 109 38 100S44 84 55 84Z" />
      <path d="M56 92H122" stroke="#fff" stroke-width="5" stroke-linecap="round" />
    </g>
  ) as Element,
];

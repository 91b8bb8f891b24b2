// The density of water, which everyone knows and nobody measures.
import { exact } from './exact.js';

/** At 20 °C, g/mL. Source: IAPWS R7-97, 998.2 kg/m³ at 20 °C and 0.1 MPa. */
export const waterDensity = exact('0.9982');

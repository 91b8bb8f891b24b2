// What a closed vessel adds: every gas that is foreseen in it, and heat, presses on its walls.
import { closedVesselTable } from '../../tables/compiled/hazards/foresee/closed-vessel.js';
import type { Foreseen, ForeseenSeverity } from './contracts.js';
import type { ResolvedMixture } from './resolve-mixture.js';

/** °C from which water and other volatile things in a closed vessel press hard. */
const pressesFrom = 60;

const setsGasFree = ({ gas, consequence }: Foreseen): boolean =>
  gas !== undefined || /gas|foaming|vapour|asphyxiant/.test(consequence);

const heatsItself = ({ severity, consequence }: Foreseen): boolean =>
  severity !== 'note' && /^heat|; heat|steam/.test(consequence);

/** L below which a bottle holds it, and below which it hisses at most: judgement. */
const holds = 0.05;
const hisses = 0.3;

function severityOf(gassing: readonly Foreseen[], usual: ForeseenSeverity): ForeseenSeverity {
  const litres = gassing.map(({ worstCase }) => (worstCase ? Number(worstCase.litres) : Infinity));
  const most = Math.max(...litres);
  if (most <= holds) return 'note';
  return most <= hisses ? 'warning' : usual;
}

/** Hazards of a vessel that the words say is closed; none where it is open or nothing is said. */
export function closedVesselHazards(resolved: ResolvedMixture, found: readonly Foreseen[]): readonly Foreseen[] {
  if (!resolved.circumstances.has('closed')) return [];
  const gassing = found.filter(setsGasFree);
  const hottest = Math.max(resolved.heat, ...resolved.ingredients.map((one) => resolved.heatOf(one)));
  const partners = [...new Set(resolved.ingredients.map(({ name }) => name))].sort();
  return closedVesselTable().flatMap((row): readonly Foreseen[] => {
    const isHeat = row.id === 'heat-in-closed-vessel';
    const isHot = hottest >= pressesFrom || found.some(heatsItself);
    if (isHeat ? !isHot : gassing.length === 0) return [];
    const { id, title, consequence, condition, precaution, answers, source } = row;
    const severity = isHeat ? row.severity : severityOf(gassing, row.severity);
    const named = isHeat ? partners : [...new Set(gassing.flatMap((one) => one.partners))].sort();
    return [
      {
        rule: id,
        severity,
        title,
        consequence,
        partners: named,
        condition,
        precaution,
        source,
        basis: 'practice',
        answers: [title, ...answers],
      },
    ];
  });
}

// Where a sample comes from: the lots made here, generation by generation, the earliest first, each running down into
// the next.
import type { Element, ElementContent } from 'hast';

/** One step: a lot made here or a bought reagent, with what it was made from. */
export interface LineageStep {
  readonly name: string;
  readonly lot?: string;
  readonly entry?: number;
  readonly sample?: string;
  readonly taken?: string;
  readonly yield?: string;
  readonly from: readonly LineageStep[];
  readonly further?: boolean;
}

/** A lot in its generation, and what it went into. */
interface Placed {
  readonly step: LineageStep;
  readonly into?: LineageStep;
}

/** So many lots can still be taken in; of more the nearest are shown. */
const mostLots = 40;

/**
 * Lots by how many steps back they were made, the sample itself first; a lot that went into several is shown with
 * each.
 */
function generations(root: LineageStep): readonly (readonly Placed[])[] {
  const found: Placed[][] = [[{ step: root }]];
  let shown = 1;
  for (let last = found[0]!; last.length > 0 && shown < mostLots; ) {
    last = last
      .flatMap(({ step }) => step.from.filter(({ lot }) => lot !== undefined).map((one) => ({ step: one, into: step })))
      .slice(0, mostLots - shown);
    if (last.length > 0) found.push(last);
    shown += last.length;
  }
  return found;
}

const bought = ({ from }: LineageStep): string =>
  from
    .filter(({ lot }) => lot === undefined)
    .map(({ name }) => name)
    .join(', ');

function lotWords({ step, into }: Placed): ElementContent[] {
  const reagents = bought(step);
  const went = [step.taken, into?.lot === undefined ? undefined : `into ${into.lot}`].filter(Boolean).join(' ');
  const said = [
    reagents ? `from ${reagents}` : undefined,
    step.further ? 'made from earlier lots' : undefined,
    step.yield && into ? `yield ${step.yield}` : undefined,
    into && went ? `${went}${into.lot === undefined ? ' taken' : ''}` : undefined,
  ].filter((part) => part !== undefined);
  return [
    step.entry === undefined || !into
      ? ((<b>{step.name}</b>) as Element)
      : ((<a href={`../${step.entry}/#${step.sample ?? ''}`}>{`${step.lot ?? ''} ${step.name}`}</a>) as Element),
    ...(said.length > 0 ? [(<span>{said.join('; ')}</span>) as Element] : []),
  ];
}

/** The generations as a list that reads downward to the sample; `title` names it (`Samples A and B`). */
export function lineageDrawing({ title, root }: { readonly title: string; readonly root: LineageStep }): Element {
  const [own, ...earlier] = generations(root);
  return (
    <ol class="lineage" aria-label={`What ${title} was made from, earliest first`}>
      {[...earlier].reverse().map((lots) => (
        <li>
          {lots.map((lot) => (
            <div>{lotWords(lot)}</div>
          ))}
        </li>
      ))}
      <li>
        <div>{lotWords({ step: { ...own![0]!.step, name: `${title}: ${root.name}` } })}</div>
      </li>
    </ol>
  ) as Element;
}

// The hazard box: pictograms, signal word, statements with the names they come from, what is unknown, and on whose
// word.
import type { Element, ElementContent } from 'hast';
import { withLongDates } from '../dates.js';
import type { HazardBox, LabelStatement, Origin, SubstanceSummary } from '../../src/hazards/ghs/contracts.js';
import { madeOnce, ofManyPages } from '../of-many-pages.js';
import { pictogram, pictogramImage, pictogramName } from '../pictograms/pictogram.js';

const basisWords: Readonly<Record<string, string>> = {
  harmonised: 'EU harmonised',
  national: 'a national authority’s',
  supplier: 'a supplier’s data sheet',
  listed: 'REACH Annex IV of 2007',
  'by-element': 'read across from other compounds of the element',
  memory: 'from memory, not checked',
  sds: 'maker’s SDS',
};

const listed = (names: readonly string[]): string => names.join(', ');

function basisOf({ basis, source, groupEntry }: Origin): string {
  if (basis === 'sds') return withLongDates(source);
  const words = basis === 'national' ? 'a national authority’s classification' : (basisWords[basis] ?? basis);
  return groupEntry === undefined ? words : `${words}, group entry`;
}

/** On whose word the statements stand, each basis once with its statements. */
function basesLine(statements: readonly LabelStatement[]): string {
  const codes = new Map<string, string[]>();
  for (const { code, origins = [] } of statements)
    for (const basis of new Set(origins.map(basisOf))) codes.set(basis, [...(codes.get(basis) ?? []), code]);
  if (codes.size === 0) return '';
  const alone = codes.size === 1;
  return `${[...codes].map(([basis, of]) => (alone ? basis : `${basis} (${of.join(', ')})`)).join('; ')}.`;
}

function hazardStatement({ code, text, from, origins = [], note }: LabelStatement): Element {
  const doubtful = origins.some(({ basis }) => basis === 'memory') ? ' (from memory, not checked)' : '';
  return (
    <li>
      <b>{code}</b>
      {` ${text} `}
      <small>{`${listed(from)}${doubtful}${note ? `; ${note}` : ''}`}</small>
    </li>
  ) as Element;
}

const precautionOf = madeOnce(
  (code: string, text: string) =>
    (
      <li>
        <b>{code}</b>
        {` ${text}`}
      </li>
    ) as Element,
);

/** A precautionary statement in a list. */
export const precaution = ({ code, text }: LabelStatement): Element => precautionOf(code, text);

const groundsHead = ofManyPages(
  (
    <thead>
      <tr>
        <th>Substance</th>
        <th>Statements</th>
        <th>On whose word</th>
      </tr>
    </thead>
  ) as Element,
);

const groundsSummary = ofManyPages((<summary>What this rests on</summary>) as Element);

const foundWords: Readonly<Record<string, string>> = {
  row: 'classification',
  group: 'group entry',
  'by-element': 'no entry of its own',
  sds: 'maker’s SDS',
  unknown: 'nothing known',
};

/** On whose word a substance's statements stand; `above`, where a row above it names that source in full. */
function wordOf({ found, basis, source = '', url }: SubstanceSummary, above: boolean): readonly unknown[] {
  if (found === 'unknown') return [<strong>no hazard data: treat as hazardous</strong>];
  const words = `${foundWords[found]}${basis && basis !== 'sds' ? `, ${basisWords[basis]}` : ''}`;
  if (above) return [`${words}, as above`];
  return [`${words}: `, url ? <a href={url}>{source}</a> : withLongDates(source)];
}

function rest(substance: SubstanceSummary, above: boolean): Element {
  const { name, role, strength, found, codes, notes } = substance;
  const known = codes.length > 0 ? listed(codes) : 'no statement';
  const statements = found === 'unknown' ? '' : known;
  return (
    <tr>
      <th>
        {name}
        {role || strength ? (
          <span class="quiet"> {listed([role, strength].filter((part) => part !== undefined))}</span>
        ) : (
          ''
        )}
      </th>
      <td>{statements}</td>
      <td>
        {wordOf(substance, above) as ElementContent[]}
        {notes.map((note) => (
          <span class="aside">{note.text}</span>
        ))}
      </td>
    </tr>
  ) as Element;
}

/** A row for each substance; a source with an address is named in full once. */
function restsOf(substances: readonly SubstanceSummary[]): Element[] {
  const told = new Set<string>();
  return substances.map((one) => {
    const { source, url } = one;
    const key = url === undefined ? undefined : `${url} ${source}`;
    const above = key !== undefined && told.has(key);
    if (key !== undefined) told.add(key);
    return rest(one, above);
  });
}

/**
 * The hazard box of an entry, a reagent or a mixture.
 * @param box plain data of the reckoning
 * @param open precautionary statements unfolded, as paper needs them
 * @param pictogramsAt address of the folder that holds the pictograms; without it they are drawn into the page
 * @param deferring the page says elsewhere that data sheet, rules and licensed practice come first
 */
export function hazardBox(
  box: HazardBox,
  {
    open = false,
    pictogramsAt,
    deferring = false,
  }: { readonly open?: boolean; readonly pictogramsAt?: string; readonly deferring?: boolean } = {},
): Element {
  const { pictograms, signalWord, statements, precautionary, unknown, substances = [], notes = [] } = box;
  const general = notes.filter((note) => note.about === undefined);
  const bases = basesLine(statements);
  const silent = statements.length === 0 && unknown.length === 0;
  return (
    <section class="hazard-box" data-signal={signalWord ?? 'none'} aria-label="Hazards of the substances used and made">
      {unknown.length > 0 ? (
        <div class="unknown" role="note">
          {unknown.map((name) => (
            <p>
              <strong>No hazard data for {name}: treat as hazardous; read its safety data sheet.</strong>
            </p>
          ))}
        </div>
      ) : (
        ''
      )}
      {pictograms.length > 0 || signalWord ? (
        <div class="signals">
          {signalWord ? <p class="signal-word">{signalWord}</p> : ''}
          {pictograms.length > 0 ? (
            <ul class="pictograms">
              {pictograms.map((code) => (
                <li>
                  {pictogramsAt === undefined
                    ? [pictogram(code), <span aria-hidden="true">{pictogramName(code)}</span>]
                    : [pictogramImage(code, pictogramsAt, true), <span>{pictogramName(code)}</span>]}
                </li>
              ))}
            </ul>
          ) : (
            ''
          )}
        </div>
      ) : (
        ''
      )}
      {statements.length > 0 ? <ul class="statements">{statements.map(hazardStatement)}</ul> : ''}
      {bases ? <p class="bases">{`On whose word: ${bases}`}</p> : ''}
      {silent ? (
        <p class="silent">
          {substances.length > 0
            ? 'No hazard statement is published for what is named here, or none stands at these strengths. That ' +
              'does not make it harmless.'
            : 'No reagent is listed here, so no hazard statements are given. What the words name has them all ' +
              'the same.'}
        </p>
      ) : (
        ''
      )}
      {precautionary.length > 0 ? (
        <details class="precautions" open={open}>
          <summary>Precautionary statements ({precautionary.length})</summary>
          <ul>{precautionary.map(precaution)}</ul>
          <p class="small quiet">
            Chosen for the hazard statements above
            {precautionary.some((one) => one.origins?.some((origin) => origin.basis === 'memory'))
              ? '; which statement goes with which hazard is from memory'
              : ''}
            .
          </p>
        </details>
      ) : (
        ''
      )}
      {substances.length > 0 ? (
        <details class="grounds">
          {groundsSummary}
          <div tabindex="0" role="region" aria-label="Sources of the hazard statements">
            <table>
              {groundsHead}
              <tbody>{restsOf(substances)}</tbody>
            </table>
          </div>
          {general.length > 0 ? (
            <ul>
              {general.map((note) => (
                <li>{note.text}</li>
              ))}
            </ul>
          ) : (
            ''
          )}
        </details>
      ) : (
        ''
      )}
      {deferring ? (
        ''
      ) : (
        <p class="deference">
          The safety data sheet of what you in fact have, your local rules and licensed practice come before this box.
        </p>
      )}
    </section>
  ) as Element;
}

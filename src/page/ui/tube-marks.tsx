import type { ReportResult } from '../../contract/part.ts';
import type { BlankAnswer } from '../core/questions.ts';
import { titleOf } from './folded.tsx';
import { Pictured } from './pictured.tsx';
import { isNarrow } from './state.ts';
import { lengthText } from './units.ts';

type Tube = NonNullable<BlankAnswer['tube']>;

/** What is seen, for whoever cannot see it. */
const labelOf = (blank: BlankAnswer, { kind, bends, cutLengthMm }: Tube): string =>
  kind === 'bent'
    ? `Marks on the straight tube of ${titleOf(blank)}: ${bends} bends on ${lengthText(cutLengthMm, 1)}`
    : `Pattern that is wrapped round ${titleOf(blank)}, not at true size`;

/** A tube by what it is marked by before it is bent or cut. */
export const TubeMarks = ({
  blank,
  tube,
}: {
  readonly blank: BlankAnswer;
  readonly tube: Tube;
}) => (
  <div>
    {blank.flat !== null && (
      <Pictured
        picture={blank.flat}
        label={labelOf(blank, tube)}
        inputOf={() => undefined}
        marked={undefined}
        isZoomed={isNarrow.value}
        onPress={() => undefined}
      />
    )}
    <p class="facts">
      Cut {lengthText(tube.cutLengthMm, 1)} off the bar, {blank.sheet}, {tube.massKg.toFixed(3)} kg
      {tube.proof === '' ? '' : `; ${tube.proof}`}
    </p>
  </div>
);

/** The tables of a report, each figure in the unit of the page. */
export const ReportTables = ({ tables }: Pick<ReportResult, 'tables'>) => (
  <>
    {tables.map(({ title, columns, rows }) => (
      <div class="scrolls" tabIndex={0} role="region" aria-label={title} key={title}>
        <table class="figures">
          <caption>{title}</caption>
          <thead>
            <tr>
              {columns.map(({ name, unit: of }) => (
                <th scope="col" key={name}>
                  {name}
                  {of === 'deg' ? ', °' : ''}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row, i) => (
              <tr key={i}>
                {row.map((value, k) => (
                  <td key={k}>
                    {columns[k]?.unit === 'mm'
                      ? lengthText(value, 1)
                      : String(Number(value.toFixed(2)))}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    ))}
  </>
);

import type { CutGroup } from '../../contract/cut-list.ts';
import { printedIn } from '../../text/printed.ts';
import { cutlist } from './state.ts';
import { lengthText, sizesText, unit } from './units.ts';

const money = (sum: number): string => sum.toFixed(2);

const sheetsText = ({ sheets }: CutGroup): string =>
  sheets === null
    ? 'none in the rack'
    : `${sheets.count} of ${sizesText([sheets.lengthMm, sheets.widthMm])}`;

/** The sum of what is known, and whether something is not. */
const summed = (
  costs: readonly (number | null)[],
): { readonly sum: number; readonly isWhole: boolean } => ({
  sum: costs.reduce<number>((sum, cost) => sum + (cost ?? 0), 0),
  isWhole: costs.every((cost) => cost !== null),
});

const Costs = ({ groups }: { readonly groups: readonly CutGroup[] }) => {
  const metal = summed(groups.map(({ sheets }) => sheets?.cost ?? null));
  const cutting = summed(groups.map(({ cuttingCost }) => cuttingCost));
  if (metal.sum + cutting.sum === 0)
    return (
      <p class="means">
        No costs: the shop gives no price of its sheets, and none of an hour of its cutter.
      </p>
    );
  return (
    <p>
      <b>Cost so far: {money(metal.sum + cutting.sum)}</b> (sheets {money(metal.sum)}, cutting{' '}
      {money(cutting.sum)}
      {metal.isWhole && cutting.isWhole ? '' : '; what has no price is not in it'})
    </p>
  );
};

/** The sheet that the whole job takes, and what it costs as far as the shop says prices. */
export const Sheets = () => {
  const list = cutlist.value;
  if (list === null || list.groups.length === 0) return null;
  const large = list.groups.flatMap(({ tooLarge }) => tooLarge);
  return (
    <section>
      <h2>Sheet and cost so far</h2>
      <div class="scrolls" tabIndex={0} role="region" aria-label="Sheet of the job">
        <table class="figures">
          <thead>
            <tr>
              <th scope="col">Sheet</th>
              <th scope="col">Blanks</th>
              <th scope="col">Mass</th>
              <th scope="col">Cut</th>
              <th scope="col">At least</th>
              <th scope="col">Cut by</th>
            </tr>
          </thead>
          <tbody>
            {list.groups.map((g) => (
              <tr key={`${g.material} ${g.thicknessMm}`}>
                <th scope="row">
                  {g.material}, {lengthText(g.thicknessMm, 3)}
                </th>
                <td>{g.total.quantity}</td>
                <td>{g.total.massKg.toFixed(2)} kg</td>
                <td>
                  {printedIn(unit.value).way(g.total.cutLengthMm)}
                  {g.minutes === null ? '' : `, ${Math.ceil(g.minutes)} min`}
                </td>
                <td>{sheetsText(g)}</td>
                <td>{g.cutter ?? 'nothing in the shop'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <Costs groups={list.groups} />
      {large.length > 0 && <p class="wrong">! On no sheet in the rack: {large.join(', ')}.</p>}
      {list.left.length > 0 && <p class="means">Not in it yet: {list.left.join(', ')}.</p>}
    </section>
  );
};

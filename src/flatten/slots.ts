import { capital } from '../text/capital.ts';
import { figure } from '../text/figures.ts';
import { obround } from '../geometry/shapes.ts';
import { along, distance, middle, sub, unit } from '../geometry/vec2.ts';
import { type Finding, refuse } from '../model/finding.ts';
import type { FlatBend, FlatCutout } from '../model/flat.ts';
import { orLess } from '../model/mend.ts';
import type { SlotRow } from '../model/part.ts';
import { foundOn } from '../model/found-on.ts';
import { SETTLED_MM, wholeUp } from '../geometry/tolerance.ts';

/**
 * The row of slots along a bend's centre line: a land at either end, and slots of one length, none
 * longer than asked for. With n slots and n + 1 lands on a line of length L, each slot is (L - (n +
 * 1) land) / n long. `called` is the fold as findings name it.
 */
export const slotsAlong = (
  bend: FlatBend,
  row: SlotRow,
  called: string,
): readonly FlatCutout[] | Finding => {
  const [from, to] = bend.centreLine;
  const long = distance(from, to);
  const { landMm, widthMm } = row;
  const { count, slotMm } = divided(long, row);
  if (slotMm <= widthMm) return tooShort(bend, row, called, count, long);
  const dir = unit(sub(to, from));
  const turnDeg = (Math.atan2(dir[1], dir[0]) * 180) / Math.PI;
  return Array.from({ length: count }, (_, i): FlatCutout => {
    const centre = along(from, dir, landMm + slotMm / 2 + i * (slotMm + landMm));
    return {
      kind: 'loop',
      panel: bend.parent,
      from: `slot ${i + 1} of fold ${bend.id}`,
      inputs: row.landInput === undefined ? [] : [row.landInput],
      fold: bend.id,
      loop: obround(centre, widthMm, slotMm, turnDeg),
    };
  });
};

const divided = (
  long: number,
  { longestMm, landMm }: SlotRow,
): { readonly count: number; readonly slotMm: number } => {
  const count = Math.max(1, wholeUp((long - landMm) / (longestMm + landMm)));
  return { count, slotMm: (long - (count + 1) * landMm) / count };
};

/** Lands narrower than this, mm, hold nothing. */
const LEAST_LAND_MM = 0.1;

const tooShort = (
  bend: FlatBend,
  row: SlotRow,
  called: string,
  count: number,
  long: number,
): Finding => {
  const { landMm, widthMm, landInput } = row;
  const most = widestLandMm(long, row);
  const what = `${capital(called)} is ${figure(long)} mm long, and ${count + 1} lands${landInput === undefined ? '' : ` (${landInput})`} of ${figure(landMm)} mm leave no room for slots ${figure(widthMm)} mm wide between them`;
  const found =
    landInput !== undefined && most !== undefined
      ? refuse(
          'no-room-for-slots',
          [landInput],
          what,
          [orLess(landInput, most)],
          'fold it without slots',
        )
      : foundOn(
          'no-room-for-slots',
          { panels: [bend.parent, bend.child], folds: [bend.id] },
          what,
          most === undefined ? 'make the fold longer' : `make the lands ${figure(most)} mm or less`,
          'fold it without slots',
        );
  return { ...found, at: middle(...bend.centreLine) };
};

/**
 * The widest land for which slots fit, found by halving, to a hundredth of a millimetre; narrower
 * lands may leave room for more slots.
 */
function widestLandMm(long: number, row: SlotRow): number | undefined {
  const fits = (landMm: number): boolean => divided(long, { ...row, landMm }).slotMm > row.widthMm;
  let [low, high] = [LEAST_LAND_MM, row.landMm];
  if (!fits(low)) return undefined;
  while (high - low > SETTLED_MM) {
    const middleMm = (low + high) / 2;
    if (fits(middleMm)) low = middleMm;
    else high = middleMm;
  }
  return Math.floor(low * 100) / 100;
}

import { atMost, figure } from '../figures.ts';
import { obround } from '../geometry/shapes.ts';
import { along, distance, middle, sub, unit } from '../geometry/vec2.ts';
import { type Finding, stop } from '../model/finding.ts';
import type { FlatBend, FlatCutout } from '../model/flat.ts';
import type { SlotRow } from '../model/part.ts';

/**
 * The row of slots along a bend's centre line: a land at either end, slots of one length, none longer than asked for.
 * With n slots and n + 1 lands on a line of length L, each slot is (L - (n + 1) land) / n long.
 */
export const slotsAlong = (bend: FlatBend, row: SlotRow): readonly FlatCutout[] | Finding => {
  const [from, to] = bend.centreLine;
  const long = distance(from, to);
  const { longestMm, landMm, widthMm } = row;
  const count = Math.max(1, Math.ceil((long - landMm) / (longestMm + landMm) - 1e-9));
  const slotMm = (long - (count + 1) * landMm) / count;
  if (slotMm <= widthMm) return tooShort(bend, row, count, long);
  const dir = unit(sub(to, from));
  const turnDeg = (Math.atan2(dir[1], dir[0]) * 180) / Math.PI;
  return Array.from({ length: count }, (_, i): FlatCutout => {
    const centre = along(from, dir, landMm + slotMm / 2 + i * (slotMm + landMm));
    return { kind: 'loop', panel: bend.parent, from: `slot ${i + 1} of fold ${bend.id}`, fold: bend.id, loop: obround(centre, widthMm, slotMm, turnDeg) };
  });
};

const tooShort = (bend: FlatBend, { landMm, widthMm }: SlotRow, count: number, long: number): Finding => {
  const land = (long - count * widthMm) / (count + 1);
  const mend = land > 0.1 ? `make the lands less than ${atMost(land)} mm, or ` : '';
  const message = `Fold ${bend.id} is ${figure(long)} mm long: ${count + 1} lands of ${figure(landMm)} mm leave no room for slots ${figure(widthMm)} mm wide between them; ${mend}fold it without slots.`;
  return { ...stop('no-room-for-slots', message), at: middle(...bend.centreLine) };
};

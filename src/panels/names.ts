import { nearest } from '../text/nearest.ts';
import type { Figures } from './figures.ts';
import { MOST_FLANGES } from './lines.ts';
import type { GivenPiece } from './piece.ts';

/** The lowest number that makes a name one of its own. */
const freeNumber = (id: string, ids: readonly string[]): number => {
  let n = 2;
  while (ids.includes(`${id} ${n}`)) n++;
  return n;
};

/** So long a name still stands on a sheet. */
const LONGEST_NAME = 40;

/** Panels have names of their own, and there are no more of them than can be planned. */
export function namesOf({ base, flanges, order, at }: GivenPiece, figures: Figures): void {
  if (flanges.length > MOST_FLANGES) {
    figures.problem(`${at}flanges`, `${flanges.length} flanges`, `at most ${MOST_FLANGES}`);
    return;
  }
  const ids = [base.name ?? 'base', ...flanges.map(({ name }) => name)];
  for (const [i, id] of ids.entries()) {
    const path = i === 0 ? `${at}base.name` : `${at}flanges[${i - 1}].name`;
    if (!/^\p{L}/u.test(id) || id.trim() !== id || id.length > LONGEST_NAME)
      figures.problem(path, id, `a name that begins with a letter, up to ${LONGEST_NAME} long`);
    else if (ids.indexOf(id) < i)
      figures.problem(path, id, 'a name of its own', `call it ${id} ${freeNumber(id, ids)}`);
  }
  for (const [i, id] of (order ?? []).entries()) {
    if (ids.includes(id)) continue;
    const meant = nearest(id, ids);
    figures.problem(
      `${at}order[${i}]`,
      id,
      `one of the panels ${ids.join(', ')}`,
      meant === undefined ? undefined : `did you mean ${meant}?`,
    );
  }
}

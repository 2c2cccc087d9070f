import { offsetLoop } from '../geometry/offset.ts';
import { slantedRound } from '../geometry/slanted-round.ts';
import type { Loop } from '../geometry/loop.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import type { HoleUse } from '../model/hole-use.ts';
import { parseAngle, parseLength } from '../text/units.ts';
import { bad, good, readExtent, type Reading, reasonsOf } from './hole-reading.ts';

/**
 * The hole that a tube passes at an angle, mm and degrees. Its middle is where the tube's axis meets
 * the middle of the sheet.
 */
export interface TubeHole {
  readonly kind: 'tube';
  readonly tubeMm: number;
  /** Between the tube and the normal of the sheet: over 0, up to `MOST_LEAN_DEG`. */
  readonly leanDeg: number;
  /** The way in which the tube leans: 0 along the fold, counter-clockwise. */
  readonly turnDeg: number;
  /** Room all round the tube, square to it. */
  readonly clearMm: number;
  /** Rubber on the edge of the hole, which it is larger by all round. */
  readonly grommetMm: number;
}

/** Words behind a size that the hole for a tube has no meaning for. */
const NOT_OF_TUBES = ['screw', 'meets', 'tapped', 'countersink', 'drill'] as const;
const WORDS: Readonly<Record<(typeof NOT_OF_TUBES)[number], string>> = {
  screw: 'for',
  meets: 'to',
  tapped: 'tapped',
  countersink: 'csk',
  drill: 'drill',
};

/** Flatter than this a tube slides along the sheet: its hole is six times as long as it is wide. */
export const MOST_LEAN_DEG = 80;

/** Rooms and grommets of more than this are a slip, mm. */
export const MOST_ROOM_MM = 100;

interface TubeWords extends Partial<Record<(typeof NOT_OF_TUBES)[number], unknown>> {
  readonly clear?: string;
  readonly grommet?: string;
}

const WRITTEN =
  'write a tube as T76, T76@30 (30 degrees from square) or T76@30@90 (leaning across)';

/** Reads `T76`, `T76@30`, `T76@30@90` with what stands behind it; square to the sheet it is round. */
export function readTubeHole(
  text: string,
  words: TubeWords,
): Reading<{
  readonly shape: TubeHole | { kind: 'round'; diameterMm: number };
  readonly use: HoleUse;
}> {
  const wrong = NOT_OF_TUBES.find((word) => words[word] !== undefined);
  if (wrong !== undefined)
    return bad(`size: behind a tube may stand clear and grommet, not ${WORDS[wrong]}`);
  const [size = '', lean = '0', turn = '0', ...more] = text.slice(1).split('@');
  if (more.length > 0) return bad(`size: ${WRITTEN}`);
  const [tubeMm, leanDeg, turnDeg] = [readExtent('tube', size), readLean(lean), parseAngle(turn)];
  const [clearMm, grommetMm] = [readRoom('clear', words.clear), readRoom('grommet', words.grommet)];
  if (!turnDeg.ok) return bad(`turn: ${turnDeg.reason}`);
  if (!tubeMm.ok || !leanDeg.ok || !clearMm.ok || !grommetMm.ok)
    return bad(...reasonsOf(tubeMm, leanDeg, clearMm, grommetMm));
  return good(
    tubeHole({
      tubeMm: tubeMm.value,
      leanDeg: leanDeg.value,
      turnDeg: turnDeg.value,
      clearMm: clearMm.value,
      grommetMm: grommetMm.value,
    }),
  );
}

/** The hole for a tube; square to the sheet it is round. */
export const tubeHole = (
  passage: Omit<TubeHole, 'kind'>,
): {
  readonly shape: TubeHole | { kind: 'round'; diameterMm: number };
  readonly use: HoleUse;
} => {
  const shape: TubeHole = { kind: 'tube', ...passage };
  return {
    shape: shape.leanDeg === 0 ? { kind: 'round', diameterMm: acrossOf(shape) } : shape,
    use: { tube: passageOf(shape) },
  };
};

const passageOf = ({
  tubeMm,
  leanDeg,
  clearMm,
  grommetMm,
}: TubeHole): HoleUse['tube'] & object => ({
  diameterMm: tubeMm,
  leanDeg,
  ...(clearMm > 0 && { clearMm }),
  ...(grommetMm > 0 && { grommetMm }),
});

const readLean = (text: string): Reading<number> => {
  const read = parseAngle(text);
  if (!read.ok) return bad(`angle: ${read.reason}`);
  return read.value >= 0 && read.value <= MOST_LEAN_DEG
    ? read
    : bad(`angle: from square to the sheet, 0 to ${MOST_LEAN_DEG} degrees`);
};

const readRoom = (which: string, text: string | undefined): Reading<number> => {
  if (text === undefined) return good(0);
  const read = parseLength(text);
  if (!read.ok) return bad(`${which}: ${read.reason}`);
  return read.value >= 0 && read.value <= MOST_ROOM_MM
    ? read
    : bad(`${which}: 0 to ${MOST_ROOM_MM} mm`);
};

/** How wide the hole is across the way in which the tube leans, mm. */
export const acrossOf = ({ tubeMm, clearMm, grommetMm }: TubeHole): number =>
  tubeMm + 2 * clearMm + 2 * grommetMm;

/** The outline of the hole in a sheet of a thickness; `turnDeg` is the panel's own turn. */
export const tubeHoleLoop = (
  { tubeMm, leanDeg, turnDeg, clearMm, grommetMm }: TubeHole,
  centre: Vec2,
  thicknessMm: number,
  panelTurnDeg: number,
): Loop => {
  const bare = slantedRound({
    diameterMm: tubeMm + 2 * clearMm,
    leanDeg,
    thicknessMm,
    centre,
    turnDeg: turnDeg + panelTurnDeg,
  });
  const grown = offsetLoop(bare, grommetMm);
  // A loop without a corner that bulges everywhere can always be grown.
  if (grown === undefined) throw new Error(`no room for a grommet of ${grommetMm}`);
  return grown;
};

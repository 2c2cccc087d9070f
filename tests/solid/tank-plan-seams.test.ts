import { describe, expect, test } from 'vitest';
import { weldsOf } from '../../src/assembly/weld-seams.ts';
import { loadFamily } from '../helpers/check-template.ts';
import { inTurns } from '../helpers/extent.ts';
import { setsFrom } from '../helpers/made-sets.ts';
import { nearestPieces } from '../helpers/nearest-pieces.ts';

/** Floors and tops whose edges are folded, or that are held by tabs, by the kernel. */

const TANK = {
  name: 'seamed',
  outline: '0,0; 420,12; 350,300; 0,280',
  floor: '1: 0; 2: 14; 4: 22',
  top: 200,
  lean: '1: 4; 3: -3',
  cornerGap: 0.7,
  thickness: 2,
  radius: 3,
  // No baffle: they are looked at elsewhere, and the kernel takes long over their holes.
  longestBay: 600,
};

type Inputs = Readonly<Record<string, unknown>>;

/** All panels and bends of the folded blanks, as they stand, with the welds between them. */
const standing = async (inputs: Inputs) => {
  const [set] = setsFrom(await loadFamily('tank-plan'), { ...TANK, ...inputs });
  if (set === undefined) throw new Error('no set');
  return { set, welds: weldsOf(set.assembly) };
};

const nearest = async (inputs: Inputs): Promise<ReadonlyMap<string, number>> =>
  nearestPieces((await standing(inputs)).set.assembly);

describe.each(
  inTurns(
    [
      { floorSeam: 'lapped', topSeam: 'flanged', blanks: 'wrap' },
      { floorSeam: 'flanged', topSeam: 'lapped', blanks: 'halves' },
      { topSeam: 'lapped', blanks: 'pan' },
    ],
    1,
    3,
  ),
)('a floor and a top: %o', (seams) => {
  test('close to the gap that was asked for, and run into nothing', async () => {
    const gaps = await nearest(seams);
    for (const [pair, mm] of gaps) expect(mm, pair).toBeGreaterThan(0.69);
    const top = [...gaps].flatMap(([pair, mm]) => (pair.endsWith(' top') ? [mm] : []));
    expect(Math.min(...top)).toBeLessThan(0.71);
  });

  test('are welded all round, along every side', async () => {
    const { welds } = await standing(seams);
    const kind = seams.topSeam === 'lapped' ? 'flange' : 'edge';
    const runs = welds
      .filter((weld) => weld.pieces.includes('top') && weld.kind === kind)
      .flatMap((weld) => weld.runs);
    expect(runs).toHaveLength(4);
    for (const { gapMm } of runs) expect(gapMm).toBeCloseTo(0.7, 2);
  });
});

describe.each(
  inTurns(
    [
      { blanks: 'wrap', setback: 1 },
      { blanks: 'plates', setback: -8 },
      { blanks: 'wrap', floorStep: 'x 200 up 45' },
    ],
    0,
    3,
  ),
)('tabs: %o', (inputs) => {
  test('stand in their slots with their clearance all round, level with the far face', async () => {
    const gaps = await nearest({ ...inputs, tabs: 1 });
    // Half of what the sheet may be thicker and a tenth of the kerf, as the note on it says.
    for (const [pair, mm] of gaps) expect(mm, pair).toBeGreaterThan(0.1);
    for (const [pair, mm] of gaps) expect(mm < 0.69, pair).toBe(/^floor|top$/.test(pair));
  });
});

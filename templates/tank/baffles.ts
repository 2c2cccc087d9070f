import { forOne } from '../../src/template.ts';
import type { Finding, Piece } from '../../src/template.ts';
import { baffle, type MadeBaffle } from '../baffle/build.ts';
import { wordsOf } from '../baffle/ask.ts';
import { type Bays, baySpacing, bayStartsMm } from '../baffle/bays.ts';
import type { BaffleAsk } from '../baffle/plate.ts';
import { type Cavity, depthAtMm, litresBetween, slopeDeg } from './volume.ts';
import type { Tank } from './inputs.ts';

export interface TankBaffles {
  readonly bays: Bays;
  readonly pieces: readonly Piece[];
  readonly findings: readonly Finding[];
  /** Volume of each bay, from the deep end, brim-full; the volume of flanges is not taken off. */
  readonly litres: readonly number[];
}

export const baysOf = (v: Tank, c: Cavity): Bays =>
  baySpacing(c.lengthMm, v.longestBay, v.thicknessMm);

/**
 * The baffles across the tank, their flanges towards the deep end on the floor and on both plates
 * at the sides. In a box all are alike; in a wedge each has its own depth, measured at its face
 * away from the deep end.
 */
export const tankBaffles = (v: Tank, c: Cavity): TankBaffles => {
  const bays = baysOf(v, c);
  const litres = bayStartsMm(bays).map((start) => litresBetween(c, start, start + bays.bayMm));
  if (bays.count === 0) return { bays, pieces: [], findings: [], litres };
  const isBox = c.deepMm === c.shallowMm;
  const made = (isBox ? bays.stationsMm.slice(0, 1) : bays.stationsMm).map((at) =>
    baffleAt(v, c, at + bays.thicknessMm),
  );
  const findings = made.flatMap((m, i) =>
    m.findings.map((f) => (isBox ? f : forOne(f, `Baffle ${i + 1} from the deep end`))),
  );
  const pieces = made.flatMap(({ part }, i): Piece[] =>
    part === undefined ? [] : [{ id: `baffle-${i + 1}`, part, quantity: isBox ? bays.count : 1 }],
  );
  return { bays, pieces, findings, litres };
};

const baffleAt = (v: Tank, c: Cavity, fromDeepMm: number): MadeBaffle => {
  const depth = depthAtMm(c, fromDeepMm);
  const height = { input: 'height', given: v.height };
  const ask: BaffleAsk = {
    // Floor and roof meet the plates at the sides in sharp corners.
    section: {
      widthMm: c.widthMm,
      leftDepthMm: depth,
      rightDepthMm: depth,
      floorRadiusMm: 0,
      roofRadiusMm: 0,
      floorSlopeDeg: slopeDeg(c),
    },
    named: {
      width: { input: 'width', given: v.width },
      left: height,
      right: height,
      others: v.heightShallow === undefined ? [] : ['heightShallow', 'longestBay'],
    },
    flanges: ['floor', 'right', 'left'],
    ...wordsOf(v),
    swage: { run: 'none', widthMm: 0 },
    holes: [],
  };
  return baffle(v, ask);
};

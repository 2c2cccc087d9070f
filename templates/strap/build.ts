import {
  asBoltHole,
  type Built,
  FOLD_AXES,
  type HoleSpec,
  meeting,
  type Part,
  stripPart,
  type StripPanel,
} from '../../src/template.ts';
import { boltFromSideMm, insideMm } from './sizes.ts';
import { impossibleStrap } from './limits.ts';
import { strapNotes } from './notes.ts';
import { withStrapWishes } from './wishes.ts';
import type { Strap } from './inputs.ts';

/** Feet, sides and crown in a row, or the two sides rolled round the top in one. */
export function strap(v: Strap): Built {
  const impossible = impossibleStrap(v);
  if (impossible.length > 0) return { findings: impossible };
  const { part, findings = [] } = v.over === 'round' ? overRound(v) : overBox(v);
  return {
    ...(part !== undefined && { part: withStrapWishes(v, part) }),
    findings: [...findings, ...strapNotes(v)],
  };
}

const UP = { angleDeg: 90, direction: 'up' } as const;
const DOWN = { angleDeg: 90, direction: 'down' } as const;
const WRAP = { angleDeg: 180, direction: 'down' } as const;

/**
 * The strap with outside measure, because its sizes are those of what it holds, whichever faces
 * were measured.
 */
const outside = (v: Strap): Strap => ({ ...v, measure: 'outside' });

const overRound = (v: Strap): Built => {
  const { footA, sideA, sideB, footB } = panelsOf(v);
  const rows = [footA, sideA, sideB, footB];
  const built = stripPart(outside(v), v.width, rows, [UP, WRAP, UP], 'side A');
  return built.part === undefined ? built : { ...built, part: rolled(v, built.part) };
};

const overBox = (v: Strap): Built => {
  const { footA, sideA, sideB, footB } = panelsOf(v);
  const crown: StripPanel = {
    id: 'crown',
    lengthMm: insideMm(v) + 2 * v.thicknessMm,
    holes: ['holesCrown', v.holesCrown],
  };
  const rows = [footA, sideA, crown, sideB, footB];
  return stripPart(outside(v), v.width, rows, [UP, DOWN, DOWN, UP], 'crown');
};

/** The panels on either side of what the strap holds. */
const panelsOf = (v: Strap) => {
  const foot = (id: string): StripPanel => ({
    id,
    lengthMm: boltFromSideMm(v) + v.beyond,
    holes: ['boltHole', [boltSlot(v)]],
  });
  const lengthMm = v.height + v.rubber - v.pullUp + v.thicknessMm;
  const sideA: StripPanel = {
    id: 'side A',
    lengthMm,
    holes: ['holesA', v.holesA],
    holesFrom: 'below',
  };
  const sideB: StripPanel = {
    id: 'side B',
    lengthMm,
    holes: ['holesB', v.holesB],
    holesFrom: 'above',
  };
  return { footA: foot('foot A'), sideA, sideB, footB: foot('foot B') };
};

const boltSlot = (v: Strap): HoleSpec => ({
  acrossMm: boltFromSideMm(v),
  alongMm: v.width / 2,
  number: '1',
  axes: FOLD_AXES,
  ...meeting(
    asBoltHole({
      shape:
        v.pullUp > 0
          ? { kind: 'slot', widthMm: v.boltHole, lengthMm: v.boltHole + v.pullUp, turnDeg: 90 }
          : { kind: 'round', diameterMm: v.boltHole },
    }),
    'mounting',
  ),
});

/**
 * The part with its wrap rolled, not folded: its radius is that of the rubber, and the middle of
 * the sheet keeps its length.
 */
const rolled = (v: Strap, part: Part): Part => ({
  ...part,
  folds: part.folds.map((fold) =>
    fold.angleDeg === 180
      ? { ...fold, insideRadiusMm: insideMm(v) / 2, rule: { id: 'k', k: 0.5 }, rolled: true }
      : fold,
  ),
});

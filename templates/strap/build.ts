import {
  asBoltHole,
  type Built,
  FOLD_AXES,
  hatPart,
  type HoleSpec,
  meeting,
  MIDDLE_OF_SHEET,
  type Part,
  stripPart,
  type StripPanel,
} from '../../src/template.ts';
import { boltFromSideMm, hatAsk, insideMm } from './sizes.ts';
import { impossibleStrap } from './limits.ts';
import { strapNotes } from './notes.ts';
import { withStrapWishes } from './wishes.ts';
import type { Strap } from './inputs.ts';

/** Feet, sides and crown in a row, or the two sides rolled round the top in one. */
export function strap(v: Strap): Built {
  const impossible = impossibleStrap(v);
  if (impossible.length > 0) return { findings: impossible };
  const { part, findings = [] } = strapPart(v);
  return { ...(part !== undefined && { part }), findings: [...findings, ...strapNotes(v)] };
}

/** The strap itself, of figures that can be made. */
export const strapPart = (v: Strap): Built => {
  const { part, findings = [] } = v.over === 'round' ? overRound(v) : overBox(v);
  return { ...(part !== undefined && { part: withStrapWishes(v, part) }), findings };
};

const UP = { angleDeg: 90, direction: 'up' } as const;
const WRAP = { angleDeg: 180, direction: 'down' } as const;

/**
 * The strap with outside measure, because its sizes are those of what it holds, whichever faces
 * were measured.
 */
const outside = (v: Strap): Strap => ({ ...v, measure: 'outside' });

const overRound = (v: Strap): Built => {
  const lengthMm = v.height + v.rubber - v.pullUp + v.thicknessMm;
  const rows: readonly StripPanel[] = [
    { ...foot(v), id: 'foot A' },
    { id: 'side A', lengthMm, holes: ['holesA', v.holesA], holesFrom: 'below' },
    { id: 'side B', lengthMm: lengthMm - v.stepB, holes: ['holesB', v.holesB], holesFrom: 'above' },
    { ...foot(v), id: 'foot B' },
  ];
  const built = stripPart(outside(v), v.width, rows, [UP, WRAP, UP], 'side A');
  return built.part === undefined ? built : { ...built, part: rolled(v, built.part) };
};

const overBox = (v: Strap): Built =>
  hatPart(v, hatAsk(v), {
    footA: foot(v),
    footB: foot(v),
    holesA: ['holesA', v.holesA],
    holesB: ['holesB', v.holesB],
    holesCrown: ['holesCrown', v.holesCrown],
  });

const foot = (v: Strap): Omit<StripPanel, 'id'> => ({
  lengthMm: boltFromSideMm(v) + v.beyond,
  holes: ['boltHole', [boltSlot(v)]],
});

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
      ? { ...fold, insideRadiusMm: insideMm(v) / 2, rule: MIDDLE_OF_SHEET, rolled: true }
      : fold,
  ),
});

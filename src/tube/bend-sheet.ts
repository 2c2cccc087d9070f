import type { TubeLegs } from './centre-line.ts';
import { openedRadiusMm, pullToDeg, type TubeSpringback } from './springback.ts';

/** How a bender bends a tube. */
export interface TubeBending {
  /** Centre-line radius of its former, mm. */
  readonly formerMm: number;
  readonly springback: TubeSpringback;
  /**
   * Whether springback was measured on this bender: a guess overbends, but is too weak to say by how
   * much the radius opens.
   */
  readonly isMeasured: boolean;
  /** Centre-line radius that was measured on a bend, mm; worked out of the springback where left out. */
  readonly effectiveMm?: number | undefined;
}

/** A bend as it is made. */
export interface SheetBend {
  readonly angleDeg: number;
  readonly rotateDeg: number;
  /** What the bender is pulled to. */
  readonly pullToDeg: number;
  /** Centre-line radius of the finished bend, mm. */
  readonly radiusMm: number;
  /** From its corner to where it begins, and to where it ends, mm. */
  readonly setbackMm: number;
  readonly arcMm: number;
  /** Where it begins, from the leading end of the tube as it is cut off, mm. */
  readonly startMm: number;
}

/** What a tube is bent by. */
export interface BendSheet {
  readonly bends: readonly SheetBend[];
  /** Straight tube between the bends and at the ends, one more than there are bends, mm; less than 0
   * where bends overlap. */
  readonly straightsMm: readonly number[];
  /** Left on at either end for the bender to hold, and cut off afterwards, mm. */
  readonly waste: EndWaste;
  /** Length from end to end of the finished tube, laid straight, mm. */
  readonly finishedMm: number;
  /** Length that is cut off the bar, mm. */
  readonly cutLengthMm: number;
}

export interface EndWaste {
  readonly leadMm: number;
  readonly tailMm: number;
}

/** No tube is left on. */
export const NO_WASTE: EndWaste = { leadMm: 0, tailMm: 0 };

/**
 * The bend sheet of a centre line. Each corner is rounded by the radius that the bend has when it has
 * sprung back; a setback is R tan(a / 2), an arc R a (plane geometry).
 */
export function bendSheet(legs: TubeLegs, bending: TubeBending, waste: EndWaste): BendSheet {
  const rounded = legs.corners.map(({ angleDeg, rotateDeg }) => {
    const pulled = pullToDeg(angleDeg, bending.springback);
    const radiusMm = finishedRadiusMm(bending, pulled, angleDeg);
    const rad = (angleDeg * Math.PI) / 180;
    return {
      angleDeg,
      rotateDeg,
      pullToDeg: pulled,
      radiusMm,
      setbackMm: radiusMm * Math.tan(rad / 2),
      arcMm: radiusMm * rad,
    };
  });
  const straightsMm = legs.legsMm.map(
    (leg, i) => leg - (rounded[i - 1]?.setbackMm ?? 0) - (rounded[i]?.setbackMm ?? 0),
  );
  let at = waste.leadMm;
  const bends = rounded.map((bend, i): SheetBend => {
    const startMm = at + (straightsMm[i] as number);
    at = startMm + bend.arcMm;
    return { ...bend, startMm };
  });
  const finishedMm = at + (straightsMm.at(-1) as number) - waste.leadMm;
  return {
    bends,
    straightsMm,
    waste,
    finishedMm,
    cutLengthMm: finishedMm + waste.leadMm + waste.tailMm,
  };
}

/** Centre-line radius of a bend when it is let go. */
const finishedRadiusMm = (
  { formerMm, effectiveMm, isMeasured }: TubeBending,
  pulledDeg: number,
  angleDeg: number,
): number => effectiveMm ?? (isMeasured ? openedRadiusMm(formerMm, pulledDeg, angleDeg) : formerMm);

import { setbackMm } from '../bending/setback.ts';
import { tanDeg } from '../geometry/degrees.ts';
import type { Pose } from '../geometry/pose.ts';
import { along3, cross3, type Vec3 } from '../geometry/vec3.ts';

/**
 * Two plumb sides on level feet with a crown over them that may slope both ways, as a strap under a
 * sloping floor. Lengths in mm, angles in degrees, all over the outside of the sheet.
 */
export interface HatAsk {
  /** Between the inside faces of the two sides. */
  readonly insideMm: number;
  /** Width along the folds, as it is seen in plan. */
  readonly widthMm: number;
  /** From the underside of foot A to the inside of the crown, where it meets side A, in mid-width. */
  readonly heightMm: number;
  /** How much higher the underside of foot B lies than that of foot A. */
  readonly stepMm: number;
  /** How much the crown rises from side A to side B. */
  readonly riseDeg: number;
  /** How much it rises from its left edge to its right one, as the blank is drawn. */
  readonly leanDeg: number;
  readonly thicknessMm: number;
  readonly insideRadiusMm: number;
}

export interface SlopedHat {
  /** Lengths of the sides from foot to crown, in mid-width, on mould lines. */
  readonly sideMm: Readonly<Record<'A' | 'B', number>>;
  /** The folds between the sides and the crown, how far the metal is turned. */
  readonly turnDeg: Readonly<Record<'A' | 'B', number>>;
  /** Length of the crown across its folds, on mould lines. */
  readonly crownMm: number;
  /** Length of its folds. */
  readonly alongMm: number;
  /** How far its fold at side B is shifted along that at side A; 0 unless it slopes both ways. */
  readonly skewMm: number;
  /** How much higher the right edges of the sides end than their left ones. */
  readonly leanMm: number;
  /**
   * Where the crown stands: its lower left corner is the origin of the panel. In the frame of the
   * whole x runs along the folds from the left edges, y from the inside of side A to side B, z up
   * from the underside of foot A.
   */
  readonly crownPose: Pose;
}

/**
 * Plain geometry: the crown lies on the plane z = h + y tan(rise) + (x - w/2) tan(lean), which an
 * angle finder reads along either side of it; outside faces meet on the planes of the sides, a
 * thickness outward. Past square a leg is measured to the outermost tangent of its bend (see
 * `setbackMm`).
 */
export function slopedHat(ask: HatAsk): SlopedHat {
  const { insideMm, widthMm, heightMm, stepMm, thicknessMm: t } = ask;
  const [rise, lean, steep] = slopesOf(ask);
  const turnDeg = { A: turnOf(rise / steep), B: turnOf(-rise / steep) };
  const less = { A: pastSquareMm(turnDeg.A, ask), B: pastSquareMm(turnDeg.B, ask) };
  const [top, span, fold] = [heightMm + t * steep, insideMm + 2 * t, Math.hypot(1, lean)];
  const skew = (rise * lean * span) / fold;
  const whole = Math.sqrt(span * span * (1 + rise * rise) - skew * skew);
  const x: Vec3 = [1 / fold, 0, lean / fold];
  const z: Vec3 = [-lean / steep, -rise / steep, 1 / steep];
  const y = cross3(z, x);
  const corner: Vec3 = [0, -t, top - t * rise - (widthMm / 2) * lean];
  // Where a fold past square is measured to its tangent, the plumb edges of the side end sooner, and
  // on a slanted fold that is a little to the left of where they would; the crown goes with them.
  const origin = along3(along3(corner, y, less.A), x, -less.A * lean);
  return {
    sideMm: {
      A: top - t * rise - less.A * fold,
      B: top + (insideMm + t) * rise - stepMm - less.B * fold,
    },
    turnDeg,
    crownMm: whole - less.A - less.B,
    alongMm: widthMm * fold,
    skewMm: skew + (less.A - less.B) * lean,
    leanMm: widthMm * lean,
    crownPose: { o: along3(origin, z, -t), x, y, z },
  };
}

/**
 * How much the crown rises for each mm from side A to side B and for each mm to the right, and how
 * long a plumb line is through a layer of it that is 1 mm thick.
 */
export const slopesOf = ({
  riseDeg,
  leanDeg,
}: Pick<HatAsk, 'riseDeg' | 'leanDeg'>): readonly [rise: number, lean: number, steep: number] => {
  const [rise, lean] = [tanDeg(riseDeg), tanDeg(leanDeg)];
  return [rise, lean, Math.hypot(1, rise, lean)];
};

/** The angle between two faces by the cosine of that between their normals. */
const turnOf = (cosine: number): number => (Math.acos(cosine) * 180) / Math.PI;

/** How much farther the outside faces of a bend meet than where a leg is measured to. */
const pastSquareMm = (
  turnDeg: number,
  { insideRadiusMm: r, thicknessMm: t }: Pick<HatAsk, 'insideRadiusMm' | 'thicknessMm'>,
): number =>
  turnDeg <= 90 ? 0 : (r + t) * tanDeg(turnDeg / 2) - setbackMm(turnDeg, r, t, 'outside');

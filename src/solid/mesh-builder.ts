import { type Pose, poseVector } from '../geometry/pose.ts';
import { add, leftOf, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { along3, dot3, mix3, type Vec3 } from '../geometry/vec3.ts';
import type { MeshFace, MeshTriangle } from '../model/mesh.ts';
import type { BlankPlan } from './blank-plan.ts';
import type { Region } from './regions.ts';
import { SAME_WAY_COSINE } from '../geometry/tolerance.ts';

/** A point of the blank, as a point of one of its regions. */
export interface Spot {
  readonly point: number;
  readonly region: number;
}

/**
 * Puts points of the blank on both faces of the folded sheet. A point is put there once, even where
 * several regions meet in it. The exception is the end of a fold without width in the flat: its
 * panels part there unless they can be mitred.
 */
export class MeshBuilder {
  readonly points: Vec3[] = [];
  readonly normals: Vec3[] = [];
  readonly triangles: MeshTriangle[] = [];
  readonly faces: MeshFace[] = [];
  private readonly plan: BlankPlan;
  private readonly thicknessMm: number;
  private readonly known = new Map<number, number>();
  private readonly parted: ReadonlySet<number>;
  private readonly panels: ReadonlyMap<number, readonly number[]>;
  /**
   * The way from mid-sheet to the upper face, per half thickness, for points of folds that turn
   * about mid-sheet.
   */
  private readonly mitres: ReadonlyMap<number, Vec3>;

  constructor(plan: BlankPlan, thicknessMm: number) {
    this.plan = plan;
    this.thicknessMm = thicknessMm;
    const { cutEdges } = plan.division;
    const ends = cutEdges.flatMap(({ cut, from, to }) => (plan.seams.has(cut) ? [from, to] : []));
    const panels = ends.length === 0 ? new Map<number, number[]>() : panelsAt(plan);
    const turned = new Set(
      cutEdges.flatMap(({ cut, from, to }) =>
        (plan.seams.get(cut)?.strips ?? 0) > 0 ? [from, to] : [],
      ),
    );
    this.panels = panels;
    this.mitres = mitresOf(plan, new Set(ends.filter((point) => !turned.has(point))), panels);
    this.parted = new Set(ends.filter((point) => !this.mitres.has(point)));
  }

  /** Index of a point's lower copy; the upper copy has the next index. */
  pair({ point, region }: Spot): number {
    const key = this.parted.has(point)
      ? point + 2 ** 26 * (1 + this.panelAt(point, region))
      : point;
    const found = this.known.get(key);
    if (found !== undefined) return found;
    const frame = this.frame({ point, region });
    const mitre = this.mitres.get(point);
    const made = mitre === undefined ? this.addPair(frame) : this.addMitre(frame, mitre);
    this.known.set(key, made);
    return made;
  }

  /** The frame of the sheet at a point. */
  frame({ point, region }: Spot): Pose {
    const { division, regions } = this.plan;
    return (regions[region] as Region).at(division.points[point] as Vec2);
  }

  /** Adds a pair of points that nothing else shares. */
  addPair({ o, z }: Pose): number {
    return this.points.push(o, along3(o, z, this.thicknessMm)) - 2;
  }

  addFace(face: MeshFace): number {
    return this.faces.push(face) - 1;
  }

  /** Adds a triangle with a normal of its own for each corner. */
  add(
    face: number,
    corners: readonly [number, number, number],
    normals: readonly [Vec3, Vec3, Vec3],
  ): void {
    const first = this.normals.push(...normals) - 3;
    this.triangles.push({ corners, normals: [first, first + 1, first + 2], face });
  }

  /** Adds a strip of rim between two pairs, metal on its left. */
  addWall(
    face: number,
    [a, b]: readonly [number, number],
    [atA, atB]: readonly [Vec3, Vec3],
  ): void {
    this.add(face, [a, b, b + 1], [atA, atB, atB]);
    this.add(face, [a, b + 1, a + 1], [atA, atB, atA]);
  }

  private addMitre({ o, z }: Pose, mitre: Vec3): number {
    const half = this.thicknessMm / 2;
    const middle = along3(o, z, half);
    return this.points.push(along3(middle, mitre, -half), along3(middle, mitre, half)) - 2;
  }

  /**
   * The panel that a point belongs to. A bend's own points at a parted end belong to the panel that
   * the bend is tangent to there.
   */
  private panelAt(point: number, region: number): number {
    const { regions, division } = this.plan;
    if (regions[region]?.kind === 'panel') return region;
    const own = this.frame({ point, region }).z;
    return (
      this.panels
        .get(point)
        ?.find(
          (n) =>
            dot3((regions[n] as Region).at(division.points[point] as Vec2).z, own) >
            1 - SAME_WAY_COSINE,
        ) ?? region
    );
  }
}

/** The direction out of the metal beside a stretch of rim, in the drawing. */
export const outwards = (from: Vec2, to: Vec2): Vec2 => {
  const [x, y] = leftOf(unit(sub(to, from)));
  return [-x, -y];
};

/** A direction of the drawing as it lies in a frame of the folded sheet. */
export const lifted = (frame: Pose, v: Vec2): Vec3 => poseVector(frame, [v[0], v[1], 0]);

/** The unit direction half way between two. */
export const between = (a: Vec2, b: Vec2): Vec2 => unit(add(a, b));

/** The panels whose cells a point belongs to. */
const panelsAt = ({ division, regions }: BlankPlan): Map<number, number[]> => {
  const found = new Map<number, number[]>();
  for (const { region, rings } of division.cells) {
    if (regions[region]?.kind !== 'panel') continue;
    for (const point of rings.flat()) {
      const others = found.get(point) ?? [];
      if (!others.includes(region)) found.set(point, [...others, region]);
    }
  }
  return found;
};

/**
 * The directions to the mitre at each point. The upper faces of two panels that meet in mid-sheet
 * meet half a thickness off both: at m with n . m = 1 for either normal n, which is (n1 + n2) / (1
 * + n1 . n2). More than two panels need not meet in one point, so they part; so do two that nearly
 * close.
 */
const mitresOf = (
  plan: BlankPlan,
  points: ReadonlySet<number>,
  panels: ReadonlyMap<number, readonly number[]>,
): Map<number, Vec3> => {
  const found = new Map<number, Vec3>();
  for (const point of points) {
    const [m, n, ...more] = (panels.get(point) ?? []).map(
      (region) => (plan.regions[region] as Region).at(plan.division.points[point] as Vec2).z,
    );
    if (m === undefined || n === undefined || more.length > 0 || dot3(m, n) < LEAST_OPEN) continue;
    const share = 1 / (1 + dot3(m, n));
    found.set(point, mix3(m, share, n, share));
  }
  return found;
};

/** Cosine of the steepest fold about mid-sheet that is mitred. */
const LEAST_OPEN = -0.5;

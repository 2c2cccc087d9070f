import { loopExtents } from '../geometry/extents.ts';
import type { Loop, Vertex } from '../geometry/loop.ts';
import { AT_HOME, type Pose, poseVector } from '../geometry/pose.ts';
import { moveLoop } from '../geometry/motion2.ts';
import { along, cross, distance, dot, sub, unit, type Vec2 } from '../geometry/vec2.ts';
import { cross3, type Vec3 } from '../geometry/vec3.ts';
import type { FlatPanel, FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import { type BlankPlan, planBlank } from './blank-plan.ts';
import { foldedMesh } from './folded-mesh.ts';
import type { BentZone } from './regions.ts';
import { cutoutLoop } from './rings.ts';
import { cellsOf, type Facet, regionFacets, rimOf } from './zone-facets.ts';
import type { Cell } from './subdivide.ts';
import type { Body, StepKernel } from './step-kernel.ts';
import { EXACT_MM, PARALLEL_SINE, SAME_POINT_MM } from '../geometry/tolerance.ts';

/** Cut-outs in a bend that are made of chords stay this near to the curve, mm. */
export const STEP_CHORD_MM = 0.02;

/** The folded part as one body, and the bends whose cut-outs are made of chords. */
export interface StepBody {
  readonly body: Body;
  readonly inChords: readonly string[];
}

/**
 * The exact body of a folded part: panels cut from planes with true arcs, bends from true
 * cylinders. Whatever ends a bend other than square to it (reliefs, holes) has no exact form on a
 * cylinder and is cut into it in chords. Panels that meet in mid-sheet are taken from the mesh.
 * `undefined` for a part whose blank a finding stops.
 */
export const stepBody = (
  kernel: StepKernel,
  part: Part,
  flat: FlatPattern,
): StepBody | undefined => {
  const plan = planBlank(part, flat, STEP_CHORD_MM);
  if (plan === undefined) return undefined;
  const t = part.thicknessMm;
  if (part.folds.some((f) => f.midSurface === true)) return meshBody(kernel, part, flat);
  const panels = flat.panels.map((panel, i) =>
    kernel.move(
      panelBody(kernel, flat, panel),
      (plan.regions[i] as BlankPlan['regions'][number]).at([0, 0]),
    ),
  );
  const bends = plan.regions.flatMap((zone, region) =>
    'bend' in zone ? bendBodies(kernel, plan, zone as BentZone, region, t) : [],
  );
  return {
    body: kernel.union([...panels, ...bends.map((b) => b.body)]),
    inChords: bends.flatMap((b) => (b.inChords ? [b.of] : [])),
  };
};

/** The whole body in chords. */
const meshBody = (kernel: StepKernel, part: Part, flat: FlatPattern): StepBody | undefined => {
  const mesh = foldedMesh(part, flat, STEP_CHORD_MM);
  if (mesh === undefined) return undefined;
  const facets = mesh.triangles.map(({ corners: [a, b, c] }): Facet => [
    mesh.points[a] as Vec3,
    mesh.points[b] as Vec3,
    mesh.points[c] as Vec3,
  ]);
  return {
    body: kernel.polyhedron(facets),
    inChords: flat.cutouts.length > 0 ? part.folds.map((f) => f.id) : [],
  };
};

/** The body of a panel as it lies in the blank. */
const panelBody = (
  kernel: StepKernel,
  flat: FlatPattern,
  { region, placement }: FlatPanel,
): Body => {
  const t = flat.thicknessMm;
  const loop = moveLoop(placement, region);
  const box = loopExtents(loop) ?? { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const isNear = (other: Loop): boolean => {
    const o = loopExtents(other);
    return (
      o !== undefined &&
      o.maxX > box.minX &&
      o.minX < box.maxX &&
      o.maxY > box.minY &&
      o.minY < box.maxY
    );
  };
  // The reliefs at corners are in the outline alone.
  const sheet = kernel.common(kernel.prism(loop, t), kernel.prism(flat.outline, t));
  const through = (hole: Loop): Body =>
    kernel.move(kernel.prism(hole, 3 * t), { ...AT_HOME, o: [0, 0, -t] });
  return kernel.cut(sheet, flat.cutouts.map(cutoutLoop).filter(isNear).map(through));
};

interface BendBody {
  readonly of: string;
  readonly body: Body;
  readonly inChords: boolean;
}

/** Whether a bend zone has no other rim than its tangent lines and ends that are square to them. */
const endsSquare = (plan: BlankPlan, zone: BentZone, cells: readonly Cell[]): boolean => {
  const [p] = zone.bend.parentTangent;
  return rimOf(cells).every(([a, b]) => {
    const [from, to] = [plan.division.points[a] as Vec2, plan.division.points[b] as Vec2];
    const way = unit(sub(to, from));
    const [parent, child] = [dot(sub(from, p), zone.out), dot(sub(to, p), zone.out)];
    const isCut =
      Math.abs(dot(way, zone.out)) < PARALLEL_SINE &&
      (Math.abs(parent) < SAME_POINT_MM || Math.abs(child - zone.bend.allowanceMm) < SAME_POINT_MM);
    return isCut || Math.abs(cross(way, zone.out)) < PARALLEL_SINE;
  });
};

const bendBodies = (
  kernel: StepKernel,
  plan: BlankPlan,
  zone: BentZone,
  region: number,
  t: number,
): BendBody[] => {
  const whole = (from: number, to: number): Body => sector(kernel, zone, from, to, t);
  const [p, q] = zone.bend.parentTangent;
  const along2 = unit(sub(q, p));
  const places = (points: readonly number[]): number[] =>
    points.map((n) => dot(sub(plan.division.points[n] as Vec2, p), along2));
  const seam = [...plan.seams].find(([, s]) => s.zone === zone)?.[0];
  if (seam !== undefined) {
    return plan.division.cutEdges
      .filter((e) => e.cut === seam)
      .map((e) => ({
        of: zone.of,
        body: whole(...(places([e.from, e.to]) as [number, number])),
        inChords: false,
      }));
  }
  const cells = cellsOf(plan, region);
  if (cells.length === 0) return [];
  if (endsSquare(plan, zone, cells)) {
    const first = cells.filter(({ rings }) =>
      rings
        .flat()
        .some(
          (n) => Math.abs(dot(sub(plan.division.points[n] as Vec2, p), zone.out)) < SAME_POINT_MM,
        ),
    );
    return first.map(({ rings }) => {
      const at = places(rings.flat());
      return { of: zone.of, body: whole(Math.min(...at), Math.max(...at)), inChords: false };
    });
  }
  const reach = places(cells.flatMap(({ rings }) => rings.flat()));
  const shell = kernel.polyhedron(regionFacets(plan, region, shellHeights(zone, t)));
  return [
    {
      of: zone.of,
      body: kernel.common(whole(Math.min(...reach) - 1, Math.max(...reach) + 1), shell),
      inChords: true,
    },
  ];
};

/**
 * A bend of no inside radius leaves out a core of this radius, mm; otherwise all of its inside face
 * would be one line.
 */
const CORE_MM = 1e-3;

/**
 * The heights of the sheet between which chords enclose all of a bend, as near to its axis as
 * possible.
 */
const shellHeights = ({ bend, outerMm }: BentZone, t: number): [number, number] => {
  const r = outerMm - t;
  const inside = r === 0 ? -CORE_MM : Math.min(r / 2, 0.1);
  const outside = 4 * STEP_CHORD_MM;
  return bend.direction === 'up' ? [-outside, t + inside] : [-inside, t + outside];
};

/**
 * A stretch of a bend, from its tangent line on the parent round to the child: a sector of a ring,
 * swept along the fold.
 */
const sector = (kernel: StepKernel, zone: BentZone, from: number, to: number, t: number): Body => {
  const [p, q] = zone.bend.parentTangent;
  const dir = unit(sub(q, p));
  const r = zone.outerMm - t;
  const isUp = zone.bend.direction === 'up';
  const [sin, cos] = [Math.sin(zone.rad), Math.cos(zone.rad)];
  const [axis, below, above] = isUp ? [t + r, r + t, r] : [-r, -r, -r - t];
  const bulge = (isUp ? 1 : -1) * Math.tan(zone.rad / 4);
  const shape: Vertex[] = [
    { x: 0, y: 0, bulge },
    { x: Math.abs(below) * sin, y: axis - below * cos, bulge: 0 },
    { x: Math.abs(above) * sin, y: axis - above * cos, bulge: -bulge },
    { x: 0, y: t, bulge: 0 },
  ];
  const frame = zone.turned(along(p, dir, to), 0);
  const x = poseVector(frame, [zone.out[0], zone.out[1], 0]);
  const seat: Pose = { o: frame.o, x, y: frame.z, z: cross3(x, frame.z) };
  return kernel.move(kernel.prism(withoutRepeats(shape), to - from), seat);
};

/** A loop without repeated points. The inside of a ring without radius is one point. */
const withoutRepeats = (loop: readonly Vertex[]): Loop =>
  loop.filter((v, i) => {
    const next = loop[(i + 1) % loop.length] as Vertex;
    return distance([v.x, v.y], [next.x, next.y]) > EXACT_MM;
  });

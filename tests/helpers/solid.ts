import init, {
  type Bnd_Box,
  type BRepAlgoAPI_BooleanOperation,
  type OpenCascadeInstance,
  type TopoDS_Edge,
  type TopoDS_Shape,
  type TopoDS_Vertex,
} from 'replicad-opencascadejs';
import { middleOf } from '../../src/geometry/arc.ts';
import type { Loop } from '../../src/geometry/loop.ts';
import { pieceOf } from '../../src/geometry/piece.ts';
import type { Pose } from '../../src/geometry/pose.ts';
import type { Vec3 } from '../../src/geometry/vec3.ts';

/**
 * One or several solids in the memory of the kernel; valid only within the `withSolids` in which it
 * was made.
 */
export type Solid = TopoDS_Shape;

/** The upright box round a solid, mm. */
export interface SolidBox {
  readonly low: Vec3;
  readonly high: Vec3;
}

/** The kernel of the test file that runs; in full `seed.ts` forgets it before the next one. */
const kept = globalThis as { kernelOfFile?: Promise<OpenCascadeInstance> | undefined };

/**
 * Loads the kernel, once for all tests of a file or, in short, of a process. Its memory grows with what it has made and is never
 * given back, so that one kernel for hundreds of files ends out of bounds.
 */
export const loadSolids = (): Promise<<T>(use: (solids: Solids) => T) => T> => {
  kept.kernelOfFile ??= init();
  return kept.kernelOfFile.then((kernel) => (use) => {
    const solids = new Solids(kernel);
    try {
      return use(solids);
    } finally {
      solids.free();
    }
  });
};

/**
 * The Open CASCADE kernel as far as the tests need it: exact solids of planes and cylinders, with
 * volumes, boxes, distances and booleans that share nothing with the tool's own geometry. It keeps
 * what it makes until `free`.
 */
export class Solids {
  private readonly made: { delete(): void }[] = [];
  private readonly kernel: OpenCascadeInstance;

  constructor(kernel: OpenCascadeInstance) {
    this.kernel = kernel;
  }

  /** The area within a loop, swept from z = 0 up to the given height. */
  prism(loop: Loop, height: number): Solid {
    const up = this.keep(new this.kernel.gp_Vec(0, 0, height));
    return this.keep(
      this.keep(new this.kernel.BRepPrimAPI_MakePrism(this.face(loop), up, false, true)).Shape(),
    );
  }

  /** The area within a loop, turned once round the y axis. */
  ring(loop: Loop): Solid {
    const k = this.kernel;
    const axis = this.keep(new k.gp_Ax1(this.point([0, 0, 0]), this.keep(new k.gp_Dir(0, 1, 0))));
    return this.keep(
      this.keep(new k.BRepPrimAPI_MakeRevol(this.face(loop), axis, 2 * Math.PI, false)).Shape(),
    );
  }

  /** A round bar that starts at `from` and runs along the unit vector `axis`. */
  cylinder(from: Vec3, axis: Vec3, radius: number, length: number): Solid {
    const k = this.kernel;
    const dir = this.keep(new k.gp_Dir(...axis));
    const frame = this.keep(new k.gp_Ax2(this.point(from), dir));
    return this.keep(this.keep(new k.BRepPrimAPI_MakeCylinder(frame, radius, length)).Shape());
  }

  /**
   * The surface of all lines from a point to the arc through three points: a cone, oblique as a
   * rule.
   */
  cone(apex: Vec3, [from, by, to]: readonly [Vec3, Vec3, Vec3]): Solid {
    const k = this.kernel;
    const arc = this.keep(
      this.keep(new k.GC_MakeArcOfCircle(this.point(from), this.point(by), this.point(to))).Value(),
    );
    const edge = this.keep(this.keep(new k.BRepBuilderAPI_MakeEdge(arc)).Edge());
    const wire = this.keep(this.keep(new k.BRepBuilderAPI_MakeWire(edge)).Wire());
    const ruled = this.keep(new k.BRepOffsetAPI_ThruSections(false, true, 1e-6));
    ruled.AddVertex(this.vertex(apex));
    ruled.AddWire(wire);
    ruled.Build();
    return this.keep(ruled.Shape());
  }

  /** The solid between two polygons of as many corners, its sides ruled from corner to corner. */
  ruled(from: readonly Vec3[], to: readonly Vec3[]): Solid {
    const k = this.kernel;
    const ruled = this.keep(new k.BRepOffsetAPI_ThruSections(true, true, 1e-6));
    // Corners go to corners, and are not moved along to where arc lengths would have them.
    ruled.CheckCompatibility(false);
    for (const corners of [from, to]) {
      const ends = corners.map((corner) => this.vertex(corner));
      const wire = this.keep(new k.BRepBuilderAPI_MakeWire());
      for (const [i, end] of ends.entries()) {
        const next = ends[(i + 1) % ends.length] as TopoDS_Vertex;
        wire.Add(this.keep(this.keep(new k.BRepBuilderAPI_MakeEdge(end, next)).Edge()));
      }
      ruled.AddWire(this.keep(wire.Wire()));
    }
    ruled.Build();
    return this.keep(ruled.Shape());
  }

  /** The solid, given in the frame of a panel, moved to where the pose puts the panel. */
  move(solid: Solid, { o, x, y, z }: Pose): Solid {
    const k = this.kernel;
    const turn = this.keep(new k.gp_Trsf());
    turn.SetValues(x[0], y[0], z[0], o[0], x[1], y[1], z[1], o[1], x[2], y[2], z[2], o[2]);
    return this.keep(this.keep(new k.BRepBuilderAPI_Transform(solid, turn, true)).Shape());
  }

  union(solids: readonly Solid[]): Solid {
    const [first, ...rest] = solids;
    if (first === undefined) throw new Error('a union of nothing');
    return rest.length === 0
      ? first
      : this.combine(this.keep(new this.kernel.BRepAlgoAPI_Fuse()), [first], rest);
  }

  /** What is left of a solid when all the others are cut off. */
  cut(solid: Solid, others: readonly Solid[]): Solid {
    return others.length === 0
      ? solid
      : this.combine(this.keep(new this.kernel.BRepAlgoAPI_Cut()), [solid], others);
  }

  common(a: Solid, b: Solid): Solid {
    return this.combine(this.keep(new this.kernel.BRepAlgoAPI_Common()), [a], [b]);
  }

  commonVolume(a: Solid, b: Solid): number {
    return this.volume(this.common(a, b));
  }

  /** The separate bodies of a solid. */
  bodies(solid: Solid): Solid[] {
    const k = this.kernel;
    const found: Solid[] = [];
    const walk = this.keep(new k.TopExp_Explorer(solid, k.TopAbs_ShapeEnum.TopAbs_SOLID));
    for (; walk.More(); walk.Next()) found.push(this.keep(walk.Current()));
    return found;
  }

  /** Volume, mm3. */
  volume(solid: Solid): number {
    const k = this.kernel;
    const sums = this.keep(new k.GProp_GProps());
    k.BRepGProp.VolumeProperties(solid, sums, true, false, false);
    return sums.Mass();
  }

  /** Area of all its faces, mm2. */
  area(solid: Solid): number {
    const k = this.kernel;
    const sums = this.keep(new k.GProp_GProps());
    k.BRepGProp.SurfaceProperties(solid, sums, false, false);
    return sums.Mass();
  }

  /**
   * The smallest upright box. Cylinders are measured themselves, not the control points of their
   * surfaces.
   */
  box(solid: Solid): SolidBox {
    const box: Bnd_Box = this.keep(new this.kernel.Bnd_Box());
    this.kernel.BRepBndLib.AddOptimal(solid, box, false, false);
    box.SetGap(0);
    return {
      low: [box.GetXMin(), box.GetYMin(), box.GetZMin()],
      high: [box.GetXMax(), box.GetYMax(), box.GetZMax()],
    };
  }

  /** Width, depth and height of the box round a solid. */
  size(solid: Solid): [number, number, number] {
    const { low, high } = this.box(solid);
    return [high[0] - low[0], high[1] - low[1], high[2] - low[2]];
  }

  /** The shortest distance between two solids, 0 where they touch or run into each other. */
  distance(a: Solid, b: Solid): number {
    const search = this.keep(new this.kernel.BRepExtrema_DistShapeShape(a, b));
    if (!search.IsDone()) throw new Error('no shortest distance found');
    return search.InnerSolution() ? 0 : search.Value();
  }

  /** The distance of a solid from a point; 0 within it. */
  distanceTo(solid: Solid, at: Vec3): number {
    return this.distance(solid, this.vertex(at));
  }

  free(): void {
    for (const thing of this.made.reverse()) thing.delete();
    this.made.length = 0;
  }

  private keep<T extends { delete(): void }>(thing: T): T {
    this.made.push(thing);
    return thing;
  }

  private point([x, y, z]: Vec3) {
    return this.keep(new this.kernel.gp_Pnt(x, y, z));
  }

  private face(loop: Loop): TopoDS_Shape {
    const k = this.kernel;
    const corners = loop.map(({ x, y }) => this.vertex([x, y, 0]));
    const wire = this.keep(new k.BRepBuilderAPI_MakeWire());
    corners.forEach((corner, i) => {
      const next = corners[(i + 1) % corners.length] as TopoDS_Vertex;
      wire.Add(this.edge(loop, i, corner, next));
    });
    return this.keep(this.keep(new k.BRepBuilderAPI_MakeFace(this.keep(wire.Wire()), true)).Face());
  }

  private vertex(at: Vec3): TopoDS_Vertex {
    return this.keep(this.keep(new this.kernel.BRepBuilderAPI_MakeVertex(this.point(at))).Vertex());
  }

  private edge(loop: Loop, index: number, from: TopoDS_Vertex, to: TopoDS_Vertex): TopoDS_Edge {
    const k = this.kernel;
    const piece = pieceOf(loop, index);
    if (piece.bulge === 0)
      return this.keep(this.keep(new k.BRepBuilderAPI_MakeEdge(from, to)).Edge());
    const [a, b, c] = [piece.from, middleOf(piece.from, piece.to, piece.bulge), piece.to].map(
      ([x, y]) => this.point([x, y, 0]),
    );
    if (a === undefined || b === undefined || c === undefined)
      throw new Error('an arc has three points');
    const arc = this.keep(this.keep(new k.GC_MakeArcOfCircle(a, b, c)).Value());
    return this.keep(this.keep(new k.BRepBuilderAPI_MakeEdge(arc, from, to)).Edge());
  }

  private combine(
    operation: BRepAlgoAPI_BooleanOperation,
    solids: readonly Solid[],
    tools: readonly Solid[],
  ): Solid {
    const list = (of: readonly Solid[]) => {
      const all = this.keep(new this.kernel.NCollection_List_TopoDS_Shape());
      for (const solid of of) all.Append(solid);
      return all;
    };
    operation.SetArguments(list(solids));
    operation.SetTools(list(tools));
    operation.Build();
    return this.keep(operation.Shape());
  }
}

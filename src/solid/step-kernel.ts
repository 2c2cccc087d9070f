import type {
  BRepAlgoAPI_BooleanOperation,
  OpenCascadeInstance,
  TopoDS_Edge,
  TopoDS_Shape,
  TopoDS_Vertex,
} from 'replicad-opencascadejs';
import { middleOf } from '../geometry/arc.ts';
import type { Loop } from '../geometry/loop.ts';
import { pieceOf } from '../geometry/piece.ts';
import type { Pose } from '../geometry/pose.ts';
import type { Vec3 } from '../geometry/vec3.ts';
import type { Facet } from './zone-facets.ts';

/** A body in the memory of the kernel. */
export type Body = TopoDS_Shape;

/** Points nearer to each other than this, mm, are sewn together. */
const SEWN_MM = 1e-5;

/**
 * What the writer of STEP files needs of the solid kernel. It keeps everything that it makes until
 * `free`.
 */
export class StepKernel {
  private readonly made: { delete(): void }[] = [];
  private readonly kernel: OpenCascadeInstance;

  constructor(kernel: OpenCascadeInstance) {
    this.kernel = kernel;
  }

  /** The area within a loop, from z = 0 up to a height. */
  prism(loop: Loop, height: number): Body {
    const up = this.keep(new this.kernel.gp_Vec(0, 0, height));
    return this.keep(
      this.keep(new this.kernel.BRepPrimAPI_MakePrism(this.area(loop), up, false, true)).Shape(),
    );
  }

  /**
   * The area within a loop, turned from z = 0 upwards about the line x = radius in its plane, so that
   * it comes towards x.
   */
  revolved(loop: Loop, radiusMm: number, angleDeg: number): Body {
    const k = this.kernel;
    const centre = this.keep(new k.gp_Pnt(radiusMm, 0, 0));
    const axis = this.keep(new k.gp_Ax1(centre, this.keep(new k.gp_Dir(0, 1, 0))));
    const rad = (angleDeg * Math.PI) / 180;
    return this.keep(
      this.keep(new k.BRepPrimAPI_MakeRevol(this.area(loop), axis, rad, false)).Shape(),
    );
  }

  private area(loop: Loop) {
    const corners = loop.map(({ x, y }) => this.vertex([x, y, 0]));
    const edges = loop.map((_, i) =>
      this.edge(
        loop,
        i,
        corners[i] as TopoDS_Vertex,
        corners[(i + 1) % corners.length] as TopoDS_Vertex,
      ),
    );
    return this.face(edges);
  }

  /** The body within closed facets; faces in one plane become one face. */
  polyhedron(facets: readonly Facet[]): Body {
    const k = this.kernel;
    const sewing = this.keep(new k.BRepBuilderAPI_Sewing(SEWN_MM, true, true, true, false));
    for (const facet of facets) {
      const corners = facet.map((p) => this.vertex(p));
      const edges = corners.map((corner, i) =>
        this.keep(
          this.keep(
            new k.BRepBuilderAPI_MakeEdge(corner, corners[(i + 1) % 3] as TopoDS_Vertex),
          ).Edge(),
        ),
      );
      sewing.Add(this.face(edges));
    }
    sewing.Perform(this.keep(new k.Message_ProgressRange()));
    const walk = this.keep(
      new k.TopExp_Explorer(this.keep(sewing.SewedShape()), k.TopAbs_ShapeEnum.TopAbs_SHELL),
    );
    const solid = this.keep(new k.BRepBuilderAPI_MakeSolid());
    for (; walk.More(); walk.Next())
      solid.Add(this.keep(k.TopoDS.Shell(this.keep(walk.Current()))));
    const whole = this.keep(solid.Solid());
    k.BRepLib.OrientClosedSolid(whole);
    return this.unified(whole);
  }

  /** A body carried from the frame of a pose to where the pose is. */
  move(body: Body, { o, x, y, z }: Pose): Body {
    const k = this.kernel;
    const turn = this.keep(new k.gp_Trsf());
    turn.SetValues(x[0], y[0], z[0], o[0], x[1], y[1], z[1], o[1], x[2], y[2], z[2], o[2]);
    return this.keep(this.keep(new k.BRepBuilderAPI_Transform(body, turn, true)).Shape());
  }

  union(bodies: readonly Body[]): Body {
    const [first, ...rest] = bodies;
    if (first === undefined) throw new Error('a union of nothing');
    return rest.length === 0
      ? first
      : this.unified(this.combine(this.keep(new this.kernel.BRepAlgoAPI_Fuse()), [first], rest));
  }

  cut(body: Body, others: readonly Body[]): Body {
    return others.length === 0
      ? body
      : this.combine(this.keep(new this.kernel.BRepAlgoAPI_Cut()), [body], others);
  }

  common(a: Body, b: Body): Body {
    return this.combine(this.keep(new this.kernel.BRepAlgoAPI_Common()), [a], [b]);
  }

  /** Of the solids of a body the one whose middle of mass is nearest to a point. */
  solidAt(body: Body, [x, y, z]: Vec3): Body {
    const k = this.kernel;
    const at = this.keep(new k.gp_Pnt(x, y, z));
    let found: { readonly solid: Body; readonly offMm: number } | undefined;
    const walk = this.keep(new k.TopExp_Explorer(body, k.TopAbs_ShapeEnum.TopAbs_SOLID));
    for (; walk.More(); walk.Next()) {
      const solid = this.keep(walk.Current());
      const sums = this.keep(new k.GProp_GProps());
      k.BRepGProp.VolumeProperties(solid, sums, true, false, false);
      const offMm = this.keep(sums.CentreOfMass()).Distance(at);
      if (offMm < (found?.offMm ?? Infinity)) found = { solid, offMm };
    }
    if (found === undefined) throw new Error('a body without solids');
    return found.solid;
  }

  /** The text of a STEP file by AP214, lengths in millimetres. */
  stepText(body: Body): string {
    const k = this.kernel;
    const writer = this.keep(new k.STEPControl_Writer());
    k.Interface_Static.SetCVal('write.step.schema', 'AP214IS');
    k.Interface_Static.SetCVal('write.step.unit', 'MM');
    writer.Transfer(
      body,
      k.STEPControl_StepModelType.STEPControl_AsIs,
      true,
      this.keep(new k.Message_ProgressRange()),
    );
    writer.Write(FILE);
    const text = k.FS.readFile(FILE, { encoding: 'utf8' });
    k.FS.unlink(FILE);
    return text;
  }

  free(): void {
    for (const thing of this.made.reverse()) thing.delete();
    this.made.length = 0;
  }

  /** A body in which faces and edges that run on in one another are one. */
  private unified(body: Body): Body {
    const unify = this.keep(new this.kernel.ShapeUpgrade_UnifySameDomain(body, true, true, false));
    unify.Build();
    return this.keep(unify.Shape());
  }

  private keep<T extends { delete(): void }>(thing: T): T {
    this.made.push(thing);
    return thing;
  }

  private vertex([x, y, z]: Vec3): TopoDS_Vertex {
    return this.keep(
      this.keep(
        new this.kernel.BRepBuilderAPI_MakeVertex(this.keep(new this.kernel.gp_Pnt(x, y, z))),
      ).Vertex(),
    );
  }

  private face(edges: readonly TopoDS_Edge[]) {
    const wire = this.keep(new this.kernel.BRepBuilderAPI_MakeWire());
    for (const edge of edges) wire.Add(edge);
    return this.keep(
      this.keep(new this.kernel.BRepBuilderAPI_MakeFace(this.keep(wire.Wire()), true)).Face(),
    );
  }

  private edge(loop: Loop, index: number, from: TopoDS_Vertex, to: TopoDS_Vertex): TopoDS_Edge {
    const k = this.kernel;
    const piece = pieceOf(loop, index);
    if (piece.bulge === 0)
      return this.keep(this.keep(new k.BRepBuilderAPI_MakeEdge(from, to)).Edge());
    const [a, b, c] = [piece.from, middleOf(piece.from, piece.to, piece.bulge), piece.to].map(
      ([x, y]) => this.keep(new k.gp_Pnt(x, y, 0)),
    );
    if (a === undefined || b === undefined || c === undefined)
      throw new Error('an arc has three points');
    const arc = this.keep(this.keep(new k.GC_MakeArcOfCircle(a, b, c)).Value());
    return this.keep(this.keep(new k.BRepBuilderAPI_MakeEdge(arc, from, to)).Edge());
  }

  private combine(
    operation: BRepAlgoAPI_BooleanOperation,
    bodies: readonly Body[],
    tools: readonly Body[],
  ): Body {
    const list = (of: readonly Body[]) => {
      const all = this.keep(new this.kernel.NCollection_List_TopoDS_Shape());
      for (const body of of) all.Append(body);
      return all;
    };
    operation.SetArguments(list(bodies));
    operation.SetTools(list(tools));
    operation.Build(this.keep(new this.kernel.Message_ProgressRange()));
    return this.keep(operation.Shape());
  }
}

/** Name of a file in the kernel's own memory, not on a disk. */
const FILE = 'part.step';

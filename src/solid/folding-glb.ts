import { AT_HOME, type Pose } from '../geometry/pose.ts';
import type { Vec3 } from '../geometry/vec3.ts';
import { fourBytes } from './four-bytes.ts';
import {
  cornersOf,
  type FoldingPiece,
  foldingModel,
  type ModelPiece,
  shifted,
} from './folding-model.ts';
import { GlbBuffer } from './glb-buffer.ts';
import { container, SHEET, TRIANGLES, unit } from './glb.ts';
import { type Hinge, type HingedPiece, SHARES, type Skin, STAGES } from './hinged-piece.ts';
import { METRES_PER_MM, nearTo, type Trs, trsOf, upright } from './pose-trs.ts';

/** Seconds that a fold takes, that folding takes at most, and that joining and rest take. */
const FOLD_S = 1;
const FOLDING_S = 12;
const JOIN_S = 1;
const REST_S = 1;

/** Clear space between pieces that lie side by side, mm. */
const ASIDE_MM = 40;

/**
 * Pieces that fold up and are joined as binary glTF 2.0 with one animation (Khronos Group, glTF 2.0
 * Specification, 3.11). A node for each piece, within it one for each panel, and between two panels
 * one that turns as their hinge; as the file stands, without its animation, everything is finished.
 * Panels are rigid. The strip of a bend has a shape for each stage of folding, and is blended from
 * one to the next; its finished shape is that of the folded mesh, so that the last frame is that
 * mesh. Facets that meet about the middle of the sheet keep the mitre that they have when finished.
 * `undefined` where a piece cannot be folded up.
 */
export const writeFoldingGlb = (
  pieces: readonly FoldingPiece[],
  {
    name,
    mark,
    toleranceMm,
  }: { readonly name: string; readonly mark: string; readonly toleranceMm: number },
): Uint8Array<ArrayBuffer> | undefined => {
  const model = foldingModel(pieces, toleranceMm);
  if (model === undefined) return undefined;
  const scene = new Scene();
  const steps = Math.max(0, ...pieces.map(({ order }) => order.length));
  const folding = Math.min(FOLDING_S, steps * FOLD_S);
  const starts = startsOf(model);
  const last = folding + Math.max(0, ...pieces.map(({ turn }) => turn)) * JOIN_S;
  const roots = model.map((piece, i) => {
    const node = scene.node(piece.name, piece.pose);
    const { hinged } = piece;
    scene.hang(node, panelNode(scene, hinged, hinged.root, timesOf(piece, folding)));
    const begin = folding + (piece.turn - 1) * JOIN_S;
    if (pieces.length > 1)
      scene.move(
        node,
        [begin, begin + JOIN_S, last + REST_S],
        [starts[i] as Pose, piece.pose, piece.pose],
      );
    return node;
  });
  return container(
    new TextEncoder().encode(JSON.stringify(scene.description(name, mark, roots))),
    scene.buffer.bytes(),
  );
};

/** When each fold is made: its first and its last second. */
type Times = ReadonlyMap<string, readonly [number, number]>;

const timesOf = ({ order }: ModelPiece, folding: number): Times =>
  new Map(
    order.flatMap((together, i) =>
      together.map((fold): [string, readonly [number, number]] => [
        fold,
        [(i * folding) / order.length, ((i + 1) * folding) / order.length],
      ]),
    ),
  );

/** A panel with its metal, and all that hangs on it. */
const panelNode = (scene: Scene, piece: HingedPiece, panel: string, times: Times): number => {
  const node = scene.node(panel, AT_HOME, scene.mesh(panel, piece.skins.get(panel)));
  for (const hinge of piece.hinges.get(panel) ?? []) {
    const turn = scene.node(`fold ${hinge.fold}`, hinge.poses.at(-1) as Pose);
    scene.hang(turn, panelNode(scene, piece, hinge.child, times));
    const strip =
      hinge.skin === undefined
        ? undefined
        : scene.node(`bend ${hinge.fold}`, AT_HOME, scene.mesh(`bend ${hinge.fold}`, hinge.skin));
    if (strip !== undefined) scene.hang(node, strip);
    scene.hang(node, turn);
    animate(scene, hinge, [turn, strip], times.get(hinge.fold));
  }
  return node;
};

const animate = (
  scene: Scene,
  { poses }: Hinge,
  [turn, strip]: readonly [number, number | undefined],
  time: readonly [number, number] | undefined,
): void => {
  if (time === undefined) return;
  const [from, to] = time;
  const at = SHARES.map((share) => from + share * (to - from));
  scene.move(turn, at, poses);
  if (strip !== undefined) scene.blend(strip, at);
};

/** Pieces side by side, each clear of the next while it is folded; the first is where it stays. */
const startsOf = (pieces: readonly ModelPiece[]): Pose[] => {
  let edge: number | undefined;
  return pieces.map((piece) => {
    const reach = cornersOf(piece).map(([x]) => x);
    const [least, most] = [Math.min(...reach), Math.max(...reach)];
    const by = edge === undefined ? 0 : edge + ASIDE_MM - least;
    edge = most + by;
    return shifted(piece.pose, by);
  });
};

interface Node extends Partial<Trs> {
  readonly name: string;
  readonly mesh?: number;
  children?: number[];
}

/** The nodes, meshes and key frames of a file. */
class Scene {
  readonly buffer = new GlbBuffer();
  private readonly nodes: Node[] = [];
  private readonly meshes: object[] = [];
  private readonly channels: object[] = [];
  private readonly samplers: object[] = [];

  node(name: string, pose: Pose, mesh?: number): number {
    const still = pose === AT_HOME ? {} : trsOf(pose);
    return this.nodes.push({ name, ...still, ...(mesh !== undefined && { mesh }) }) - 1;
  }

  hang(parent: number, child: number): void {
    const node = this.nodes[parent] as Node;
    node.children = [...(node.children ?? []), child];
  }

  /** The metal of a panel or a bend; nothing where there is none. */
  mesh(name: string, skin: Skin | undefined): number | undefined {
    const vertices = skin === undefined ? undefined : verticesOf(skin);
    if (vertices === undefined || vertices.indices.length === 0) return undefined;
    const { stages, indices } = vertices;
    const finished = stages.at(-1) as Stage;
    const targets = stages.slice(0, -1).map((stage) => ({
      POSITION: this.buffer.places(differences(stage.places, finished.places)),
      NORMAL: this.buffer.directions(differences(stage.ways, finished.ways)),
    }));
    const primitive = {
      attributes: {
        POSITION: this.buffer.places(finished.places),
        NORMAL: this.buffer.directions(finished.ways),
      },
      indices: this.buffer.indices(indices),
      mode: TRIANGLES,
      material: 0,
      ...(targets.length > 0 && { targets }),
    };
    const weights = targets.length > 0 ? { weights: targets.map(() => 0) } : {};
    return this.meshes.push({ name, primitives: [primitive], ...weights }) - 1;
  }

  /** Moves a node from pose to pose. */
  move(node: number, at: readonly number[], poses: readonly Pose[]): void {
    const all = poses.map(trsOf);
    const turns = all.reduce<Trs['rotation'][]>((made, { rotation }) => {
      const before = made.at(-1);
      return [...made, before === undefined ? rotation : nearTo(rotation, before)];
    }, []);
    const input = this.buffer.times(at);
    const shifts = all.map(({ translation }) => translation);
    this.channel(node, 'translation', input, this.buffer.values(shifts, 3));
    this.channel(node, 'rotation', input, this.buffer.values(turns, 4));
  }

  /** Blends a bend from shape to shape; the finished one is the mesh without any of them. */
  blend(node: number, at: readonly number[]): void {
    const weights = at.flatMap((_, i) =>
      Array.from({ length: STAGES }, (__, k): readonly [number] => [i === k ? 1 : 0]),
    );
    this.channel(node, 'weights', this.buffer.times(at), this.buffer.values(weights, 1));
  }

  description(name: string, mark: string, roots: readonly number[]): object {
    const { accessors, bufferViews } = this.buffer;
    const { channels, samplers } = this;
    return {
      asset: { generator: mark, version: '2.0' },
      accessors,
      bufferViews,
      buffers: [{ byteLength: this.buffer.bytes().length }],
      materials: [SHEET],
      meshes: this.meshes,
      nodes: this.nodes,
      ...(channels.length > 0 && { animations: [{ name: 'folding', channels, samplers }] }),
      scenes: [{ name, nodes: roots }],
      scene: 0,
    };
  }

  private channel(node: number, path: string, input: number, output: number): void {
    const sampler = this.samplers.push({ input, output, interpolation: 'LINEAR' }) - 1;
    this.channels.push({ sampler, target: { node, path } });
  }
}

interface Stage {
  readonly places: readonly Vec3[];
  readonly ways: readonly Vec3[];
}

/** Vertices of a skin at all of its stages, in metres, y up; those of one name are one. */
const verticesOf = ({
  stages,
  names,
}: Skin): { readonly stages: readonly Stage[]; readonly indices: readonly number[] } => {
  const known = new Map<string, number>();
  const first: number[] = [];
  const numbers = names.map((name, i) => {
    const found = known.get(name);
    if (found !== undefined) return found;
    known.set(name, known.size);
    first.push(i);
    return known.size - 1;
  });
  const indices = Array.from({ length: numbers.length / 3 }, (_, t) =>
    numbers.slice(3 * t, 3 * t + 3),
  ).filter(([a, b, c]) => a !== b && b !== c && c !== a);
  return {
    indices: indices.flat(),
    stages: stages.map(({ points, normals }) => ({
      places: first.map((i) => fourBytes(upright(points[i] as Vec3), METRES_PER_MM)),
      ways: first.map((i) => fourBytes(unit(upright(normals[i] as Vec3)))),
    })),
  };
};

const differences = (a: readonly Vec3[], b: readonly Vec3[]): Vec3[] =>
  a.map((p, i) => {
    const q = b[i] as Vec3;
    return fourBytes([p[0] - q[0], p[1] - q[1], p[2] - q[2]]);
  });

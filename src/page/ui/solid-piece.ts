import {
  BackSide,
  Box3,
  BufferAttribute,
  BufferGeometry,
  EdgesGeometry,
  Group,
  LineBasicMaterial,
  LineSegments,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  type Object3D,
  Quaternion,
  Vector3,
} from 'three';
import type { Pose } from '../../geometry/pose.ts';
import type { HingeAnswer, ModelAnswer, PieceAnswer, SkinAnswer } from '../core/model-questions.ts';
import { sharesAt } from '../model/folding-time.ts';
import { letterSprite } from './solid-letters.ts';

/** What of a model is shown, and how. */
export interface SolidShown {
  /** Strokes that are made: 2.5 is half way through the third. */
  readonly strokes: number;
  /** Folds at other angles than those of the strokes, as shares of them. */
  readonly shares?: ReadonlyMap<string, number>;
  /** How far the pieces are apart: 0 joined, 1 clear of each other. */
  readonly apart: number;
  /** Where it is seen from: degrees counter-clockwise from the x axis, and up. */
  readonly from: readonly [sideDeg: number, riseDeg: number];
  readonly zoom: number;
  /** Where it is cut open: the axis, and how far along it from 0 to 1. */
  readonly cut: { readonly axis: 0 | 1 | 2; readonly at: number } | undefined;
  /** The panel that is in the way. */
  readonly marked: string | undefined;
}

const COLOURS = {
  sheet: 0xc6cbce,
  bend: 0xd79a6b,
  marked: 0xd0453a,
  edge: 0x1d2427,
  cut: 0x8a3b12,
} as const;
/** Facets of an arc meet at less, degrees: they have no edge. */
const EDGE_DEG = 25;
export interface PieceNode {
  readonly node: Group;
  /** What it takes up where it is joined: folded, and of a part that is alone also flat. */
  readonly room: Box3;
  /** Folds it as far as is shown, where it is joined. */
  readonly stand: (shown: SolidShown, order: PieceAnswer['order']) => void;
  readonly materials: readonly (MeshLambertMaterial | MeshBasicMaterial | LineBasicMaterial)[];
  /** What is seen of the metal where it is cut open. */
  readonly insides: readonly Mesh[];
}

/** A piece as a tree: a node for each panel, and between two of them one that turns as their hinge. */
export const pieceNode = (
  piece: PieceAnswer,
  { letters, pieces }: ModelAnswer,
  number: number,
): PieceNode => {
  const isAlone = pieces.length === 1;
  const looks = {
    sheet: new MeshLambertMaterial({ color: COLOURS.sheet, ...BEHIND_EDGES }),
    bend: new MeshLambertMaterial({ color: COLOURS.bend, ...BEHIND_EDGES }),
    marked: new MeshLambertMaterial({ color: COLOURS.marked, ...BEHIND_EDGES }),
    cut: new MeshBasicMaterial({ color: COLOURS.cut, side: BackSide }),
    edge: new LineBasicMaterial({ color: COLOURS.edge }),
    markedEdge: new LineBasicMaterial({ color: COLOURS.marked }),
  };
  const insides: Mesh[] = [];
  const panels = new Map(
    piece.panels.map(({ id, skin }) => {
      const geometry = geometryOf(skin);
      const metal = new Mesh(geometry, looks.sheet);
      const inside = new Mesh(geometry, looks.cut);
      insides.push(inside);
      const edges = new LineSegments(new EdgesGeometry(geometry, EDGE_DEG), looks.edge);
      const node = new Group().add(metal, inside, edges);
      return [id, { node, metal, edges }] as const;
    }),
  );
  const hinges = piece.hinges.map((hinge) => {
    const turn = new Group().add(panels.get(hinge.child)?.node as Object3D);
    const strip = new Mesh(geometryOf(hinge.stages.at(-1)), looks.bend);
    const inside = new Mesh(strip.geometry, looks.cut);
    insides.push(inside);
    panels.get(hinge.parent)?.node.add(turn, strip, inside);
    if (isAlone && piece.hinges.length <= MOST_NAMED && hinge.stages.length > 0)
      strip.add(letterSprite(hinge.fold, middleOf(hinge)));
    return { hinge, turn, strip };
  });
  const node = new Group().add(panels.get(piece.root)?.node as Object3D);
  const home = matrixOf(piece.pose);
  for (const { letter, piece: of, at } of letters)
    if (of === number)
      node.add(letterSprite(letter, new Vector3(...at).applyMatrix4(home.clone().invert())));
  const foldTo = (shareOf: (fold: string) => number): void => {
    home.decompose(node.position, node.quaternion, node.scale);
    for (const { hinge, turn, strip } of hinges) {
      turnTo(turn, hinge, shareOf(hinge.fold));
      bendTo(strip.geometry, hinge, shareOf(hinge.fold));
    }
  };
  const room = new Box3();
  for (const share of isAlone ? [0, 1] : [1]) {
    foldTo(() => share);
    node.updateMatrixWorld(true);
    for (const { metal } of panels.values()) room.expandByObject(metal);
  }
  return {
    node,
    room,
    insides,
    materials: Object.values(looks),
    stand: ({ strokes, shares, marked }, order) => {
      const turned = shares ?? sharesAt(order, strokes);
      foldTo((fold) => turned.get(fold) ?? 1);
      for (const [id, { metal, edges }] of panels) {
        metal.material = id === marked ? looks.marked : looks.sheet;
        edges.material = id === marked ? looks.markedEdge : looks.edge;
      }
    },
  };
};

/** Faces lie a little behind their edges, which would else be seen in parts. */
const BEHIND_EDGES = { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 };

/** More names of folds than these hide the part. */
const MOST_NAMED = 16;

const geometryOf = (skin: SkinAnswer | undefined): BufferGeometry => {
  const geometry = new BufferGeometry();
  geometry.setAttribute(
    'position',
    new BufferAttribute((skin?.places ?? new Float32Array()).slice(), 3),
  );
  geometry.setAttribute(
    'normal',
    new BufferAttribute((skin?.ways ?? new Float32Array()).slice(), 3),
  );
  return geometry;
};

const middleOf = ({ stages }: HingeAnswer): Vector3 => {
  const places = stages.at(-1)?.places ?? new Float32Array();
  const sum = new Vector3();
  for (let i = 0; i < places.length; i += 3)
    sum.add(new Vector3(places[i], places[i + 1], places[i + 2]));
  return sum.divideScalar(Math.max(1, places.length / 3));
};

const matrixOf = ({ o, x, y, z }: Pose): Matrix4 =>
  new Matrix4()
    .makeBasis(new Vector3(...x), new Vector3(...y), new Vector3(...z))
    .setPosition(new Vector3(...o));

/** The two stages that a share lies between, and how far from the one to the other. */
const between = (share: number, stages: number): readonly [number, number] => {
  const at = share * (stages - 1);
  const from = Math.min(stages - 2, Math.floor(at));
  return [from, at - from];
};

const turnTo = (node: Object3D, { poses }: HingeAnswer, share: number): void => {
  const [i, part] = between(share, poses.length);
  const [a, b] = [poses[i], poses[i + 1]].map((pose) => {
    const [o, q, s] = [new Vector3(), new Quaternion(), new Vector3()];
    matrixOf(pose as Pose).decompose(o, q, s);
    return { o, q };
  }) as [{ o: Vector3; q: Quaternion }, { o: Vector3; q: Quaternion }];
  node.position.lerpVectors(a.o, b.o, part);
  node.quaternion.slerpQuaternions(a.q, b.q, part);
};

const bendTo = (geometry: BufferGeometry, { stages }: HingeAnswer, share: number): void => {
  if (stages.length < 2) return;
  const [i, part] = between(share, stages.length);
  const [a, b] = [stages[i] as SkinAnswer, stages[i + 1] as SkinAnswer];
  for (const [name, from, to] of [
    ['position', a.places, b.places],
    ['normal', a.ways, b.ways],
  ] as const) {
    const attribute = geometry.getAttribute(name) as BufferAttribute;
    for (let k = 0; k < from.length; k++)
      attribute.array[k] = (from[k] as number) * (1 - part) + (to[k] as number) * part;
    attribute.needsUpdate = true;
  }
  geometry.computeBoundingSphere();
};

import { describe, expect, test } from 'vitest';
import { poseOfMesh } from '../../src/assembly/assembly.ts';
import { posePoint } from '../../src/geometry/pose.ts';
import type { Vec3 } from '../../src/geometry/vec3.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import type { Part } from '../../src/model/part.ts';
import { foldedMesh } from '../../src/solid/folded-mesh.ts';
import { writeFoldingGlb } from '../../src/solid/folding-glb.ts';
import type { FoldingPiece } from '../../src/solid/folding-model.ts';
import { AT_HOME } from '../../src/geometry/pose.ts';
import { oneOfEach } from '../helpers/extent.ts';
import { GltfScene, type Shown } from '../helpers/gltf-scene.ts';
import { validateGltf } from '../helpers/gltf-validator.ts';
import { exampleSets } from '../helpers/made-sets.ts';
import { TREES } from '../helpers/trees.ts';
import { foldUp } from '../../src/fold/fold-up.ts';
import { foldedSeat } from '../../src/fold/seat.ts';

const MARK = 'blankwright tank cart-tank left';
const TOLERANCE_MM = 0.05;
/** A thousandth of a millimetre, in metres: what numbers of four bytes hold of a part of a metre. */
const SAME_M = 1e-6;

const allTogether = ({ folds }: Part): FoldingPiece['order'] =>
  folds.length === 0 ? [] : [folds.map(({ id }) => id)];
const oneByOne = ({ folds }: Part): FoldingPiece['order'] => folds.map(({ id }) => [id]);

const glbOf = (pieces: readonly FoldingPiece[]): Uint8Array => {
  const bytes = writeFoldingGlb(pieces, { name: 'whole', mark: MARK, toleranceMm: TOLERANCE_MM });
  if (bytes === undefined) throw new Error('no model');
  return bytes;
};

/** Places of the whole in the words of the format: metres, y up. */
const upright = ([x, y, z]: Vec3): Vec3 => [x / 1000, z / 1000, -y / 1000];

/** Every point of some surfaces lies on one of the others' points, and the other way round. */
const farthest = (shown: readonly Shown[], wanted: readonly Vec3[]): number => {
  const own = shown.flatMap(({ places, triangles }) =>
    [...new Set(triangles.flat())].map((i) => places[i] as Vec3),
  );
  return Math.max(farOf(own, wanted), farOf(wanted, own));
};

const CELL_M = 1e-3;

/** The farthest that a point lies from the nearest of others; a cell away counts as far. */
const farOf = (points: readonly Vec3[], others: readonly Vec3[]): number => {
  const cells = new Map<string, Vec3[]>();
  const cell = (p: Vec3): number[] => p.map((v) => Math.round(v / CELL_M));
  for (const p of others) {
    const key = cell(p).join(' ');
    const all = cells.get(key) ?? [];
    all.push(p);
    cells.set(key, all);
  }
  const near = (p: Vec3): number => {
    const [x, y, z] = cell(p) as [number, number, number];
    let least = CELL_M;
    for (const dx of [-1, 0, 1])
      for (const dy of [-1, 0, 1])
        for (const dz of [-1, 0, 1])
          for (const q of cells.get([x + dx, y + dy, z + dz].join(' ')) ?? [])
            least = Math.min(least, Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]));
    return least;
  };
  return points.reduce((most, p) => Math.max(most, near(p)), 0);
};

/** The points that triangles of a mesh use. */
const usedPoints = (piece: FoldingPiece, at: (p: Vec3) => Vec3): Vec3[] => {
  const mesh = foldedMesh(piece.part, piece.flat, TOLERANCE_MM);
  if (mesh === undefined) throw new Error('no mesh');
  const used = new Set(mesh.triangles.flatMap(({ corners }) => corners));
  return [...used].map((i) => upright(at(mesh.points[i] as Vec3)));
};

const pathsOf = (scene: GltfScene): string[][] => {
  const paths: string[][] = [];
  const walk = (i: number, path: readonly string[]): void => {
    const node = scene.json.nodes[i];
    if (node === undefined) throw new Error('no node');
    paths.push([...path, node.name]);
    for (const child of node.children ?? []) walk(child, [...path, node.name]);
  };
  for (const root of scene.json.scenes[0]?.nodes ?? []) walk(root, []);
  return paths;
};

/** All nodes of a piece in one plane: its blank. */
const thicknessOf = (shown: readonly Shown[], sheetMm: number): number => {
  const points = shown.flatMap(({ places }) => places);
  const [first] = shown;
  const [a, b, c] = (first?.triangles[0] ?? []).map((i) => first?.places[i]) as [Vec3, Vec3, Vec3];
  const [u, v] = [b, c].map((p) => p.map((x, i) => x - (a[i] as number))) as unknown as [
    Vec3,
    Vec3,
  ];
  const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
  const size = Math.hypot(...n);
  const levels = points.map(
    (p) => p.reduce((sum, x, i) => sum + (x - (a[i] as number)) * (n[i] as number), 0) / size,
  );
  return (Math.max(...levels) - Math.min(...levels)) * 1000 - sheetMm;
};

const SETS = oneOfEach(await exampleSets(), ({ family }) => family);

describe.each([...SETS])('$title', ({ set }) => {
  const pieces = set.assembly.pieces.map((piece): FoldingPiece => ({
    ...piece,
    order: piece.isRolled ? allTogether(piece.part) : oneByOne(piece.part),
  }));
  const bytes = glbOf(pieces);
  const scene = new GltfScene(bytes);

  test('the validator of the format finds nothing', async () => {
    expect((await validateGltf(bytes)).issues.messages).toEqual([]);
  });

  test('pieces are nodes, with a node for each panel and a hinge for each bend', () => {
    const paths = pathsOf(scene);
    for (const { name, part } of pieces) {
      const own = paths.filter(([root]) => root === name);
      for (const { id } of part.panels)
        expect(own.filter((path) => path.length > 1 && path.at(-1) === id)).toHaveLength(1);
      for (const { id, parent, child } of part.folds) {
        const under = own.filter((path) => path.at(-2) === `fold ${id}`);
        expect(under.map((path) => [path.at(-3), path.at(-1)])).toEqual([
          [parent.panel, child.panel],
        ]);
      }
    }
  });

  test('as it stands, and in its last frame, it is the folded pieces in their places', () => {
    const wanted = pieces.flatMap((piece, i) => {
      const placed = set.assembly.pieces[i];
      if (placed === undefined) throw new Error('no piece');
      const pose = poseOfMesh(placed);
      return usedPoints(piece, (p) => posePoint(pose, p));
    });
    expect(farthest(scene.at(), wanted)).toBeLessThan(SAME_M);
    expect(farthest(scene.at(scene.lastSecond), wanted)).toBeLessThan(SAME_M);
  });

  test('its first frame is the flat blanks, none over another seen along x', () => {
    const first = scene.at(0);
    const reaches = pieces.map(({ name, part }) => {
      const own = first.filter(({ path: [root] }) => root === name);
      // Facets about the middle of the sheet keep the mitre of the finished fold.
      if (part.folds.every((fold) => fold.midSurface !== true))
        expect(thicknessOf(own, part.thicknessMm), name).toBeLessThan(1e-3);
      const xs = own.flatMap(({ places }) => places.map(([x]) => x));
      return [Math.min(...xs), Math.max(...xs)] as const;
    });
    for (const [i, [low]] of reaches.entries())
      if (i > 0) expect(low).toBeGreaterThan(reaches[i - 1]?.[1] ?? NaN);
  });
});

describe.each(TREES)('$name', ({ part }) => {
  const flat = flatten(part, { id: 'din6935' });
  const piece: FoldingPiece = {
    name: 'part',
    part,
    flat,
    pose: foldedSeat(flat, foldUp(part, flat).poses),
    turn: 1,
    order: oneByOne(part),
  };
  const bytes = glbOf([piece]);
  const scene = new GltfScene(bytes);

  test('the validator finds nothing; the last frame is the folded mesh', async () => {
    expect((await validateGltf(bytes)).issues.messages).toEqual([]);
    const wanted = usedPoints(piece, (p) => posePoint(AT_HOME, p));
    expect(farthest(scene.at(scene.lastSecond), wanted)).toBeLessThan(SAME_M);
  });

  test('at any time panels stay as they are, and bends hang together with them', () => {
    const end = scene.lastSecond;
    const finished = new Map(scene.at().map((one) => [one.path.join('/'), one]));
    for (const share of [0, 0.13, 0.37, 0.5, 0.81]) {
      const now = scene.at(share * end);
      for (const { path, places } of now) {
        if (path.at(-1)?.startsWith('bend ') === true) continue;
        const done = finished.get(path.join('/'))?.places ?? [];
        const [a, b] = [places, done].map((of) => spreadOf(of)) as [number, number];
        expect(Math.abs(a - b)).toBeLessThan(SAME_M);
      }
      for (const { path, places } of now.filter((one) => one.path.at(-1)?.startsWith('bend '))) {
        // Between two stages a strip is blended in straight lines: a hundredth of its own size.
        const panels = now.filter((one) => one.path.at(-1)?.startsWith('bend ') !== true);
        const edges = panels.flatMap((one) => one.places);
        const touching = places.filter((p) =>
          edges.some((q) => Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]) < 2e-4),
        );
        expect(touching.length, `${path.join('/')} at ${share}`).toBeGreaterThanOrEqual(8);
      }
    }
  });
});

/** The sum of distances from point to point, which no rigid motion changes. */
const spreadOf = (points: readonly Vec3[]): number =>
  points.reduce((sum, p, i) => {
    const q = points[(i * 7 + 3) % points.length] as Vec3;
    return Math.max(sum, Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]));
  }, 0);

import { type Pose, posePoint, poseVector } from '../geometry/pose.ts';
import { pieceOf } from '../geometry/piece.ts';
import { leftOf, sub, unit } from '../geometry/vec2.ts';
import type { Vec3 } from '../geometry/vec3.ts';
import type { Direction, Part } from '../model/part.ts';
import type { Feature } from '../model/wish.ts';
import { nearest } from '../text/nearest.ts';
import type { CutPanel } from './cut-panel.ts';
import type { Bend } from './tree.ts';
import type { Figures } from './figures.ts';
import { edgeOf, listed, shapeHeight, shapeWidth, straightEdges } from './shape.ts';
import { featureOf } from './wishes.ts';

/** A plane that a figure is counted from: where it counts 0, and which way it grows. */
export interface Datum {
  readonly called: string;
  readonly normal: Vec3;
  readonly at: Vec3;
  /** By what the proof finds it; nothing where that is no one thing. */
  readonly feature: Feature | undefined;
}

/** What holes are placed on: the part without them. */
export interface Finished {
  readonly part: Part;
  readonly panels: readonly CutPanel[];
  readonly bends: readonly Bend[];
  readonly figures: Figures;
}

export function datumOf(
  name: string,
  panel: CutPanel,
  finished: Finished,
  poses: ReadonlyMap<string, Pose>,
): Datum | undefined {
  const own = ownDatum(name, panel, poses);
  if (own !== undefined) return own;
  const whole = finished.panels.find(({ shape }) => shape.id === name);
  if (whole !== undefined) return faceDatum(whole, panel, finished, poses);
  const words = name.split(/\s+/);
  const id = words.slice(0, -1).join(' ');
  const other = finished.panels.find(({ shape }) => shape.id === id);
  return other === undefined ? undefined : edgeDatum(other, words.at(-1) ?? '', finished, poses);
}

/** A direction of the panel itself. */
export const ownDatum = (
  name: string,
  { shape, isBase }: CutPanel,
  poses: ReadonlyMap<string, Pose>,
): Datum | undefined => {
  const pose = poses.get(shape.id);
  const [w, h] = [shapeWidth(shape), shapeHeight(shape)];
  const places: Readonly<Record<string, readonly [x: number, y: number, dx: number, dy: number]>> =
    {
      x: [0, 0, 1, 0],
      y: [0, 0, 0, 1],
      left: [0, 0, 1, 0],
      ...(isBase ? { bottom: [0, 0, 0, 1] } : { foot: [0, 0, 0, 1] }),
      ...(shape.isPlain && {
        right: [w, 0, -1, 0],
        ...(isBase ? { top: [0, h, 0, -1] } : { end: [0, h, 0, -1] }),
      }),
    };
  const place = Object.hasOwn(places, name.toLowerCase()) ? places[name.toLowerCase()] : undefined;
  if (place === undefined || pose === undefined) return undefined;
  const [x, y, dx, dy] = place;
  return {
    called: name,
    normal: poseVector(pose, [dx, dy, 0]),
    at: posePoint(pose, [x, y, 0]),
    feature: undefined,
  };
};

/** The outside face of a panel, or its inside one, as the way to the hole's panel turns. */
export const faceDatum = (
  { shape }: CutPanel,
  { shape: { id } }: CutPanel,
  finished: Finished,
  poses: ReadonlyMap<string, Pose>,
): Datum | undefined => {
  const pose = poses.get(shape.id);
  if (pose === undefined) return undefined;
  const direction = directionTowards(shape.id, id, finished.bends);
  const face = faceOf(direction, finished.part);
  const z = face === 'upper' ? finished.part.thicknessMm : 0;
  return {
    called: shape.id,
    normal: poseVector(pose, [0, 0, direction === 'up' ? 1 : -1]),
    at: posePoint(pose, [0, 0, z]),
    feature: { kind: 'face', panel: shape.id, face },
  };
};

/** The face that lengths of the part are measured to, at a fold that way. */
export const faceOf = (direction: Direction, { measure }: Part): 'lower' | 'upper' =>
  (direction === 'up') === (measure === 'outside') ? 'lower' : 'upper';

/** How a panel is folded on; the base as what is folded up on it. */
export const directionOf = (id: string, { bends }: Finished): Direction =>
  bends.find(({ child }) => child === id)?.direction ?? 'up';

/** How the first fold turns on the way from one panel to another. */
export const directionTowards = (from: string, to: string, bends: readonly Bend[]): Direction => {
  let at = to;
  for (let steps = 0; steps <= bends.length; steps++) {
    const fold = bends.find(({ child }) => child === at);
    if (fold === undefined) break;
    if (fold.parent === from) return fold.direction;
    at = fold.parent;
  }
  return bends.find(({ child }) => child === from)?.direction ?? 'up';
};

/** The plane through an edge, square to its panel, counting into the panel. */
export const edgeDatum = (
  panel: CutPanel,
  edge: string,
  finished: Finished,
  poses: ReadonlyMap<string, Pose>,
): Datum | undefined => {
  const { shape } = panel;
  const [found, pose] = [edgeOf(shape, edge), poses.get(shape.id)];
  if (found === undefined || !found.isStraight || pose === undefined) return undefined;
  const piece = pieceOf(shape.outline, found.index);
  const [nx, ny] = leftOf(unit(sub(piece.to, piece.from)));
  return {
    called: `${shape.id} ${edge}`,
    normal: poseVector(pose, [nx, ny, 0]),
    at: posePoint(pose, [...piece.from, 0]),
    feature: featureOf(panel, edge, { ...finished, sheet: finished.part }),
  };
};

/** Tells that nothing goes by a name, and what does. */
export const noDatum = (
  name: string,
  { shape: { id }, isBase }: CutPanel,
  { figures, panels }: Finished,
  path: string,
  given: string,
): undefined => {
  const others = panels.map(({ shape }) => shape).filter((shape) => shape.id !== id);
  const edges = panels.flatMap(({ shape }) =>
    straightEdges(shape).map((edge) => `${shape.id} ${edge}`),
  );
  const meant = nearest(name, [...others.map((shape) => shape.id), ...edges]);
  const own = isBase ? 'bottom, top, left or right' : 'foot, end, left or right';
  return figures.problem(
    path,
    given,
    `figures from ${own} of ${id}, from another panel (${listed(others.map((shape) => shape.id))}), or from an edge of one (base left)`,
    name === ''
      ? undefined
      : `there is no ${name} to measure from${meant === undefined ? '' : `; did you mean ${meant}?`}`,
  );
};

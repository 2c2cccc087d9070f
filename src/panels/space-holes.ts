import { XY_AXES } from '../forms/hole-axes.ts';
import { readHoles } from '../forms/holes.ts';
import { placeHole } from '../forms/place-hole.ts';
import { type Pose, posePoint, poseVector } from '../geometry/pose.ts';
import { pieceOf } from '../geometry/piece.ts';
import { NEARLY_PARALLEL_SINE } from '../geometry/tolerance.ts';
import { leftOf, sub, unit } from '../geometry/vec2.ts';
import { dot3, type Vec3 } from '../geometry/vec3.ts';
import { wish } from '../kit/wishes.ts';
import { type Finding, refuse } from '../model/finding.ts';
import type { Cutout, Direction, Part } from '../model/part.ts';
import type { Feature, Wish } from '../model/wish.ts';
import { nearest } from '../text/nearest.ts';
import type { CutPanel } from './cut-panel.ts';
import type { Bend } from './tree.ts';
import { type Figures, PLACE } from './figures.ts';
import type { HoleEntry } from './holes.ts';
import { finishedPoses } from './poses.ts';
import { edgeOf, listed, shapeHeight, shapeWidth, straightEdges } from './shape.ts';
import { featureOf } from './wishes.ts';

/** What holes are placed on: the part without them. */
export interface Finished {
  readonly part: Part;
  readonly panels: readonly CutPanel[];
  readonly bends: readonly Bend[];
  readonly figures: Figures;
}

/** Holes of one panel that are known by their places on the finished part. */
export interface Placed {
  readonly cutouts: readonly Cutout[];
  readonly wishes: readonly Wish[];
  readonly findings: readonly Finding[];
}

/** A plane that a figure is counted from: where it counts 0, and which way it grows. */
interface Datum {
  readonly called: string;
  readonly normal: Vec3;
  readonly at: Vec3;
  /** By what the proof finds it; nothing where that is no one thing. */
  readonly feature: Feature | undefined;
}

/**
 * The holes whose figures are from other panels: `from base 30, from base left 45, M8`. A panel
 * stands for its outside face, with measure inside for its inside one; an edge of a panel for the
 * plane through it square to that panel. The middle of the hole lies there on the outside, or the
 * inside, face of its own panel.
 */
export const placeInSpace = (panel: CutPanel, finished: Finished): Placed => {
  const entries = panel.entries.filter(
    (e): e is Extract<HoleEntry, { kind: 'space' }> => e.kind === 'space',
  );
  if (entries.length === 0) return { cutouts: [], wishes: [], findings: [] };
  const poses = finishedPoses(finished.part);
  const all = entries.map((entry) => placeOne(panel, entry, finished, poses));
  return {
    cutouts: all.flatMap(({ cutouts }) => cutouts),
    wishes: all.flatMap(({ wishes }) => wishes),
    findings: all.flatMap(({ findings }) => findings),
  };
};

const NOTHING: Placed = { cutouts: [], wishes: [], findings: [] };

function placeOne(
  panel: CutPanel,
  { text, number }: Extract<HoleEntry, { kind: 'space' }>,
  finished: Finished,
  poses: ReadonlyMap<string, Pose>,
): Placed {
  const { figures, part } = finished;
  const { shape, input } = panel;
  const path = `${panel.at}.holes`;
  const parts = text.split(',').map((word) => word.trim());
  const [one, other, size, ...more] = parts;
  if (one === undefined || other === undefined || size === undefined || more.length > 0) {
    figures.problem(
      path,
      text,
      'two figures with what each is from, and a size, such as from base 30, from base left 45, M8',
    );
    return NOTHING;
  }
  const planes = [one, other].map((word) => planeOf(word, panel, finished, poses, path, text));
  const [first, second] = planes;
  const pose = poses.get(shape.id);
  if (first === undefined || second === undefined || pose === undefined) return NOTHING;
  const isUpper = faceOf(directionOf(shape.id, finished), part) === 'upper';
  const z = isUpper ? part.thicknessMm : 0;
  const at = crossing(pose, z, [first, second]);
  if (at === undefined)
    return {
      ...NOTHING,
      findings: [
        refuse(
          'hole-place-open',
          [input],
          `Hole ${number} of ${shape.id} is measured from ${first.datum.called} and from ${second.datum.called}, which cross ${shape.id} side by side or not at all`,
          [],
          'measure one of the two from what runs across the other',
        ),
      ],
    };
  const specs = readHoles([`${at[0]},${at[1]},${size}`], [XY_AXES]);
  if (!specs.ok) {
    figures.problem(path, specs.given ?? text, specs.allowed ?? 'a hole', specs.mend);
    return NOTHING;
  }
  const from = `${shape.id} holes ${number}`;
  const cutouts = specs.value.map(
    ({ acrossMm, alongMm, shape: hole, use, number: own }): Cutout => ({
      ...placeHole(
        { acrossMm, alongMm, shape: hole, ...(use !== undefined && { use }) },
        own.replace(/^1/, from),
        {
          origin: [0, 0],
          across: [1, 0],
          along: [0, 1],
        },
      ),
      inputs: [input],
    }),
  );
  const hole: Feature = {
    kind: 'hole',
    panel: shape.id,
    from: cutouts[0]?.from ?? from,
    ...(isUpper && { face: 'upper' }),
  };
  const wishes = [first, second].flatMap(({ datum, mm }): Wish[] =>
    datum.feature === undefined || specs.value.length > 1
      ? []
      : [wish(`${from} from ${datum.called}`, Math.abs(mm), hole, datum.feature)],
  );
  return { cutouts, wishes, findings: [] };
}

interface Plane {
  readonly datum: Datum;
  readonly mm: number;
}

/** Where a face of the panel meets two planes, in its own coordinates. */
const crossing = (
  pose: Pose,
  z: number,
  planes: readonly [Plane, Plane],
): readonly [number, number] | undefined => {
  const [[a, b, e], [c, d, f]] = planes.map(({ datum: { normal, at }, mm }) => {
    const o = posePoint(pose, [0, 0, z]);
    const level = dot3(normal, at) + mm - dot3(normal, o);
    return [dot3(normal, pose.x), dot3(normal, pose.y), level] as const;
  }) as [readonly [number, number, number], readonly [number, number, number]];
  const det = a * d - b * c;
  return Math.abs(det) < NEARLY_PARALLEL_SINE
    ? undefined
    : [(e * d - b * f) / det, (a * f - e * c) / det];
};

/** `from base 30`, `from lip end 10`, or one of the panel's own: `from left 20`, `x 20`. */
function planeOf(
  word: string,
  panel: CutPanel,
  finished: Finished,
  poses: ReadonlyMap<string, Pose>,
  path: string,
  given: string,
): Plane | undefined {
  const { figures } = finished;
  const [, name = '', figureText = ''] =
    /^(?:from\s+(?:the\s+)?)?([\p{L}_].*?)\s+([-+(\d.].*)$/iu.exec(word) ?? [];
  const datum = name === '' ? undefined : datumOf(name.trim(), panel, finished, poses);
  if (datum === undefined) return noDatum(name, panel, finished, path, given);
  const mm = figures.read(figureText, path, PLACE);
  return mm === undefined ? undefined : { datum, mm };
}

/** Tells that nothing goes by a name, and what does. */
const noDatum = (
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

function datumOf(
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
const ownDatum = (
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
const faceDatum = (
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
const faceOf = (direction: Direction, { measure }: Part): 'lower' | 'upper' =>
  (direction === 'up') === (measure === 'outside') ? 'lower' : 'upper';

/** How a panel is folded on; the base as what is folded up on it. */
const directionOf = (id: string, { bends }: Finished): Direction =>
  bends.find(({ child }) => child === id)?.direction ?? 'up';

/** How the first fold turns on the way from one panel to another. */
const directionTowards = (from: string, to: string, bends: readonly Bend[]): Direction => {
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
const edgeDatum = (
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

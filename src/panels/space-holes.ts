import { XY_AXES } from '../forms/hole-axes.ts';
import { readHoles } from '../forms/holes.ts';
import { placeHole } from '../forms/place-hole.ts';
import { type Pose, posePoint } from '../geometry/pose.ts';
import { NEARLY_PARALLEL_SINE } from '../geometry/tolerance.ts';
import { dot3 } from '../geometry/vec3.ts';
import { wish } from '../kit/wishes.ts';
import { type Finding, refuse } from '../model/finding.ts';
import type { Cutout } from '../model/part.ts';
import type { Feature, Wish } from '../model/wish.ts';
import type { CutPanel } from './cut-panel.ts';
import { PLACE } from './figures.ts';
import { type HoleEntry, xyFrame } from './holes.ts';
import { finishedPoses } from './poses.ts';
import { type Datum, datumOf, directionOf, faceOf, type Finished, noDatum } from './datums.ts';

/** Holes of one panel that are known by their places on the finished part. */
export interface Placed {
  readonly cutouts: readonly Cutout[];
  readonly wishes: readonly Wish[];
  readonly findings: readonly Finding[];
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
        xyFrame(part.thicknessMm),
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

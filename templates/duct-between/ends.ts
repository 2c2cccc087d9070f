import {
  figure,
  mitredOffset,
  outlineLoop,
  pointFindings,
  refuse,
  scale3,
} from '../../src/template.ts';
import type {
  Finding,
  GivenOpening,
  GivenPoints,
  Loop,
  Pose,
  Vec2,
  Vec3,
} from '../../src/template.ts';
import type { DuctBetween } from './inputs.ts';
import { AT_NEAR, farPose, type Read } from './place.ts';

export type EndName = 'near' | 'far';

/**
 * An end of the duct on the middle of its sheet. Its pose takes its plane to the frame of the duct:
 * the near opening lies in z = 0 with the duct towards z > 0, x to the right and y up as seen from
 * there. Both poses have the way of the duct as their z, out of which the loops run
 * counter-clockwise.
 */
export interface DuctEnd {
  readonly name: EndName;
  readonly loop: Loop;
  readonly isRound: boolean;
  readonly pose: Pose;
}

export interface DuctEnds {
  readonly near: DuctEnd;
  readonly far: DuctEnd;
}

/** Both ends where they are, or what keeps them from being known. */
export const endsOf = (v: DuctBetween): Read<DuctEnds> => {
  const placed = farPose(v);
  const ends = (['near', 'far'] as const).map((name) => loopOf(v, name));
  const findings = [...ends, placed].flatMap((read) => ('findings' in read ? read.findings : []));
  const [near, far] = ends;
  if (findings.length > 0 || near === undefined || far === undefined) return { findings };
  if ('findings' in near || 'findings' in far || 'findings' in placed) return { findings };
  return {
    value: {
      near: { name: 'near', ...near.value, pose: AT_NEAR },
      far: { name: 'far', ...far.value, pose: placed.value },
    },
  };
};

/** Findings on points that were measured round the openings. */
export const surveyOf = ({ nearPoints, farPoints }: DuctBetween): Finding[] =>
  [nearPoints, farPoints].flatMap((points) => (points === undefined ? [] : pointFindings(points)));

/**
 * The opening on the middle of the sheet: where a duct of the same sheet is welded on, the middles
 * meet.
 */
const loopOf = (v: DuctBetween, name: EndName): Read<Pick<DuctEnd, 'loop' | 'isRound'>> => {
  const drawn = drawnLoop(v[name], name, name === 'near' ? v.nearPoints : v.farPoints);
  if ('findings' in drawn) return drawn;
  const most = MOST_CORNERS;
  if (drawn.value.length > most)
    return {
      findings: [
        refuse(
          'end-too-many-corners',
          [name],
          `${name} has ${drawn.value.length} sides and rounds, and nobody folds more than ${most}`,
          [],
          'leave out those that matter least',
        ),
      ],
    };
  const half = v.thicknessMm / 2;
  const middle = mitredOffset(drawn.value, v.measure === 'outside' ? -half : half);
  const clear = mitredOffset(drawn.value, v.measure === 'outside' ? -v.thicknessMm : 0);
  return middle === undefined || clear === undefined
    ? {
        findings: [
          refuse(
            'end-too-small',
            [name, 'thickness'],
            `${name} leaves no opening inside sheet of thickness ${figure(v.thicknessMm)}`,
            [],
            `give a wider opening, or measure inside`,
          ),
        ],
      }
    : { value: { loop: middle, isRound: v[name].kind === 'round' } };
};

/** More sides and rounds than anybody folds. */
const MOST_CORNERS = 60;

const drawnLoop = (
  given: GivenOpening,
  name: EndName,
  points: GivenPoints | undefined,
): Read<Loop> => {
  if (given.kind !== 'outline') return { value: given.loop };
  const named = new Map((points?.points ?? []).map((p) => [p.name, [p.x, p.y] as Vec2]));
  const strangers = given.outline.corners.flatMap(({ place }) =>
    'name' in place && !named.has(place.name) ? [place.name] : [],
  );
  const list = `${name}Points`;
  if (strangers.length > 0)
    return {
      findings: [
        refuse(
          'unknown-point',
          [name, list],
          `${name} names ${[...new Set(strangers)].join(', ')}, but ${named.size === 0 ? `${list} is not given` : `${list} has ${[...named.keys()].join(', ')}`}`,
          [],
          named.size === 0 ? `give ${list}` : 'name one of them',
          'write x,y',
        ),
      ],
    };
  const read = outlineLoop(given.outline, (point) => named.get(point));
  return read.ok
    ? read
    : {
        findings: [
          refuse(
            'outline-wrong',
            [name],
            `${name} cannot be drawn through its points`,
            [],
            read.mend ?? 'check them',
          ),
        ],
      };
};

/** A point of an end's plane in the frame of the duct. */
export const placedAt = ({ o, x, y }: Pose, [u, w]: Vec2): Vec3 => {
  const [a, b] = [scale3(x, u), scale3(y, w)];
  return [o[0] + a[0] + b[0], o[1] + a[1] + b[1], o[2] + a[2] + b[2]];
};

import {
  composePoses,
  cosDeg,
  cross3,
  invertPose,
  just,
  length3,
  NO_SIZE_MM,
  refuse,
  sinDeg,
  sub3,
  unit3,
  without,
} from '../../src/template.ts';
import type { Finding, Pose, Vec3 } from '../../src/template.ts';
import type { DuctBetween } from './inputs.ts';

/** What could be read of the inputs, or why it could not. */
export type Read<T> = { readonly value: T } | { readonly findings: readonly Finding[] };

/** The near opening stands where the whole is measured from. */
export const AT_NEAR: Pose = { o: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

/** Pose of the far opening by its figures, or by measured points. */
export const farPose = (v: DuctBetween): Read<Pose> => {
  const figures = ['offsetRight', 'offsetUp', 'faceRight', 'faceUp'] as const;
  if (v.farAt === undefined)
    return v.length === undefined
      ? {
          findings: [
            refuse(
              'far-end-nowhere',
              ['length', 'farAt'],
              'length and farAt are both left out, and nobody knows where the far opening is',
              [],
              'give length, or three points of it as farAt',
            ),
          ],
        }
      : { value: turnedIn(facing(v, v.length), v.farTurn) };
  const doubled = [
    ...(v.length === undefined ? [] : ['length']),
    ...figures.filter((name) => v[name] !== 0),
  ];
  if (doubled.length > 0)
    return {
      findings: [
        refuse(
          'far-end-given-twice',
          ['farAt', ...doubled],
          `farAt and ${doubled.join(', ')} both say where the far opening is`,
          [
            without('farAt'),
            ...(doubled.length > 1
              ? []
              : doubled.map((name) => (name === 'length' ? without(name) : just(name, 0)))),
          ],
          ...(doubled.length > 1 ? [`leave out ${doubled.join(', ')}`] : []),
        ),
      ],
    };
  const far = poseThrough('farAt', v.farAt);
  const near = v.nearAt === undefined ? { value: AT_NEAR } : poseThrough('nearAt', v.nearAt);
  if ('findings' in far) return far;
  return 'findings' in near
    ? near
    : { value: turnedIn(composePoses(invertPose(near.value), far.value), v.farTurn) };
};

/**
 * Turned by one angle to the right, about the way up, and tipped up by the other about its own
 * level line.
 */
const facing = (
  { offsetRight, offsetUp, faceRight: a, faceUp: b }: DuctBetween,
  length: number,
): Pose => ({
  o: [offsetRight, offsetUp, length],
  x: [cosDeg(a), 0, -sinDeg(a)],
  y: [-sinDeg(a) * sinDeg(b), cosDeg(b), -cosDeg(a) * sinDeg(b)],
  z: [sinDeg(a) * cosDeg(b), sinDeg(b), cosDeg(a) * cosDeg(b)],
});

const turnedIn = (pose: Pose, deg: number): Pose =>
  composePoses(pose, {
    o: [0, 0, 0],
    x: [cosDeg(deg), sinDeg(deg), 0],
    y: [-sinDeg(deg), cosDeg(deg), 0],
    z: [0, 0, 1],
  });

/** The plane through a middle, a point to the right of it, and one on the upper side. */
const poseThrough = (input: 'nearAt' | 'farAt', points: readonly Vec3[]): Read<Pose> => {
  const [o, right, upper] = points;
  const wrong = (what: string): Read<Pose> => ({
    findings: [
      refuse(
        'plane-unknown',
        [input],
        `${input} ${what}`,
        [],
        'give its middle or 0,0, a point to the right of that, and one on the upper side, as far apart as the opening allows',
      ),
    ],
  });
  if (o === undefined || right === undefined || upper === undefined || points.length > 3)
    return wrong(`has ${points.length} points, and three fix a plane`);
  const across = sub3(right, o);
  const normal = cross3(across, sub3(upper, o));
  if (length3(normal) < NO_SIZE_MM * Math.max(1, length3(across)))
    return wrong('has its points in a line, which fix no plane');
  const [x, z] = [unit3(across), unit3(normal)];
  return { value: { o, x, y: cross3(z, x), z } };
};

import { mirrorStanding } from '../../src/model/standing.ts';
import { mirrorPart } from '../../src/model/mirror.ts';
import { flatten } from '../../src/flatten/flatten.ts';
import { readInputs } from '../../src/forms/read.ts';
import { wholeBuilt } from '../../src/forms/built.ts';
import type { FlatPattern } from '../../src/model/flat.ts';
import type { Part } from '../../src/model/part.ts';
import type { Standing } from '../../src/model/standing.ts';
import type { Template } from '../../src/forms/template.ts';
import between from '../../templates/duct-between/index.ts';
import { foldedPlaces } from './witness.ts';

export type Point3 = readonly [number, number, number];

export const minus = (a: Point3, b: Point3): Point3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const times = (a: Point3, b: Point3): Point3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const inner = (a: Point3, b: Point3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const size = (a: Point3): number => Math.sqrt(inner(a, a));

/** A wall of a duct that was folded up: its corners on the middle of the sheet, in the whole. */
export interface FoldedWall {
  readonly id: string;
  readonly corners: readonly Point3[];
}

export interface FoldedBlank {
  readonly part: Part;
  readonly flat: FlatPattern;
  readonly walls: readonly FoldedWall[];
}

/**
 * The blanks of a duct, laid flat and folded up again by the witness, which shares no code with the
 * tool, each where it stands in the whole; or the rules that stop it.
 */
export const foldedDuct = (
  inputs: Readonly<Record<string, unknown>>,
  isMirrored = false,
): readonly FoldedBlank[] | readonly string[] => {
  const family: Template = between;
  const read = readInputs(family, inputs);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { part, pieces, findings = [] } = wholeBuilt(family.build(read.values), read.values);
  const stops = findings.filter(({ severity }) => severity === 'stop');
  if (stops.length > 0) return stops.map(({ rule }) => rule);
  const blanks = part === undefined ? (pieces ?? []) : [{ part, standing: undefined }];
  return blanks.map((blank) => {
    const own = isMirrored ? mirrorPart(blank.part) : blank.part;
    const standing = blank.standing;
    return blankOf(own, standing !== undefined && isMirrored ? mirrorStanding(standing) : standing);
  });
};

const blankOf = (part: Part, standing: Standing | undefined): FoldedBlank => {
  const flat = flatten(part, { id: 'k', k: 0.5 });
  const places = foldedPlaces(flat, part.root);
  const root = flat.panels.find(({ id }) => id === part.root)?.placement ?? {
    c: 1,
    s: 0,
    x: 0,
    y: 0,
  };
  const pose = standing?.poses[0];
  /** From the drawing, in which the root stays where it is, to the root's own and to the whole. */
  const seat = ([x, y, z]: Point3): Point3 => {
    if (pose === undefined) return [x, y, z];
    const [dx, dy] = [x - root.x, y - root.y];
    const own: Point3 = [root.c * dx + root.s * dy, root.c * dy - root.s * dx, z];
    return [0, 1, 2].map(
      (k) =>
        (pose.o[k] ?? 0) +
        (pose.x[k] ?? 0) * own[0] +
        (pose.y[k] ?? 0) * own[1] +
        (pose.z[k] ?? 0) * own[2],
    ) as unknown as Point3;
  };
  const walls = flat.panels.map(({ id, placement: m, region }) => ({
    id,
    corners: region.map(({ x, y }) => {
      const at = [m.c * x - m.s * y + m.x, m.s * x + m.c * y + m.y, part.thicknessMm / 2] as const;
      return seat(places.get(id)?.(at) ?? [NaN, NaN, NaN]);
    }),
  }));
  return { part, flat, walls };
};

/** Area of a flat polygon in space, as a vector square to it. */
export const spread = (corners: readonly Point3[]): Point3 =>
  corners.slice(2).reduce<Point3>(
    (sum, p, i) => {
      const [a, b] = [corners[0] as Point3, corners[i + 1] as Point3];
      const part = times(minus(b, a), minus(p, a));
      return [sum[0] + part[0] / 2, sum[1] + part[1] / 2, sum[2] + part[2] / 2];
    },
    [0, 0, 0],
  );

import { foldAngle } from '../../text/angles.ts';
import type { Printed } from '../../text/printed.ts';
import { along, sub, unit, type Vec2 } from '../../geometry/vec2.ts';
import { dot3, sub3, type Vec3 } from '../../geometry/vec3.ts';
import type { Mesh, MeshFace } from '../../model/mesh.ts';
import type { Label, PictureItem } from '../../model/picture.ts';
import { TEXT_MM, textAlong } from './dimension-line.ts';
import type { DrawnBend } from './drawing-head.ts';
import { type Line2, textGround } from './ground.ts';
import { NARROW } from './line-types.ts';
import { CLEAR_MM, type PlacedView } from './place-dimensions.ts';
import type { Candidate, Placer } from './placer.ts';
import { line } from './strokes.ts';
import { textWidthMm } from './text-width.ts';

/** A bend and the line about which it turns, in the directions of the part's mesh. */
export interface PlacedBend extends DrawnBend {
  readonly axis: Vec3;
}

/** How far from its bend a callout may stand, mm, and in how many directions it is tried. */
const REACHES = [8, 11, 14, 18, 22, 27, 33];
const DIRECTIONS = 16;

/**
 * Name, angle and inside radius of each bend, where a view looks along it. Bends
 * that find no room are in the table alone.
 */
export const foldCallouts = (
  mesh: Mesh,
  bends: readonly PlacedBend[],
  views: readonly PlacedView[],
  placer: Placer,
  print: Printed,
): PictureItem[] =>
  bends.flatMap((bend) => {
    for (const view of views) {
      if (Math.abs(dot3(bend.axis, view.camera.toward)) < 0.999) continue;
      const foot = middleOf(mesh, bend.id, view);
      if (foot === undefined) continue;
      const placed = placer.place(calloutPlaces(foot, calloutText(bend, print)), view.cell);
      if (placed === undefined) continue;
      return [
        line(...placed.leader, NARROW),
        { kind: 'round', centre: foot, radiusMm: 0.6, fill: 0 } as const,
        placed.text,
      ];
    }
    return [];
  });

/** Turned from flat, and in brackets what a square reads inside the bend. */
const calloutText = ({ id, angleDeg, insideRadiusMm }: DrawnBend, { machine }: Printed): string =>
  `${id}: ${foldAngle(angleDeg, 2)} R${machine(insideRadiusMm)}`;

const middleOf = (
  { triangles, faces, points }: Mesh,
  fold: string,
  view: PlacedView,
): Vec2 | undefined => {
  const own = triangles.flatMap(({ corners, face }) => {
    const { of, kind } = faces[face] as MeshFace;
    return of === fold && kind === 'bend' ? corners.map((i) => points[i] as Vec3) : [];
  });
  if (own.length === 0) return undefined;
  const at = own.map(view.at);
  return [
    at.reduce((s, p) => s + p[0], 0) / at.length,
    at.reduce((s, p) => s + p[1], 0) / at.length,
  ];
};

interface CalloutPlace extends Candidate {
  readonly text: Label;
  readonly leader: Line2;
}

/** Level texts in rings about a bend, the nearest first, each with a line to the bend. */
const calloutPlaces = (foot: Vec2, text: string): CalloutPlace[] => {
  const half = textWidthMm(text, TEXT_MM) / 2;
  const written = textAlong([1, 0], text, TEXT_MM);
  const directions = Array.from(
    { length: DIRECTIONS },
    (_, k) => (2 * Math.PI * (k + 0.5)) / DIRECTIONS,
  ).filter(
    // A steep leader would hide in the lines of the part.
    (turn) => Math.abs(Math.cos(turn)) >= 0.5,
  );
  return REACHES.flatMap((reach) =>
    directions.map((turn): CalloutPlace => {
      const tip = along(foot, [Math.cos(turn), Math.sin(turn)], reach);
      const label = written([tip[0] + Math.sign(Math.cos(turn)) * half, tip[1] - 0.36 * TEXT_MM]);
      const leader = leaderTo(foot, label);
      return { text: label, leader, grounds: [textGround(label, CLEAR_MM)], lines: [leader] };
    }),
  );
};

/** From the bend to the nearer end of the text. */
const leaderTo = (foot: Vec2, { at, text, sizeMm }: Label): Line2 => {
  const half = textWidthMm(text, sizeMm) / 2 + 1;
  const end: Vec2 = [at[0] + (foot[0] < at[0] ? -half : half), at[1] + 0.36 * sizeMm];
  return [foot, along(end, unit(sub(foot, end)), 0.2)];
};

/** The direction of a bend's axis from two points on it. */
export const axisOf = (a: Vec3, b: Vec3): Vec3 => {
  const d = sub3(b, a);
  const size = Math.hypot(...d);
  return [d[0] / size, d[1] / size, d[2] / size];
};

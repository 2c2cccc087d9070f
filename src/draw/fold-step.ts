import { cosDeg, sinDeg, turnedDeg } from '../geometry/degrees.ts';
import { distance, type Vec2 } from '../geometry/vec2.ts';
import type { Vec3 } from '../geometry/vec3.ts';
import type { Lattice } from '../plan/lattice.ts';
import type { Move } from '../plan/cheapest.ts';
import type { PartPlan } from '../plan/part-plan.ts';
import { machineSection } from '../plan/section.ts';
import { polygonArea, type Solid } from '../plan/solid.ts';
import { bentFold } from '../plan/pre-fold.ts';
import type { Stroke } from '../plan/stroke.ts';

/** What a shape of a picture stands for. */
export type ShapeRole = 'machine' | 'held' | 'swung' | 'broadside' | 'face' | 'swung-face' | 'fold-line';

export interface Shape {
  readonly role: ShapeRole;
  readonly points: readonly Vec2[];
}

/** One stroke in three pictures, mm, y up: the section before it and after it, and the part in view before it. */
export interface StepPicture {
  readonly before: readonly Shape[];
  readonly after: readonly Shape[];
  readonly view: readonly Shape[];
}

/** The pictures of every machine stroke of a plan, in its order. */
export function stepPictures({ answer: { lattice, moves }, machine, plan }: PartPlan): StepPicture[] {
  let made = 0;
  return moves.map((move, i) => {
    const picture = pictureOf(lattice, machine, move, made, plan.steps[i]?.stopAtDeg ?? 0);
    made |= (lattice.strokes[move.stroke] as Stroke).bits;
    return picture;
  });
}

function pictureOf({ net, strokes }: Lattice, machine: PartPlan['machine'], { stroke, placement }: Move, made: number, swingDeg: number): StepPicture {
  const own = strokes[stroke] as Stroke;
  const { startDeg } = own.rules;
  const layout = own.layouts[placement];
  const { still, movingBefore, movingAfter, turns } = machineSection(machine, net, bentFold(net, own), startDeg);
  const panels = net.panels.map((_, panel) => ({ isSwung: layout.sides[panel] === 1, solids: layout.panel(panel, made).solids }));
  const part = (deg: number): Shape[] =>
    panels.flatMap(({ isSwung, solids }) =>
      solids.map((s): Shape => {
        const points = s.shadow;
        return { role: isBroadside(points, net.thicknessMm) ? 'broadside' : isSwung ? 'swung' : 'held', points: points.map((p) => turnedDeg(p, deg * turns[isSwung ? 1 : 0])) };
      }),
    );
  const tool = (points: readonly Vec2[]): Shape => ({ role: 'machine', points });
  const leafDeg = machine.kind === 'folder' ? swingDeg : 0;
  return {
    before: [...[...still, ...movingBefore].map(tool), ...part(0)],
    after: [...[...still, ...movingAfter.map((piece) => piece.map((p) => turnedDeg(p, leafDeg)))].map(tool), ...part(swingDeg - startDeg)],
    view: [...facesInView(panels), ...(layout.lines(made) ?? []).map(({ from, to }): Shape => ({ role: 'fold-line', points: [seen([0, 0, from]), seen([0, 0, to])] }))],
  };
}

/** Whether a panel shows its face in the section, not its edge: it stands across the machine, beside the tools. */
const isBroadside = (points: readonly Vec2[], thicknessMm: number): boolean => {
  const longest = Math.max(0, ...points.map((p, i) => distance(p, points[(i + 1) % points.length] as Vec2)));
  return longest > 0 && polygonArea(points) / longest > 3 * thicknessMm;
};

/** The part as it lies on the machine, seen from the front, the right and above: an isometric picture. */
const seen = ([x, y, z]: Vec3): Vec2 => [cosDeg(30) * (z - x), y - sinDeg(30) * (x + z)];

/** What is nearer covers what is farther: faces are drawn from the back to the front. */
const facesInView = (panels: readonly { readonly isSwung: boolean; readonly solids: readonly Solid[] }[]): Shape[] =>
  panels
    .flatMap(({ isSwung, solids }) =>
      solids.flatMap(({ corners, faces }) =>
        faces.map((face) => {
          const at = face.map((i) => corners[i] as Vec3);
          return { near: at.reduce((sum, [x, y, z]) => sum + x + y + z, 0) / at.length, shape: { role: isSwung ? 'swung-face' : 'face', points: at.map(seen) } as Shape };
        }),
      ),
    )
    .toSorted((a, b) => a.near - b.near)
    .map(({ shape }) => shape);

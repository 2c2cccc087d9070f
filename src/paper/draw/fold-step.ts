import { NOISE_MM } from '../../geometry/tolerance.ts';
import { cosDeg, sinDeg, turnedDeg } from '../../geometry/degrees.ts';
import { distance, type Vec2 } from '../../geometry/vec2.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import type { Lattice } from '../../plan/search/lattice.ts';
import type { Move } from '../../plan/search/cheapest.ts';
import { type PartPlan } from '../../plan/of-part/part-plan.ts';
import { blockSection, machineSection } from '../../plan/machines/section.ts';
import { polygonArea } from '../../geometry/convex-polygon.ts';
import type { Solid } from '../../geometry/convex-solid.ts';
import { bentFold } from '../../plan/machines/pre-fold.ts';
import type { Stroke } from '../../plan/search/stroke.ts';
import type { Blocked } from '../../contract/fold-plan.ts';
import { blockedStrokes } from '../../plan/of-part/blocked-strokes.ts';

/** What a shape of a picture stands for. */
export type ShapeRole =
  'machine' | 'held' | 'swung' | 'in-the-way' | 'broadside' | 'face' | 'swung-face' | 'fold-line';

export interface Shape {
  readonly role: ShapeRole;
  readonly points: readonly Vec2[];
}

/**
 * One stroke in three pictures, mm, y up: the section before it and after it, and the part in view
 * before it.
 */
export interface StepPicture {
  readonly before: readonly Shape[];
  readonly after: readonly Shape[];
  readonly view: readonly Shape[];
}

/** The pictures of every machine stroke of a plan, in its order. */
export function stepPictures({
  answer: { lattice, moves },
  machine,
  plan,
}: PartPlan): StepPicture[] {
  let made = 0;
  return moves.map((move, i) => {
    const stroke = lattice.strokes[move.stroke] as Stroke;
    const stopAtDeg = plan.steps[i]?.stopAtDeg ?? 0;
    const picture = pictureOf(lattice, machine, {
      ...move,
      made,
      swingDeg: stopAtDeg,
      dieDeg: Math.min(stopAtDeg, bentFold(lattice.net, stroke).angleDeg),
    });
    made |= (lattice.strokes[move.stroke] as Stroke).bits;
    return picture;
  });
}

/**
 * What stands in the way, and its pictures as far as the stroke gets; none where that is no matter
 * of place.
 */
export interface BlockedPicture {
  readonly blocked: Blocked;
  readonly picture?: StepPicture;
}

/** All that is told of a part that cannot be folded, in its order. */
export function blockedPictures({ answer, machine, plan }: PartPlan): BlockedPicture[] {
  const { net } = answer.lattice;
  const strokes = blockedStrokes(answer);
  return plan.blockedBy.map((blocked): BlockedPicture => {
    const found = strokes.find(
      (s) => s.blocked.bend === blocked.bend && s.blocked.reason === blocked.reason,
    );
    if (found === undefined) return { blocked };
    const swingDeg =
      blocked.atDeg ?? answer.lattice.strokes[found.move.stroke]?.rules.startDeg ?? 0;
    const inTheWay = net.panels.findIndex((p) => p.id === blocked.touches);
    return {
      blocked,
      picture: pictureOf(answer.lattice, machine, {
        ...found.move,
        made: found.made,
        swingDeg,
        dieDeg: swingDeg,
        inTheWay,
      }),
    };
  });
}

interface Moment extends Move {
  /** Folds, as bits. */
  readonly made: number;
  /**
   * Where the stroke ends: what the fold is bent by then, and how far the die of a brake has come
   * up.
   */
  readonly swingDeg: number;
  readonly dieDeg: number;
  /** The number of a panel to be shown as what is in the way. */
  readonly inTheWay?: number;
}

function pictureOf(
  { net, strokes }: Lattice,
  machine: PartPlan['machine'],
  { stroke, placement, made, swingDeg, dieDeg, inTheWay }: Moment,
): StepPicture {
  const own = strokes[stroke] as Stroke;
  const { startDeg } = own.rules;
  const placedPart = own.placedParts[placement];
  const { still, movingBefore, movingAfter, turns } =
    own.rules.help === 'over a block'
      ? blockSection(net, bentFold(net, own))
      : machineSection(machine, net, bentFold(net, own), { startDeg, endDeg: dieDeg });
  const panels = net.panels.map((_, panel): PanelInView => ({
    isSwung: placedPart.sides[panel] === 1,
    isInTheWay: panel === inTheWay,
    solids: placedPart.panel(panel, made).solids,
  }));
  const part = (deg: number): Shape[] =>
    panels.flatMap((panel) =>
      panel.solids.map(({ shadow }): Shape => ({
        role: sectionRole(panel, shadow, net.thicknessMm),
        points: shadow.map((p) => turnedDeg(p, deg * turns[panel.isSwung ? 1 : 0])),
      })),
    );
  const tool = (points: readonly Vec2[]): Shape => ({ role: 'machine', points });
  const leafDeg = machine.kind === 'folder' ? swingDeg : 0;
  return {
    before: [...[...still, ...movingBefore].map(tool), ...part(0)],
    after: [
      ...[...still, ...movingAfter.map((piece) => piece.map((p) => turnedDeg(p, leafDeg)))].map(
        tool,
      ),
      ...part(swingDeg - startDeg),
    ],
    view: [
      ...facesInView(panels),
      ...(placedPart.lines(made) ?? []).map(({ from, to }): Shape => ({
        role: 'fold-line',
        points: [seen([0, 0, from]), seen([0, 0, to])],
      })),
    ],
  };
}

interface PanelInView {
  readonly isSwung: boolean;
  readonly isInTheWay: boolean;
  readonly solids: readonly Solid[];
}

/** How a panel is shown in the section, by its outline there. */
const sectionRole = (
  { isSwung, isInTheWay }: PanelInView,
  points: readonly Vec2[],
  thicknessMm: number,
): ShapeRole => {
  if (isInTheWay) return 'in-the-way';
  if (isBroadside(points, thicknessMm)) return 'broadside';
  return isSwung ? 'swung' : 'held';
};

/**
 * Whether a panel shows its face in the section, not its edge: it stands across the machine, beside
 * the tools.
 */
const isBroadside = (points: readonly Vec2[], thicknessMm: number): boolean => {
  const longest = Math.max(
    0,
    ...points.map((p, i) => distance(p, points[(i + 1) % points.length] as Vec2)),
  );
  return longest > 0 && polygonArea(points) / longest > 3 * thicknessMm;
};

/**
 * The part as it lies on the machine, seen from the front, the right and above: an isometric
 * picture.
 */
const seen = ([x, y, z]: Vec3): Vec2 => [cosDeg(30) * (z - x), y - sinDeg(30) * (x + z)];

/**
 * What is nearer covers what is farther: faces are drawn from the back to the front, and those that
 * are equally near in the order of the panels, whatever the engine's sines end in.
 */
const facesInView = (panels: readonly PanelInView[]): Shape[] =>
  panels
    .flatMap(({ isSwung, isInTheWay, solids }) =>
      solids.flatMap(({ corners, faces }) =>
        faces.map((face) => {
          const at = face.map((i) => corners[i] as Vec3);
          return {
            near: Math.round(
              at.reduce((sum, [x, y, z]) => sum + x + y + z, 0) / at.length / NOISE_MM,
            ),
            shape: {
              role: isInTheWay ? 'in-the-way' : isSwung ? 'swung-face' : 'face',
              points: at.map(seen),
            } as Shape,
          };
        }),
      ),
    )
    .toSorted((a, b) => a.near - b.near)
    .map(({ shape }) => shape);

import { capital } from '../text/capital.ts';
import { figure } from '../text/figures.ts';
import { grouped } from '../text/grouped.ts';
import { type Motion2, movePoint } from '../geometry/motion2.ts';
import { invertPose, type Pose, posePoint } from '../geometry/pose.ts';
import type { Vec3 } from '../geometry/vec3.ts';
import { type Finding, warn } from '../model/finding.ts';
import type { FlatPanel, FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import { foldUp } from '../fold/fold-up.ts';
import {
  type Access,
  accessTo,
  endOf,
  type TorchSurroundings,
  surroundingsIn,
  shareOf,
  toolOf,
  type Torch,
} from './seam-access.ts';
import { cutSeams } from './seams.ts';
import { distanceToSlab, slabOf } from '../fold/slab.ts';
import { seamsBehind, slotSeams } from './bend-seams.ts';
import type { Seam } from './seam-along.ts';

/**
 * Seams of the finished part that a torch reaches from no side over a third of their length or
 * more.
 */
export function seamFindings(part: Part, flat: FlatPattern, torch: Torch): Finding[] {
  if (flat.bends.length === 0) return [];
  const body = foldUp(part, flat);
  const seams = [...cutSeams(part, flat, body), ...slotSeams(flat, body)];
  if (seams.length === 0) return [];
  const [room, tool] = [surroundingsIn(part, flat), toolOf(torch)];
  const findings = alternatives(seams).flatMap((group): Finding[] => {
    const seam = group[0] as Seam;
    // A lap needs only one long edge, or the bend of its tab from behind, which is usually open.
    const others = seam.isLap
      ? [
          ...seamsBehind(seam, flat, body),
          ...group.slice(1).filter((o) => o.lengthMm > seam.lengthMm / 2),
        ]
      : [];
    if (others.some((other) => accessTo(other, room, tool) === undefined)) return [];
    const access = accessTo(seam, room, tool);
    if (access === undefined) return [];
    return [
      {
        ...warn('seam-without-access', messageOf({ part, flat, torch, seam, access }, room)),
        panel: seam.home,
        at: movePoint(placementOf(flat, seam.home), seam.at),
      },
    ];
  });
  return findings.toSorted((a, b) => (a.message < b.message ? -1 : 1));
}

const placementOf = (flat: FlatPattern, id: string): Motion2 =>
  (flat.panels.find((p) => p.id === id) as FlatPanel).placement;

/**
 * The seams in groups of which one is enough: every seam by itself, but the edges of a lap
 * together, the longest first.
 */
const alternatives = (seams: readonly Seam[]): Seam[][] => [
  ...seams.filter((s) => !s.isLap).map((s) => [s]),
  ...grouped(
    seams.filter((s) => s.isLap),
    ({ panels }) => panels.toSorted().join('/'),
  ).map((group) => group.toSorted((a, b) => Math.round(b.lengthMm - a.lengthMm))),
];

interface Case {
  readonly part: Part;
  readonly flat: FlatPattern;
  readonly torch: Torch;
  readonly seam: Seam;
  readonly access: Access;
}

const messageOf = (of: Case, room: TorchSurroundings): string => {
  const { torch, seam, access } = of;
  const held = `a nozzle ${figure(torch.nozzleMm.value)} mm across, ${figure(torch.stickOutMm.value)} mm off it and tilted up to ${torch.tiltDeg.value} degrees either way, meets ${access.blocker}`;
  return `A torch does not get to ${whereOf(of, room)} of the weld seam ${seam.name}: ${held}. ${mendOf(of, room)}`;
};

const whereOf = (of: Case, room: TorchSurroundings): string => {
  const { seam, access } = of;
  const [gone, all] = [figure(shareOf(access) * seam.lengthMm, 0), figure(seam.lengthMm, 0)];
  if (shareOf(access) === 1) return `any of the ${all} mm`;
  const end = endOf(access);
  const beside = end === undefined ? undefined : besideEnd(of, room, end);
  return beside === undefined
    ? `${gone} of the ${all} mm`
    : `the ${gone} of ${all} mm next to ${beside}`;
};

/** The third panel nearest to that end of the seam, unless it is as near to the other end. */
const besideEnd = (
  { part, flat, seam }: Case,
  { poses }: TorchSurroundings,
  end: 'from' | 'to',
): string | undefined => {
  const slabs = part.panels
    .filter(({ id }) => !seam.panels.includes(id))
    .map(({ id }) => slabOf(flat.panels.find((p) => p.id === id) as FlatPanel, part.thicknessMm));
  const nearestTo = (at: Vec3): string | undefined => {
    const far = slabs.map((slab) => ({
      id: slab.id,
      mm: distanceToSlab(slab, posePoint(invertPose(poses.get(slab.id) as Pose), at)),
    }));
    return far.toSorted((a, b) => a.mm - b.mm)[0]?.id;
  };
  const [side] = seam.sides;
  if (side === undefined) return undefined;
  const [here, there] = (end === 'from' ? [side.from, side.to] : [side.to, side.from]).map((p) =>
    nearestTo(posePoint(poses.get(seam.home) as Pose, p)),
  );
  return here === there ? undefined : here;
};

/** The mends that were tried and help; where none does, what else can be done. */
const mendOf = (of: Case, room: TorchSurroundings): string => {
  const [fold, nozzleMm] = [foldToLeave(of), nozzleThatPasses(of, room)];
  const ways = [
    ...(fold === undefined ? [] : [`weld it before fold ${fold} is made`]),
    ...(nozzleMm === undefined ? [] : [`take a nozzle of at most ${figure(nozzleMm)} mm`]),
  ];
  const last = 'split the part so that the seam lies open, or have it riveted or glued';
  const text = (ways.length > 0 ? ways : [last]).join(', or ');
  return `${capital(text)}.`;
};

/** A fold that leaves the seam as it is while still flat, and lets the torch in. */
const foldToLeave = ({ part, flat, seam, torch }: Case): string | undefined =>
  part.folds.find(
    (f) =>
      f.angleDeg > 0 &&
      keepsTogether(part, f.id, seam.panels) &&
      accessTo(seam, surroundingsIn(part, flat, f.id), toolOf(torch)) === undefined,
  )?.id;

/** Whether two panels hang together without a fold. */
const keepsTogether = (part: Part, without: string, [a, b]: readonly [string, string]): boolean => {
  const reached = new Set([a]);
  for (const panel of reached) {
    for (const { id, parent, child } of part.folds) {
      if (id === without) continue;
      if (parent.panel === panel) reached.add(child.panel);
      if (child.panel === panel) reached.add(parent.panel);
    }
  }
  return reached.has(b);
};

/** The largest nozzle that gets in, among the whole millimetres under the usual nozzle. */
const nozzleThatPasses = ({ seam, torch }: Case, room: TorchSurroundings): number | undefined => {
  for (let mm = Math.ceil(torch.nozzleMm.value) - 1; mm >= torch.leastNozzleMm.value; mm--) {
    if (accessTo(seam, room, toolOf(torch, mm)) === undefined) return mm;
  }
  return undefined;
};

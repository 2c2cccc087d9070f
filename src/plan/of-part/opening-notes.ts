import { HEM_DEG } from '../../bending/hem.ts';
import { cosDeg, sinDeg } from '../../geometry/degrees.ts';
import { movePoint } from '../../geometry/motion2.ts';
import { cross, sub, unit } from '../../geometry/vec2.ts';
import type { FlatBend, FlatPattern } from '../../model/flat.ts';
import type { Machine } from '../../model/machine.ts';
import { figure } from '../../text/figures.ts';
import type { Stroke } from '../search/stroke.ts';
import type { PartToFold } from './plan-steps.ts';
import { bendNamed, type Step } from './step-notes.ts';
import { bringIn, openingMm, type TakeOff, takeOff } from './take-off.ts';

/**
 * What the opening of a machine lets in under its beam and out again, where it is known and a step
 * does not go as plainly as from the front to the front.
 */
export const openingNotes = (fold: PartToFold, machine: Machine, step: Step): string[] => {
  const open = openingMm(machine);
  if (open === undefined) return [];
  const { lattice, move, made } = step;
  const stroke = lattice.strokes[move.stroke] as Stroke;
  const [way, out] = [bringIn, takeOff].map((ask) =>
    ask(lattice.net, machine, stroke, move.placement, made),
  );
  return [
    ...inNote(machine, open, way, out),
    ...outNote(machine, open, out),
    ...hemNote(fold, machine, open, step),
  ];
};

const opened = ({ kind }: Machine, openMm: number): string =>
  kind === 'folder' ? `clamp open by ${figure(openMm)} mm` : `ram up by ${figure(openMm)} mm`;

/** What goes in as it comes out is told once, of its coming out. */
const inNote = (
  machine: Machine,
  openMm: number,
  way: TakeOff | undefined,
  out: TakeOff | undefined,
): string[] => {
  if (way === out || way === undefined || way === 'to the front') return [];
  return way === 'along the machine'
    ? [`with the ${opened(machine, openMm)} it goes in along the machine, from its end`]
    : [
        `with the ${opened(machine, openMm)} it does not go straight in: ${machine.kind === 'folder' ? 'put the fingers in after it, or tilt it' : 'put the punch in after it, or tilt it'}`,
      ];
};

const outNote = (machine: Machine, openMm: number, out: TakeOff | undefined): string[] => {
  if (out === undefined || out === 'to the front') return [];
  return out === 'along the machine'
    ? [`with the ${opened(machine, openMm)} it comes off along the machine, over its end`]
    : [
        `with the ${opened(machine, openMm)} it does not come straight out: ${machine.kind === 'folder' ? 'take the fingers out of it, or tilt it' : 'take the punch out of it, or tilt it'}`,
      ];
};

/**
 * A hem goes under the clamp to be pressed flat only where it stands no higher by then than the
 * clamp opens.
 */
const hemNote = (
  { flat }: PartToFold,
  machine: Machine,
  openMm: number,
  { ids: [id], inTwo, lattice: { net, strokes }, move }: Step,
): string[] => {
  const bend = bendNamed(flat, id as string);
  const fold = net.folds[(strokes[move.stroke] as Stroke).folds[0] as number];
  if (machine.kind !== 'folder' || bend.angleDeg < HEM_DEG || inTwo?.stroke === 1) return [];
  const highMm = standingMm(flat, bend, fold?.angleDeg ?? 0);
  return highMm <= openMm
    ? []
    : [
        `the hem stands ${figure(highMm, 0)} mm high before it is flat, and the clamp opens ${figure(openMm)} mm: close it with a mallet first`,
      ];
};

/** How high the child of a bend stands above the sheet's lower face, turned by an angle over 90. */
const standingMm = (
  { panels, thicknessMm }: FlatPattern,
  { child, childTangent: [p, q], insideRadiusMm }: FlatBend,
  angleDeg: number,
): number => {
  const along = unit(sub(q, p));
  const reach = Math.max(
    0,
    ...panels
      .filter(({ id }) => id === child)
      .flatMap(({ region, placement }) =>
        region.map((v) => Math.abs(cross(along, sub(movePoint(placement, [v.x, v.y]), p)))),
      ),
  );
  return thicknessMm + insideRadiusMm * (1 - cosDeg(angleDeg)) + reach * sinDeg(angleDeg);
};

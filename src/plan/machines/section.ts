import type { Machine, Section } from '../../model/machine.ts';
import { tanDeg } from '../../geometry/degrees.ts';
import { add } from '../../geometry/vec2.ts';
import { blockBodies } from './block.ts';
import { brakeBodies, tipMm } from './brake.ts';
import { folderBodies, lowered, packer } from './folder.ts';
import type { FoldNet, NetFold } from './net.ts';
import { NO_SHEET, type Sheet } from './stroke-rules.ts';

/** A named part of a machine's section. */
export interface MachinePart {
  readonly name:
    | 'beam'
    | 'fingers'
    | 'clamp'
    | 'bed'
    | 'leaf'
    | 'ram'
    | 'punch'
    | 'die'
    | 'block'
    | 'bar'
    | 'packers';
  /** Convex pieces. */
  readonly pieces: readonly Section[];
  /** Whether it moves in a stroke. */
  readonly moves: boolean;
}

/**
 * The section of a machine set for a fold, before the stroke and after it. The leaf of a folder is the
 * same before and after, to be turned by the swing.
 */
export interface MachineSection {
  readonly before: readonly MachinePart[];
  readonly after: readonly MachinePart[];
}

/** The sheet that the tools are set for; none on the middle plane. */
export const sheetOf = (
  { isSolid, thicknessMm }: FoldNet,
  {
    insideRadiusMm,
    angleDeg,
    overbendDeg = 0,
    noseRadiusMm = 0,
    leastFlangeMm = 0,
    isCrease,
  }: NetFold,
): Sheet =>
  isSolid
    ? {
        thicknessMm,
        insideRadiusMm,
        angleDeg,
        swungDeg: angleDeg + overbendDeg,
        noseRadiusMm,
        leastFlangeMm,
        ...(isCrease === true && { isCrease }),
      }
    : NO_SHEET;

/**
 * The straight edges of a fold by hand over a block, in the place of a machine's section; nothing of
 * them moves.
 */
export const blockSection = (net: FoldNet, fold: NetFold): MachineSection => {
  const { inside, outside } = blockBodies(sheetOf(net, fold));
  const parts: MachinePart[] = [
    { name: 'block', pieces: [inside], moves: false },
    { name: 'bar', pieces: [outside], moves: false },
  ];
  return { before: parts, after: parts };
};

/**
 * The parts stand as the search for contact has them. `startDeg` and `endDeg` are bends before and
 * after, `packerMm` is the height of the packers that the sheet lies on.
 */
export function machineParts(
  machine: Machine,
  net: FoldNet,
  fold: NetFold,
  {
    startDeg,
    endDeg,
    packerMm = 0,
  }: { readonly startDeg: number; readonly endDeg: number; readonly packerMm?: number },
): MachineSection {
  const sheet = sheetOf(net, fold);
  if (machine.kind === 'folder') {
    const section = folderBodies(machine, sheet);
    const { clamp, beam } = section;
    const { bed, leaf } = lowered(section, packerMm);
    const isFingers = machine.clamp.kind === 'fingers';
    const parts: MachinePart[] = [
      { name: 'bed', pieces: bed, moves: false },
      ...(packerMm === 0
        ? []
        : [{ name: 'packers', pieces: [packer(packerMm)], moves: false } as const]),
      { name: isFingers ? 'fingers' : 'clamp', pieces: clamp, moves: false },
      ...(beam.length === 0 ? [] : [{ name: 'beam', pieces: beam, moves: false } as const]),
      { name: 'leaf', pieces: leaf, moves: true },
    ];
    return { before: parts, after: parts };
  }
  const { punch, ram, die } = brakeBodies(machine, tipMm(sheet, fold.angleDeg));
  // The legs lie on the shoulders, V/2 tan(A/2) over the crossing of their outside faces.
  const risen = (deg: number): MachinePart[] => [
    { name: 'ram', pieces: ram, moves: false },
    { name: 'punch', pieces: punch, moves: false },
    {
      name: 'die',
      pieces: die.map((piece) =>
        piece.map((p) => add(p, [0, (machine.vMm.value / 2) * tanDeg(deg / 2)])),
      ),
      moves: true,
    },
  ];
  return { before: risen(startDeg), after: risen(endDeg) };
}

import type { Machine, Section } from '../../model/machine.ts';
import { tanDeg } from '../../geometry/degrees.ts';
import { add } from '../../geometry/vec2.ts';
import { blockBodies } from './block.ts';
import { brakeBodies, tipMm } from './brake.ts';
import { folderBodies } from './folder.ts';
import type { FoldNet, NetFold } from './net.ts';
import { NO_SHEET, type Sheet } from './stroke-rules.ts';

/**
 * The section of a machine set for a fold, before the stroke and after: the parts that stay and
 * those that move.
 */
export interface MachineSection {
  readonly still: readonly Section[];
  readonly movingBefore: readonly Section[];
  /**
   * The moving parts after the stroke. A folder has the same ones as before, turned by the swing,
   * and the picture turns them.
   */
  readonly movingAfter: readonly Section[];
  /** How far the two sides, clamped and swung, turn for every degree of the bend. */
  readonly turns: readonly [still: number, swung: number];
}

/** The sheet that the tools are set for; none on the middle plane. */
export const sheetOf = (
  { isSolid, thicknessMm }: FoldNet,
  { insideRadiusMm, angleDeg, overbendDeg = 0, noseRadiusMm = 0, leastFlangeMm = 0 }: NetFold,
): Sheet =>
  isSolid
    ? {
        thicknessMm,
        insideRadiusMm,
        angleDeg,
        swungDeg: angleDeg + overbendDeg,
        noseRadiusMm,
        leastFlangeMm,
      }
    : NO_SHEET;

/**
 * The straight edges of a fold by hand over a block, in the place of a machine's section; nothing of
 * them moves.
 */
export const blockSection = (net: FoldNet, fold: NetFold): MachineSection => {
  const { inside, outside } = blockBodies(sheetOf(net, fold));
  return { still: [inside, outside], movingBefore: [], movingAfter: [], turns: [0, 1] };
};

/** @param at what the fold is bent by before the stroke and after it, degrees */
export function machineSection(
  machine: Machine,
  net: FoldNet,
  fold: NetFold,
  { startDeg, endDeg }: { readonly startDeg: number; readonly endDeg: number },
): MachineSection {
  const sheet = sheetOf(net, fold);
  if (machine.kind === 'folder') {
    const { bed, clamp, beam, leaf } = folderBodies(machine, sheet);
    return {
      still: [...bed, ...clamp, ...beam],
      movingBefore: leaf,
      movingAfter: leaf,
      turns: [0, 1],
    };
  }
  const { punch, ram, die } = brakeBodies(machine, tipMm(sheet, fold.angleDeg));
  // The legs lie on the shoulders, V/2 tan(A/2) over the crossing of their outside faces.
  const risen = (deg: number): Section[] =>
    die.map((piece) => piece.map((p) => add(p, [0, (machine.vMm.value / 2) * tanDeg(deg / 2)])));
  return {
    still: [...punch, ...ram],
    movingBefore: risen(startDeg),
    movingAfter: risen(endDeg),
    turns: [-0.5, 0.5],
  };
}

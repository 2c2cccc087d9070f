import { SAME_LENGTH_MM } from '../../geometry/tolerance.ts';
import type { Material } from '../../model/material.ts';
import type { Rolls } from '../../model/wide-bends.ts';
import { figure } from '../../text/figures.ts';
import { deratingOf } from './bend-capacity.ts';

/** A round as rolls see it: the radius that they are set to is that before it springs open. */
export interface Rolled {
  readonly material: Material;
  readonly thicknessMm: number;
  readonly lengthMm: number;
  readonly toolRadiusMm: number;
}

/** The first of the rolls that take a round. */
export const rollsFor = (rolls: readonly Rolls[], round: Rolled): Rolls | undefined =>
  rolls.find((one) => whyNotRolled(one, round) === undefined);

/** Why rolls do not take a round; `undefined` where they do. */
export const whyNotRolled = (
  rolls: Rolls,
  { material, thicknessMm, lengthMm, toolRadiusMm }: Rolled,
): string | undefined => {
  const most = thickestMm(rolls, material);
  if (lengthMm > rolls.width + SAME_LENGTH_MM)
    return `${rolls.name} are ${figure(rolls.width, 0)} mm wide, and this is ${figure(lengthMm, 0)} mm long`;
  if (thicknessMm > most + SAME_LENGTH_MM)
    return `${rolls.name} take ${figure(most)} mm of ${material.name}`;
  return 2 * toolRadiusMm < rolls.leastDiameter - SAME_LENGTH_MM
    ? `${rolls.name} roll no tighter than ${figure(rolls.leastDiameter)} mm across, and this takes ${figure(2 * toolRadiusMm)} before it springs open`
    : undefined;
};

/** By the shop's own figure for the family, or by its strength from that for mild steel. */
const thickestMm = ({ capacity, capacities = [] }: Rolls, material: Material): number =>
  capacities.find((c) => c.material === material.family)?.thickness ??
  capacity * deratingOf(material).factor;

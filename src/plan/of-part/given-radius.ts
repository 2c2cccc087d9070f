import { airRadiusMm } from '../../bending/v-die.ts';
import type { Folder, Machine } from '../../model/machine.ts';
import { figure } from '../../text/figures.ts';
import { noseRadiusMm } from '../machines/nose.ts';

/**
 * The radius that a machine gives in place of the one that a bend was cut for, and what gives it.
 */
export interface GivenRadius {
  readonly radiusMm: number;
  readonly by: string;
}

/**
 * The inside radius that a bend gets; `undefined` where it is about the one asked for. A V gives
 * mild steel 5 V / 32, whatever was asked for. A folder gives at least the radius of its nose, and
 * more as the nose is set back: published instructions set it back by 1 to 2 t, which makes a
 * radius of up to t more (setback = t + r - nose radius). Where the shop file names no noses, sharp
 * ones are assumed.
 */
export function givenRadius(
  machine: Machine,
  thicknessMm: number,
  askedMm: number,
): GivenRadius | undefined {
  const given =
    machine.kind === 'press brake'
      ? { radiusMm: airRadiusMm(machine.vMm.value), by: 'this V' }
      : byNose(machine, thicknessMm, askedMm);
  const share =
    machine.kind === 'folder' && machine.noseRadiiMm === undefined ? UNNAMED_SHARE : CLOSE_SHARE;
  return Math.abs(given.radiusMm - askedMm) <= Math.max(CLOSE_MM, share * askedMm)
    ? undefined
    : given;
}

/** Nobody can predict a radius more closely than this, mm. */
const CLOSE_MM = 0.5;
const CLOSE_SHARE = 0.25;

/**
 * Noses that the shop does not name may have a radius of their own, so only a radius well above
 * what a sharp one gives is reported.
 */
const UNNAMED_SHARE = 0.5;

const byNose = (machine: Folder, thicknessMm: number, askedMm: number): GivenRadius => {
  if (machine.noseRadiiMm === undefined)
    return {
      radiusMm: Math.min(askedMm, thicknessMm),
      by: 'a sharp nose, set back as far as usual',
    };
  const nose = noseRadiusMm(machine, askedMm);
  return {
    radiusMm: Math.min(Math.max(askedMm, nose), nose + thicknessMm),
    by: `the nose of radius ${figure(nose)}, set back as far as usual`,
  };
};

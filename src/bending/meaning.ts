import type { BendRule } from '../model/bend-rule.ts';
import type { Bend } from './bend.ts';
import { hemFormOf } from './hem.ts';
import {
  DIN6935_LEAST_BEND_DEG,
  DIN6935_LEAST_RATIO,
  DIN6935_ZERO_RATIO,
} from './rules/din6935.ts';
import { measuredK } from './rules/measured.ts';

/**
 * Whether a rule is meant for a bend. `whole`: it is. `stretched`: its formula is carried on past
 * where its source gives figures. `none`: what it gives is not the length of a bend.
 */
export type Meaning = 'whole' | 'stretched' | 'none';

/**
 * What each rule is good for. The handbooks' rules are for bends about a radius, so none has a
 * meaning for a hem that is pressed flat (no least radius is printed with the formulas of mh and
 * faa; the worked examples go to half a turn, Machinery's Handbook p. 1421). DIN 6935 ends at
 * `DIN6935_LEAST_RATIO`. A user's own K factor is always taken as given.
 */
export const meaningOf = (rule: BendRule, bend: Bend): Meaning => {
  if (rule.id === 'measured') return measuredK(rule.rows, bend) === undefined ? 'none' : 'whole';
  if (rule.id === 'k' || bend.angleDeg === 0) return 'whole';
  const form = hemFormOf(bend);
  if (form === 'closed') return 'none';
  if (rule.id !== 'din6935' || bend.angleDeg < DIN6935_LEAST_BEND_DEG) return 'whole';
  const ratio = bend.insideRadiusMm / bend.thicknessMm;
  if (ratio >= DIN6935_LEAST_RATIO) return 'whole';
  return ratio < DIN6935_ZERO_RATIO || form !== undefined ? 'none' : 'stretched';
};

/**
 * Whether a bend is a hem that its rule has no meaning for, so that it gets the length of a hem.
 */
export const goesByHem = (rule: BendRule, bend: Bend): boolean =>
  hemFormOf(bend) !== undefined && meaningOf(rule, bend) === 'none';

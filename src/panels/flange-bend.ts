import { leastRadiusMm } from '../bending/least-radius.ts';
import { parseRule } from '../bending/rule.ts';
import type { Flange, Spot } from './piece.ts';
import { readerOf } from './stretch.ts';

const ANGLE = { kind: 'angle', least: 0.5, most: 180 } as const;
const JOGGLE_ANGLE = { kind: 'angle', least: 0.5, most: 90 } as const;
const JOGGLE = { kind: 'length', least: 0.1, most: 1000 } as const;
const RADIUS = { kind: 'length', least: 0, most: 1000 } as const;

/** How a flange is folded; nothing where that told a problem. */
export function bendOf(
  spot: Spot,
):
  | Pick<Flange, 'angleDeg' | 'direction' | 'radiusMm' | 'hasOwnRadius' | 'rule' | 'joggleMm'>
  | undefined {
  const { figures, values, given, at } = spot;
  const read = readerOf(spot);
  const joggleMm = read('joggle', given.joggle, undefined, JOGGLE);
  const isJoggled = given.joggle !== undefined;
  const angleDeg = read(
    'angle',
    given.angle,
    isJoggled ? 45 : 90,
    isJoggled ? JOGGLE_ANGLE : ANGLE,
  );
  if (angleDeg === undefined || (isJoggled && joggleMm === undefined)) return undefined;
  // Folded right over, sheet needs more than round a square corner.
  const usual =
    angleDeg === 180
      ? Math.max(leastRadiusMm(values.material, values.thicknessMm, 180), values.insideRadiusMm)
      : values.insideRadiusMm;
  const radiusMm = read('radius', given.radius, usual, RADIUS);
  const rule = given.rule === undefined ? undefined : parseRule(given.rule);
  if (rule?.ok === false)
    return figures.problem(`${at}.rule`, given.rule, 'a bend rule', rule.reason);
  return radiusMm === undefined
    ? undefined
    : {
        angleDeg,
        direction: given.direction ?? 'up',
        radiusMm,
        hasOwnRadius: given.radius !== undefined,
        rule: rule?.value,
        joggleMm,
      };
}

import { leastRadiusMm } from '../bending/least-radius.ts';
import { parseRule } from '../bending/rule.ts';
import { setbackMm } from '../bending/setback.ts';
import type { CommonValues } from '../forms/common.ts';
import { sinDeg } from '../geometry/degrees.ts';
import { joggleWebMm } from '../kit/joggle.ts';
import { atLeast, figure } from '../text/figures.ts';
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
  if (radiusMm === undefined) return undefined;
  const leastMm = joggleMm === undefined ? 0 : leastJoggleMm(angleDeg, radiusMm, values);
  return joggleMm !== undefined && joggleMm < leastMm
    ? figures.problem(
        `${at}.joggle`,
        given.joggle,
        `at least ${atLeast(leastMm)} mm: two folds of ${figure(angleDeg)} degrees and inside radius ${figure(radiusMm)} set it off by that much`,
        'give more, a smaller angle or a smaller radius',
      )
    : {
        angleDeg,
        direction: given.direction ?? 'up',
        radiusMm,
        hasOwnRadius: given.radius !== undefined,
        rule: rule?.value,
        joggleMm,
      };
}

/** What is left flat between the folds of the smallest joggle, mm. */
const LEAST_WEB_MM = 0.1;

/**
 * The smallest offset of a joggle, mm: with it the bend zones of its two folds nearly touch. The web runs
 * offset / sin A, and t tan(A/2) more by outside or less by inside dimensions (`joggleWebMm`), and
 * each fold takes a setback of it.
 */
const leastJoggleMm = (angleDeg: number, radiusMm: number, values: CommonValues): number => {
  const { thicknessMm, measure } = values;
  const besideMm = joggleWebMm(0, angleDeg, thicknessMm, measure);
  return Math.max(
    0,
    (2 * setbackMm(angleDeg, radiusMm, thicknessMm, measure) + LEAST_WEB_MM - besideMm) *
      sinDeg(angleDeg),
  );
};

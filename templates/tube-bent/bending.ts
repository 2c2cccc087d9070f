import {
  type BentAsk,
  type Bender,
  type Finding,
  guessedSpringback,
  LEAST_DIAMETERS,
  refuse,
  SAME_LENGTH_MM,
  springbackOf,
  type TubeFormer,
  type TubeSpringback,
  without,
} from '../../src/template.ts';
import type { Values } from './centre-line.ts';

/** How the tube is bent, and the bender that does it, where the shop has one. */
export interface Bending {
  readonly bending: BentAsk['bending'];
  readonly bender: Bender | undefined;
  readonly findings: readonly Finding[];
}

/**
 * What the inputs say of the bender, before what the shop file does, before what is usual: a former of
 * three diameters, and springback by a first guess.
 */
export function bendingOf(v: Values): Bending {
  const { bender, former, findings } = benderOf(v);
  const formerMm = v.radius ?? former?.radius ?? LEAST_DIAMETERS * v.diameter;
  const measured = measuredOf(v, former);
  const guess = guessedSpringback({ diameterMm: v.diameter, wallMm: v.wall }, formerMm, {
    yieldMpa: v.material.yieldMpa.value,
    modulusMpa: v.material.modulusMpa.value,
  });
  return {
    bending: {
      formerMm,
      springback: measured ?? guess,
      isMeasured: measured !== undefined,
      effectiveMm: v.effectiveRadius ?? former?.springback?.effectiveRadius,
      clampMm: v.clamp ?? bender?.clamp ?? 0,
      followerMm: v.follower ?? bender?.follower ?? 0,
      referenceMm: v.reference ?? bender?.referenceMark ?? 0,
      bender: bender?.name,
    },
    bender,
    findings,
  };
}

/** Springback that was measured: by test bends, by its two figures, or by those of the shop file. */
const measuredOf = (v: Values, former: TubeFormer | undefined): TubeSpringback | undefined => {
  if (v.testBends !== undefined) return springbackOf(v.testBends);
  if (v.springbackShare !== undefined || v.springbackFixed > 0)
    return { fixedDeg: v.springbackFixed, share: v.springbackShare ?? 0 };
  return former?.springback === undefined
    ? undefined
    : { fixedDeg: former.springback.fixed, share: former.springback.share };
};

interface Chosen {
  readonly bender: Bender | undefined;
  readonly former: TubeFormer | undefined;
  readonly findings: readonly Finding[];
}

/** The first bender of the shop with a former for this tube, or the one that is named. */
const benderOf = ({ benders, bender: named, diameter, radius }: Values): Chosen => {
  const takes = ({ formers }: Bender): TubeFormer | undefined =>
    formers.find(
      (one) =>
        Math.abs(one.tube - diameter) < SAME_LENGTH_MM &&
        (radius === undefined || Math.abs(one.radius - radius) < SAME_LENGTH_MM),
    );
  const bender = benders.find(
    (one) =>
      takes(one) !== undefined &&
      (named === undefined || one.name.toLowerCase() === named.toLowerCase()),
  );
  if (bender !== undefined || named === undefined)
    return { bender, former: bender && takes(bender), findings: [] };
  const names = benders.filter((one) => takes(one) !== undefined).map(({ name }) => name);
  return {
    bender: undefined,
    former: undefined,
    findings: [
      refuse(
        'tube-no-bender',
        ['bender'],
        `no bender '${named}' in the shop file has a former for this tube${radius === undefined ? '' : ' and radius'}`,
        [without('bender')],
        ...(names.length === 0 ? [] : [`give ${names.join(' or ')}`]),
      ),
    ],
  };
};

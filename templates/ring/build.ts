import {
  asBoltHole,
  assemble,
  type Built,
  circle,
  type Cutout,
  figure,
  type Finding,
  type Loop,
  meeting,
  note,
  placeHoles,
  rectangle,
  roundFreeCorners,
} from '../../src/template.ts';
import { boltAngles, boltCentre, heightOf, rimMm } from './sizes.ts';
import { impossibleRing } from './limits.ts';
import { ringWishes } from './wishes.ts';
import type { Ring } from './inputs.ts';

/** A plate with the hole in its middle, its bolt holes and others. */
export function ring(v: Ring): Built {
  const findings = impossibleRing(v);
  if (findings.length > 0) return { findings };
  const shape =
    v.shape === 'round' ? { outline: circle([0, 0], v.outer / 2), findings: [] } : squareOutline(v);
  return {
    part: assemble(v, {
      root: 'flange',
      panels: [{ id: 'flange', outline: shape.outline, cutouts: cutoutsOf(v) }],
      folds: [],
      wishes: ringWishes(v),
    }),
    findings: [...shape.findings, ...lands(v)],
  };
}

/** The use of the bolt holes: all bolts go into the one part that the ring lies on. */
const boltUse = (v: Ring): Pick<Cutout, 'use'> => {
  const { use } = meeting(
    asBoltHole({ shape: { kind: 'round', diameterMm: v.boltHole } }),
    'flange',
  );
  return use === undefined ? {} : { use };
};

function cutoutsOf(v: Ring): Cutout[] {
  const inner: Cutout[] =
    v.inner > 0 ? [{ kind: 'round', from: 'inner', centre: [0, 0], diameterMm: v.inner }] : [];
  const bolts = boltAngles(v).map((deg, i): Cutout => ({
    kind: 'round',
    from: `bolt ${i + 1}`,
    inputs: ['boltCircle'],
    centre: boltCentre(v, deg),
    diameterMm: v.boltHole,
    ...boltUse(v),
  }));
  return [
    ...inner,
    ...bolts,
    ...placeHoles('holes', v.holes, {
      origin: [0, 0],
      across: [0, 1],
      along: [1, 0],
      thicknessMm: v.thicknessMm,
    }),
  ];
}

function squareOutline(v: Ring): {
  readonly outline: Loop;
  readonly findings: readonly Finding[];
} {
  const [w, h] = [v.outer, heightOf(v)];
  return roundFreeCorners('the plate', rectangle(-w / 2, -h / 2, w, h), ['bottom', 'top'], v);
}

/** Widths that the user checks against the gasket and the bolt heads. */
function lands(v: Ring): Finding[] {
  if (v.bolts === 0) return [];
  const inside =
    v.inner > 0 ? `, ${figure((v.boltCircle - v.boltHole - v.inner) / 2)} inside it` : '';
  const between =
    v.bolts > 1
      ? `; neighbouring bolts are ${figure(v.boltCircle * Math.sin(Math.PI / v.bolts))} apart, middle to middle`
      : '';
  return [
    note(
      'metal-beside-bolts',
      `Metal beside the bolt holes: ${figure(rimMm(v))} outside${inside}${between}.`,
    ),
  ];
}

import {
  clip,
  dot,
  figure,
  leftOf,
  orLess,
  refuse,
  signedArea,
  sub,
  unit,
  wholeUp,
} from '../../src/template.ts';
import type { Cutout, Finding, Loop, Vec2, Vertex } from '../../src/template.ts';
import { flowHoles, mostFlowHoles } from '../baffle/flow.ts';
import type { PlateEdge } from './baffle-plate.ts';
import type { TankPlan } from './inputs.ts';
import { type Section, sectionAreaMm2 } from './section.ts';

/** Flow holes in the flat of the plate, as many as leave openPercent of the section open. */
export const flowOf = (
  v: TankPlan,
  id: string,
  edges: readonly PlateEdge[],
  corners: readonly Vec2[],
  outline: Loop,
  section: Section,
): { readonly cutouts: readonly Cutout[] } | { readonly finding: Finding } => {
  const disc = (Math.PI / 4) * v.holeDiameter ** 2;
  const whole: Loop = corners.map(([x, y]) => ({ x, y, bulge: 0 }));
  const cut = signedArea(whole) - signedArea(outline);
  const wanted = (v.openPercent / 100) * sectionAreaMm2(section) - cut;
  const count = v.openPercent === 0 ? 0 : Math.max(0, wholeUp(wanted / disc));
  const region = edges.reduce<Loop>((loop, { edge, inMm, setbackMm: setback }) => {
    const into = leftOf(unit(sub(edge.to, edge.from)));
    const [kept] = clip(loop, into, dot(into, edge.from) + inMm + setback, ([x, y]): Vertex => ({
      x,
      y,
      bulge: 0,
    }));
    return kept ?? [];
  }, outline);
  const room = {
    region,
    edgeGapMm: 2 * v.thicknessMm,
    holeGapMm: Math.max(2 * v.thicknessMm, v.holeDiameter / 2),
    inTheWay: [],
  };
  const centres = flowHoles([room], v.holeDiameter, count);
  if (centres === undefined) {
    const most = mostFlowHoles([room], v.holeDiameter);
    const share = (100 * (most * disc + cut)) / sectionAreaMm2(section);
    return {
      finding: refuse(
        'flow-holes-do-not-fit',
        ['openPercent', 'holeDiameter'],
        `openPercent ${figure(v.openPercent)} takes ${count} holes of holeDiameter ${figure(v.holeDiameter)} in ${id}, and ${most} fit`,
        [orLess('openPercent', Math.floor(share), 0)],
        'give a smaller holeDiameter',
      ),
    };
  }
  return {
    cutouts: centres.map((centre, i): Cutout => ({
      kind: 'round',
      from: `flow ${i + 1}`,
      inputs: ['holeDiameter'],
      centre,
      diameterMm: v.holeDiameter,
    })),
  };
};

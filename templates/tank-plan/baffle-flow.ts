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
import { isFloorName, isRiserName } from './steps.ts';

/** Flow holes in the flat of the plate, as many as leave openPercent of the section open. */
export const flowOf = (
  v: TankPlan,
  id: string,
  edges: readonly PlateEdge[],
  corners: readonly Vec2[],
  outline: Loop,
  section: Section,
): { readonly cutouts: readonly Cutout[] } | { readonly finding: Finding } => {
  const whole: Loop = corners.map(([x, y]) => ({ x, y, bulge: 0 }));
  const cut = signedArea(whole) - signedArea(outline);
  return flowIn(v, id, flatsOf(edges, outline), sectionAreaMm2(section), cut);
};

/**
 * Flow holes in the convex flats of a baffle, as many as leave openPercent of the section open
 * together with what is cut off its corners.
 */
export const flowIn = (
  v: Pick<TankPlan, 'openPercent' | 'holeDiameter' | 'thicknessMm'>,
  id: string,
  flats: readonly Loop[],
  sectionMm2: number,
  cut: number,
): { readonly cutouts: readonly Cutout[] } | { readonly finding: Finding } => {
  const disc = (Math.PI / 4) * v.holeDiameter ** 2;
  const wanted = (v.openPercent / 100) * sectionMm2 - cut;
  const count = v.openPercent === 0 ? 0 : Math.max(0, wholeUp(wanted / disc));
  const rooms = flats.map((region) => ({
    region,
    edgeGapMm: 2 * v.thicknessMm,
    holeGapMm: Math.max(2 * v.thicknessMm, v.holeDiameter / 2),
    inTheWay: [],
  }));
  const centres = flowHoles(rooms, v.holeDiameter, count);
  if (centres === undefined) {
    const most = mostFlowHoles(rooms, v.holeDiameter);
    const share = (100 * (most * disc + cut)) / sectionMm2;
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

/**
 * The flat of the plate between its bends: all of it, or over each floor what lies between plumb
 * lines at its steps, since holes are spread over what is convex.
 */
const flatsOf = (edges: readonly PlateEdge[], outline: Loop): Loop[] => {
  const floors = edges.filter(({ edge }) => isFloorName(edge.facet));
  const around = edges.filter(({ edge }) => !isFloorName(edge.facet) && !isRiserName(edge.facet));
  if (edges.length === around.length + floors.length && floors.length < 2)
    return [edges.reduce(inside, outline)];
  return floors.map((floor) => {
    const i = edges.indexOf(floor);
    const steps = [edges.at(i - 1), edges[(i + 1) % edges.length]];
    const between = steps.reduce<Loop>((loop, step, end) => {
      if (step === undefined || !isRiserName(step.edge.facet)) return loop;
      const into: Vec2 = [end === 0 ? 1 : -1, 0];
      const at = end === 0 ? floor.edge.from : floor.edge.to;
      return clipped(loop, into, dot(into, at));
    }, outline);
    return [floor, ...around, ...steps.filter((step) => rises(step, floor))].reduce(
      (loop, edge) => (edge === undefined ? loop : inside(loop, edge)),
      between,
    );
  });
};

/** Whether a step goes up from a floor, so that the plate ends at it. */
const rises = (step: PlateEdge | undefined, { edge }: PlateEdge): boolean =>
  step !== undefined &&
  isRiserName(step.edge.facet) &&
  step.edge.from[1] + step.edge.to[1] > edge.from[1] + edge.to[1];

/** The part of a loop that lies in the flat beyond the bend along an edge. */
const inside = (loop: Loop, { edge, inMm, setbackMm: setback }: PlateEdge): Loop => {
  const into = leftOf(unit(sub(edge.to, edge.from)));
  return clipped(loop, into, dot(into, edge.from) + inMm + setback);
};

const clipped = (loop: Loop, into: Vec2, at: number): Loop => {
  const [kept] = clip(loop, into, at, ([x, y]): Vertex => ({ x, y, bulge: 0 }));
  return kept ?? [];
};

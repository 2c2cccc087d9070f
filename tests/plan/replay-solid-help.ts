import type { Machine } from '../../src/model/machine.ts';
import type { FoldWay } from '../../src/contract/fold-plan.ts';
import type { Flat } from './replay-solid-convex.ts';
import { bodiesOf, type MachineBody, type Sheet } from './replay-solid-machine.ts';
import { bodyAt, type BodyAt, type Stretch } from './replay-solid-body.ts';

/** What helps at a stroke, as the README states it. */
export interface Help {
  readonly way: FoldWay | 'free hand';
  /** Height of the packers. */
  readonly packerMm: number;
  /** From where to where bed, leaf and beam reach along the fold. */
  readonly machineAt: Stretch;
}

/** How far thin metal springs aside where hands help, mm. */
export const SPRING_MM = 0.5;

const [BAR_MM, PACKER_DEPTH_MM] = [10, 20];

const lower = (sections: MachineBody['sections'], by: number): Flat[][] =>
  sections.map((section) => section.map(([x, y]): Flat => [x, y - by]));

const square = (left: number, low: number): Flat[] => [
  [left, low],
  [left + BAR_MM, low],
  [left + BAR_MM, low + BAR_MM],
  [left, low + BAR_MM],
];

/**
 * Straight edges 10 mm square: one behind the fold under the sheet, and one on it behind the tangent
 * line; past a right angle only its lowest millimetre is looked at, for it leans back there.
 */
const bars = ({ thicknessMm: t, insideRadiusMm: r, angleDeg }: Sheet): MachineBody[] => {
  const tangent = (t + r) * Math.tan((angleDeg * Math.PI) / 360);
  const above: Flat[] =
    angleDeg <= 90
      ? square(-tangent - BAR_MM, t)
      : [
          [-tangent - BAR_MM, t],
          [-tangent - 5, t],
          [-tangent - 5, t + 1],
          [-tangent - BAR_MM, t + 1],
        ];
  return [
    { name: 'bed', inPlaces: true, sections: [square(-BAR_MM, -BAR_MM)] },
    { name: 'clamp', inPlaces: true, sections: [above] },
  ];
};

/** The bodies at a stroke that hands help at, in their places along the fold. */
export const helpedBodies = (
  machine: Machine,
  sheet: Sheet,
  { way, packerMm, machineAt }: Help,
  places: readonly Stretch[],
): readonly BodyAt[] => {
  if (way === 'free hand') return [];
  if (way === 'over a block') return bars(sheet).map((b) => bodyAt(b, places));
  return bodiesOf(machine, sheet).flatMap((b): BodyAt[] => {
    if (way === 'off the end')
      return [bodyAt({ ...b, inPlaces: true }, b.inPlaces ? places : [machineAt])];
    if (way === 'on packers' && (b.name === 'bed' || b.name === 'leaf'))
      return [
        bodyAt({ ...b, sections: lower(b.sections, packerMm) }, places),
        ...(b.name === 'leaf' ? [] : [bodyAt({ ...b, sections: [packer(packerMm)] }, places)]),
      ];
    return way === 'short die' && b.name === 'die'
      ? [
          bodyAt({ ...b, inPlaces: true, sections: b.sections.slice(0, 2) }, places),
          bodyAt({ ...b, sections: b.sections.slice(2) }, places),
        ]
      : [bodyAt(b, places)];
  });
};

const packer = (high: number): Flat[] => [
  [-PACKER_DEPTH_MM, -high],
  [0, -high],
  [0, 0],
  [-PACKER_DEPTH_MM, 0],
];

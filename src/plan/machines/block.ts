import { tanDeg } from '../../geometry/degrees.ts';
import type { Section } from '../../model/machine.ts';
import { bodiesOf } from './bodies.ts';
import { BLOCK_BAR_MM, BLOCK_DEEPEST_MM, BLOCK_LAND_MM, BLOCK_UNCOVERED_MM } from './helps.ts';
import { tangentBehindHingeMm } from './nose.ts';
import { type BodyCheck, MOVING, type Sheet, STILL, type StrokeRules } from './stroke-rules.ts';

/** The two straight edges that hold a sheet for a fold by hand, in the frame of a folder. */
export interface BlockBodies {
  /** The one that the fold goes round, on the inside. */
  readonly inside: Section;
  /** The jaw or the edge of the bench behind the sheet. */
  readonly outside: Section;
}

/**
 * The straight edges of a block: that on the inside stands on the tangent line and leans back where
 * the fold goes past a right angle; the other ends at the fold.
 */
export function blockBodies(sheet: Sheet): BlockBodies {
  const t = sheet.thicknessMm;
  const front = -tangentBehindHingeMm(sheet);
  const back = front - BLOCK_BAR_MM;
  const lean = tanDeg(Math.max(0, (sheet.swungDeg ?? sheet.angleDeg) - 90));
  const high = lean === 0 ? BLOCK_BAR_MM : Math.min(BLOCK_BAR_MM, BLOCK_BAR_MM / lean);
  const top = front - high * lean;
  return {
    inside: [
      [back, t],
      [front, t],
      ...(top > back ? ([[top, t + high]] as const) : []),
      [back, t + high],
    ],
    outside: [
      [back, -BLOCK_BAR_MM],
      [0, -BLOCK_BAR_MM],
      [0, 0],
      [back, 0],
    ],
  };
}

/** Farther from a fold than any part reaches, mm. */
const FAR_MM = 10_000;

/** Where what is tapped over does not reach, before it is. */
const FAR_OUT: readonly BodyCheck[] = [
  {
    side: MOVING,
    bodies: [
      [BLOCK_DEEPEST_MM, -FAR_MM, FAR_MM, FAR_MM],
      [0, BLOCK_DEEPEST_MM, FAR_MM, FAR_MM],
    ].flatMap(([left, low, right, high]) =>
      bodiesOf([
        [
          [left, low],
          [right, low],
          [right, high],
          [left, high],
        ] as Section,
      ]),
    ),
    turnDeg: 0,
    inSections: false,
    say: (panel) => `${panel} reaches too far from the fold to be tapped over`,
  },
];

/**
 * The rules of a fold made by hand over a block. Straight edges are cut or found as long as the fold
 * leaves room for; whatever stands within the fold's length keeps them out there.
 */
export function blockRules(angleDeg: number, sheet: Sheet): StrokeRules {
  const { inside, outside } = blockBodies(sheet);
  const swingDeg = sheet.swungDeg ?? angleDeg;
  const tangentMm = tangentBehindHingeMm(sheet);
  const check = (side: BodyCheck['side'], turnDeg: number): BodyCheck => ({
    side,
    bodies: [...bodiesOf([inside]), ...bodiesOf([outside])],
    turnDeg,
    inSections: true,
    say: () => '',
  });
  return {
    swingDeg,
    startDeg: 0,
    stillStartDeg: 0,
    checks: [...FAR_OUT, check(STILL, 0), check(MOVING, swingDeg)],
    stripMm: [tangentMm + BLOCK_LAND_MM, tangentMm + 2 * sheet.thicknessMm],
    gripMm: 0,
    turns: [0, 1],
    carriedMm: [-Infinity, Infinity],
    holder: { kind: 'sections', mostUncoveredMm: BLOCK_UNCOVERED_MM },
    sayInTheWay: (panel) => `${panel} stands where the straight edge has to be`,
    help: 'over a block',
  };
}

/** The rules of the last degrees by hand, with the part off the machine: it is only in its own way. */
export const freeHandRules = (swingDeg: number, startDeg: number): StrokeRules => ({
  swingDeg,
  startDeg,
  stillStartDeg: 0,
  checks: [],
  stripMm: [0, 0],
  gripMm: 0,
  turns: [0, 1],
  carriedMm: [-Infinity, Infinity],
  holder: { kind: 'sections', mostUncoveredMm: Infinity },
  sayInTheWay: () => '',
  help: 'rest by hand',
});

import {
  atMost,
  figure,
  isUnder,
  just,
  measuredFromNear,
  obround,
  orLess,
  orMore,
  orTry,
  reachOf,
  refuse,
  EXACT_MM,
  wholeDown,
} from '../../src/template.ts';
import type { Cutout, Finding, HoleFrame, Vec2 } from '../../src/template.ts';
import { given, insetMm, leftInsetMm, type OutsideHeelRest } from './outside.ts';
import type { Section } from './section.ts';
import { cheekSides, setback90Mm, type Side } from './sizes.ts';
import type { HeelRest } from './inputs.ts';

/**
 * Most holes of a pattern; more are a slip in its pitch, since each hole is one more pierce for the
 * cutter.
 */
const MOST = 600;

/**
 * Rows of holes on equal triangles, as in perforated sheet, or of slots that lie across the tread
 * like bricks.
 */
export function gripOf(
  v: OutsideHeelRest,
  section: Section,
): { readonly cutouts: readonly Cutout[]; readonly findings: readonly Finding[] } {
  if (v.grip === 'none') return { cutouts: [], findings: [] };
  const findings = impossibleGrip(v);
  if (findings.length > 0) return { cutouts: [], findings };
  const places = placesOf(v, section);
  if (places.length === 0) return { cutouts: [], findings: [noRoom(v, section)] };
  if (places.length > MOST) {
    return {
      cutouts: [],
      findings: [
        orTry(
          refuse(
            'grip-too-fine',
            ['gripPitch'],
            `gripPitch ${figure(v.gripPitch)} makes ${places.length} ${v.grip}, more than ${MOST}`,
            [just('grip', 'none')],
          ),
          'gripPitch',
        ),
      ],
    };
  }
  const free = places.filter((place) => isFree(v, section, place));
  return { cutouts: free.map((place, i) => gripAt(v, place, `grip ${i + 1}`)), findings: [] };
}

function impossibleGrip(v: HeelRest): Finding[] {
  const findings: Finding[] = [];
  const least = v.gripSize + v.thicknessMm;
  if (isUnder(v.gripPitch, least)) {
    const mends = [
      orMore('gripPitch', least),
      ...(v.gripPitch > v.thicknessMm ? [orLess('gripSize', v.gripPitch - v.thicknessMm)] : []),
    ];
    findings.push(
      refuse(
        'grip-too-close',
        ['gripPitch', 'gripSize'],
        `gripPitch ${figure(v.gripPitch)} leaves less than a thickness between ${v.grip} of gripSize ${figure(v.gripSize)}`,
        mends,
      ),
    );
  }
  if (v.grip === 'slots' && v.gripLength <= v.gripSize) {
    findings.push(
      refuse(
        'grip-slot-too-short',
        ['gripLength', 'gripSize'],
        `gripLength ${figure(v.gripLength)} is not more than the width of the slots, gripSize ${figure(v.gripSize)}`,
        [orMore('gripLength', v.gripSize + v.thicknessMm), just('grip', 'holes')],
      ),
    );
  }
  return findings;
}

const longMm = (v: HeelRest): number => (v.grip === 'slots' ? v.gripLength : v.gripSize);

/**
 * Strip of metal from the pattern to edges and bends; beside a bend it is at least two thicknesses
 * (common practice).
 */
const marginMm = (v: HeelRest): number => Math.max(v.gripMargin, 2 * v.thicknessMm);

/** The part of the tread that the pattern may take: across from the left, and up from the rear. */
function roomOf(v: HeelRest, section: Section): { readonly x: Vec2; readonly y: Vec2 } {
  // The bend of a cheek lies beside it, and at the end of its fold a relief as deep again.
  const beside = (side: Side): number =>
    (cheekSides(v).includes(side) ? setback90Mm(v) + v.insideRadiusMm + v.thicknessMm : 0) +
    marginMm(v);
  return {
    x: [beside('left'), v.width - beside('right')],
    y: [
      section.ends.rear.setbackMm + marginMm(v),
      v.treadDepth - section.ends.front.setbackMm - marginMm(v),
    ],
  };
}

/**
 * Places of the holes in rows from the rear forwards, centred in their room; every other row is
 * half a pitch aside.
 */
function placesOf(v: HeelRest, section: Section): Vec2[] {
  const { x, y } = roomOf(v, section);
  const rowPitch = v.grip === 'slots' ? v.gripPitch : (v.gripPitch * Math.sqrt(3)) / 2;
  const pitch = v.grip === 'slots' ? longMm(v) + v.gripPitch - v.gripSize : v.gripPitch;
  const [left, right] = [x[0] + longMm(v) / 2, x[1] - longMm(v) / 2];
  const [rear, front] = [y[0] + v.gripSize / 2, y[1] - v.gripSize / 2];
  const [columns, rows] = [countOn(right - left, pitch), countOn(front - rear, rowPitch)];
  const start = (left + right - (columns - 1) * pitch) / 2;
  const shifted = (row: number): { x: number; n: number } => {
    if (row % 2 === 0) return { x: start, n: columns };
    const fits =
      start + pitch * (columns - 0.5) <= right + EXACT_MM && start - pitch / 2 >= left - EXACT_MM;
    return fits
      ? { x: start - pitch / 2, n: columns + 1 }
      : { x: start + pitch / 2, n: columns - 1 };
  };
  return Array.from({ length: rows }, (_, row) => row).flatMap((row) => {
    const line = shifted(row);
    const at = (rear + front - (rows - 1) * rowPitch) / 2 + row * rowPitch;
    return Array.from({ length: line.n }, (__, i): Vec2 => [line.x + i * pitch, at]);
  });
}

const countOn = (length: number, pitch: number): number =>
  length < -EXACT_MM ? 0 : wholeDown(length / pitch) + 1;

const noRoom = (v: HeelRest, section: Section): Finding => {
  const { x, y } = roomOf(v, section);
  const room = [y[1] - y[0], x[1] - x[0]].map((n) => atMost(Math.max(0, n)));
  const size =
    v.grip === 'slots'
      ? `gripLength ${figure(v.gripLength)} and gripSize ${figure(v.gripSize)}`
      : `gripSize ${figure(v.gripSize)}`;
  const sizes = v.grip === 'slots' ? ['gripLength', 'gripSize'] : ['gripSize'];
  return orTry(
    refuse(
      'grip-does-not-fit',
      ['grip', ...sizes, 'gripMargin'],
      `grip ${v.grip} of ${size} do not fit the ${room.join(' by ')} mm that bends and gripMargin ${figure(v.gripMargin)} leave of the tread`,
      [just('grip', 'none')],
    ),
    ...sizes,
    'gripMargin',
    'treadDepth',
    'width',
  );
};

const gripAt = (v: HeelRest, centre: Vec2, from: string): Cutout =>
  v.grip === 'slots'
    ? { kind: 'loop', from, loop: obround(centre, v.gripSize, v.gripLength, 0) }
    : { kind: 'round', from, centre, diameterMm: v.gripSize };

/** Axes from which holes in the tread are measured. */
export const treadFrame = (v: OutsideHeelRest, section: Section): HoleFrame => ({
  thicknessMm: v.thicknessMm,
  origin: [leftInsetMm(v), insetMm(v, section.ends.rear.legs[0])],
  across: [0, 1],
  along: [1, 0],
  spanMm: [given(v, 'treadDepth', v.treadDepth), given(v, 'width', v.width)],
});

/**
 * Whether a place is free: the pattern leaves room for the user's own holes, with a thickness round
 * each.
 */
const isFree = (v: OutsideHeelRest, section: Section, [x, y]: Vec2): boolean => {
  const frame = treadFrame(v, section);
  return v.holesTread.every((hole) => {
    const { acrossMm, alongMm } = measuredFromNear(hole, frame);
    return (
      Math.hypot(frame.origin[0] + alongMm - x, frame.origin[1] + acrossMm - y) >
      reachOf(hole.shape, v.thicknessMm) + longMm(v) / 2 + v.thicknessMm
    );
  });
};

import { assemble, note, placeHoles, rectangle, roundFreeCorners } from '../../src/template.ts';
import type { Built, Cutout, Finding, GivenFold, HoleFrame, Panel } from '../../src/template.ts';
import { cheeksOf, cheekStretch } from './cheeks.ts';
import { gripOf, treadFrame } from './grip.ts';
import { impossibleHeelRest } from './limits.ts';
import { given, insetMm, leftInsetMm, type OutsideHeelRest, outsideHeelRest } from './outside.ts';
import { heelRestReport } from './report.ts';
import { type End, type Section, sectionOf } from './section.ts';
import {
  cheekSides,
  highEnd,
  lipAt,
  notchMm,
  type Place,
  setbackOf,
  type Side,
  stopEnd,
} from './sizes.ts';
import type { HeelRest } from './inputs.ts';
import { heelRestWishes } from './wishes.ts';
import type { Leg } from './legs.ts';

/**
 * A tread drawn from above, its front at the top, with the flanges on its front, its rear and its
 * sides.
 */
export function heelRestPart(asked: HeelRest): Built {
  const v = outsideHeelRest(asked);
  const findings = impossibleHeelRest(v);
  if (findings.length > 0) return { findings };
  const section = sectionOf(v);
  const grip = gripOf(v, section);
  const tread = treadPanel(v, section, grip.cutouts);
  // Findings on the tread itself are told alone.
  if (tread.findings.length > 0) return { findings: tread.findings };
  const names = foldNames(section);
  const [rear, front] = [
    strip(v, section.ends.rear, names.rear),
    strip(v, section.ends.front, names.front),
  ];
  const cheeks = cheeksOf(v, section, names.rest);
  return {
    part: assemble(v, {
      root: 'tread',
      panels: [tread.panel, ...rear.panels, ...front.panels, ...cheeks.panels],
      folds: [...rear.folds, ...front.folds, ...cheeks.folds],
      wishes: heelRestWishes(asked, section, names, grip.cutouts),
    }),
    findings: [
      ...grip.findings,
      ...rear.findings,
      ...front.findings,
      ...cheeks.findings,
      ...remarks(v, section),
    ],
    report: heelRestReport(v, section),
  };
}

/**
 * Names of the folds: those across the slope are A, B, ... from the rear forwards, and those of the
 * cheeks come after them.
 */
function foldNames(section: Section) {
  const letters = [...'ABCDEFGHIJKL'];
  const take = (n: number): string[] => letters.splice(0, n);
  const rear = take(section.ends.rear.legs.length).reverse();
  const front = take(section.ends.front.legs.length);
  return { rear, front, rest: letters };
}

function treadPanel(v: OutsideHeelRest, section: Section, grip: readonly Cutout[]) {
  const { front, rear } = section.ends;
  const free = [
    ...(rear.legs.length === 0 ? ['bottom'] : []),
    ...(front.legs.length === 0 ? ['top'] : []),
  ];
  // The fold of a cheek needs room beside it for its relief.
  const beside = (side: Side): number =>
    cheekSides(v).includes(side)
      ? v.treadDepth - cheekStretch(v, section)[0] + notchMm(v)
      : back(v, [...front.legs, ...rear.legs][0]);
  const shape = roundFreeCorners('the tread', rectangle(0, 0, v.width, v.treadDepth), free, v, {
    right: beside('right'),
    left: beside('left'),
  });
  const own = placeHoles('holesTread', v.holesTread, treadFrame(v, section));
  const panel: Panel = { id: 'tread', outline: shape.outline, cutouts: [...own, ...grip] };
  return { ...shape, panel };
}

interface Strip {
  readonly panels: readonly Panel[];
  readonly folds: readonly GivenFold[];
  readonly findings: readonly Finding[];
}

/**
 * The legs at one end of the tread, one after the other. All are drawn from above, the front ones
 * upwards.
 */
function strip(v: OutsideHeelRest, { place, legs }: End, names: readonly string[]): Strip {
  const [near, far] = place === 'front' ? ['bottom', 'top'] : ['top', 'bottom'];
  const lengths = legs.map((leg, i) => leg.flatMm + back(v, leg) + back(v, legs[i + 1]));
  const shapes = legs.map((leg, i) => {
    const free = i < legs.length - 1 ? [] : [far];
    return roundFreeCorners(leg.id, rectangle(0, 0, v.width, lengths[i] ?? 0), free, v, {
      right: back(v, leg),
      left: back(v, leg),
    });
  });
  const panels = legs.map((leg, i): Panel => ({
    id: leg.id,
    outline: shapes[i]?.outline ?? [],
    cutouts: holesOf(v, place, leg, legs[i + 1], lengths[i] ?? 0),
  }));
  const folds = legs.map((leg, i): GivenFold => ({
    id: names[i] ?? '',
    parent: { panel: legs[i - 1]?.id ?? 'tread', edge: far },
    child: { panel: leg.id, edge: near },
    angleDeg: leg.angleDeg,
    direction: leg.direction,
    insideRadiusMm: leg.radiusMm,
    ...(leg.teardropMm !== undefined && { teardropMm: leg.teardropMm }),
  }));
  return { panels, folds, findings: shapes.flatMap((s) => s.findings) };
}

const back = (v: HeelRest, leg: Leg | undefined): number =>
  leg === undefined ? 0 : setbackOf(v, leg.angleDeg, leg.radiusMm);

/**
 * Holes of a leg. Those of a flange are measured from its fold outwards, those of the riser from
 * the floor up, both from the faces to which lengths are measured.
 */
function holesOf(
  v: OutsideHeelRest,
  place: Place,
  leg: Leg,
  next: Leg | undefined,
  lengthMm: number,
): Cutout[] {
  const isRiser = leg.id === `${highEnd(v)} riser`;
  if (!isRiser && leg.id !== `${place} flange`) return [];
  const near = isRiser ? insetMm(v, next) : insetMm(v, leg);
  const far = isRiser ? insetMm(v, leg) : 0;
  const isUpward = (place === 'front') !== isRiser;
  const frame: HoleFrame = {
    thicknessMm: v.thicknessMm,
    origin: [leftInsetMm(v), isUpward ? near : lengthMm - near],
    across: isUpward ? [0, 1] : [0, -1],
    along: [1, 0],
    spanMm: [lengthMm - near - far, given(v, 'width', v.width)],
  };
  if (isRiser) return placeHoles('holesRiser', v.holesRiser, frame);
  return place === 'front'
    ? placeHoles('holesFront', v.holesFront, frame)
    : placeHoles('holesRear', v.holesRear, frame);
}

/**
 * Notes on what is made otherwise than the user might expect, and on inputs that have no place on
 * the part.
 */
function remarks(v: HeelRest, section: Section): Finding[] {
  const findings: Finding[] = [];
  const place = stopEnd(v);
  if (lipAt(v, place) === 'double') {
    const shares =
      section.ends[place].standing === undefined ? '' : ' and goes on down to the floor';
    findings.push(
      note(
        'stop-folded-double',
        `The stop at the ${place} is folded double: the sheet goes up, right over${shares}.`,
      ),
    );
  }
  if (v.hem > 0 && v.lipFold === 'auto' && lipAt(v, place) === 'double')
    findings.push(
      note('hem-unused', 'hem folds over the top of a single stop; this heel rest has none.'),
    );
  return findings;
}

import {
  figure,
  type Finding,
  isOver,
  isUnder,
  orLess,
  orMore,
  orTry,
  refuse,
  sinDeg,
} from '../../src/template.ts';
import { impossibleBeads } from './bead-limits.ts';
import { isUpright, type Louvre, louvresOf } from './louvres.ts';
import {
  foldOf,
  louvreClearMm,
  type OutsideVent,
  rampMm,
  roomAtMm,
  setback90Mm,
  SIDES,
} from './sizes.ts';

/** Findings on what cannot be folded or formed, each with a way out. */
export const impossibleVent = (v: OutsideVent): Finding[] => {
  const sizes = impossibleSizes(v);
  if (sizes.length > 0) return sizes;
  const shape = v.louvres === 0 ? [] : impossibleLouvre(v);
  if (shape.length > 0) return shape;
  const louvres = louvresOf(v);
  return [...louvresTooClose(v), ...louvresOffFace(v, louvres), ...impossibleBeads(v, louvres)];
};

function impossibleSizes(v: OutsideVent): Finding[] {
  const findings: Finding[] = [];
  const bend = setback90Mm(v);
  for (const [input, one, other] of [
    ['width', 'left', 'right'],
    ['height', 'bottom', 'top'],
  ] as const) {
    const least =
      [one, other].filter((side) => foldOf(v, side) !== undefined).length * (bend + v.thicknessMm);
    if (isUnder(v[input], least))
      findings.push(
        orTry(
          refuse(
            'vent-too-small',
            [input, 'radius'],
            `${input} ${figure(v[input] - v.added[input])} leaves no flat face between bends of radius ${figure(v.insideRadiusMm)}`,
            [orMore(input, least - v.added[input])],
          ),
          'radius',
        ),
      );
  }
  const least = bend + v.thicknessMm;
  if (SIDES.some((side) => foldOf(v, side) !== undefined) && isUnder(v.flange, least))
    findings.push(
      orTry(
        refuse(
          'vent-flange-too-short',
          ['flange', 'radius'],
          `flange ${figure(v.flange - v.added.flange)} is all bend of radius ${figure(v.insideRadiusMm)}`,
          [orMore('flange', least - v.added.flange)],
        ),
        'radius',
      ),
    );
  return findings;
}

/** The roof of a louvre stands no steeper than this (common practice). */
const STEEPEST_DEG = 60;
/** The least height of a louvre, in thicknesses: half a thickness of opening (common practice). */
const LEAST_HEIGHT = 1.5;

function impossibleLouvre(v: OutsideVent): Finding[] {
  const { louvreHeight: high, louvreDepth: deep, louvreLength: long } = v;
  const ramp = rampMm(v);
  const findings: Finding[] = [];
  const least = LEAST_HEIGHT * v.thicknessMm;
  if (isUnder(high, least))
    findings.push(
      orTry(
        refuse(
          'louvre-closed',
          ['louvreHeight', 'thickness'],
          `louvreHeight ${figure(high)} hardly opens in sheet of ${figure(v.thicknessMm)}`,
          [orMore('louvreHeight', least)],
        ),
        'thickness',
      ),
    );
  const steepest = sinDeg(STEEPEST_DEG);
  if (isOver(high, deep * steepest))
    findings.push(
      refuse(
        'louvre-too-steep',
        ['louvreHeight', 'louvreDepth'],
        `louvreHeight ${figure(high)} over louvreDepth ${figure(deep)} stands steeper than ${STEEPEST_DEG} degrees`,
        [orLess('louvreHeight', deep * steepest), orMore('louvreDepth', high / steepest)],
      ),
    );
  if (isOver(2 * ramp, long - 2 * v.thicknessMm))
    findings.push(
      orTry(
        refuse(
          'louvre-all-ramp',
          ['louvreRamp', 'louvreLength'],
          `two ramps of ${figure(ramp)} leave nothing open of louvreLength ${figure(long)}`,
          [
            ...(v.louvreRamp === undefined ? [] : [orLess('louvreRamp', long / 2 - v.thicknessMm)]),
            orMore('louvreLength', 2 * (ramp + v.thicknessMm)),
          ],
        ),
        'louvreHeight',
      ),
    );
  return findings;
}

/** Louvres of a row over each other, and rows end to end. */
function louvresTooClose(v: OutsideVent): Finding[] {
  const clear = louvreClearMm(v);
  const findings: Finding[] = [];
  if (v.louvres > 1 && isUnder(v.louvrePitch, v.louvreDepth + clear))
    findings.push(
      orTry(
        refuse(
          'louvres-too-close',
          ['louvrePitch', 'louvreDepth'],
          `louvrePitch ${figure(v.louvrePitch)} leaves less than ${figure(clear)} of flat sheet between louvres of louvreDepth ${figure(v.louvreDepth)}`,
          [orMore('louvrePitch', v.louvreDepth + clear)],
        ),
        'louvreDepth',
      ),
    );
  if (v.louvreRows > 1 && isUnder(v.louvreRowPitch, v.louvreLength + 2 * clear))
    findings.push(
      orTry(
        refuse(
          'louvres-too-close',
          ['louvreRowPitch', 'louvreLength'],
          `louvreRowPitch ${figure(v.louvreRowPitch)} leaves less than ${figure(2 * clear)} between the ends of rows of louvreLength ${figure(v.louvreLength)}`,
          [orMore('louvreRowPitch', v.louvreLength + 2 * clear)],
        ),
        'louvreLength',
      ),
    );
  return findings;
}

/** The side at which the louvres come nearest to an edge or a bend, where that is too near. */
function louvresOffFace(v: OutsideVent, louvres: readonly Louvre[]): Finding[] {
  const clear = louvreClearMm(v);
  const [worst] = SIDES.map((side) => ({
    side,
    room: Math.min(...louvres.map(({ box }) => roomAtMm(v, box, side))),
  })).toSorted((a, b) => a.room - b.room);
  if (worst === undefined || !isUnder(worst.room, clear)) return [];
  const { side } = worst;
  const isAcross = side === 'left' || side === 'right';
  const place = isAcross ? 'louvresAcross' : 'louvresUp';
  const size = isAcross ? 'width' : 'height';
  const inRow = isUpright(v) === isAcross;
  const at = v[place];
  const given = at === undefined ? [] : [place];
  const told = [
    ...(at === undefined ? [] : [`${place} ${figure(at - v.added[place])}`]),
    inRow
      ? `louvres ${v.louvres} at louvrePitch ${figure(v.louvrePitch)}`
      : `louvreRows ${v.louvreRows} of louvreLength ${figure(v.louvreLength)}`,
  ].join(' with ');
  return [
    orTry(
      refuse(
        'louvres-off-face',
        [...given, size, ...(inRow ? ['louvres', 'louvrePitch'] : ['louvreLength', 'louvreRows'])],
        `${told} leave less than ${figure(clear)} of flat sheet to the ${foldOf(v, side) === undefined ? 'edge' : 'bend'} at the ${side} of ${size} ${figure(v[size] - v.added[size])}`,
        [],
        `make fewer or smaller ones, or the panel larger`,
      ),
      ...given,
      size,
      ...(inRow
        ? (['louvrePitch', 'louvreDepth', { less: 'louvres' }] as const)
        : (['louvreLength', { less: 'louvreRows' }] as const)),
    ),
  ];
}

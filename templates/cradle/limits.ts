import {
  figure,
  type Finding,
  isOver,
  isUnder,
  just,
  orLess,
  orMore,
  orTry,
  refuse,
} from '../../src/template.ts';
import { impossibleFeet } from '../strap/feet.ts';
import { crownFlatMm, shortOfSideMm } from '../strap/limits.ts';
import { depthAt, insideMm, railFlange, strapAt, strapPlaces } from './sizes.ts';
import type { Strap } from '../strap/inputs.ts';
import type { Cradle } from './inputs.ts';

/** Findings on what cannot be made, each with a figure that can be. */
export const impossibleCradle = (v: Cradle): Finding[] => {
  const off = [...noTank(v), ...strapsOff(v)];
  return off.length > 0
    ? off
    : [
        ...sidesTooLow(v),
        ...crownTooNarrow(v),
        ...impossibleFeet(
          { ...v, width: v.strapWidth, insideMm: insideMm(v) },
          { across: 'width', width: 'strapWidth' },
        ),
        ...railHoleTooWide(v),
        ...lipOverBolts(v),
      ];
};

/** A floor that falls so much that it meets the top at a corner. */
function noTank(v: Cradle): Finding[] {
  const least = Math.min(
    ...[0, v.length].flatMap((x) => [0, v.width].map((y) => depthAt(v, x, y))),
  );
  if (!isUnder(least, 1)) return [];
  const slopes = (['slopeAlong', 'slopeAcross'] as const).filter((name) => v[name] !== 0);
  const told = slopes.map((name) => `${name} ${figure(v[name])}`).join(' and ');
  const none = refuse(
    'cradle-no-depth',
    ['depth', ...slopes],
    `depth ${figure(v.depth)} with ${told} leaves the tank no depth at one of its corners`,
    [orMore('depth', v.depth + 1 - least)],
  );
  return [orTry(none, ...slopes)];
}

/** Straps stand on the tank, the one to the left of the other, and clear of each other. */
function strapsOff(v: Cradle): Finding[] {
  const half = v.strapWidth / 2;
  const off = (['leftStrap', 'rightStrap'] as const).flatMap((name) =>
    isUnder(v[name], half)
      ? [
          refuse(
            'cradle-strap-off-tank',
            [name, 'strapWidth'],
            `${name} ${figure(v[name])} lets a strap of strapWidth ${figure(v.strapWidth)} hang over the end of the tank`,
            [orMore(name, half), ...(v[name] >= 5 ? [orLess('strapWidth', 2 * v[name])] : [])],
          ),
        ]
      : [],
  );
  const [left, right] = strapPlaces(v);
  const least = v.strapWidth + 1;
  if (!isUnder(right - left, least)) return off;
  const meet = refuse(
    'cradle-straps-meet',
    ['length', 'leftStrap', 'rightStrap'],
    `length ${figure(v.length)} less leftStrap ${figure(v.leftStrap)} and rightStrap ${figure(v.rightStrap)} leaves no room between the straps`,
    [orMore('length', v.leftStrap + v.rightStrap + least)],
  );
  return [...off, orTry(meet, 'leftStrap', 'rightStrap')];
}

const strapsOf = (v: Cradle): Strap[] => strapPlaces(v).map((at) => strapAt(v, at));

function sidesTooLow(v: Cradle): Finding[] {
  const short = Math.max(
    ...strapsOf(v).flatMap((strap) =>
      (['A', 'B'] as const).map((side) => shortOfSideMm(strap, side)),
    ),
  );
  if (!isUnder(0, short)) return [];
  const low = refuse(
    'cradle-too-shallow',
    ['depth', 'drop'],
    `depth ${figure(v.depth)} and drop ${figure(v.drop)} leave a strap no straight metal between the bends of its sides`,
    [orMore('depth', v.depth + short), orMore('drop', v.drop + short)],
  );
  return [orTry(low, 'radius', 'pullUp')];
}

function crownTooNarrow(v: Cradle): Finding[] {
  const [strap] = strapsOf(v);
  if (strap === undefined) return [];
  const { flatMm, perMm } = crownFlatMm(strap);
  if (!isUnder(flatMm, 1)) return [];
  const narrow = refuse(
    'crown-too-narrow',
    ['width'],
    `width ${figure(v.width)} leaves the crowns of the straps no straight metal between their bends`,
    [orMore('width', v.width + (1 - flatMm) / perMm)],
  );
  return [orTry(narrow, 'radius', 'rubber')];
}

/** The holes of the rail lie in one line with those of the feet, so far from the free edge. */
function railHoleTooWide(v: Cradle): Finding[] {
  const [edge, t] = [railFlange(v).boltMm, v.thicknessMm];
  const most = Math.min(2 * (edge - t), 2 * (v.railBeyond - t));
  if (!isOver(v.chassisHole, most)) return [];
  const wide = refuse(
    'cradle-rail-hole',
    ['chassisHole', 'railBeyond', 'beyond'],
    `chassisHole ${figure(v.chassisHole)} leaves no metal at the edge of the rail, with railBeyond ${figure(v.railBeyond)} and beyond ${figure(v.beyond)}`,
    most >= 3 ? [orLess('chassisHole', most)] : [],
  );
  return [orTry(wide, 'railBeyond', 'beyond', 'boltCentres')];
}

/** The lower flange of a channel leaves the bolts free for a spanner, about as wide as their holes. */
function lipOverBolts(v: Cradle): Finding[] {
  if (v.rail !== 'channel') return [];
  const { boltMm, wideMm } = railFlange(v);
  const inside = v.measure === 'inside' ? v.thicknessMm : 0;
  const most = wideMm - boltMm - Math.max(v.boltHole, v.chassisHole) - inside;
  if (!isOver(v.railLip, most)) return [];
  const covered = refuse(
    'cradle-lip-covers-bolts',
    ['railLip', 'beyond'],
    `railLip ${figure(v.railLip)} lies under the bolts, which stand only beyond ${figure(v.beyond)} from the ends of the feet`,
    [
      ...(most >= 2 ? [orLess('railLip', most)] : []),
      orMore('beyond', v.beyond + v.railLip - most),
      just('rail', 'angle'),
    ],
  );
  return [covered];
}

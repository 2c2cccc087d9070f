import {
  assemble,
  type Built,
  type Cutout,
  figure,
  type GivenFold,
  type GivenPanel,
  type Panel,
  polygon,
  rectangle,
  type Rolled,
  rolledHole,
  type RolledSpan,
  uprightLines,
  uprightMark,
} from '../../src/template.ts';
import { impossibleShell } from './limits.ts';
import { reportOf, said } from './report.ts';
import { shellSizes, type ShellSizes, xAt } from './sizes.ts';
import { wishesOf } from './wishes.ts';
import type { Shell } from './inputs.ts';
import type { OwnHole } from './sizes.ts';

/** A cylinder, or a part of one, as the blank or the blanks that it is rolled from. */
export const shell = (v: Shell): Built => {
  const s = shellSizes(v);
  const findings = impossibleShell(v, s);
  if (findings.length > 0) return { findings };
  const rest = { findings: [said(v, s)], report: reportOf(v, s) };
  const groups = alike(v, s);
  const parts = groups.map((holes) => partOf(v, s, holes));
  const [only] = parts;
  if (v.pieces === 1 && only !== undefined) return { part: only, ...rest };
  return {
    pieces: parts.map((part, i) => ({
      id: `shell-${i + 1}`,
      part,
      ...(groups.length === 1 && { quantity: v.pieces }),
    })),
    ...rest,
  };
};

/** The holes of each piece; one entry for all pieces where none has any. */
const alike = (v: Shell, s: ShellSizes): readonly (readonly OwnHole[])[] => {
  const of = Array.from({ length: v.pieces }, (_, piece) =>
    v.holes.flatMap(({ angleDeg }, i): OwnHole[] => {
      const deg = ((angleDeg % 360) + 360) % 360;
      const home = Math.min(v.pieces - 1, Math.floor(deg / s.pieceDeg));
      return home === piece ? [{ number: i + 1, deg: deg - home * s.pieceDeg }] : [];
    }),
  );
  return of.every((holes) => holes.length === 0) ? [[]] : of;
};

const partOf = (v: Shell, s: ShellSizes, holes: readonly OwnHole[]) => {
  const cutouts = holes.map(({ number, deg }): Cutout => {
    const { upMm, diameterMm, use } = v.holes[number - 1] as Shell['holes'][number];
    const centre = [xAt(s, deg), upMm] as const;
    const facts = {
      from: `holes ${number}`,
      inputs: ['holes'],
      number: String(number),
      ...(use !== undefined && { use }),
    };
    const loop = rolledHole(centre, diameterMm, {
      insideRadiusMm: s.insideMm,
      thicknessMm: v.thicknessMm,
    });
    return loop.length > 2
      ? { kind: 'loop', loop, ...facts }
      : { kind: 'round', centre, diameterMm, ...facts };
  });
  return assemble(v, {
    measure: 'outside',
    root: 'wall',
    panels: [wallOf(v, s, cutouts), ...flangePanels(v, s)],
    folds: flangeFolds(v, s),
    rolled: rolledOf(v, s),
    wishes: wishesOf(v, s, holes),
  });
};

const wallOf = (v: Shell, s: ShellSizes, cutouts: readonly Cutout[]): Panel => {
  const beyond = s.flange?.setbackMm ?? 0;
  return {
    id: 'wall',
    outline: polygon(
      [-beyond, 0, 'bottom'],
      [s.aroundMm + beyond, 0, 'right'],
      [s.aroundMm + beyond, v.length, 'top'],
      [-beyond, v.length, 'left'],
    ),
    cutouts,
  };
};

const SIDES = ['left', 'right'] as const;

const flangePanels = (v: Shell, s: ShellSizes): GivenPanel[] =>
  s.flange === undefined
    ? []
    : SIDES.map((side) => ({
        id: `flange ${side}`,
        outline: rectangle(0, 0, v.flange, v.length),
        cutouts: [],
      }));

/** Edges of a rectangle are its bottom, right, top and left. */
const JOINED = { left: 1, right: 3 } as const;

const flangeFolds = (v: Shell, { flange }: ShellSizes): GivenFold[] =>
  flange === undefined
    ? []
    : SIDES.map((side, i) => ({
        id: i === 0 ? 'A' : 'B',
        parent: { panel: 'wall', edge: side },
        child: { panel: `flange ${side}`, edge: JOINED[side] },
        angleDeg: flange.bendDeg,
        direction: v.faceOut === 'lower' ? 'down' : 'up',
        insideRadiusMm: v.insideRadiusMm,
      }));

/**
 * Half of a lapped shell is rolled a little tighter and half a little wider, so that its end comes
 * to lie on its beginning; the middle of both is the mean radius.
 */
const spansOf = (v: Shell, s: ShellSizes): RolledSpan[] => {
  if (!s.hasLap || v.pieces > 1) return [{ lengthMm: s.aroundMm, radiusMm: s.middleMm }];
  const half = (s.aroundMm - v.lap) / 2;
  const tight = s.middleMm - v.thicknessMm / 4;
  return [
    { lengthMm: half, radiusMm: tight },
    { lengthMm: half, radiusMm: tight + v.thicknessMm / 2 },
    { lengthMm: v.lap, radiusMm: tight + v.thicknessMm },
  ];
};

const rolledOf = (v: Shell, s: ShellSizes): Rolled => {
  const wall = { spans: spansOf(v, s), reach: () => [0, v.length] as const };
  const start = s.flange?.shortDeg ?? 0;
  const quarters = [90, 180, 270].filter((deg) => deg > start && deg < s.pieceDeg - start - 1);
  const middle = s.pieceDeg / 2;
  const told = quarters.length > 0 ? quarters : [middle];
  return {
    panel: 'wall',
    direction: v.faceOut === 'lower' ? 'up' : 'down',
    lines: uprightLines(wall),
    marks: [
      ...(s.flange === undefined ? [] : [uprightMark(wall, 0, 'roll from here')]),
      ...told.map((deg) =>
        uprightMark(
          wall,
          xAt(s, deg),
          deg === middle ? `${figure(deg, 1)} deg, middle` : `${deg} deg`,
        ),
      ),
      ...(s.hasLap ? [uprightMark(wall, s.aroundMm - v.lap, 'lap from here')] : []),
      ...(s.flange === undefined ? [] : [uprightMark(wall, s.aroundMm, 'roll to here')]),
    ],
    sizes: {
      insideRadiusMm: [s.insideMm, s.insideMm],
      angleDeg: (s.aroundMm / s.middleMm / Math.PI) * 180,
      aroundMm: [s.aroundMm, s.aroundMm],
    },
  };
};

import type { CasePart } from './cases.ts';

type Point = readonly [number, number];
type Panel = CasePart['panels'][number];
type Bend = CasePart['bends'][number];

/** A case of the planner: a part, and the machine it is for. */
export interface MadeCase {
  readonly machine: { readonly profile: string };
  readonly part: CasePart;
}

const caseFor = (profile: string, panels: readonly Panel[], bends: readonly Bend[]): MadeCase => ({
  machine: { profile },
  part: { thickness_mm: 1.5, root: panels[0]?.id ?? '', panels, bends },
});

/** A strip folded across: widths between fold lines, and the angle of each fold. */
export const profileStrip = (
  profile: string,
  widths: readonly number[],
  angles: readonly number[],
  length = 600,
): MadeCase => {
  let at = 0;
  const panels = widths.map((w, i): Panel => {
    const [from, to] = [at, (at += w)];
    return {
      id: `p${i}`,
      pieces: [
        [
          [from, 0],
          [to, 0],
          [to, length],
          [from, length],
        ],
      ],
    };
  });
  const bends = angles.map((angle_deg, i): Bend => {
    const x = widths.slice(0, i + 1).reduce((a, b) => a + b, 0);
    return {
      id: `b${i + 1}`,
      parent: `p${i}`,
      child: `p${i + 1}`,
      line: [
        [x, 0],
        [x, length],
      ],
      angle_deg,
    };
  });
  return caseFor(profile, panels, bends);
};

/** Hats side by side: `folds` folds up, up, down, down and so on. */
export const corrugated = (profile: string, folds: number): MadeCase =>
  profileStrip(
    profile,
    Array.from({ length: folds + 1 }, (_, i) =>
      i === 0 || i === folds ? 120 : i % 2 === 1 ? 30 : 70,
    ),
    Array.from({ length: folds }, (_, i) => ((i + 1) % 4 < 2 ? 45 : -45)),
  );

/**
 * A tray 600 x 400 whose sides are parted into flaps, as many as there are folds: those of a side
 * lie on one line.
 */
export const flappedTray = (profile: string, folds: number): MadeCase => {
  const sides = [0, 1, 2, 3].map((s) => Math.floor((folds + s) / 4));
  const [w, h] = [600, 400];
  const panels: Panel[] = [
    {
      id: 'base',
      pieces: [
        [
          [0, 0],
          [w, 0],
          [w, h],
          [0, h],
        ],
      ],
    },
  ];
  const bends: Bend[] = [];
  sides.forEach((flaps, s) => {
    const length = (s % 2 === 0 ? w : h) / flaps;
    for (let i = 0; i < flaps; i++) {
      const at = (along: number, out: number): Point => {
        const p = i * length + along;
        return (
          [
            [p, -out],
            [w + out, p],
            [w - p, h + out],
            [-out, h - p],
          ] as const
        )[s] as Point;
      };
      panels.push({
        id: `f${s}${i}`,
        pieces: [[at(5, 0), at(5, 30), at(length - 5, 30), at(length - 5, 0)]],
      });
      bends.push({
        id: `F${s}${i}`,
        parent: 'base',
        child: `f${s}${i}`,
        line: [at(5, 0), at(length - 5, 0)],
        angle_deg: 90,
      });
    }
  });
  return caseFor(profile, panels, bends);
};

/**
 * Corrugated at one end, and at the other a channel 40 wide and 90 deep, which the fingers have no
 * room for (FC02).
 */
export const tooDeepChannel = (profile: string, folds: number): MadeCase =>
  profileStrip(
    profile,
    [...Array.from({ length: folds - 1 }, (_, i) => (i % 2 === 1 ? 30 : 120)), 40, 90],
    [...Array.from({ length: folds - 2 }, (_, i) => ((i + 1) % 4 < 2 ? 45 : -45)), 90, 90],
  );

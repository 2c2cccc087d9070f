import type { Piece } from '../../src/geometry/piece.ts';
import type { Extents } from '../../src/geometry/extents.ts';
import { stretchInBox } from '../../src/geometry/stretch-in-box.ts';
import type { Vec2 } from '../../src/geometry/vec2.ts';
import { arcOf } from '../../src/geometry/arc.ts';
import { textWidthMm } from '../../src/paper/draw/text-width.ts';
import type { Label, Picture, PictureItem } from '../../src/model/picture.ts';

/**
 * Whether a picture can be read: what a person sees of its texts, found out of the painted items alone
 * and not by anything that placed them. Capitals and figures reach from the base line to 0.72 of the
 * size of Helvetica.
 */

const CAPITAL = 0.72;
/** What touches a letter by less than this, mm, is beside it. */
const TOUCH_MM = 0.15;

export interface Written {
  readonly label: Label;
  /** Counter-clockwise from the lower left, on the page. */
  readonly corners: readonly Vec2[];
  /** Place in the order of painting. */
  readonly order: number;
}

interface Inked {
  readonly line: readonly [Vec2, Vec2];
  readonly widthMm: number;
  readonly order: number;
}

interface Patch {
  readonly ring: readonly Vec2[];
  readonly order: number;
}

export interface Painted {
  readonly texts: readonly Written[];
  readonly lines: readonly Inked[];
  readonly patches: readonly Patch[];
}

const cornersOf = ({
  at: [x, y],
  sizeMm,
  text,
  align = 'left',
  isBold,
  angleDeg = 0,
}: Label): Vec2[] => {
  const wide = textWidthMm(text, sizeMm, isBold);
  const start = { left: 0, middle: -wide / 2, right: -wide }[align];
  const [c, s] = [Math.cos((angleDeg * Math.PI) / 180), Math.sin((angleDeg * Math.PI) / 180)];
  return (
    [
      [start, 0],
      [start + wide, 0],
      [start + wide, CAPITAL * sizeMm],
      [start, CAPITAL * sizeMm],
    ] as const
  ).map(([u, v]): Vec2 => [x + u * c - v * s, y + u * s + v * c]);
};

const chordsOf = ({ from, to, bulge }: Piece): (readonly [Vec2, Vec2])[] => {
  if (bulge === 0) return [[from, to]];
  const { centre, radius } = arcOf(from, to, bulge);
  const sweep = 4 * Math.atan(bulge);
  const start = Math.atan2(from[1] - centre[1], from[0] - centre[0]);
  const at = (share: number): Vec2 => [
    centre[0] + radius * Math.cos(start + share * sweep),
    centre[1] + radius * Math.sin(start + share * sweep),
  ];
  return Array.from({ length: 24 }, (_, i) => [at(i / 24), at((i + 1) / 24)] as const);
};

const circleOf = ([x, y]: Vec2, r: number): Vec2[] =>
  Array.from({ length: 32 }, (_, i): Vec2 => [
    x + r * Math.cos((i * Math.PI) / 16),
    y + r * Math.sin((i * Math.PI) / 16),
  ]);

const sidesOf = (ring: readonly Vec2[]): (readonly [Vec2, Vec2])[] =>
  ring.map((p, i) => [p, ring[(i + 1) % ring.length] as Vec2] as const);

/** Half of the line along which a page is cut, and a little, mm. */
const EDGE_MM = 0.5;

/** A text that is cut off with its group, or stands on the line where that ends, is whole on another page. */
const isShown = (corners: readonly Vec2[], clip: Extents | undefined): boolean =>
  clip === undefined ||
  corners.every(
    ([x, y]) =>
      x >= clip.minX + EDGE_MM &&
      x <= clip.maxX - EDGE_MM &&
      y >= clip.minY + EDGE_MM &&
      y <= clip.maxY - EDGE_MM,
  );

/** All that a picture paints, on the page. */
export const paintedOf = ({ items }: Picture): Painted => {
  const [texts, lines, patches]: [Written[], Inked[], Patch[]] = [[], [], []];
  let order = 0;
  const paint = (item: PictureItem, [dx, dy]: Vec2, clip?: Extents): void => {
    const move = ([x, y]: Vec2): Vec2 => [x + dx, y + dy];
    const ink = (found: readonly (readonly [Vec2, Vec2])[], widthMm: number): void => {
      for (const [a, b] of found) {
        const shown = clip === undefined ? ([0, 1] as const) : stretchInBox(clip, a, b);
        if (shown === undefined) continue;
        const at = (share: number): Vec2 =>
          move([a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]);
        lines.push({ line: [at(shown[0]), at(shown[1])], widthMm, order });
      }
    };
    order += 1;
    switch (item.kind) {
      case 'group':
        for (const inner of item.items) paint(inner, move(item.at), item.clip);
        break;
      case 'label':
        if (item.text.trim() !== '' && isShown(cornersOf(item), clip))
          texts.push({ label: item, corners: cornersOf(item).map(move), order });
        break;
      case 'curve':
        ink(item.pieces.flatMap(chordsOf), item.stroke.widthMm);
        break;
      case 'round':
        if (item.fill === 1)
          patches.push({ ring: circleOf(move(item.centre), item.radiusMm), order });
        if (item.stroke !== undefined || item.fill === 0)
          ink(sidesOf(circleOf(item.centre, item.radiusMm)), item.stroke?.widthMm ?? 0);
        break;
      case 'area':
        for (const rim of item.rims) {
          const chords = rim.flatMap(chordsOf);
          if (item.fill === 1) patches.push({ ring: chords.map(([a]) => move(a)), order });
          if (item.stroke !== undefined || item.fill === 0) ink(chords, item.stroke?.widthMm ?? 0);
        }
    }
  };
  for (const item of items) paint(item, [0, 0]);
  return { texts, lines, patches };
};

/** How far a line runs within a convex ring that is made smaller by what counts as touching, mm. */
const runWithin = (
  ring: readonly Vec2[],
  [a, b]: readonly [Vec2, Vec2],
  slackMm: number,
): number => {
  let [enter, leave] = [0, 1];
  for (const [p, q] of sidesOf(ring)) {
    const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
    const height = ([x, y]: Vec2): number =>
      ((q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0])) / long - slackMm;
    const [from, to] = [height(a), height(b)];
    if (from <= 0 && to <= 0) return 0;
    if (from < 0) enter = Math.max(enter, from / (from - to));
    if (to < 0) leave = Math.min(leave, from / (from - to));
  }
  return Math.max(0, leave - enter) * Math.hypot(b[0] - a[0], b[1] - a[1]);
};

const isWithin = (ring: readonly Vec2[], p: Vec2): boolean =>
  sidesOf(ring).reduce(
    (inside, [[ax, ay], [bx, by]]) =>
      ay > p[1] !== by > p[1] && p[0] < ax + ((p[1] - ay) / (by - ay)) * (bx - ax)
        ? !inside
        : inside,
    false,
  );

/** Drawn a little towards their middle, clear of a patch that ends with the text. */
const inset = (corners: readonly Vec2[]): Vec2[] => {
  const middle = [0, 1].map((i) => corners.reduce((sum, p) => sum + (p[i] as number), 0) / 4);
  return corners.map(([x, y]): Vec2 => [
    x + 0.02 * ((middle[0] as number) - x),
    y + 0.02 * ((middle[1] as number) - y),
  ]);
};

/** Texts of which a corner lies off the page. */
export const offPage = (picture: Picture, { texts } = paintedOf(picture)): string[] =>
  texts.flatMap(({ label: { text }, corners }) =>
    corners.some(([x, y]) => x < 0 || y < 0 || x > picture.widthMm || y > picture.heightMm)
      ? [text]
      : [],
  );

/** Pairs of texts of which one lies on the other. */
export const overlapping = ({ texts }: Painted): string[] =>
  texts.flatMap((a, i) =>
    texts
      .slice(i + 1)
      .flatMap((b) => (doOverlap(a, b) ? [`${a.label.text} | ${b.label.text}`] : [])),
  );

const doOverlap = (a: Written, b: Written): boolean =>
  sidesOf(a.corners).some((side) => runWithin(b.corners, side, TOUCH_MM) > 0) ||
  sidesOf(b.corners).some((side) => runWithin(a.corners, side, TOUCH_MM) > 0);

/** Texts through which a line is to be seen: one that was not painted over before the text. */
export const struckThrough = ({ texts, lines, patches }: Painted): string[] =>
  texts.flatMap(({ label, corners, order }) => {
    const cleared = patches.filter(
      (patch) => patch.order < order && inset(corners).every((p) => isWithin(patch.ring, p)),
    );
    const since = Math.max(-1, ...cleared.map((patch) => patch.order));
    return lines.some(
      (ink) =>
        ink.order > since && runWithin(corners, ink.line, TOUCH_MM - ink.widthMm / 2) > TOUCH_MM,
    )
      ? [label.text]
      : [];
  });

import { textWidthMm } from './text-width.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { StepCheck } from '../../contract/fold-plan.ts';
import type { PictureItem } from '../../model/picture.ts';
import { figure } from '../../text/figures.ts';
import { dimensionChoices, dimensionItems, type DimensionLine } from './dimension-line.ts';
import { LABEL_MM, labelled, type Named } from './fold-labels.ts';
import type { FoldScene } from './fold-scene.ts';
import { doOverlap, type Line2, liesWithin, runsThrough, textGround } from './ground.ts';
import { boundsOf, type SectionFrame, sheetItems } from './fold-section.ts';

/** The part as it is when it has sprung back, the clamped panel level, with what is read on it. */
export const checkItems = (scene: FoldScene, frame: SectionFrame): PictureItem[] => {
  const { items, lines } = sheetItems(scene, scene.checked, frame);
  const xs = scene.checked.points.map((p) => p[0]);
  const checks = scene.step?.card.checks ?? [];
  const drawn: PictureItem[] = [];
  for (const { kind, value, plusMinus } of checks) {
    const { tape, machine } = scene.print;
    const text = `${tape(value, 1)}${plusMinus === null ? '' : ` ± ${machine(plusMinus)}`}`;
    const found = feet(scene, kind, value, Math.max(...xs));
    if (found === undefined) continue;
    const [a, b] = found.map(frame.place) as [Vec2, Vec2];
    const isUpright = found[0][0] === found[1][0];
    drawn.push(...dimension([a, b], isUpright, text, frame, [...items, ...drawn]));
  }
  const angle = checks.find((c) => c.kind === 'angle');
  const inside: Vec2 = frame.place([-8 / frame.scale, 8 / frame.scale]);
  const names: Named[] =
    angle === undefined
      ? []
      : [{ text: `${figure(angle.value, 1)}° inside`, at: [inside], isOn: true }];
  return [...items, ...drawn, ...labelled(names, boundsOf(frame), lines, drawn)];
};

/** The ends of what is read, in the section. */
const feet = (
  { checked, folds }: FoldScene,
  kind: StepCheck['kind'],
  value: number,
  right: number,
): readonly [Vec2, Vec2] | undefined => {
  if (kind === 'height')
    return [
      [right, 0],
      [right, value],
    ];
  const bend = checked.triangles.flatMap(({ corners, face }) =>
    folds.includes(checked.faces[face]?.of ?? '') && checked.faces[face]?.kind === 'bend'
      ? corners.map((i) => checked.points[i]?.[0] ?? 0)
      : [],
  );
  const edge = Math.max(...bend);
  if (kind === 'over' || kind === 'depth')
    return [
      [edge - value, 0],
      [edge, 0],
    ];
  return undefined;
};

/** Smaller letters where a size of the part has no room for larger ones. */
const LETTERS_MM = [LABEL_MM, 0.8 * LABEL_MM, 0.65 * LABEL_MM] as const;

/** How far a size is tried from where it is read, mm, the usual one first; last on the other side. */
const OFFS_MM = [8, 11, 14, 18, 22, 5, -6, -9, -12, -16, -20] as const;

/** Beside or under the part; farther or over it where its text would stand on a line of the picture. */
const dimension = (
  [a, b]: readonly [Vec2, Vec2],
  isUpright: boolean,
  text: string,
  { size }: SectionFrame,
  drawn: readonly PictureItem[],
): PictureItem[] => {
  const axis = isUpright ? 1 : 0;
  const room = isUpright ? size.heightMm : size.widthMm;
  const isIn = ({ text: { at, sizeMm } }: DimensionLine): boolean => {
    const half = textWidthMm(text, sizeMm, true) / 2;
    return at[axis] - half > 1 && at[axis] + half < room - 1;
  };
  const fitting = OFFS_MM.map((off) => {
    const line = lineAt([a, b], isUpright, size, off);
    return LETTERS_MM.flatMap((letters) => dimensionChoices(line, text, letters, true));
  });
  const usual = fitting[0]?.find(isIn) ?? (fitting[0]?.[0] as DimensionLine);
  const isClear = clearOf(drawn, size);
  const clear = [usual, ...fitting.flatMap((choices) => choices.filter(isIn))].find(isClear);
  return dimensionItems(clear ?? usual);
};

/** A size with its line so far beside what is read, or under it, within the picture. */
const lineAt = (
  [a, b]: readonly [Vec2, Vec2],
  isUpright: boolean,
  size: SectionFrame['size'],
  off: number,
): Omit<DimensionLine, 'text'> => {
  if (isUpright) {
    const beside = Math.min(size.widthMm - 3, a[0] + off);
    return {
      feet: [a, b],
      ends: [
        [beside, a[1]],
        [beside, b[1]],
      ],
      way: [0, 1],
    };
  }
  const under = Math.max(3.5, a[1] - off);
  const left = Math.max(3, a[0]);
  return {
    feet: [[left, a[1]], b],
    ends: [
      [left, under],
      [b[0], under],
    ],
    way: [1, 0],
  };
};

/** Whether a size has its text within the picture, on none of its lines and on no other text. */
const clearOf = (
  drawn: readonly PictureItem[],
  { widthMm, heightMm }: SectionFrame['size'],
): ((one: DimensionLine) => boolean) => {
  const lines = drawn.flatMap((item) =>
    item.kind === 'curve' ? item.pieces.map(({ from, to }): Line2 => [from, to]) : [],
  );
  const texts = drawn.flatMap((item) => (item.kind === 'label' ? [textGround(item)] : []));
  return ({ text }) => {
    const ground = textGround(text);
    return (
      liesWithin(ground, { minX: 0.5, minY: 0.5, maxX: widthMm - 0.5, maxY: heightMm - 0.5 }) &&
      !lines.some((line) => runsThrough(ground, line)) &&
      !texts.some((other) => doOverlap(ground, other))
    );
  };
};

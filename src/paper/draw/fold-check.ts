import { textWidthMm } from './text-width.ts';
import type { Vec2 } from '../../geometry/vec2.ts';
import type { StepCheck } from '../../contract/fold-plan.ts';
import type { PictureItem } from '../../model/picture.ts';
import { figure } from '../../text/figures.ts';
import { dimensionChoices, dimensionItems } from './dimension-line.ts';
import { LABEL_MM, labelled, type Named } from './fold-labels.ts';
import type { FoldScene } from './fold-scene.ts';
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
    drawn.push(...dimension([a, b], found[0][0] === found[1][0], text, frame));
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

const dimension = (
  [a, b]: readonly [Vec2, Vec2],
  isUpright: boolean,
  text: string,
  { size }: SectionFrame,
): PictureItem[] => {
  const off = 8;
  const beside = Math.min(size.widthMm - 3, a[0] + off);
  const under = Math.max(3.5, a[1] - off);
  const ends: readonly [Vec2, Vec2] = isUpright
    ? [
        [beside, a[1]],
        [beside, b[1]],
      ]
    : [
        [Math.max(3, a[0]), under],
        [b[0], under],
      ];
  const way: Vec2 = isUpright ? [0, 1] : [1, 0];
  const from: Vec2 = isUpright ? a : [Math.max(3, a[0]), a[1]];
  const axis = isUpright ? 1 : 0;
  const room = isUpright ? size.heightMm : size.widthMm;
  const choices = LETTERS_MM.flatMap((letters) =>
    dimensionChoices({ feet: [from, b], ends, way }, text, letters, true),
  );
  const fits = choices.find(({ text: { at, sizeMm } }) => {
    const half = textWidthMm(text, sizeMm, true) / 2;
    return at[axis] - half > 1 && at[axis] + half < room - 1;
  });
  return dimensionItems(fits ?? (choices[0] as (typeof choices)[0]));
};

import type { Picture, PictureItem, Stroke } from '../../model/picture.ts';
import { checkItems } from './fold-check.ts';
import { frontItems } from './fold-front.ts';
import { layItems } from './fold-lay.ts';
import type { FoldScene } from './fold-scene.ts';
import { sectionFrame, sectionItems } from './fold-section.ts';
import { LEAST_LINE_MM } from './line-types.ts';
import { boxRing } from './strokes.ts';

export interface CellSize {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** A picture of a stroke, and what is done in it, in words of the shop. */
export interface FoldCell {
  readonly title: string;
  readonly picture: Picture;
}

const FRAME: Stroke = { widthMm: LEAST_LINE_MM, shade: 0.5 };

/** Narrower than this, mm, a picture has no room for names. */
const LEAST_NAMED_MM = 50;

/**
 * A stroke in pictures, one action each: how the part is laid, which tools stand where, the section
 * before the stroke and where it stops, and what is read on the part then. Sections have one scale. The part
 * as it lies may have a size of its own.
 */
export const foldCells = (scene: FoldScene, size: CellSize, lay = size): FoldCell[] => [
  ...layCell(scene, lay),
  ...(scene.tools.length === 0
    ? []
    : [cell('2  Tools, from the front', frontItems(scene, size), size)]),
  ...sectionCells(scene, size),
  ...checkCell(scene, size),
];

/** How many pictures `foldCells` draws of a stroke. */
export const cellCount = ({ tools, step }: FoldScene): number =>
  3 + (tools.length === 0 ? 0 : 1) + (step === undefined ? 0 : 1);

/** The three that show a stroke in little room: before, after, and the part as it lies. */
export const fewCells = (scene: FoldScene, size: CellSize): Picture[] =>
  [...sectionCells(scene, size), ...layCell(scene, size)].map(({ picture }) => picture);

const isNamed = ({ widthMm }: CellSize): boolean => widthMm >= LEAST_NAMED_MM;

const layCell = (scene: FoldScene, size: CellSize): FoldCell[] => [
  cell('1  Mark and lay, from your left', layItems(scene, size, isNamed(size)), size),
];

const sectionCells = (scene: FoldScene, size: CellSize): FoldCell[] => {
  const frame = sectionFrame(scene, size);
  const [before, after] = scene.isFolder
    ? ['3  Clamp', '4  Swing to the stop']
    : ['3  Under the punch', '4  Press to the stop'];
  return [
    cell(before as string, sectionItems(scene, 'before', frame, isNamed(size)), size),
    cell(after as string, sectionItems(scene, 'after', frame, isNamed(size)), size),
  ];
};

/** The section of a stroke on its way, in the room that the whole stroke takes. */
export const movingSection = (now: FoldScene, whole: FoldScene, size: CellSize): Picture =>
  cell('', sectionItems(now, 'after', sectionFrame(whole, size), isNamed(size)), size).picture;

const checkCell = (scene: FoldScene, size: CellSize): FoldCell[] =>
  scene.step === undefined
    ? []
    : [cell('5  Let go and check', checkItems(scene, sectionFrame(scene, size)), size)];

const cell = (
  title: string,
  items: readonly PictureItem[],
  { widthMm, heightMm }: CellSize,
): FoldCell => {
  const frame = { minX: 0, minY: 0, maxX: widthMm, maxY: heightMm };
  return {
    title,
    picture: {
      widthMm,
      heightMm,
      items: [
        { kind: 'group', at: [0, 0], clip: frame, items },
        { kind: 'area', rims: [boxRing(frame)], stroke: FRAME },
      ],
    },
  };
};

import { printedIn } from '../../text/printed.ts';
import { joinedBody } from '../../assembly/joined-body.ts';
import { weldsOf } from '../../assembly/weld-seams.ts';
import type { Vec3 } from '../../geometry/vec3.ts';
import type { Mesh } from '../../model/mesh.ts';
import { movingSection } from '../../paper/draw/fold-cells.ts';
import { strokeOnItsWay } from '../../paper/draw/fold-scene.ts';
import { pictureSvg } from '../../paper/write/picture-svg.ts';
import { foldingModel, type ModelPiece } from '../../solid/folding-model.ts';
import { ALMOST_FLAT, type SkinStage } from '../../solid/hinged-piece.ts';
import { betweenText, kindText } from '../../use/assembly/assembly-words.ts';
import { type MadeSet, setsOf } from '../../use/assembly/assembled.ts';
import { marksOfWelds } from '../../use/assembly/shown-pieces.ts';
import type { MadePart } from '../../use/made-part.ts';
import { piecesOfPart, piecesOfSet } from '../../use/outputs/folding-pieces.ts';
import type { HingeAnswer, ModelAnswer, PieceAnswer, SkinAnswer } from './model-questions.ts';
import { sharesAt } from '../model/folding-time.ts';
import { wholeOnScreen } from '../../use/assembly/whole-picture.ts';
import { foldedPicture } from '../../use/show/part-pictures.ts';
import type { Questions } from './questions.ts';
import { FOLDED, NARROW_FOLDED, SECTION } from './screen-sizes.ts';

/** Chords of the arcs, as a share of the size: they look round on any screen. */
const CHORD_SHARE = 1 / 800;

/** One part of a job's made parts as a model that folds; nothing where a finding stops it. */
export const partModel = (made: MadePart | undefined): ModelAnswer | null => {
  if (made === undefined || made.stopped) return null;
  const { flat } = made;
  const pieces = foldingModel(
    piecesOfPart(made),
    Math.max(flat.widthMm, flat.heightMm) * CHORD_SHARE,
  );
  return pieces === undefined ? null : { pieces: pieces.map(pieceAnswer), seams: [], letters: [] };
};

/**
 * The whole that a blank's set is welded to, with the letters of its seams; nothing where it is in no
 * set or a piece of that is stopped.
 */
export const wholeModel = (
  parts: readonly MadePart[],
  of: MadePart | undefined,
): ModelAnswer | null => {
  const set = setOf(parts, of);
  if (set === undefined) return null;
  const size = Math.max(...set.parts.flatMap(({ flat }) => [flat.widthMm, flat.heightMm]));
  const pieces = foldingModel(piecesOfSet(set), size * CHORD_SHARE);
  return pieces === undefined ? null : { pieces: pieces.map(pieceAnswer), ...seamsOf(set) };
};

const setOf = (parts: readonly MadePart[], of: MadePart | undefined): MadeSet | undefined =>
  setsOf(parts).find(({ mark }) => mark === of?.set?.mark);

/** The same as an SVG element, joined or taken apart, for a browser that draws no solids. */
export const wholeAnswer = (
  parts: readonly MadePart[],
  { blank, isNarrow, isApart, from }: Questions['folded']['ask'],
): string | null => {
  const set = setOf(parts, parts[blank]);
  const size = isNarrow ? NARROW_FOLDED : FOLDED;
  const picture = set && wholeOnScreen(set, size, { isApart, from });
  return picture === undefined ? null : pictureSvg(picture, 'whole');
};

const seamsOf = ({ assembly }: MadeSet): Pick<ModelAnswer, 'seams' | 'letters'> => {
  const joined = joinedBody(assembly);
  const welds = weldsOf(assembly, joined);
  return {
    seams: welds.map((weld) => ({
      letter: weld.letter,
      between: betweenText(weld),
      kind: kindText(weld.kind),
      lengthMm: weld.lengthMm,
    })),
    letters: marksOfWelds(joined, welds).flatMap(({ letter, piece, places }) => {
      const at = places[Math.floor(places.length / 2)];
      return at === undefined ? [] : [{ letter, piece, at }];
    }),
  };
};

const pieceAnswer = (piece: ModelPiece): PieceAnswer => {
  const { name, pose, order, hinged } = piece;
  return {
    name,
    pose,
    order,
    root: hinged.root,
    panels: [...hinged.skins].map(([id, { stages }]) => ({
      id,
      skin: skinAnswer(stages.at(-1) as SkinStage),
    })),
    hinges: [...hinged.hinges].flatMap(([parent, hinges]) =>
      hinges.map(({ fold, child, poses, skin }): HingeAnswer => ({
        fold,
        parent,
        child,
        poses,
        stages: skin?.stages.map(skinAnswer) ?? [],
      })),
    ),
  };
};

const skinAnswer = ({ points, normals }: SkinStage): SkinAnswer => ({
  places: inARow(points),
  ways: inARow(normals),
});

/** The surface of a mesh, triangle by triangle. */
export const meshSkin = ({ points, normals, triangles }: Mesh): SkinAnswer => ({
  places: inARow(triangles.flatMap(({ corners }) => corners.map((i) => points[i] as Vec3))),
  ways: inARow(triangles.flatMap((t) => t.normals.map((i) => normals[i] as Vec3))),
});

const inARow = (list: readonly Vec3[]): Float32Array => {
  const row = new Float32Array(3 * list.length);
  list.forEach((v, i) => row.set(v, 3 * i));
  return row;
};

/** The machine's section at a moment of a stroke, as an SVG element; nothing for one by hand. */
export const strokeSection = (
  made: MadePart | undefined,
  stroke: number,
  share: number,
  print = printedIn(),
): string | null => {
  if (made?.plan === undefined || made.stopped) return null;
  const found = strokeOnItsWay(made.plan, { ...made, print }, stroke, share);
  return found === undefined
    ? null
    : pictureSvg(movingSection(found.now, found.whole, SECTION), 'section');
};

/** The part folded as far as some strokes of its plan go, as an SVG element. */
export const foldedAnswer = (
  made: MadePart,
  { blank, from, strokes, isNarrow }: Questions['folded']['ask'],
): string | null => {
  const shares =
    strokes === null || made.stopped
      ? undefined
      : sharesAt(piecesOfPart(made)[0]?.order ?? [], strokes);
  const picture = foldedPicture(made, isNarrow ? NARROW_FOLDED : FOLDED, {
    ...(from !== null && { from }),
    ...(shares !== undefined && {
      share: (fold: string) => (shares.get(fold) ?? 1) || ALMOST_FLAT,
    }),
  });
  return picture === undefined ? null : pictureSvg(picture, `folded-${blank}`);
};

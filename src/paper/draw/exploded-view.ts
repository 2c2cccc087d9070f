import { along, type Vec2 } from '../../geometry/vec2.ts';
import { along3, type Vec3 } from '../../geometry/vec3.ts';
import type { Mesh } from '../../model/mesh.ts';
import type { Picture, PictureItem, Stroke } from '../../model/picture.ts';
import { type Body, movedApart } from './apart.ts';
import { type Camera, seen } from './camera.ts';
import { heavyLine, type Placing, viewLines } from './folded-view.ts';
import { discGround, type Line2 } from './ground.ts';
import { bodyOf, joinedMesh, movedMesh } from './joined-mesh.ts';
import { led, nameItems, rimObstacles } from './name-places.ts';
import { type Candidate, Placer } from './placer.ts';
import { scaleToFill } from './scales.ts';
import { line } from './strokes.ts';
import { textWidthMm } from './text-width.ts';
import { bestCamera, boxOf } from './view-direction.ts';
import { anchorOf, metalOf } from './view-labels.ts';
import { type Seen, visibleEdges } from './visible-edges.ts';

/** A piece in its place in the whole, with the name it is drawn under. */
export interface ShownPiece extends Body {
  readonly name: string;
}

/** A letter at an edge of a piece. */
export interface EdgeMark {
  readonly letter: string;
  /** The piece, by its place in the list. */
  readonly piece: number;
  /** Places along the edge, in the whole; the first that is seen is marked. */
  readonly places: readonly Vec3[];
}

export interface ExplodedOptions {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marks: readonly EdgeMark[];
  /** Whether the pieces are moved apart; where they are not, they have no names. */
  readonly isApart: boolean;
  /** In small, without any names, it fills its field. */
  readonly isBare?: boolean;
  readonly camera: Camera;
}

/** Room round the pieces for letters and names, mm. */
const ROOM_MM = 13;
const BARE_MM = 1;
const NAME_MM = 3.6;
const LETTER_MM = 3.6;
const PAD_MM = 0.9;
const ANCHOR_MM = 0.5;
const LEADER: Stroke = { widthMm: 0.18 };
const HIDDEN: Stroke = { widthMm: 0.18, dashMm: [1, 0.8] };

/**
 * Pieces in parallel projection, hidden lines left out, moved apart so that none lies over another,
 * with their names and with the letters of their seams at both edges. The leader to an edge that is
 * not seen is broken, and ends in an open circle.
 */
export const explodedView = (pieces: readonly ShownPiece[], options: ExplodedOptions): Picture => {
  const { widthMm, heightMm, marks, isApart, isBare = false, camera } = options;
  const room = isBare ? BARE_MM : ROOM_MM;
  const moves: readonly Vec3[] = isApart
    ? movedApart(pieces, camera, [widthMm - 2 * room, heightMm - 2 * room])
    : pieces.map(() => [0, 0, 0]);
  const mesh = joinedMesh(
    '',
    pieces.map((piece, i) => movedMesh(piece.mesh, moves[i] as Vec3)),
  );
  const view = visibleEdges(mesh, camera);
  const placing = placingOf(view, widthMm, heightMm, room);
  const moved = marks.map((mark) => ({
    ...mark,
    places: mark.places.map((p) => along3(p, moves[mark.piece] as Vec3, 1)),
  }));
  const placer = placerFor(view, placing, widthMm, heightMm);
  const anchors = anchorsOf(moved, { camera, view, placing });
  placer.avoid(
    ...anchors.flatMap(({ at }) => rimObstacles(at, ANCHOR_MM + PAD_MM / 2, IN_THE_WAY_MM)),
  );
  const names =
    isApart && !isBare ? namePlaces({ pieces, mesh, camera, view, placing, placer }) : [];
  return {
    widthMm,
    heightMm,
    items: [
      ...viewLines(view.edges, placing, heavyLine(mesh, placing.scale)),
      ...letterItems(anchors, { view, placing, placer }),
      ...names,
    ],
  };
};

/** From where most of the whole is seen. */
export const cameraFor = (pieces: readonly ShownPiece[]): Camera =>
  bestCamera(
    joinedMesh(
      '',
      pieces.map(({ mesh }) => mesh),
    ),
  );

const placingOf = ({ edges }: Seen, widthMm: number, heightMm: number, room: number): Placing => {
  const [low, high] = boxOf(edges.flatMap(({ from, to }) => [from, to]));
  const scale = scaleToFill(
    [high[0] - low[0], high[1] - low[1]],
    [widthMm - 2 * room, heightMm - 2 * room],
  );
  const [dx, dy] = [
    widthMm / 2 - (scale * (low[0] + high[0])) / 2,
    heightMm / 2 - (scale * (low[1] + high[1])) / 2,
  ];
  return { scale, at: ([x, y]) => [scale * x + dx, scale * y + dy] };
};

/** What a letter or a name costs across a line of a piece, and a leader across another. */
const ON_LINE_MM = 4;
const LEADER_COSTS = { across: 12, crossing: 15 };

const placerFor = (
  { edges }: Seen,
  placing: Placing,
  widthMm: number,
  heightMm: number,
): Placer => {
  const placer = new Placer({ minX: 0, minY: 0, maxX: widthMm, maxY: heightMm }, LEADER_COSTS);
  for (const { kind, from, to } of edges)
    if (kind !== 'bend')
      placer.avoid({ line: [placing.at(from), placing.at(to)], cost: ON_LINE_MM });
  return placer;
};

interface Paper {
  readonly camera: Camera;
  readonly view: Seen;
  readonly placing: Placing;
  readonly placer: Placer;
}

/** Places of letters: how far off the edge, and in how many directions. */
const REACHES = [6, 8.5, 11, 14, 18, 23, 29, 36, 45, 56];
const DIRECTIONS = 32;
const IN_THE_WAY_MM = 100;
const ON_METAL_MM = 1.2;

interface LetterPlace extends Candidate {
  readonly centre: Vec2;
  readonly leader: Line2;
}

/** The place of the paper that a letter leads to. */
interface Anchor {
  readonly letter: string;
  readonly at: Vec2;
  readonly isSeen: boolean;
}

const anchorsOf = (
  marks: readonly EdgeMark[],
  { camera, view, placing }: Omit<Paper, 'placer'>,
): Anchor[] =>
  mostNeededFirst(marks).flatMap(({ letter, places }) => {
    const all = places.map((p) => seen(camera, p));
    const open = all.find((p) => !view.occluders.isHidden([p[0], p[1], p[2] + SEEN_MM]));
    const at = open ?? all[0];
    return at === undefined ? [] : [{ letter, at: placing.at(at), isSeen: open !== undefined }];
  });

const letterItems = (
  anchors: readonly Anchor[],
  { view, placing, placer }: Omit<Paper, 'camera'>,
): PictureItem[] => {
  const isMetal = metalOf(view, placing);
  return anchors.flatMap(({ letter, at, isSeen }): PictureItem[] => {
    const radius = radiusOf(letter);
    const placeAt = (reach: number, k: number): LetterPlace => {
      const turn = (2 * Math.PI * (k + 0.5)) / DIRECTIONS;
      const dir: Vec2 = [Math.cos(turn), Math.sin(turn)];
      const centre = along(at, dir, reach);
      const leader: Line2 = [at, along(centre, dir, -radius)];
      return {
        centre,
        leader,
        lines: [leader],
        grounds: [discGround(centre, radius + PAD_MM / 2)],
        cost: reach,
        more: () => (isMetal(centre) ? ON_METAL_MM : 0),
      };
    };
    const placed = placer.place(
      REACHES.map((reach) => ({
        leastCost: reach,
        places: () => Array.from({ length: DIRECTIONS }, (_, k) => placeAt(reach, k)),
      })),
    );
    return placed === undefined ? [] : ringItems(letter, at, placed, isSeen);
  });
};

/** A seam has one letter on each of its pieces before it has others there. */
const mostNeededFirst = (marks: readonly EdgeMark[]): readonly EdgeMark[] => {
  const isFirst = (mark: EdgeMark): boolean =>
    marks.find(({ letter, piece }) => letter === mark.letter && piece === mark.piece) === mark;
  return [...marks.filter(isFirst), ...marks.filter((mark) => !isFirst(mark))];
};

/** A place on an edge counts as seen where no more than this of metal lies before it, mm. */
const SEEN_MM = 0.2;

const radiusOf = (letter: string): number =>
  Math.max(0.72 * LETTER_MM, textWidthMm(letter, LETTER_MM, true)) / 2 + PAD_MM;

const ringItems = (
  letter: string,
  at: Vec2,
  { centre, leader }: LetterPlace,
  isSeen: boolean,
): PictureItem[] => [
  line(...leader, isSeen ? LEADER : HIDDEN),
  isSeen
    ? { kind: 'round', centre: at, radiusMm: ANCHOR_MM, fill: 0 }
    : { kind: 'round', centre: at, radiusMm: ANCHOR_MM + 0.15, fill: 1, stroke: LEADER },
  { kind: 'round', centre, radiusMm: radiusOf(letter), fill: 1, stroke: LEADER },
  {
    kind: 'label',
    at: [centre[0], centre[1] - 0.36 * LETTER_MM],
    sizeMm: LETTER_MM,
    text: letter,
    align: 'middle',
    isBold: true,
  },
];

/** The names of the pieces, each led to the middle of what is seen of it. */
const namePlaces = ({
  pieces,
  mesh,
  camera,
  view,
  placing,
  placer,
}: Paper & { readonly pieces: readonly ShownPiece[]; readonly mesh: Mesh }): PictureItem[] =>
  pieces.flatMap(({ name }, i): PictureItem[] => {
    const anchor = anchorOf(mesh, camera, view, (of) => bodyOf(of) === i);
    if (anchor === undefined) return [];
    const at = placing.at(anchor);
    const placed = placer.place(led(at, ANCHOR_MM, name, NAME_MM, 0));
    return placed === undefined ? [] : nameItems(placed);
  });

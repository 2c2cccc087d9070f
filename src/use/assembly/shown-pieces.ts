import { type PlacedPiece, poseOfMesh } from '../../assembly/assembly.ts';
import type { Weld } from '../../assembly/weld-seams.ts';
import type { JoinedBody } from '../../assembly/joined-body.ts';
import type { Mesh } from '../../model/mesh.ts';
import type { EdgeMark, ShownPiece } from '../../paper/draw/exploded-view.ts';
import { placedMesh } from '../../paper/draw/joined-mesh.ts';
import { foldedMesh } from '../../solid/folded-mesh.ts';
import { foldUp } from '../../fold/fold-up.ts';
import { composePoses, type Pose } from '../../geometry/pose.ts';

/** The pieces as they are drawn, in the whole; nothing where one cannot be folded up. */
export const shownPieces = (
  pieces: readonly PlacedPiece[],
  toleranceMm: number,
): ShownPiece[] | undefined => {
  const shown = pieces.flatMap((piece): ShownPiece[] => {
    const mesh = foldedMesh(piece.part, piece.flat, toleranceMm);
    if (mesh === undefined) return [];
    const own = piece.isRolled ? withoutFlats(mesh) : mesh;
    return [
      {
        name: piece.name,
        mesh: placedMesh(own, poseOfMesh(piece)),
        id: piece.id,
        square: largestPanel(piece).z,
      },
    ];
  });
  return shown.length === pieces.length ? shown : undefined;
};

const largestPanel = ({ part, flat, pose }: PlacedPiece): Pose => {
  const largest = flat.panels.reduce((a, b) => (b.areaMm2 > a.areaMm2 ? b : a));
  return composePoses(pose, foldUp(part, flat).poses.get(largest.id) as Pose);
};

/** A rolled strip is round: the lines between its flats are none. */
const withoutFlats = (mesh: Mesh): Mesh => {
  const faceOf = (triangle: number) => mesh.faces[mesh.triangles[triangle]?.face ?? 0];
  return {
    ...mesh,
    edges: mesh.edges.map((edge) => {
      const [f, g] = edge.triangles.map(faceOf);
      const isBetween = f?.side === g?.side && f?.of !== g?.of;
      return isBetween ? { ...edge, kind: 'smooth' } : edge;
    }),
  };
};

/** Stretches of a weld on one piece that have a letter each; of more, the longest. */
const MOST_MARKS = 4;

/** The letters of welds, on the metal of both pieces. */
export const marksOfWelds = (joined: JoinedBody, welds: readonly Weld[]): EdgeMark[] =>
  welds.flatMap(({ letter, runs }) => {
    const marks = runs.flatMap(({ panels, places, lengthMm }) =>
      panels.map((panel, k) => ({
        lengthMm,
        mark: { letter, piece: joined.pieceOf(panel), places: places[k] ?? [] },
      })),
    );
    const ofPiece = new Map<number, typeof marks>();
    for (const one of marks)
      ofPiece.set(one.mark.piece, [...(ofPiece.get(one.mark.piece) ?? []), one]);
    return [...ofPiece.values()].flatMap((group) => {
      const isOwn = runs.every(({ panels: [a, b] }) => joined.pieceOf(a) === joined.pieceOf(b));
      // Both edges of a corner of one piece lie side by side: one letter is enough.
      const some = isOwn ? group.filter((_, i) => i % 2 === 0) : group;
      return (
        some.length > MOST_MARKS
          ? some
              .toSorted((a, b) => Math.round(b.lengthMm - a.lengthMm))
              .slice(0, isOwn ? MOST_MARKS : 1)
          : some
      ).map(({ mark }) => mark);
    });
  });

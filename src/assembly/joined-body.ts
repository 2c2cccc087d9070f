import { composePoses, type Pose } from '../geometry/pose.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import type { FoldedBody } from '../fold/fold-up.ts';
import { foldUp } from '../fold/fold-up.ts';
import type { Joint } from '../fold/joint.ts';
import type { Assembly, PlacedPiece } from './assembly.ts';

/**
 * All pieces of an assembly as one body without a root, for whatever looks at panels in space: its
 * panels and folds are called after piece and panel, and have the poses of the whole.
 */
export interface JoinedBody {
  readonly part: Part;
  readonly flat: FlatPattern;
  readonly body: FoldedBody;
  /** Index of the piece that a panel of it belongs to. */
  readonly pieceOf: (panel: string) => number;
  /** Name of the panel within its piece. */
  readonly panelOf: (panel: string) => string;
}

/** No name of a panel has it, since names are typed. */
const MARK = '\u001f';

export const joinedBody = ({ pieces }: Assembly): JoinedBody => {
  const own = pieces.map(renamed);
  const [first] = own;
  if (first === undefined) throw new Error('an assembly of nothing');
  return {
    part: {
      ...first.part,
      panels: own.flatMap(({ part }) => part.panels),
      folds: own.flatMap(({ part }) => part.folds),
      corners: own.flatMap(({ part }) => part.corners ?? []),
      cornerGapMm: Math.max(...own.map(({ part }) => part.cornerGapMm)),
    },
    flat: {
      ...first.flat,
      panels: own.flatMap(({ flat }) => flat.panels),
      bends: own.flatMap(({ flat }) => flat.bends),
    },
    body: {
      poses: new Map(own.flatMap(({ body }) => [...body.poses])),
      joints: own.flatMap(({ body }) => body.joints),
    },
    pieceOf: (panel) => Number(panel.slice(0, panel.indexOf(MARK))),
    panelOf: (panel) => panel.slice(panel.indexOf(MARK) + 1),
  };
};

/** A piece with the names that it has in the whole, at its place there. */
const renamed = (piece: PlacedPiece, i: number): Omit<JoinedBody, 'pieceOf' | 'panelOf'> => {
  const { part, flat, pose } = piece;
  const name = (id: string): string => `${i}${MARK}${id}`;
  const { joints, poses } = foldUp(part, flat);
  const fold = (f: Part['folds'][number]): Part['folds'][number] => ({
    ...f,
    id: name(f.id),
    parent: { ...f.parent, panel: name(f.parent.panel) },
    child: { ...f.child, panel: name(f.child.panel) },
  });
  return {
    part: {
      ...part,
      root: name(part.root),
      panels: part.panels.map((p) => ({
        ...p,
        id: name(p.id),
        cutouts: p.cutouts.map((c) => (c.takes === undefined ? c : { ...c, takes: name(c.takes) })),
      })),
      folds: part.folds.map(fold),
      corners: (part.corners ?? []).map(({ folds: [a, b], through, ...rest }) => ({
        ...rest,
        folds: [name(a), name(b)],
        ...(through !== undefined && { through: name(through) }),
      })),
    },
    flat: {
      ...flat,
      panels: flat.panels.map((p) => ({ ...p, id: name(p.id) })),
      bends: flat.bends.map((b) => ({
        ...b,
        id: name(b.id),
        parent: name(b.parent),
        child: name(b.child),
      })),
    },
    body: {
      joints: joints.map((j): Joint => ({ ...j, fold: fold(j.fold) })),
      poses: new Map(
        [...poses].map(([id, p]): [string, Pose] => [name(id), composePoses(pose, p)]),
      ),
    },
  };
};

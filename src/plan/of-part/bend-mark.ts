import { setbackMm } from '../../bending/setback.ts';
import { pieceOf } from '../../geometry/piece.ts';
import {
  along,
  cross,
  distance,
  dot,
  leftOf,
  middle,
  scale,
  sub,
  unit,
  type Vec2,
} from '../../geometry/vec2.ts';
import type { FlatBend, FlatPattern, FlatVertex } from '../../model/flat.ts';
import { sightLine } from './sight-line.ts';
import { NEARLY_PARALLEL_SINE } from '../../geometry/tolerance.ts';

/**
 * What the fold line is brought under: the nose of a folder, with its radius, or the middle of a
 * brake's V.
 */
export type MarkTool =
  { readonly kind: 'nose'; readonly radiusMm: number } | { readonly kind: 'v' };

/** The mark for one bend, and how it is found on the metal as the metal is at that step. */
export interface BendMark {
  /**
   * Distance from `from` to the mark, square to the fold, mm; `null` when nothing on the metal runs
   * beside the fold.
   */
  readonly distanceMm: number | null;
  /** Completes "measured from": `the free edge of leg B`, `the outside of fold A`. */
  readonly from: string;
  /** A point of the mark in the blank's coordinates. */
  readonly at: Vec2;
  /** The point square to the fold opposite it that is measured from, beside metal that is folded up. */
  readonly foot: Vec2 | null;
}

/** An edge must run beside the fold for this long to be measured from, mm. */
const LEAST_EDGE_MM = 5;
/**
 * The place of a bend's mark: the sight line under the nose of a folder (`sightLine`), or the
 * middle of the allowance on a brake (FAA-H-8083-31 and common practice). It is measured from the
 * longest straight edge beside the fold that still lies flat with it, on the swung side where there
 * is one, and otherwise from the outside of a fold made before.
 *
 * @param clamped the panel at the fold that is held
 * @param made the ids of the folds that are made
 */
export const bendMark = (
  flat: FlatPattern,
  bend: FlatBend,
  clamped: string,
  made: ReadonlySet<string>,
  tool: MarkTool,
): BendMark => {
  const held = clamped === bend.parent ? bend.parentTangent : bend.childTangent;
  const other = clamped === bend.parent ? bend.childTangent : bend.parentTangent;
  const dir = unit(sub(bend.centreLine[1], bend.centreLine[0]));
  const side = dot(sub(middle(...other), middle(...held)), leftOf(dir)) < 0 ? -1 : 1;
  const out = scale(leftOf(dir), side);
  const centre = middle(...bend.centreLine);
  const at =
    tool.kind === 'v'
      ? centre
      : along(
          centre,
          out,
          sightLine(dot(sub(middle(...held), centre), out), 1, tool.radiusMm, {
            ...bend,
            thicknessMm: flat.thicknessMm,
          }).markMm,
        );
  const swung = clamped === bend.parent ? bend.child : bend.parent;
  const found = [swung, clamped]
    .map((panel) =>
      reference(flat, lyingWith(flat, panel, bend.id, made), made, { dir, at, bend: bend.id }),
    )
    .find((r) => r !== undefined);
  return found === undefined
    ? { distanceMm: null, from: 'its marks at both ends', foot: null, at }
    : { ...found, at };
};

/** The panels that lie flat with one, without those beyond the bend itself. */
const lyingWith = (
  flat: FlatPattern,
  panel: string,
  bend: string,
  made: ReadonlySet<string>,
): ReadonlySet<string> => {
  const found = new Set([panel]);
  for (const id of found) {
    for (const b of flat.bends) {
      if (b.id === bend || made.has(b.id)) continue;
      if (b.parent === id) found.add(b.child);
      if (b.child === id) found.add(b.parent);
    }
  }
  return found;
};

interface MarkLine {
  readonly dir: Vec2;
  readonly at: Vec2;
  readonly bend: string;
}

type Reference = Pick<BendMark, 'distanceMm' | 'from' | 'foot'>;

const reference = (
  flat: FlatPattern,
  panels: ReadonlySet<string>,
  made: ReadonlySet<string>,
  line: MarkLine,
): Reference | undefined => edgeBeside(flat, panels, line) ?? foldBeside(flat, panels, made, line);

/** The point opposite the mark at a distance, on the side on which another point lies. */
const opposite = ({ dir, at }: MarkLine, p: Vec2, mm: number): Vec2 =>
  along(at, leftOf(dir), Math.sign(dot(sub(p, at), leftOf(dir))) * mm);

const awayMm = ({ dir, at }: MarkLine, p: Vec2): number => Math.abs(dot(sub(p, at), leftOf(dir)));

/** The longest straight free edge of the panels that runs beside the fold. */
const edgeBeside = (
  { outline }: FlatPattern,
  panels: ReadonlySet<string>,
  line: MarkLine,
): Reference | undefined => {
  const edges = outline.flatMap((_, i) => {
    const { origin } = outline[i] as FlatVertex;
    const { from, to, bulge } = pieceOf(outline, i);
    if (bulge !== 0 || origin.kind !== 'edge' || !panels.has(origin.panel)) return [];
    const long = distance(from, to);
    return long >= LEAST_EDGE_MM &&
      Math.abs(cross(unit(sub(to, from)), line.dir)) < NEARLY_PARALLEL_SINE
      ? [{ long, at: from, panel: origin.panel }]
      : [];
  });
  const [best] = edges.toSorted(
    (a, b) => b.long - a.long || awayMm(line, b.at) - awayMm(line, a.at),
  );
  return best === undefined
    ? undefined
    : {
        distanceMm: awayMm(line, best.at),
        from: `the free edge of ${best.panel}`,
        foot: opposite(line, best.at, awayMm(line, best.at)),
      };
};

/**
 * A made fold that runs beside this one. Its flange stands up, so its outside face can be measured
 * from.
 */
const foldBeside = (
  flat: FlatPattern,
  panels: ReadonlySet<string>,
  made: ReadonlySet<string>,
  line: MarkLine,
): Reference | undefined => {
  const beside = flat.bends.flatMap((b) => {
    const own = panels.has(b.parent)
      ? b.parentTangent
      : panels.has(b.child)
        ? b.childTangent
        : undefined;
    if (own === undefined || !made.has(b.id) || b.id === line.bend || b.midSurface === true)
      return [];
    if (Math.abs(cross(unit(sub(own[1], own[0])), line.dir)) >= NEARLY_PARALLEL_SINE) return [];
    return [
      {
        id: b.id,
        at: own[0],
        mm:
          awayMm(line, own[0]) +
          setbackMm(b.angleDeg, b.insideRadiusMm, flat.thicknessMm, 'outside'),
      },
    ];
  });
  const [best] = beside.toSorted((a, b) => a.mm - b.mm);
  return best === undefined
    ? undefined
    : {
        distanceMm: best.mm,
        from: `the outside of fold ${best.id}`,
        foot: opposite(line, best.at, best.mm),
      };
};

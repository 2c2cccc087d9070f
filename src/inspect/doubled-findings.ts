import { figure } from '../text/figures.ts';
import type { Stretch } from '../dxf/contours/overlap.ts';
import type { Stroke } from '../dxf/read/explode.ts';
import { printable } from '../dxf/read/printable.ts';
import type { Vec2 } from '../geometry/vec2.ts';
import { pieceLength } from '../geometry/piece-length.ts';
import { byKey } from '../text/grouped.ts';
import { type Finding, warn } from '../model/finding.ts';
import type { CutLines } from './lines.ts';
import { listed } from './listed.ts';
import type { Places } from './places.ts';
import type { Doubles } from './shared-edges.ts';
import type { CutPiece } from './understand.ts';

/** A line of which a part is drawn a second time, with the entity that does so. */
export interface Twice {
  readonly type: string;
  readonly at: Vec2;
  readonly totalMm: number;
  readonly doubledMm: number;
  readonly isWhole: boolean;
}

/** Lines that are cut twice for nothing, by the entity that draws them the second time. */
export const twiceDrawn = (
  { drawn }: CutLines,
  { needless }: Doubles,
  strokes: readonly Stroke[],
): Twice[] => {
  const types = new Map(strokes.map((s) => [s.entity, s.type]));
  const entities = new Set([...needless.keys()].map((i) => (drawn[i] as CutPiece).entity));
  const pieces = byKey(
    drawn.filter((p) => entities.has(p.entity)),
    (p) => p.entity,
  );
  return [...pieces].map(([entity, all]) => {
    const totalMm = all.reduce((sum, p) => sum + pieceLength(p), 0);
    const doubledMm = all.reduce(
      (sum, p) => sum + covered(needless.get(p.source) ?? []) * pieceLength(p),
      0,
    );
    const first = all.find((p) => needless.has(p.source)) as CutPiece;
    return {
      type: types.get(entity) ?? 'LINE',
      at: first.from,
      totalMm,
      doubledMm,
      isWhole: doubledMm > 0.999 * totalMm,
    };
  });
};

export const doubledFindings = (
  twice: readonly Twice[],
  { shared }: Doubles,
  place: Places,
): Finding[] => {
  const mm = (value: number): string => `${figure(value, 3)} mm`;
  const findings = twice.map(({ type, at, totalMm, doubledMm, isWhole }): Finding => {
    const what = `${printable(type)} at ${place(at)}`;
    if (isWhole)
      return {
        ...warn(
          'duplicate',
          `${what} of ${mm(totalMm)} is drawn twice. Delete one of them, or let --mend do it.`,
        ),
        at,
      };
    return {
      ...warn(
        'overlap',
        `${what} lies on other lines for ${mm(doubledMm)}, which are cut twice. Delete what is double, or let --mend do it.`,
      ),
      at,
    };
  });
  const edges = shared.map(({ at, lengthMm }): Finding => ({
    ...warn(
      'shared-edge',
      `Two contours share an edge of ${mm(lengthMm)} at ${place(at)}: the cut takes its width off both. Move them apart, unless they are meant to be cut in one.`,
    ),
    at,
  }));
  return [
    ...listed(findings.filter((f) => f.rule === 'duplicate')),
    ...listed(findings.filter((f) => f.rule === 'overlap')),
    ...listed(edges),
  ];
};

/** Share of a piece that some stretches cover together. */
const covered = (stretches: readonly Stretch[]): number => {
  let [sum, at] = [0, 0];
  for (const { from, to } of stretches.toSorted((a, b) => a.from - b.from)) {
    sum += Math.max(0, to - Math.max(at, from));
    at = Math.max(at, to);
  }
  return sum;
};

/** Length that is drawn a second time, mm, whether that is needed or not. */
export const doubledLength = ({ drawn, meetings: { doubled } }: CutLines): number =>
  [...byKey(doubled, (d) => d.piece)].reduce(
    (sum, [i, own]) => sum + covered(own.map((d) => d.stretch)) * pieceLength(drawn[i] as CutPiece),
    0,
  );

import { SAME_IN_FILE_MM } from '../../geometry/tolerance.ts';
import { distance, type Vec2 } from '../../geometry/vec2.ts';
import type { MadePart, WholePart } from '../made-part.ts';
import type { Drawing } from '../../model/drawing.ts';
import { isCut } from '../../dxf/write/layers.ts';

/** A part to be handed over, and who folds it. */
export interface PackPart {
  readonly made: MadePart;
  readonly revision?: string;
  readonly note?: string;
  readonly fold: 'service' | 'here';
}

/** A part that is handed over: it was made, and no finding stops it. */
export interface HandedPart extends PackPart {
  readonly made: WholePart;
  /**
   * Its name without the hand, where both hands are handed over; the hand has a word of its own.
   */
  readonly baseName: string;
  /** Whether it is cut from the same blank as the other hand, which is handed over too. */
  readonly sharesBlank: boolean;
}

/** A part that stays behind, and why. */
export interface LeftPart {
  readonly name: string;
  readonly reason: string;
}

/** Parts that can be handed over, in their order, and those that must not. */
export const sorted = (
  parts: readonly PackPart[],
): { readonly whole: readonly HandedPart[]; readonly left: readonly LeftPart[] } => {
  const bases = parts.map((part) => baseOf(part, parts));
  const whole: HandedPart[] = [];
  const left: LeftPart[] = [];
  parts.forEach((pack, i) => {
    const { made } = pack;
    const { name, findings } = made.result;
    const stops = findings.filter((f) => f.severity === 'stop').map((f) => f.message);
    if (made.stopped || stops.length > 0) {
      left.push({ name, reason: stops.length === 0 ? 'it was never made' : stops.join(' ') });
      return;
    }
    const base = bases[i];
    const sharesBlank = base !== undefined && findings.some((f) => f.rule === 'hands-share-blank');
    whole.push({ ...pack, made, baseName: base ?? name, sharesBlank });
  });
  // When one hand stays behind, the other stands alone.
  return {
    whole: whole.map((p) =>
      p.sharesBlank &&
      !whole.some(
        (o) => o.sharesBlank && o.baseName === p.baseName && isPair(p, o) && canShare(p, o),
      )
        ? { ...p, sharesBlank: false }
        : p,
    ),
    left,
  };
};

/**
 * Whether one cut file serves both hands: the blank of the other hand is the same, turned over.
 * Where a service folds, or nicks mark the folds, the cuts must also lie in the same places;
 * otherwise the drawing and the nicks would fit one hand only.
 */
const canShare = (a: HandedPart, b: HandedPart): boolean =>
  (a.fold === 'here' && b.fold === 'here' && isPlain(a) && isPlain(b)) ||
  (liesAlike(a.made.drawing, b.made.drawing) && liesAlike(b.made.drawing, a.made.drawing));

/** Whether the file has no corners that the blank does not have. */
const isPlain = ({ made: { drawing, flat } }: HandedPart): boolean =>
  drawing.items.every(
    (item) =>
      item.kind !== 'loop' || item.role !== 'outline' || item.loop.length === flat.outline.length,
  );

/** Whether every cut of one blank lies where the other has it. */
const liesAlike = (a: Drawing, b: Drawing): boolean => {
  const [ours, theirs] = [a, b].map(cutPoints) as [Vec2[], Vec2[]];
  return ours.every((p) => theirs.some((q) => distance(p, q) <= SAME_IN_FILE_MM));
};

const cutPoints = ({ items }: Drawing): Vec2[] =>
  items.flatMap((item): Vec2[] => {
    if (!isCut(item.role)) return [];
    if (item.kind === 'circle') return [item.centre];
    return item.kind === 'loop' ? item.loop.map(({ x, y }): Vec2 => [x, y]) : [];
  });

/**
 * The name that both hands of a part have in common; `undefined` for a part without its other hand.
 */
const baseOf = (pack: PackPart, parts: readonly PackPart[]): string | undefined => {
  const { name, hand } = pack.made.result;
  const [own, others] = hand === 'left' ? ['-L', '-R'] : ['-R', '-L'];
  if (!name.endsWith(own)) return undefined;
  const base = name.slice(0, -own.length);
  return parts.some((o) => o.made.result.name === base + others && isPair(pack, o))
    ? base
    : undefined;
};

/** Whether two parts are the two hands of one. */
export const isPair = (a: PackPart, b: PackPart): boolean => {
  const [p, q] = [a.made.result, b.made.result];
  return (
    p.hand !== q.hand &&
    p.family === q.family &&
    p.piece === q.piece &&
    p.material.id === q.material.id &&
    p.material.thicknessMm === q.material.thicknessMm &&
    a.revision === b.revision
  );
};

import type { HoleSpec } from '../forms/holes.ts';
import type { HoleDatum } from '../forms/hole-axes.ts';
import type { Direction, Measure } from '../model/part.ts';
import type { AngleWish, DiameterWish, Facing, Feature, LengthWish } from '../model/wish.ts';

/** A length of the finished part under the name of its input. */
export const wish = (input: string, mm: number, from: Feature, to: Feature): LengthWish => ({
  kind: 'length',
  input,
  mm,
  between: [from, to],
});

/** Angle by which one panel is turned against another. */
export const angleWish = (input: string, deg: number, one: string, other: string): AngleWish => ({
  kind: 'angle',
  input,
  deg,
  panels: [one, other],
});

/** Diameter of a round hole, or of the blank itself. */
export const diameterWish = (
  input: string,
  mm: number,
  panel: string,
  from: string | null,
): DiameterWish => ({ kind: 'diameter', input, mm, panel, from });

export const edge = (panel: string, facing: Facing): Feature => ({ kind: 'edge', panel, facing });

/** The face of a panel that lies on the outside, or the inside, of a fold in that direction. */
export const faceOf = (panel: string, direction: Direction, measure: Measure): Feature => ({
  kind: 'face',
  panel,
  face: (direction === 'up') === (measure === 'outside') ? 'lower' : 'upper',
});

/** A fold at which a panel beside it is measured. */
export interface Corner {
  readonly fold: string;
  readonly angleDeg: number;
  readonly direction: Direction;
  /** The panel on its other side. */
  readonly beyond: string;
}

/**
 * What a length is measured to on a panel that ends at a fold: a face that a square lies against,
 * or the line where faces would meet.
 */
export const cornerOf = (
  panel: string,
  { fold, angleDeg, direction, beyond }: Corner,
  measure: Measure,
): Feature =>
  angleDeg === 90 ? faceOf(beyond, direction, measure) : { kind: 'fold', panel, fold, measure };

/**
 * The features from which holes of a panel are measured, across and along, near and far; absent
 * where it is not a single feature.
 */
export interface HoleDatums {
  readonly panel: string;
  readonly across: readonly [near: Feature | undefined, far?: Feature | undefined];
  readonly along: readonly [near: Feature | undefined, far?: Feature | undefined];
  /** What the near ones are called, where the field has several axes. */
  readonly words?: readonly [across: string, along: string];
  /** How far the near ones lie beyond where the two figures begin, mm, and what that is called. */
  readonly beyond?: {
    readonly mm: readonly [across: number, along: number];
    readonly called: string;
  };
}

/**
 * Both figures of every hole, as they are found on the finished part; for a pattern, those of its
 * first hole.
 */
export const holeWishes = (
  input: string,
  specs: readonly HoleSpec[],
  { panel, across, along, words, beyond = { mm: [0, 0], called: '' } }: HoleDatums,
): LengthWish[] =>
  specs
    .filter(({ number }) => !number.includes('.') || number.endsWith('.1'))
    .flatMap((spec) => {
      const from = `${input} ${spec.number}`;
      const hole: Feature = { kind: 'hole', panel, from };
      const [acrossDatum, alongDatum] = spec.datums ?? ['near', 'near'];
      const one = (
        axis: 0 | 1,
        mm: number,
        datum: HoleDatum,
        [near, far]: readonly [Feature | undefined, (Feature | undefined)?],
      ): LengthWish[] => {
        const feature = datum === 'middle' ? undefined : datum === 'far' ? far : near;
        const word = datum === 'far' ? spec.axes[axis].to : (words?.[axis] ?? spec.axes[axis].from);
        const more = datum === 'near' ? beyond.mm[axis] : 0;
        // A negative figure lies on the other side of the feature that it is measured from, as far
        // away.
        return feature === undefined
          ? []
          : [
              wish(
                `${from} from ${word}${more === 0 ? '' : beyond.called}`,
                Math.abs(mm + more),
                hole,
                feature,
              ),
            ];
      };
      return [
        ...one(0, spec.acrossMm, acrossDatum, across),
        ...one(1, spec.alongMm, alongDatum, along),
      ];
    });

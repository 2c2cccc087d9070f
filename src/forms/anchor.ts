import type { Feature } from '../model/wish.ts';

/**
 * What an input measures, so that a page or a picture can point at it. Panels, folds and cut-outs
 * have the names that they have in the part.
 */
export type Anchor = (
  | Thing
  /** Length between two features that can be touched on the finished part. */
  | { readonly kind: 'length'; readonly between: readonly [Feature, Feature] }
  /** Diameter of a round hole; `null` for the blank itself. */
  | { readonly kind: 'diameter'; readonly panel: string; readonly from: string | null }
  /** Angle by which one panel is turned against the other. */
  | { readonly kind: 'angle'; readonly panels: readonly [string, string] }
) & {
  /** Which of a family's blanks it is on; absent where there is only one. */
  readonly piece?: string;
};

/**
 * What an input states that it measures, before there is a part: a feature of the part, what
 * another input measures, or the panel that another input names. A panel that may be split into
 * `front 1` and `front 2` is called `front`.
 */
export type ToldAnchor =
  | Thing
  | { readonly kind: 'as'; readonly input: string }
  | { readonly kind: 'panel of'; readonly input: string };

type Thing =
  | { readonly kind: 'panel'; readonly panel: string }
  | { readonly kind: 'fold'; readonly fold: string }
  /** A hole or a cut-out, by its name in messages; the first of several that are alike. */
  | { readonly kind: 'cut-out'; readonly panel?: string; readonly from: string }
  /** The free outer corners. */
  | { readonly kind: 'corners' }
  /** The bends and the cuts made for them. */
  | { readonly kind: 'bends' }
  /** The whole blank, in the flat. */
  | { readonly kind: 'blank' }
  /** The sheet. */
  | { readonly kind: 'sheet' }
  /** Something beside the part that is not cut, in words. */
  | { readonly kind: 'beside'; readonly what: string };

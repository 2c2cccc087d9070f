import type { Feature } from '../model/wish.ts';

/**
 * What an input measures, so that a page or a picture can point at it: by the names that panels,
 * folds and cut-outs have in the part.
 */
export type Anchor = (
  | Thing
  /** Between two things that can be touched on the finished part. */
  | { readonly kind: 'length'; readonly between: readonly [Feature, Feature] }
  /** Of a round hole; `null` for the blank itself. */
  | { readonly kind: 'diameter'; readonly panel: string; readonly from: string | null }
  /** How far one panel is turned against the other. */
  | { readonly kind: 'angle'; readonly panels: readonly [string, string] }
) & {
  /** Which of a family's blanks; absent of the only one. */
  readonly piece?: string;
};

/**
 * What an input says that it measures, before there is a part: a thing of it, what another input
 * measures, or the panel that another input names. A panel that may be parted into `front 1` and
 * `front 2` is called `front`.
 */
export type ToldAnchor =
  | Thing
  | { readonly kind: 'as'; readonly input: string }
  | { readonly kind: 'panel of'; readonly input: string };

type Thing =
  | { readonly kind: 'panel'; readonly panel: string }
  | { readonly kind: 'fold'; readonly fold: string }
  /** A hole or a cut-out, by what messages call it; of several that are alike, the first. */
  | { readonly kind: 'cut-out'; readonly panel?: string; readonly from: string }
  /** The free outer corners. */
  | { readonly kind: 'corners' }
  /** The bends, and what is cut for them. */
  | { readonly kind: 'bends' }
  /** The whole blank, in the flat. */
  | { readonly kind: 'blank' }
  /** The sheet. */
  | { readonly kind: 'sheet' }
  /** Nothing that is cut, but what stands or lies beside it: in words. */
  | { readonly kind: 'beside'; readonly what: string };

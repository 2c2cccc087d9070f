import type { AngleWish, DiameterWish, Feature, LengthWish } from '../model/wish.ts';

/**
 * What an input measures, so that a page or a picture can point at it, by the names that panels,
 * folds and cut-outs have in the part: one thing of it, or what is not of it at all.
 */
export type Anchor =
  | { readonly kind: 'panel'; readonly panel: string }
  | { readonly kind: 'fold'; readonly fold: string }
  /** By what messages call it; of several that are alike, the first. */
  | { readonly kind: 'cut-out'; readonly from: string }
  /** The free outer corners. */
  | { readonly kind: 'corners' }
  /** The bends, and what is cut for them. */
  | { readonly kind: 'bends' }
  /** Its sheet. */
  | { readonly kind: 'sheet' }
  /** Nothing that is cut: what stands or lies beside it, in words. */
  | { readonly kind: 'beside'; readonly what: string };

/** What is measured on one part, and between what: what its family says of it. */
export type Measured =
  | Pick<LengthWish, 'kind' | 'between'>
  | Pick<DiameterWish, 'kind' | 'panel' | 'from'>
  | Pick<AngleWish, 'kind' | 'panels'>
  /** A hole or cut-out that the input gave. */
  | { readonly kind: 'cut-out'; readonly panel: string; readonly from: string };

export type { Feature };

export const onPanel = (panel: string): Anchor => ({ kind: 'panel', panel });
export const onFold = (fold: string): Anchor => ({ kind: 'fold', fold });
export const onCutout = (from: string): Anchor => ({ kind: 'cut-out', from });
export const beside = (what: string): Anchor => ({ kind: 'beside', what });
export const ON_CORNERS: Anchor = { kind: 'corners' };
export const ON_BENDS: Anchor = { kind: 'bends' };
export const ON_SHEET: Anchor = { kind: 'sheet' };

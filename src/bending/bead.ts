/** The section of a bead that is an arc, mm. */
export interface BeadSection {
  readonly radiusMm: number;
  /** Along the section. */
  readonly arcMm: number;
  /** By how much the arc is longer than its chord, which is the width of the bead. */
  readonly extraMm: number;
  /** How far the metal is stretched over the width if none is drawn in, as a share. */
  readonly heldStretch: number;
}

/**
 * A bead of circular section: R = (w^2 / 4 + d^2) / (2 d), its arc 2 R atan((w / 2) / (R - d)).
 * Plane geometry; worked out in tests/published/forming.json. How far a bead really draws the edges
 * of its panel in lies between nothing, where they are held, and the extra length; no published
 * allowance was found.
 */
export const beadSection = (widthMm: number, depthMm: number): BeadSection => {
  const radiusMm = (widthMm ** 2 / 4 + depthMm ** 2) / (2 * depthMm);
  const arcMm = 2 * radiusMm * Math.atan2(widthMm / 2, radiusMm - depthMm);
  return {
    radiusMm,
    arcMm,
    extraMm: arcMm - widthMm,
    heldStretch: (arcMm - widthMm) / widthMm,
  };
};

/** A louvre: lanced along one edge and raised from its form line, its ends sloping down; mm. */
export interface LouvreShape {
  /** Of the lance, from end to end. */
  readonly lengthMm: number;
  /** From the form line to the lance, in the flat. */
  readonly depthMm: number;
  /** From the face of the sheet to the top of the louvre. */
  readonly heightMm: number;
  /** Length of the slope at each end, measured along the lance. */
  readonly rampMm: number;
  readonly thicknessMm: number;
}

/**
 * Free area of a louvre, mm2: (length - both ramps) x (height - thickness). What opens over the
 * ramps is left out. Plane geometry; worked out in tests/published/forming.json. No published rule
 * for pressed louvres in sheet of this thickness was found.
 */
export const louvreAreaMm2 = ({ lengthMm, rampMm, heightMm, thicknessMm }: LouvreShape): number =>
  (lengthMm - 2 * rampMm) * (heightMm - thicknessMm);

/**
 * Mean stretch of the lanced edge over a ramp, as a share: sqrt(ramp^2 + height^2) / ramp - 1. Plane
 * geometry, with the ends of the lance held; a little metal is drawn in, so the true stretch is less.
 */
export const rampStretch = ({
  rampMm,
  heightMm,
}: Pick<LouvreShape, 'rampMm' | 'heightMm'>): number => Math.hypot(rampMm, heightMm) / rampMm - 1;

/** The shortest ramp that stretches the lanced edge by no more than that share, mm. */
export const leastRampMm = (heightMm: number, stretch: number): number =>
  heightMm / Math.sqrt((1 + stretch) ** 2 - 1);

/**
 * How far the lanced edge draws back from the lance as it rises, mm: depth - sqrt(depth^2 -
 * height^2). Plane geometry: the roof keeps its length.
 */
export const drawnBackMm = ({
  depthMm,
  heightMm,
}: Pick<LouvreShape, 'depthMm' | 'heightMm'>): number =>
  depthMm - Math.sqrt(depthMm ** 2 - heightMm ** 2);

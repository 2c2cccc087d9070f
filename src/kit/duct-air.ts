/** Clear sizes of a rectangular duct, mm. */
export interface ClearRectangle {
  readonly widthMm: number;
  readonly depthMm: number;
}

export const rectangleAreaMm2 = ({ widthMm, depthMm }: ClearRectangle): number => widthMm * depthMm;

export const roundAreaMm2 = (diameterMm: number): number => (Math.PI / 4) * diameterMm ** 2;

/**
 * Diameter of the round duct of the same ratio of area and wall: Dh = 2 a b / (a + b) (duct design
 * tables).
 */
export const hydraulicDiameterMm = ({ widthMm: a, depthMm: b }: ClearRectangle): number =>
  (2 * a * b) / (a + b);

/** Diameter of the round duct of the same area, and so of the same speed: Da = sqrt(4 a b / pi). */
export const equalAreaDiameterMm = (rectangle: ClearRectangle): number =>
  Math.sqrt((4 * rectangleAreaMm2(rectangle)) / Math.PI);

/**
 * Diameter of the round duct that takes the same pressure for the same flow: De = 1.30 (a b)^0.625
 * / (a + b)^0.250 (R. G. Huebscher, 1948).
 */
export const equalFrictionDiameterMm = ({ widthMm: a, depthMm: b }: ClearRectangle): number =>
  (1.3 * (a * b) ** 0.625) / (a + b) ** 0.25;

/** Length in which a side steps in or out at an angle to the duct's axis: L = step / tan(angle). */
export const taperLengthMm = (stepMm: number, angleDeg: number): number =>
  stepMm / Math.tan((angleDeg * Math.PI) / 180);

/**
 * How steeply the sides of an ordinary taper stand at most; 'length 2.25 times the step' (a rule of
 * the trade).
 */
export const ORDINARY_TAPER_DEG = 24;

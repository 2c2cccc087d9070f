import { readBenderTest } from '../../calibrate/tube-bends.ts';
import type { TubeCalibration } from '../../contract/tube-calibration.ts';
import type { UseCase } from '../use-case.ts';

/**
 * Springback of a tube bender, and the radius of its finished bends, from the text of measured test
 * bends. It never throws for any text.
 */
export function calibrateTube(text: string): UseCase<TubeCalibration> {
  const read = readBenderTest(text);
  if (!read.ok) return read;
  const { fit, ...test } = read.value;
  return { ok: true, result: { ...test, ...fit, saved: null }, findings: [], files: [] };
}

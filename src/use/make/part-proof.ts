import type { Asked } from '../../contract/asked.ts';
import type { MadeFile } from '../../contract/made-file.ts';
import type { PartResult } from '../../contract/part.ts';
import { type Finding, hasStop } from '../../model/finding.ts';
import type { Part } from '../../model/part.ts';
import { proveDxf } from '../../proof/proof.ts';
import type { Context } from './context.ts';
import type { TakenOptions } from './make-options.ts';

/**
 * The proof of the DXF as it would be written, and the findings including the stops of the proof. A
 * part that is stopped before has no proof.
 */
export function proofOf(
  findings: readonly Finding[],
  dxf: () => string,
  { options, tell }: Context,
  part: Part,
  ask: () => Asked,
): Pick<PartResult, 'proof' | 'findings'> {
  if (hasStop(findings)) return { proof: null, findings: tell(findings, part) };
  const file = madeFile(options);
  const asked = { ...ask(), file };
  const proved = proveDxf(dxf(), asked);
  if (!proved.ok) throw new Error(`the DXF cannot be read back: ${proved.reason}`);
  const { worstMm, measures, angles, findings: found } = proved.proof;
  const { measure, kerfMm, panels, cut } = asked;
  return {
    proof: { worstMm, measures, angles, made: { measure, kerfMm, panels, cut, file } },
    findings: tell([...findings, ...found.filter((f) => f.severity === 'stop')], part),
  };
}

/** What the files of a part hold, according to its options. */
const madeFile = ({ form, dxfVersion, cutOnly, marks }: TakenOptions): MadeFile => ({
  unit: form.units,
  statesUnit: dxfVersion !== 'r12',
  foldLines: !cutOnly && marks !== 'none',
});

import type { Asked } from '../../contract/asked.ts';
import type { MadeFile } from '../../contract/made-file.ts';
import type { PartResult } from '../../contract/part.ts';
import { type Finding, hasStop } from '../../model/finding.ts';
import type { Part } from '../../model/part.ts';
import { proveDxf } from '../../proof/proof.ts';
import type { Context } from './context.ts';
import type { TakenOptions } from './make-options.ts';

/** A DXF that was read again and measured. */
export interface Proved {
  readonly dxf: string;
  readonly proof: NonNullable<PartResult['proof']>;
  /** What the proof stops the part for. */
  readonly stops: readonly Finding[];
}

/** The proof of the DXF as it would be written. */
export const provedDxf = (dxf: () => string, options: TakenOptions, ask: Asked): Proved => {
  const file = madeFile(options);
  const asked = { ...ask, file };
  const text = dxf();
  const proved = proveDxf(text, asked);
  if (!proved.ok) throw new Error(`the DXF cannot be read back: ${proved.reason}`);
  const { worstMm, measures, angles, findings } = proved.proof;
  const { measure, kerfMm, panels, cut } = asked;
  return {
    dxf: text,
    proof: { worstMm, measures, angles, made: { measure, kerfMm, panels, cut, file } },
    stops: findings.filter(({ severity }) => severity === 'stop'),
  };
};

/** The proof, and the findings with its stops. A part that is stopped before has no proof. */
export function proofOf(
  findings: readonly Finding[],
  { tell }: Context,
  part: Part,
  prove: () => Proved,
): Pick<PartResult, 'proof' | 'findings'> {
  if (hasStop(findings)) return { proof: null, findings: tell(findings, part) };
  const { proof, stops } = prove();
  return { proof, findings: tell([...findings, ...stops], part) };
}

/** What the files of a part hold, according to its options. */
const madeFile = ({ form, dxfVersion, cutOnly, marks }: TakenOptions): MadeFile => ({
  unit: form.units,
  statesUnit: dxfVersion !== 'r12',
  foldLines: !cutOnly && marks !== 'none',
});

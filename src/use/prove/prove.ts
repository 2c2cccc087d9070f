import type { Asked } from '../../contract/asked.ts';
import type { Proof } from '../../contract/proof.ts';
import { decodeDxf } from '../../dxf/read/decode.ts';
import { type Refusal, unlessRefused } from '../../dxf/read/refusal.ts';
import type { InputProblem } from '../../forms/problem.ts';
import { proveDxf } from '../../proof/proof.ts';
import { readPart } from '../../proof/read-part.ts';
import type { Done, Refused } from '../use-case.ts';

export interface ProofRequest {
  /** The DXF, and its name in messages. */
  readonly dxf: { readonly name: string; readonly bytes: Uint8Array };
  /** The JSON of `make`, or of one of its parts. */
  readonly part: { readonly name: string; readonly text: string };
  /** The DXF's own name without its folders, by which its part is found among several. */
  readonly fileName: string;
}

export interface ProvedFile extends Done<Proof> {
  /** Name of the part. */
  readonly name: string;
}

export const PART_ALLOWED =
  'a file of what blankwright make ... --json printed, or of one part of it';

/**
 * Folds a DXF up, whatever program saved it, and compares it with what was asked of its part. It
 * never throws.
 */
export function prove({ dxf, part, fileName }: ProofRequest): Refused | ProvedFile {
  const asked = askedIn(part, fileName);
  if ('given' in asked) return { ok: false, problems: [asked] };
  const proved = provedBytes(dxf.bytes, asked.asked);
  if (!proved.ok) {
    const problem = {
      input: 'file',
      given: `${dxf.name}, but ${proved.reason}`,
      allowed: 'a whole DXF file in text form',
      mend: proved.mend,
    };
    return { ok: false, problems: [problem] };
  }
  const { proof } = proved;
  return { ok: true, name: asked.name, result: proof, findings: proof.findings, files: [] };
}

/** The proof of a file in whatever code page its text has. */
const provedBytes = (
  bytes: Uint8Array,
  asked: Asked,
): { readonly ok: true; readonly proof: Proof } | Refusal => {
  const decoded = unlessRefused(() => ({ ok: true as const, ...decodeDxf(bytes) }));
  if (!decoded.ok) return decoded;
  const proved = proveDxf(decoded.text, asked);
  return proved.ok
    ? proved
    : { ...proved, mend: 'save it as DXF of release 2000 or 12, not as binary DXF' };
};

const askedIn = (
  { name, text }: ProofRequest['part'],
  fileName: string,
): { readonly name: string; readonly asked: Asked } | InputProblem => {
  const problem = (given: string, mend: string): InputProblem => ({
    input: 'part',
    given: `${name}, ${given}`,
    allowed: PART_ALLOWED,
    mend,
  });
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch {
    return problem('which is no JSON', 'make it with blankwright make ... --json > part.json');
  }
  const read = readPart(parsed, fileName);
  return read.ok ? read : problem(`which holds ${read.given}`, read.mend);
};

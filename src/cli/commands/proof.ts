import { findingLine } from '../../model/finding-line.ts';
import { basename } from 'node:path';
import { decodeDxf } from '../../dxf/read/decode.ts';
import { type Refusal, unlessRefused } from '../../dxf/read/refusal.ts';
import { figure } from '../../text/figures.ts';
import { hasStop } from '../../model/finding.ts';
import type { Asked } from '../../contract/asked.ts';
import { isAngleOff, isOff, type Proof, proveDxf } from '../../proof/proof.ts';
import { readPart } from '../../proof/read-part.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type FlagSpecs, textOf, wordOf } from '../flags.ts';
import { bytesOfDxf, readTextFile } from '../read-text-file.ts';
import { flagsOf } from '../flags-of.ts';
import type { RunCommand } from './index.ts';

export const PROOF_USAGE = 'proof FILE.dxf --part PART.json';

export const PROOF_FLAGS = {
  part: { type: 'string', describe: 'What blankwright make ... --json printed, or one part of it' },
} as const satisfies FlagSpecs;

const PART_ALLOWED = 'a file of what blankwright make ... --json printed, or of one part of it';

/** What was printed of a whole job is longer than any file of inputs. */
const LARGEST_PART_BYTES = 20_000_000;

/**
 * `proof FILE.dxf --part PART.json`: folds a file on disk up and says what it measures. JSON:
 * `Proof`. A file that does not fold to what was asked ends as a part that cannot be made does.
 */
export const proof = async (
  file: string,
  part: string,
  json: boolean,
  { out }: Console,
): Promise<number> => {
  const { name, asked } = await askedIn(part, basename(file));
  const proved = provedFile(bytesOfDxf(file), asked);
  if (!proved.ok)
    throw new WrongInput([
      {
        input: 'file',
        given: `${file}, but ${proved.reason}`,
        allowed: 'a whole DXF file in text form',
        mend: proved.mend,
      },
    ]);
  out(json ? JSON.stringify(proved.proof) : proofText(name, proved.proof));
  return hasStop(proved.proof.findings) ? EXIT.stopped : EXIT.made;
};

/** The proof of a file, in whatever code page its text is. */
const provedFile = (
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

const askedIn = async (
  path: string,
  fileName: string,
): Promise<{ readonly name: string; readonly asked: Asked }> => {
  const text = await readTextFile(path, {
    input: 'part',
    allowed: PART_ALLOWED,
    tooLarge: 'give one part of it',
    mostBytes: LARGEST_PART_BYTES,
  });
  const refuse = (given: string, mend: string): never => {
    throw new WrongInput([
      { input: 'part', given: `${path}, ${given}`, allowed: PART_ALLOWED, mend },
    ]);
  };
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch {
    return refuse('which is no JSON', 'make it with blankwright make ... --json > part.json');
  }
  const read = readPart(parsed, fileName);
  return read.ok ? read : refuse(`which holds ${read.given}`, read.mend);
};

const proofText = (name: string, { worstMm, measures, angles, findings }: Proof): string => {
  const rows = [
    ...measures.map((m) => [
      m.name,
      fixed(m.askedMm),
      fixed(m.foundMm),
      fixed(m.foundMm === null ? null : m.foundMm - m.askedMm),
      isOff(m) ? '<--' : '',
    ]),
    ...angles.map((a) => [
      `${a.name}, degrees`,
      fixed(a.askedDeg),
      fixed(a.foundDeg),
      fixed(a.foundDeg === null ? null : a.foundDeg - a.askedDeg),
      isAngleOff(a) ? '<--' : '',
    ]),
  ] as const;
  const widest = Math.max(...rows.map(([what]) => (what as string).length));
  const line = ([what, asked, found, off, flag]: readonly string[]): string =>
    `  ${(what as string).padEnd(widest)} ${asked} ${found} ${off} ${flag}`.trimEnd();
  return [
    `${name}, folded up from its file`,
    line(['mm', 'asked'.padStart(WIDTH), 'found'.padStart(WIDTH), 'off by'.padStart(WIDTH), '']),
    ...rows.map(line),
    `Worst difference: ${figure(worstMm, 4)} mm`,
    ...findings.map((f) => `  ${findingLine(f)}`),
  ].join('\n');
};

const WIDTH = 11;

const fixed = (value: number | null): string => {
  const text = value === null ? 'none' : value.toFixed(3);
  return (text === '-0.000' ? '0.000' : text).padStart(WIDTH);
};

export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, { usage: PROOF_USAGE, flags: PROOF_FLAGS, words: 2 });
  if (flags === undefined) return EXIT.made;
  const file = wordOf(flags);
  const part = textOf(flags, 'part');
  if (file === undefined)
    throw new WrongInput([
      {
        input: 'file',
        given: 'nothing',
        allowed: `the name of a DXF file: blankwright ${PROOF_USAGE}`,
      },
    ]);
  if (part === undefined)
    throw new WrongInput([
      {
        input: '--part',
        given: 'nothing',
        allowed: `what blankwright make ... --json printed, in a file: blankwright ${PROOF_USAGE}`,
      },
    ]);
  return proof(file, part, flags['json'] === true, console);
};

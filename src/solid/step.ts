import type { OpenCascadeInstance } from 'replicad-opencascadejs';
import { type Finding, note, stop } from '../model/finding.ts';
import type { FlatPattern } from '../model/flat.ts';
import type { Part } from '../model/part.ts';
import { STEP_CHORD_MM, stepBody } from './step-body.ts';
import { StepKernel } from './step-kernel.ts';
import type { Coped } from '../tube/cope/coped-tube.ts';
import { copedBody } from './cope-step.ts';
import { tubeBody, type TubeLine } from './tube-step.ts';

/** The package that makes solids; it is not installed with this one, since it is large. */
export const STEP_PACKAGE = 'replicad-opencascadejs';

export type SteppedPart =
  | { readonly ok: true; readonly text: string; readonly remarks: readonly Finding[] }
  | { readonly ok: false; readonly finding: Finding };

/** Loads the kernel only when a STEP file is asked for, and only once. It is kept from printing. */
export const loadKernel = (): Promise<OpenCascadeInstance> => {
  loading ??= import('replicad-opencascadejs')
    .catch(asNotInstalled)
    .then(({ default: init }) => init({ print: () => undefined, printErr: () => undefined }));
  return loading;
};

/**
 * Node reports a missing module by a code; a browser does so by a TypeError with words of its own
 * (HTML Standard, 8.1.6.7.3 HostLoadImportedModule).
 */
const asNotInstalled = (error: unknown): never => {
  if (error instanceof TypeError && !('code' in error))
    throw Object.assign(new Error(error.message), { code: 'MODULE_NOT_FOUND' });
  throw error;
};

let loading: Promise<OpenCascadeInstance> | undefined;

/**
 * The folded part as a STEP file (ISO 10303-21, application protocol 214): one solid, in
 * millimetres, with the largest panel as it lies in the drawing. The text is the same each time:
 * its date is fixed, and `mark` stands near the start. There is a finding instead where the
 * kernel's package is not installed, and for a part that is stopped.
 */
export const writeStep = async (
  part: Part,
  flat: FlatPattern,
  mark: string,
  load: () => Promise<OpenCascadeInstance> = loadKernel,
): Promise<SteppedPart> =>
  withKernel(load, (kernel) => {
    const made = stepBody(kernel, part, flat);
    if (made === undefined)
      return {
        ok: false,
        finding: stop(
          'step-without-blank',
          `${part.name} has no blank that could be folded up: mend what stops it first.`,
        ),
      };
    return {
      ok: true,
      text: withHeader(kernel.stepText(made.body), part.name, mark),
      remarks: remarksOn(made.inChords),
    };
  });

/** The finished tube in the same way, of cylinders and tori, where its points are. */
export const writeTubeStep = async (
  line: TubeLine,
  size: { readonly diameterMm: number; readonly wallMm: number },
  { name, mark }: { readonly name: string; readonly mark: string },
): Promise<SteppedPart> =>
  withKernel(loadKernel, (kernel) => ({
    ok: true,
    text: withHeader(kernel.stepText(tubeBody(kernel, line, size)), name, mark),
    remarks: [],
  }));

/** A coped tube in the same way, its ends along their seats, with its axis along z. */
export const writeCopeStep = async (
  tube: Coped,
  { name, mark }: { readonly name: string; readonly mark: string },
): Promise<SteppedPart> =>
  withKernel(loadKernel, (kernel) => ({
    ok: true,
    text: withHeader(kernel.stepText(copedBody(kernel, tube)), name, mark),
    remarks: [],
  }));

/** What the kernel makes, or the finding that says that it is not installed; it is emptied afterwards. */
const withKernel = async (
  load: () => Promise<OpenCascadeInstance>,
  make: (kernel: StepKernel) => SteppedPart,
): Promise<SteppedPart> => {
  let instance: OpenCascadeInstance;
  try {
    instance = await load();
  } catch (error) {
    if (!isNotInstalled(error)) throw error;
    return {
      ok: false,
      finding: stop(
        'step-needs-package',
        `STEP files are made with the package ${STEP_PACKAGE}, which is not installed: npm install ${STEP_PACKAGE}, or ask for STL or GLB instead.`,
      ),
    };
  }
  const kernel = new StepKernel(instance);
  try {
    return make(kernel);
  } finally {
    kernel.free();
  }
};

const isNotInstalled = (error: unknown): boolean =>
  error instanceof Error &&
  'code' in error &&
  (error.code === 'ERR_MODULE_NOT_FOUND' || error.code === 'MODULE_NOT_FOUND');

const remarksOn = (inChords: readonly string[]): Finding[] =>
  inChords.length === 0
    ? []
    : [
        note(
          'step-in-chords',
          `In the STEP file the edges of what is cut out of bends ${inChords.join(', ')} (reliefs, holes) are chords, no farther than ${STEP_CHORD_MM} mm from the curves.`,
        ),
      ];

/**
 * The kernel puts the time and its own names into the header; they are replaced, because the same
 * part must give the same text.
 */
const withHeader = (text: string, name: string, mark: string): string => {
  const [quotedName, quotedMark] = [quoted(name), quoted(mark)];
  return text
    .replace(/FILE_DESCRIPTION\([^]*?(?=FILE_NAME\()/, `FILE_DESCRIPTION((${quotedMark}),'2;1');\n`)
    .replace(
      /FILE_NAME\([^]*?(?=FILE_SCHEMA\()/,
      `FILE_NAME(${quotedName},'1970-01-01T00:00:00',(''),(''),'','','');\n`,
    )
    .replaceAll(/'Open CASCADE STEP translator[^']*'/g, quotedName);
};

/**
 * A text by ISO 10303-21: printable ASCII, with the apostrophe doubled and all other letters as
 * their numbers.
 */
const quoted = (text: string): string => {
  const letters = [...text].map((letter) => {
    const code = letter.codePointAt(0) ?? 0;
    if (letter === "'") return "''";
    if (letter === '\\') return '\\\\';
    if (code >= 0x20 && code < 0x7f) return letter;
    return code > 0xffff ? `\\X4\\${hex(code, 8)}\\X0\\` : `\\X2\\${hex(code, 4)}\\X0\\`;
  });
  return `'${letters.join('')}'`;
};

const hex = (code: number, digits: number): string =>
  code.toString(16).toUpperCase().padStart(digits, '0');

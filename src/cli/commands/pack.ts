import { makeParts } from '../../use/make/make-parts.ts';
import { type PackPart, type Packed, packOf } from '../../use/pack/pack.ts';
import type { Console } from '../console.ts';
import { EXIT, WrongInput } from '../failure.ts';
import { type Flags, type FlagSpecs, textOf, wordOf } from '../flags.ts';
import { flagsOf } from '../flags-of.ts';
import { type LoadedJob, loadJob } from '../job/load-job.ts';
import type { MakeParts } from '../job/made-parts.ts';
import { choiceOf } from '../option-flags.ts';
import { saveAll } from '../save.ts';
import type { RunCommand } from './index.ts';

const PACK_USAGE = 'pack JOB.yaml';

const PACK_FLAGS = {
  out: { type: 'string', describe: 'Folder to write to; pack/ when left out' },
  shop: {
    type: 'string',
    describe:
      "Shop file, which says how cut files are named; else that of the job, shop.yaml beside it, then the user's own",
  },
  'all-in-one': {
    type: 'boolean',
    describe: 'One archive for all parts, not one for each material and thickness',
  },
  fold: {
    type: 'string',
    describe:
      'Who folds: here, or service, which gets a drawing of each folded part; as the job says when left out',
  },
  force: {
    type: 'boolean',
    describe: 'Replace files that were not packed by this command for this job',
  },
} as const satisfies FlagSpecs;

/** The JSON document of `pack --json`. */
export interface PackResult {
  /** `material` and `thicknessMm` are `null` for an archive with several sheets. */
  readonly zips: readonly {
    readonly file: string;
    readonly material: string | null;
    readonly thicknessMm: number | null;
    readonly parts: readonly string[];
  }[];
  readonly left: readonly { readonly name: string; readonly reason: string }[];
}

/**
 * `pack JOB.yaml`: archives for a cutting service. JSON: `PackResult`. Parts that are stopped are
 * left out, and it ends as a part that cannot be made does.
 */
export const run: RunCommand = (args, console) => runPackCommand(args, console, makeParts);

/** The same, by what makes parts. */
export const runPackCommand = async (
  args: readonly string[],
  console: Console,
  make: MakeParts,
): Promise<number> => {
  const flags = await flagsOf(args, console, { usage: PACK_USAGE, flags: PACK_FLAGS, words: 2 });
  if (flags === undefined) return EXIT.made;
  const file = wordOf(flags);
  if (file === undefined)
    throw new WrongInput([
      {
        input: 'job',
        given: 'nothing',
        allowed: `the name of a job file: blankwright ${PACK_USAGE}`,
      },
    ]);
  const fold = choiceOf(flags, 'fold', ['here', 'service']);
  const loaded = await loadJob(file, textOf(flags, 'shop'));
  return pack(loaded, partsOf(loaded, fold, make), flags, console);
};

const pack = async (
  { job, shop }: LoadedJob,
  parts: readonly PackPart[],
  flags: Flags,
  console: Console,
): Promise<number> => {
  const handover = { ...shop.handover, ...(flags['all-in-one'] === true && { perSheet: false }) };
  const dxfVersion = job.parts[0]?.way.dxfVersion ?? 'r2000';
  const packed = await packOf(parts, { job: job.title, shop, handover, dxfVersion });
  const files = saveAll(textOf(flags, 'out') ?? 'pack', packed.zips, flags['force'] === true);
  if (flags['json'] === true) console.out(JSON.stringify(resultOf(packed, files)));
  else tell(resultOf(packed, files), console);
  return packed.left.length > 0 ? EXIT.stopped : EXIT.made;
};

/** Every part of the job, made. The file has been read, so its inputs are in order. */
const partsOf = (
  { job, families, shop }: LoadedJob,
  fold: PackPart['fold'] | undefined,
  make: MakeParts,
): PackPart[] =>
  job.parts.flatMap(({ family, inputs, way, note, revision }) => {
    const template = families.get(family);
    const made =
      template === undefined
        ? undefined
        : make(template, inputs, { ...way, shop, ...(fold !== undefined && { foldAt: fold }) });
    if (made?.ok !== true) throw new WrongInput(made?.problems ?? []);
    return made.parts.map((one): PackPart => {
      const goesOut =
        way.foldAt === 'service' ||
        (way.foldAt !== 'here' &&
          (shop.machines.length === 0 || one.result.foldPlan?.feasible === false));
      return {
        made: one,
        fold: fold ?? (goesOut ? 'service' : 'here'),
        ...(note !== undefined && { note }),
        ...(revision !== undefined && { revision }),
      };
    });
  });

const resultOf = ({ zips, left }: Packed, files: readonly string[]): PackResult => ({
  zips: zips.map(({ material, thicknessMm, parts }, i) => ({
    file: files[i] as string,
    material,
    thicknessMm,
    parts,
  })),
  left,
});

const tell = ({ zips, left }: PackResult, { out, err }: Console): void => {
  for (const { file, parts } of zips) out(`${file}: ${parts.join(', ')}`);
  for (const { name, reason } of left) err(`left out  ${name}: ${reason}`);
};

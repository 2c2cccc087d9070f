import type { PackResult } from '../../contract/pack.ts';
import { type ReadyJob, templateOf } from '../job/ready-job.ts';
import type { MakeParts } from '../job/remembering-parts.ts';
import { makeParts } from '../make/make-parts.ts';
import type { DxfVersion } from '../made-part.ts';
import type { LaidSheet } from '../../model/laid.ts';
import type { Done, Refused } from '../use-case.ts';
import { laidIn, type PackedSheet } from './laid-in.ts';
import { sorted } from './pack-part.ts';
import { type PackPart, packOf } from './pack.ts';

export interface PackJobOptions {
  /** Who folds; where it is left out, the job decides. */
  readonly fold?: PackPart['fold'] | undefined;
  /** Whether there is one archive for all parts and not one for each material and thickness. */
  readonly isAllInOne?: boolean | undefined;
  readonly make?: MakeParts | undefined;
}

/**
 * The archives of a job for a cutting service, under the names that the result has for them. Parts
 * that are stopped are left out, and named.
 */
export async function packJob(
  ready: ReadyJob,
  { fold, isAllInOne = false, make = makeParts }: PackJobOptions = {},
): Promise<Done<PackResult>> {
  return packed(ready, partsOf(ready, fold, make), isAllInOne);
}

/**
 * The same where the parts are laid on sheets: each archive holds the files of its sheets too. A
 * layout of other parts is refused.
 */
export async function packLaidJob(
  ready: ReadyJob,
  sheets: readonly LaidSheet[],
  { fold, isAllInOne = false, make = makeParts }: PackJobOptions = {},
): Promise<Done<PackResult> | Refused> {
  const { job, shop } = ready;
  const all = partsOf(ready, fold, make);
  const laid = await laidIn(sheets, sorted(all.parts).whole, {
    job: job.title,
    shop,
    writing: { dxfVersion: dxfVersionOf(ready) },
    paper: job.paper,
    printUnits: job.printUnits,
    date: job.date,
  });
  return 'given' in laid ? { ok: false, problems: [laid] } : packed(ready, all, isAllInOne, laid);
}

const dxfVersionOf = ({ job }: ReadyJob): DxfVersion => job.parts[0]?.way.dxfVersion ?? 'r2000';

const packed = async (
  ready: ReadyJob,
  { parts, tubes }: AllParts,
  isAllInOne: boolean,
  laid: readonly PackedSheet[] = [],
): Promise<Done<PackResult>> => {
  const { job, shop } = ready;
  const handover = { ...shop.handover, ...(isAllInOne && { perSheet: false }) };
  const { zips, left } = await packOf(parts, {
    job: job.title,
    shop,
    handover,
    dxfVersion: dxfVersionOf(ready),
    laid,
    paper: job.paper,
    date: job.date,
    sizes: job.sizes,
    printUnits: job.printUnits,
  });
  return {
    ok: true,
    result: {
      zips: zips.map(({ name, material, thicknessMm, parts: names }) => ({
        file: name,
        material,
        thicknessMm,
        parts: names,
      })),
      left,
      ...(tubes.length > 0 && { tubes }),
    },
    findings: parts.flatMap(({ made }) => made.result.findings),
    files: zips.map(({ name, contents, mark }) => ({ name, contents, mark })),
  };
};

/** The parts of a job, and the names of its tubes: they are bent in the shop, and go into no archive. */
interface AllParts {
  readonly parts: readonly PackPart[];
  readonly tubes: readonly string[];
}

/** Every part of the job, made. The inputs are in order, since the file has been read. */
const partsOf = (
  ready: ReadyJob,
  fold: PackPart['fold'] | undefined,
  make: MakeParts,
): AllParts => {
  const all = ready.job.parts.map(({ family, inputs, way, note, revision }) => {
    const { shop } = ready;
    const made = make(templateOf(ready, family), inputs, {
      ...way,
      shop,
      ...(fold !== undefined && { foldAt: fold }),
    });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const parts = made.parts.map((one): PackPart => {
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
    return { parts, tubes: made.tubes.map(({ result }) => result.name) };
  });
  return { parts: all.flatMap(({ parts }) => parts), tubes: all.flatMap(({ tubes }) => tubes) };
};

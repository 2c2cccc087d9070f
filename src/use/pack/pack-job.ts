import type { PackResult } from '../../contract/pack.ts';
import { type ReadyJob, templateOf } from '../job/ready-job.ts';
import type { MakeParts } from '../job/remembering-parts.ts';
import { makeParts } from '../make/make-parts.ts';
import type { Done } from '../use-case.ts';
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
  const { job, shop } = ready;
  const parts = partsOf(ready, fold, make);
  const handover = { ...shop.handover, ...(isAllInOne && { perSheet: false }) };
  const dxfVersion = job.parts[0]?.way.dxfVersion ?? 'r2000';
  const { zips, left } = await packOf(parts, {
    job: job.title,
    shop,
    handover,
    dxfVersion,
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
    },
    findings: parts.flatMap(({ made }) => made.result.findings),
    files: zips.map(({ name, contents, mark }) => ({ name, contents, mark })),
  };
}

/** Every part of the job, made. The inputs are in order, since the file has been read. */
const partsOf = (
  ready: ReadyJob,
  fold: PackPart['fold'] | undefined,
  make: MakeParts,
): PackPart[] =>
  ready.job.parts.flatMap(({ family, inputs, way, note, revision }) => {
    const { shop } = ready;
    const made = make(templateOf(ready, family), inputs, {
      ...way,
      shop,
      ...(fold !== undefined && { foldAt: fold }),
    });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
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

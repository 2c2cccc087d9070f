import type { Template } from '../../forms/template.ts';
import type { JobPart } from '../../jobfile/job-file.ts';
import type { Shop } from '../../model/shop.ts';
import type { PrintUnit } from '../../text/printed.ts';
import type { SheetName } from '../../model/paper.ts';
import { makeFiles } from '../../use/make/make-files.ts';
import { makeInStages } from '../../use/make/make-in-stages.ts';
import type { OutputId } from '../../use/outputs/index.ts';
import type { TellProgress } from '../model/progress.ts';
import { rest } from './job-answers.ts';
import type { FilesAnswer } from './questions.ts';

interface FilesOf {
  readonly template: Template;
  readonly shop: Shop;
  readonly outputs: readonly OutputId[];
  readonly paper?: SheetName | undefined;
  /** Unit of lengths that are printed; mm when left out. */
  readonly unit?: PrintUnit | undefined;
}

/** The files of a part, as the command makes them; each stage is told. */
export const filesAnswer = async (
  { inputs, way, note, revision, silence }: JobPart,
  { template, shop, outputs, paper, unit }: FilesOf,
  tell?: TellProgress,
): Promise<FilesAnswer> => {
  const made = await makeFiles({
    template,
    inputs,
    options: { ...way, shop },
    outputs,
    paper,
    printUnits: unit,
    note,
    revision,
    silence,
    make: (...all) => {
      const parts = rest(makeInStages(...all), tell);
      tell?.({ doing: 'drawing and writing' });
      return parts;
    },
  });
  return made.ok
    ? { problems: [], files: made.files.map(({ name, contents }) => ({ name, contents })) }
    : { problems: made.problems, files: [] };
};

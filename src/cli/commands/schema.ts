import { ALL_FAMILIES } from '../../../templates/index.ts';
import { jobJsonSchema } from '../../jobfile/json-schema.ts';
import { EXIT } from '../failure.ts';
import { flagsOf } from '../flags-of.ts';
import type { RunCommand } from './index.ts';

/**
 * `schema`: the JSON Schema of job files, for editors. With `--json` it is the same on one line.
 */
export const run: RunCommand = async (args, console) => {
  const flags = await flagsOf(args, console, {
    usage: 'schema > job.schema.json',
    flags: {},
    words: 1,
  });
  if (flags === undefined) return EXIT.made;
  const families = new Map(
    await Promise.all(
      [...ALL_FAMILIES].map(async ([name, load]) => [name, (await load()).default] as const),
    ),
  );
  console.out(
    JSON.stringify(jobJsonSchema(families), undefined, flags['json'] === true ? undefined : 2),
  );
  return EXIT.made;
};

import type { Console } from '../console.ts';

/** Runs one command and returns its exit code. `args` begin with the command's name. */
export type RunCommand = (args: readonly string[], console: Console) => Promise<number>;

export interface Command {
  /** A line for the first help page. */
  readonly about: string;
  /** Words that stand behind its name, where it needs any. */
  readonly words?: string;
  /** An example command line that works, behind the program's name. */
  readonly example: string;
  /** Loads the command when it is asked for, with what it needs. */
  readonly load: () => Promise<{ readonly run: RunCommand }>;
}

/** Every command, in the order of the help page. */
export const COMMANDS: Readonly<Record<string, Command>> = {
  list: { about: 'The part families', example: 'list', load: () => import('./list.ts') },
  describe: {
    about: 'Inputs, limits, cautions and examples of one family',
    words: 'FAMILY',
    example: 'describe bracket-angle',
    load: () => import('./describe.ts'),
  },
  make: {
    about: 'The flat blank of a part as DXF and SVG',
    words: 'FAMILY',
    example: 'make bracket-angle --leg-a 60 --leg-b 40 --width 80 --thickness 3 --hand both',
    load: () => import('./make.ts'),
  },
  page: {
    about: 'The whole tool as a page in the browser: type what the tape says, see the blank',
    words: '[FILE]',
    example: 'page job.yaml',
    load: () => import('./page.ts'),
  },
  job: {
    about: 'All parts of a job file, with their papers; only what has changed is made again',
    words: 'FILE',
    example: 'job job.yaml --out out',
    load: () => import('./job.ts'),
  },
  pack: {
    about:
      'The cut files of a job as archives for a cutting service, with parts list and fold drawings',
    words: 'FILE',
    example: 'pack job.yaml --out handover',
    load: () => import('./pack.ts'),
  },
  cutlist: {
    about:
      'Everything that a job needs cut, by material and thickness: blanks, mass, cut length, time and sheets',
    words: 'FILE',
    example: 'cutlist job.yaml --csv',
    load: () => import('./cutlist.ts'),
  },
  lay: {
    about: 'The parts of a job laid on the sheets and remnants of the shop, and what to buy',
    words: 'FILE',
    example: 'lay job.yaml --time 2s',
    load: () => import('./lay.ts'),
  },
  schema: {
    about: 'The JSON Schema of job files, by which editors complete and check them',
    example: 'schema',
    load: () => import('./schema.ts'),
  },
  bend: {
    about: 'The sums of one bend, worked out',
    example: 'bend --thickness 3 --radius 3 --angle 90',
    load: () => import('./bend.ts'),
  },
  materials: {
    about: 'The sheet catalogue, with sources',
    example: 'materials --json',
    load: () => import('./materials.ts'),
  },
  shop: {
    about: 'The shop that parts are checked against, and whether its file is in order',
    example: 'shop --shop shop.yaml',
    load: () => import('./shop.ts'),
  },
  plan: {
    about: 'The order in which a part is folded on a machine, or what prevents it',
    example:
      'plan bracket-channel --flange-a 40 --web 60 --flange-b 40 --width 80 --thickness 2 --out out',
    load: () => import('./plan.ts'),
  },
  calibrate: {
    about: "K and inside radius of the shop's own bends, out of measured strips",
    example: 'calibrate strips.csv --save shop.yaml',
    load: () => import('./calibrate.ts'),
  },
  proof: {
    about: 'Whether a DXF still folds to what was asked, measure by measure',
    words: 'FILE',
    example: 'proof out/bracket-angle.dxf --part part.json',
    load: () => import('./proof.ts'),
  },
  inspect: {
    about:
      'Whether any DXF can be cut: units, open contours, gaps, doubles, crossings, and what cutters reject',
    words: 'FILE',
    example: 'inspect part.dxf --thickness 3 --mend --svg',
    load: () => import('./inspect.ts'),
  },
  trilaterate: {
    about: 'Points from the tape distances between them',
    words: 'FILE',
    example: 'trilaterate holes.txt',
    load: () => import('./trilaterate.ts'),
  },
  reason: {
    about:
      'What a finding means, why, what to do, and where its limit comes from; without a name, all rules',
    words: '[RULE]',
    example: 'reason web-too-thin',
    load: () => import('./reason.ts'),
  },
  completion: {
    about: 'A script by which bash or zsh completes commands, families and flags',
    words: 'SHELL',
    example: 'completion bash',
    load: () => import('./completion.ts'),
  },
  demo: {
    about: 'The whole job of a vineyard cart, as an example',
    example: 'demo --out out',
    load: () => import('./demo.ts'),
  },
};

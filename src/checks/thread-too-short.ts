import { lacks } from '../model/measured.ts';
import { figure } from '../text/figures.ts';
import { grouped } from '../text/grouped.ts';
import { type Finding, warn } from '../model/finding.ts';
import { type Check, type Hole, inputsOf, namesOf, onHole } from './check.ts';

/** The fewest turns of thread that hold a screw; a thread with fewer strips. */
const LEAST_TURNS = 3;

/** Finds threads that are cut in sheet too thin to hold them. */
export const threadTooShort: Check = {
  rule: 'thread-too-short',
  title: 'A thread has fewer than three turns in the sheet.',
  severities: ['warn'],
  reason: 'A thread of a turn or two strips before the screw is tight.',
  source:
    'common practice: three full turns at the least; a thread as deep as the screw is thick holds as well as the screw itself',
  measured: 'the thickness against three times the pitch',
  mend: 'Set a rivet nut, weld a nut behind it, or take a finer thread.',
  run: ({ flat, holes }) =>
    grouped(
      holes,
      ({ panel, use }) =>
        `${panel} ${use?.thread?.kind === 'tapped' ? `${use.screw} ${use.thread.pitchMm}` : ''}`,
    ).flatMap((alike) => examine(flat.thicknessMm, alike as [Hole, ...Hole[]])),
};

function examine(thicknessMm: number, alike: readonly [Hole, ...Hole[]]): Finding[] {
  const [hole] = alike;
  const { thread, screw } = hole.use ?? {};
  if (thread?.kind !== 'tapped' || thicknessMm >= LEAST_TURNS * thread.pitchMm) return [];
  const turns = thicknessMm / thread.pitchMm;
  const message = `${namesOf(alike)}: ${screw} has ${figure(turns, 1)} turns of thread in ${figure(thicknessMm)} mm, fewer than ${LEAST_TURNS}. Set a rivet nut (R${screw === undefined ? '' : screw.replace('M', 'N')}), weld a nut behind it, or take a finer thread.`;
  return [
    {
      ...warn(threadTooShort, message),
      ...onHole(hole),
      inputs: inputsOf(alike),
      ...lacks(thicknessMm, LEAST_TURNS * thread.pitchMm),
    },
  ];
}

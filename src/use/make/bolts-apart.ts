import {
  boltedHoles,
  type BoltedHoles,
  type HoleIn,
  middleOf,
} from '../../assembly/bolted-holes.ts';
import type { FindingResult } from '../../contract/part.ts';
import { NOISE_MM } from '../../geometry/tolerance.ts';
import { holeCalled } from '../../model/hole-names.ts';
import { figure } from '../../text/figures.ts';
import { setsOf } from '../assembly/assembled.ts';
import type { MadePart } from '../made-part.ts';
import { stop } from '../../model/finding.ts';
import type { Made } from './make-given.ts';

/**
 * The same parts, those stopped whose holes are said to meet another piece of their set and lie too far
 * aside of the nearest hole there for their bolt. Each piece alone is sound: it shows only where they
 * stand together, in sheet of one thickness.
 */
export const boltsApart = (made: Made): Made => {
  if (!made.ok || !made.parts.some(isBolted)) return made;
  const apart = setsOf(made.parts).flatMap(({ mark, assembly }) =>
    boltedHoles(assembly)
      .filter(({ asideMm, playMm }) => asideMm > playMm + NOISE_MM)
      .map((bolted) => ({ mark, bolted })),
  );
  if (apart.length === 0) return made;
  const parts = made.parts.map((part) =>
    stoppedBy(
      part,
      apart.flatMap(({ mark, bolted }) =>
        part.set?.mark === mark
          ? bolted.through.flatMap((own) =>
              own.id === part.result.piece ? [findingOn(own, bolted)] : [],
            )
          : [],
      ),
    ),
  );
  return { ...made, parts };
};

const isBolted = ({ set, flat }: MadePart): boolean =>
  set !== undefined && flat?.cutouts.some(({ use }) => use?.meets !== undefined) === true;

/** Every place of a piece has the same holes: what is found at two of them is told once. */
const stoppedBy = (part: MadePart, found: readonly FindingResult[]): MadePart => {
  if (found.length === 0 || part.stopped) return part;
  const told = found.filter(
    ({ message }, i) => found.findIndex((other) => other.message === message) === i,
  );
  const findings = [...told, ...part.result.findings];
  return { ...part, stopped: true, result: { ...part.result, findings, fit: null }, files: none };
};

const none = (): readonly [] => [];

const findingOn = (
  own: HoleIn,
  { through, screw, asideMm, playMm }: BoltedHoles,
): FindingResult => {
  const [one, other] = through.map(({ piece, cutout }) => `${holeCalled(cutout)} of ${piece}`);
  const bolt = screw === undefined ? 'a bolt' : `their ${screw}`;
  const { rule, severity, message } = stop(
    'bolt-holes-apart',
    `${one} and ${other} are bolted to each other, and lie ${figure(asideMm)} mm aside of one line, where ${bolt} has ${figure(playMm)} mm of play: move the one or the other by ${figure(asideMm)} mm, or make one a slot.`,
  );
  return {
    rule,
    severity,
    message,
    panel: own.cutout.panel,
    at: middleOf(own.cutout),
    measured: { value: asideMm, unit: 'mm' },
    limit: { atMost: playMm, unit: 'mm' },
  };
};

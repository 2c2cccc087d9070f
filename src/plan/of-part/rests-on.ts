import type { FoldStep, RestsOn } from '../../contract/fold-plan.ts';
import type { Machine } from '../../model/machine.ts';
import type { Sourced } from '../../model/material.ts';

/**
 * The figures of a machine that a plan rests on, by name, each either measured, which is what the
 * shop file says itself, or assumed, as it is for the built-in machine. Of noses and stops it is
 * what the steps went by.
 */
export const restsOn = (machine: Machine, steps: readonly FoldStep[]): RestsOn => {
  const named: readonly (readonly [string, boolean | undefined])[] = [
    ...(machine.kind === 'folder' ? folderFigures(machine, steps) : brakeFigures(machine)),
    ['stop offset', allMeasured(steps, (s) => s.stop?.basis, isOwn(machine.stopOffsetDeg))],
    ['largest thickness', isOwn(machine.hardestFold) || isOwn(machine.capacityMm)],
    ['length', isOwn(machine.workingLengthMm)],
  ];
  return {
    measured: named.flatMap(([name, own]) => (own === true ? [name] : [])),
    assumed: named.flatMap(([name, own]) => (own === false ? [name] : [])),
  };
};

type Named = readonly (readonly [string, boolean | undefined])[];

const folderFigures = (
  machine: Extract<Machine, { kind: 'folder' }>,
  steps: readonly FoldStep[],
): Named => [
  ['nose radius', allMeasured(steps, (s) => s.nose?.basis, isOwn(machine.noseRadiiMm))],
  // No plan rests on a nose gap that nobody has measured: it is worked out for every bend.
  ['nose gap', isOwn(machine.noseSetbackMm) || undefined],
  ['clamp opening', isOwn(machine.clampOpeningMm)],
  ...(machine.clamp.kind === 'fingers'
    ? ([
        ['finger widths', isOwn(machine.clamp.widthsMm)],
        ['finger depth', isOwn(machine.clamp.boxDepthMm)],
      ] as const)
    : []),
  ['bar of the leaf', isOwn(machine.isLeafBarFitted)],
];

const brakeFigures = (machine: Extract<Machine, { kind: 'press brake' }>): Named => [
  ['V opening', isOwn(machine.vMm)],
  ['daylight', isOwn(machine.daylightMm)],
];

const isOwn = (figure: Sourced<unknown> | null | undefined): boolean =>
  figure?.basis === 'measured';

/** Whether what the steps say is measured in all that say it; `otherwise` where none does. */
const allMeasured = (
  steps: readonly FoldStep[],
  basisOf: (step: FoldStep) => 'measured' | 'assumed' | undefined,
  otherwise: boolean,
): boolean => {
  const told = steps.flatMap((step) => basisOf(step) ?? []);
  return told.length === 0 ? otherwise : told.every((basis) => basis === 'measured');
};

import { MACHINES } from '../data/machines.ts';
import type { Folder, Machine, PressBrake } from '../model/machine.ts';
import type { Sourced } from '../model/material.ts';

/** An entry of the shop file with its sourced figures still whole; unknown figures are left out. */
type Entry = Readonly<Record<string, unknown>>;

const anyMachine = (m: Machine): Entry => ({
  id: m.id,
  name: m.name,
  workingLength: m.workingLengthMm,
  capacity: m.capacityMm ?? undefined,
  capacities: m.capacities,
  minFlange: m.minFlangeMm ?? undefined,
  maxAngle: m.maxAngleDeg ?? undefined,
  overbend: m.overbendDeg,
  maxUncovered: m.maxUncoveredMm,
  stopOffset: m.stopOffsetDeg,
  hardestFold: m.hardestFold,
});

/**
 * A machine under the names of the shop file. One that is like a built-in one says so, and names the
 * figures that it has from there: with its figures alone it would read back as measured.
 */
export const machineEntry = (m: Machine): Entry => {
  const entry = bareEntry(m);
  const known = MACHINES.find(({ id }) => id === m.like);
  if (known === undefined) return entry;
  // A name that was taken away stands there as nothing, or the built-in figure would come back.
  const gone = Object.entries(bareEntry(known)).flatMap(([name, value]) =>
    value !== undefined && entry[name] === undefined ? [[name, null] as const] : [],
  );
  return { like: known.id, ...entry, ...Object.fromEntries(gone), assumed: assumedIn(entry) };
};

const bareEntry = (m: Machine): Entry =>
  m.kind === 'folder' ? folderEntry(m) : pressBrakeEntry(m);

/** The names of figures that are not the shop's own, those of fingers among them. */
const assumedIn = (entry: Entry): string[] =>
  Object.entries(entry).flatMap(([name, value]) => {
    if (isSourced(value)) return value.basis === 'measured' ? [] : [name];
    return name === 'fingers' && value !== undefined ? assumedIn(value as Entry) : [];
  });

const folderEntry = (m: Folder): Entry => ({
  ...anyMachine(m),
  noseSetback: m.noseSetbackMm,
  ...(m.section === undefined
    ? dimensionsOf(m)
    : {
        section: { ...m.section, beam: m.section.beam.length === 0 ? undefined : m.section.beam },
      }),
  clampLand: m.clampLandMm,
  noseRadii: m.noseRadiiMm,
  clampOpening: m.clampOpeningMm,
  ...(m.clamp.kind === 'one piece'
    ? { endOverhang: m.clamp.endOverhang }
    : {
        fingers: {
          boxDepth: m.clamp.boxDepthMm,
          beamDepth: m.clamp.beamDepthMm,
          widths: m.clamp.widthsMm,
          sideClear: m.clamp.sideClearMm,
        },
      }),
});

const dimensionsOf = (m: Folder): Entry => ({
  bedDepth: m.bedDepthMm,
  noseDepth: m.noseDepthMm,
  noseFront: m.noseFrontMm,
  noseBevel: m.noseBevelDeg,
  clampHeight: m.clampHeightMm,
  leafEdge: m.leafEdgeMm,
  leafBarFitted: m.isLeafBarFitted,
  stiffener: m.stiffenerMm,
});

const pressBrakeEntry = (m: PressBrake): Entry => ({
  ...anyMachine(m),
  v: m.vMm,
  otherVs: m.otherVsMm,
  forcePerMetre: m.forcePerMetreKn,
  shoulder: m.shoulderMm,
  dieHeight: m.dieHeightMm,
  dieHolderHalf: m.dieHolderHalfMm,
  ramHalf: m.ramHalfMm,
  punchHeight: m.punchHeightMm,
  daylight: m.daylightMm,
  punch: m.punch,
  punches: m.punches.map((punch) => ({
    id: punch.id,
    polygons: punch.section(m.punchHeightMm.value),
  })),
});

export const isSourced = (value: unknown): value is Sourced<unknown> =>
  typeof value === 'object' &&
  value !== null &&
  'value' in value &&
  'basis' in value &&
  'source' in value;

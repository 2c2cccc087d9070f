import {
  advise,
  type Bender,
  type BentTube,
  cautionText,
  diametersOfBend,
  figure,
  type Finding,
  isUnder,
  LEAST_DIAMETERS,
  MOST_WALL_OVER_BEND,
  note,
  NOISE_MM,
  orLess,
  orMore,
  refuse,
  SHALLOW_DEG,
  stretchOutside,
  wallFactor,
  warn,
  wholeUp,
} from '../../src/template.ts';
import type { Values } from './centre-line.ts';

/** What keeps the tube itself from being bent, whatever its line. */
export const tubeFindings = ({ diameter, wall }: Values, formerMm: number): Finding[] => [
  ...(2 * wall < diameter
    ? []
    : [
        refuse(
          'tube-wall-too-thick',
          ['wall', 'diameter'],
          `wall ${figure(wall)} leaves no bore in a tube of ${figure(diameter)} mm`,
          [orLess('wall', 0.45 * diameter)],
        ),
      ]),
  ...(2 * formerMm > diameter
    ? []
    : [
        refuse(
          'tube-radius-in-tube',
          ['radius', 'diameter'],
          `radius ${figure(formerMm)} is less than half the tube of ${figure(diameter)} mm`,
          [orMore('radius', LEAST_DIAMETERS * diameter)],
        ),
      ]),
];

/** Bends that run into each other or over an end, and by how much. */
export const overlapFindings = ({ sheet }: BentTube): Finding[] =>
  sheet.straightsMm.flatMap((mm, i) => {
    if (mm > -NOISE_MM) return [];
    const where =
      sheet.bends.length === 1 || i === 0 || i === sheet.bends.length
        ? `bend ${i === 0 ? 1 : i} runs over the ${i === 0 ? 'leading' : 'other'} end by ${figure(-mm)} mm`
        : `bends ${i} and ${i + 1} overlap by ${figure(-mm)} mm`;
    const [before, after] = [sheet.bends[i - 1], sheet.bends[i]];
    const taken = (before?.setbackMm ?? 0) + (after?.setbackMm ?? 0);
    const radius = (before ?? after)?.radiusMm ?? 0;
    const most = Math.floor(10 * radius * ((taken + mm) / taken)) / 10;
    return [
      refuse(
        'tube-bends-overlap',
        ['radius'],
        where,
        most > 0 ? [orLess('radius', most)] : [],
        `make that leg ${figure(Math.ceil(-mm))} mm longer`,
      ),
    ];
  });

/** What may spoil the tube though it can be bent. */
export const bendFindings = (v: Values, tube: BentTube, bender: Bender | undefined): Finding[] => {
  if (tube.sheet.bends.length === 0) return [];
  return [
    ...radiusFindings(v, tube),
    ...temperFindings(v),
    ...shallowFindings(tube),
    ...straightFindings(tube, bender),
    ...pullFindings(tube, bender),
    ...floorFindings(tube, bender),
    ...springbackFindings(tube),
  ];
};

const radiusFindings = ({ diameter, wall, material }: Values, tube: BentTube): Finding[] => {
  const { formerMm } = tube.asked.bending;
  const diameters = diametersOfBend(diameter, formerMm);
  const stretch = 100 * stretchOutside(diameter, formerMm);
  const limit = material.elongationPct.value;
  const wallOver = wallFactor(diameter, wall) / diameters;
  return [
    ...(isUnder(diameters, LEAST_DIAMETERS)
      ? [
          advise(
            'tube-tight-radius',
            ['radius', 'diameter'],
            `radius ${figure(formerMm)} is ${figure(diameters)} diameters: under ${LEAST_DIAMETERS} the tube flattens and wrinkles without a mandrel, and rules for cages forbid it`,
            [orMore('radius', LEAST_DIAMETERS * diameter)],
          ),
        ]
      : []),
    ...(wallOver > MOST_WALL_OVER_BEND
      ? [
          advise(
            'tube-thin-wall',
            ['wall', 'radius'],
            `wall ${figure(wall)} is thin for this bend: wall factor ${figure(wallFactor(diameter, wall), 1)} at ${figure(diameters)} diameters, which usually asks for a mandrel`,
            [
              orMore('wall', Math.ceil((10 * diameter) / (MOST_WALL_OVER_BEND * diameters)) / 10),
              orMore('radius', Math.ceil((diameter * diameter) / wall / MOST_WALL_OVER_BEND)),
            ],
          ),
        ]
      : []),
    ...(stretch >= limit
      ? [
          advise(
            'tube-stretch',
            ['radius', 'material'],
            `radius ${figure(formerMm)} stretches the outside by ${figure(stretch, 1)} %, and ${material.name} breaks at ${figure(limit)} %`,
            [orMore('radius', Math.ceil((50 * diameter) / limit + 1))],
            'take a softer temper',
          ),
        ]
      : []),
  ];
};

const temperFindings = ({ material }: Values): Finding[] =>
  material.bendAs === undefined
    ? []
    : [
        note('caution-tube-annealing', cautionText('tube-annealing')),
        warn(
          'tube-temper-cracks',
          `${material.name} cracks in bends. Take ${material.bendAs} in its place. Annealed at the bend it can be bent too, but that is hot work, and the tube stays soft there for good, with less than half its strength: never where that matters, and never without someone competent.`,
        ),
      ];

const shallowFindings = ({ sheet }: BentTube): Finding[] =>
  sheet.bends.flatMap(({ angleDeg }, i) =>
    isUnder(angleDeg, SHALLOW_DEG)
      ? [
          warn(
            'tube-shallow-bend',
            `Bend ${i + 1} turns by ${figure(angleDeg)} degrees: under ${SHALLOW_DEG} its plane and its angle cannot be set. Move its corner, or leave it out.`,
          ),
        ]
      : [],
  );

const straightFindings = (tube: BentTube, bender: Bender | undefined): Finding[] => {
  const { clampMm, followerMm } = tube.asked.bending;
  return clampMm === 0 && followerMm === 0 && bender === undefined
    ? [unknownClamp(tube)]
    : shortStraights(tube, bender);
};

const unknownClamp = ({ sheet, diameterMm }: BentTube): Finding =>
  note(
    'tube-clamp-unknown',
    `Nobody said how much straight tube clamp and follower need (clamp, follower, or the bender in the shop file): whether they have it is not checked. The shortest straight is ${figure(Math.min(...sheet.straightsMm), 1)} mm, and a clamp takes ${figure(USUAL_CLAMP * diameterMm)} mm where it can.`,
  );

/** What a clamp holds, in diameters (a tooling maker's page: preferably 3 x OD). */
const USUAL_CLAMP = 3;

const shortStraights = ({ steps, sheet }: BentTube, bender: Bender | undefined): Finding[] => [
  ...steps.flatMap(({ bend, clampShortMm, followerShortMm }) => {
    const short = [
      ...(clampShortMm > NOISE_MM ? [`the clamp ${figure(clampShortMm, 1)} mm`] : []),
      ...(followerShortMm > NOISE_MM ? [`the follower ${figure(followerShortMm, 1)} mm`] : []),
    ];
    return short.length === 0
      ? []
      : [
          warn(
            'tube-short-straight',
            `At bend ${bend + 1} ${short.join(' and ')} short of straight tube, in the best order that there is. Move the corners apart by as much, or take a smaller radius.`,
          ),
        ];
  }),
  ...sheet.straightsMm.slice(1, -1).flatMap((mm, i) => {
    const least = bender?.leastStraight ?? 0;
    return mm < least
      ? [
          warn(
            'tube-short-straight',
            `Between bends ${i + 1} and ${i + 2} lie ${figure(mm, 1)} mm of straight tube, and ${bender?.name ?? 'the bender'} needs ${figure(least, 1)} mm. Move the corners apart by ${figure(least - mm, 1)} mm.`,
          ),
        ]
      : [];
  }),
];

const pullFindings = ({ sheet }: BentTube, bender: Bender | undefined): Finding[] =>
  bender === undefined
    ? []
    : sheet.bends.flatMap(({ pullToDeg }, i) =>
        pullToDeg <= bender.mostAngle
          ? []
          : [
              note(
                'tube-long-pull',
                `Bend ${i + 1} is pulled to ${figure(pullToDeg, 1)} degrees: on ${bender.name}, which pulls ${figure(bender.mostAngle)} at a time, that takes ${wholeUp(pullToDeg / bender.mostAngle)} pulls.`,
              ),
            ],
      );

/** Where the tube hangs lower than the bender stands. */
const floorFindings = ({ steps, diameterMm }: BentTube, bender: Bender | undefined): Finding[] => {
  if (bender?.height === undefined) return [];
  const { height, bends, name } = bender;
  return steps.flatMap(({ bend, reachMm }) => {
    // Seen from above it bends one way, and from below the other: counter is the side above or below.
    const belowMm = diameterMm / 2 + (bends === 'anticlockwise' ? reachMm.other : reachMm.counter);
    return belowMm <= height
      ? []
      : [
          warn(
            'tube-hits-floor',
            `At bend ${bend + 1} the tube hangs ${figure(belowMm, 0)} mm below the bender's plane, and ${name} has ${figure(height, 0)} mm to the floor. Turn the points round, so that it is bent from the other end, or put the bender higher.`,
          ),
        ];
  });
};

const springbackFindings = ({ asked, sheet }: BentTube): Finding[] => {
  const { isMeasured, springback, formerMm, effectiveMm } = asked.bending;
  const in90 = springback.fixedDeg + 90 * springback.share;
  if (!isMeasured)
    return [
      note(
        'tube-springback-guessed',
        `Springback is a first guess, ${figure(in90, 1)} degrees in 90: real benders give 1 to 4, and the radius opens with it. Make two test bends, of some 20 and 120 degrees, and give them as testBends or in the shop file.`,
      ),
    ];
  const most = Math.max(...sheet.bends.map(({ radiusMm }) => radiusMm));
  return effectiveMm !== undefined || most - formerMm < OPENED_MM
    ? []
    : [
        note(
          'tube-radius-opens',
          `Springback opens the radius from ${figure(formerMm, 1)} to ${figure(most, 1)} mm at most, which is allowed for. A radius that was measured on a bend, given as effectiveRadius, is better still.`,
        ),
      ];
};

/** A radius that opens by less changes no mark by what a tape shows. */
const OPENED_MM = 0.5;

import { IMPOSSIBLE, type Rule } from '../rule.ts';

/** Rules about ducts between two openings. */
export const DUCT_BETWEEN_RULES = {
  'far-end-nowhere': {
    ...IMPOSSIBLE,
    title: 'Nothing says where the far opening of a duct is.',
    reason: 'The walls have nowhere to go.',
    measured: 'whether length or farAt is given',
    mend: 'Give length, or three measured points as farAt.',
  },
  'far-end-given-twice': {
    ...IMPOSSIBLE,
    title: 'The place of the far opening is given in two ways.',
    reason: 'Nobody knows which of them is right.',
    measured: 'farAt beside length, offsets and turns',
    mend: 'Leave out the one or the other.',
  },
  'plane-unknown': {
    ...IMPOSSIBLE,
    title: 'Measured points do not fix the plane of an opening.',
    reason: 'Two points, or three in a line, leave it free to turn.',
    measured: 'the number of points and how far they are from a line',
    mend: 'Measure three points that make a triangle.',
  },
  'end-too-many-corners': {
    ...IMPOSSIBLE,
    title: 'An opening has more corners than anybody folds walls for.',
    reason: 'Each is a fold or two.',
    measured: 'the sides and rounds of the outline',
    mend: 'Leave out corners that matter little.',
  },
  'openings-cross': {
    ...IMPOSSIBLE,
    title: 'The far opening of a duct reaches through the plane of the near one.',
    reason: 'No wall goes straight from the one to the other there.',
    measured: 'how far the nearest corner lies out of the plane',
    mend: 'Give more length, or turn the far opening less.',
  },
  'openings-face': {
    ...IMPOSSIBLE,
    title: 'The plane of the far opening cuts through the near one.',
    reason: 'The far opening faces back to where the walls come from.',
    measured: 'how far the nearest corner of the near opening lies behind the plane',
    mend: 'Move it the way it faces, or turn it less.',
  },
  'duct-walls-cross': {
    ...IMPOSSIBLE,
    title: 'Walls of a duct run through each other.',
    reason: 'The openings lie so that no duct of flat walls goes from the one to the other.',
    measured: 'whether an edge of one wall goes through another',
    mend: 'Turn the openings to each other, or give more length.',
  },
  'folds-too-close': {
    ...IMPOSSIBLE,
    title: 'Two folds of a duct stand closer than their bends are wide.',
    reason: 'Nothing flat is left between them.',
    measured: 'the widest place between the folds against the bends on either side',
    mend: 'Give a smaller radius, or fewer divisions.',
    source: 'plain geometry: half a bend is r A / 2 long',
  },
  'slight-folds': {
    severities: ['note'],
    title: 'Folds of a duct turn by very little.',
    reason: 'The sheet gives that much by hand.',
    measured: 'angles of folds against 2 degrees',
    mend: 'Nothing needs to be done.',
    source: 'common practice',
  },
  'diffuser-wide': {
    severities: ['note'],
    title: 'A duct widens so fast that the air leaves its walls.',
    reason: 'It eddies, and pressure is lost.',
    measured: 'the whole angle of a cone that widens as fast, against 14 degrees',
    mend: 'Give more length, or let it widen less.',
    source:
      'a review citing several studies: conical diffusers stay attached up to 7 degrees of half angle',
  },
  throat: {
    severities: ['note'],
    title: 'A duct is narrower on its way than at both its ends.',
    reason: 'The walls cut the corner between openings that are turned to each other.',
    measured: 'the least section against the ends',
    mend: 'Give more length, or turn the openings.',
    source: 'plain geometry',
  },
  'air-fast': {
    severities: ['note'],
    title: 'The air in a duct goes fast.',
    reason: 'It is heard, and costs pressure.',
    measured: 'its speed at the least section against 12 m/s',
    mend: 'Give a larger opening, or less air.',
    source:
      'common practice for ducts near people; 8000 ft/min for combustion air (installation handbook of an engine maker)',
  },
} satisfies Record<string, Rule>;

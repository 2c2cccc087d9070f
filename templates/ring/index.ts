import {
  asBoltHole,
  assemble,
  circle,
  cornerInput,
  cornerMm,
  defineTemplate,
  diameterWish,
  edge,
  figure,
  isOver,
  isPossible,
  isUnder,
  just,
  meeting,
  note,
  orLess,
  orTry,
  placeHoles,
  rectangle,
  refuse,
  roundFreeCorners,
  wish,
  within,
  without,
} from '../../src/template.ts';
import type { Cutout, Feature, Finding, Loop, Wish } from '../../src/template.ts';
import { inputs, type Ring } from './inputs.ts';

/** A flat flange or blanking plate; everything is measured from its centre. */
export default defineTemplate({
  family: 'ring',
  summary: 'Flange ring or blanking plate with a bolt circle, for fillers, senders and outlets.',
  sketch: String.raw`
     shape round                       shape square
        .-----.                     +----------------+ ^
     .'  o   o  '.                  |  o          o  | |
    /    .---.    \                 |     .----.     | |
   | o  | inner| o |  <- boltCircle |    ( inner )   | | outerHeight
    \    '---'    /                 |     '----'     | |
     '.  o   o  .'                  |  o          o  | |
        '-----'                     +----------------+ v
     |<- outer ->|                   <---- outer --->
  The first bolt hole is boltStart degrees counter-clockwise from
  the right.
`,
  inputs,
  when: { cornerRadius: { shape: ['square'] }, cornerChamfer: { shape: ['square'] } },
  cautions: ['sharp-edges'],
  examples: [
    {
      title: 'Flange under the filler of the spray tank',
      inputs: {
        name: 'filler-flange',
        outer: 120,
        inner: 62,
        bolts: 6,
        boltCircle: 92,
        material: '1.4301',
        thickness: 3,
      },
    },
    {
      title: 'Square blanking plate over the old lamp opening, with a cable hole beside the middle',
      inputs: {
        name: 'lamp-blank',
        shape: 'square',
        outer: 90,
        bolts: 4,
        boltCircle: 100,
        boltStart: 45,
        boltHole: 6.6,
        cornerRadius: 10,
        material: '5754-h111',
        thickness: 2,
        holes: '-20,0,12.5',
      },
    },
    {
      title:
        'Odd on purpose: sender flange with five bolts turned out of square, a locating hole and an oblong plate',
      inputs: {
        name: 'sender-flange',
        shape: 'square',
        outer: '4in',
        outerHeight: 88,
        inner: 40,
        bolts: 5,
        boltCircle: 56,
        boltStart: 30,
        cornerRadius: 15,
        holes: '0,40,4; 0,-40,5x9@90',
        material: 'dc01',
        thickness: 3,
        hand: 'both',
      },
    },
  ],
  build: (v) => {
    const findings = impossible(v);
    if (findings.length > 0) return { findings };
    const shape =
      v.shape === 'round'
        ? { outline: circle([0, 0], v.outer / 2), findings: [] }
        : squareOutline(v);
    return {
      part: assemble(v, {
        root: 'flange',
        panels: [{ id: 'flange', outline: shape.outline, cutouts: cutoutsOf(v) }],
        folds: [],
        wishes: wishesOf(v),
      }),
      findings: [...shape.findings, ...lands(v)],
    };
  },
});

/** What the inputs mean on the ring. */
const wishesOf = (v: Ring): Wish[] => {
  const hole = (from: string): Feature => ({ kind: 'hole', panel: 'flange', from });
  const square = [
    wish('outer', v.outer, edge('flange', 'left'), edge('flange', 'right')),
    wish('outerHeight', heightOf(v), edge('flange', 'down'), edge('flange', 'up')),
  ];
  return [
    ...(v.shape === 'round' ? [diameterWish('outer', v.outer, 'flange', null)] : square),
    ...(v.inner > 0 ? [diameterWish('inner', v.inner, 'flange', 'inner')] : []),
    ...(v.bolts > 0 ? [diameterWish('boltHole', v.boltHole, 'flange', 'bolt 1')] : []),
    // Bolts opposite each other are the circle apart; of an odd number of them neighbours are a
    // chord of it apart.
    ...(v.bolts > 1 && v.bolts % 2 === 0
      ? [wish('boltCircle', v.boltCircle, hole('bolt 1'), hole(`bolt ${v.bolts / 2 + 1}`))]
      : []),
    ...(v.bolts > 1 && v.bolts % 2 === 1
      ? [
          wish(
            'boltCircle, between neighbours',
            v.boltCircle * Math.sin(Math.PI / v.bolts),
            hole('bolt 1'),
            hole('bolt 2'),
          ),
        ]
      : []),
  ];
};

const heightOf = (v: Ring): number => v.outerHeight ?? v.outer;

/**
 * The largest circle round the centre that stays on the plate: the diameter of a round one, the
 * short side of others.
 */
const innermost = (v: Ring): number =>
  v.shape === 'round' ? v.outer : Math.min(v.outer, heightOf(v));

/** No web of metal beside a hole is cut narrower than the cutter's slot. */
const webMm = (v: Ring): number => v.leastSlotMm;

function impossible(v: Ring): Finding[] {
  const inner = innerFindings(v);
  return v.bolts === 0 || inner.length > 0 ? inner : boltFindings(v);
}

function innerFindings(v: Ring): Finding[] {
  const findings: Finding[] = [];
  if (v.shape === 'round' && v.outerHeight !== undefined && v.outerHeight !== v.outer) {
    findings.push(
      refuse(
        'round-height',
        ['outerHeight', 'shape'],
        `outerHeight ${figure(v.outerHeight)} is for a square plate, and shape is round`,
        [without('outerHeight'), just('shape', 'square')],
      ),
    );
  }
  const most = innermost(v) - 2 * webMm(v);
  if (v.inner > 0 && isOver(v.inner, most)) {
    const across = heightOf(v) < v.outer ? 'outerHeight' : 'outer';
    findings.push(
      orTry(
        refuse(
          'inner-too-big',
          ['inner', across],
          `inner ${figure(v.inner)} leaves no rim within ${across} ${figure(innermost(v))}`,
          [most > 0 ? orLess('inner', most) : just('inner', 0)],
        ),
        across,
      ),
    );
  }
  return findings;
}

/**
 * Bolt holes clear of the hole in the middle, of each other and of the edge. A circle that suits
 * all three is told, where there is one.
 */
function boltFindings(v: Ring): Finding[] {
  const web = webMm(v);
  const least = v.inner > 0 ? v.inner + v.boltHole + 2 * web : 0;
  const sine = v.bolts > 1 ? Math.sin(Math.PI / v.bolts) : Infinity;
  const apart = (v.boltHole + web) / sine;
  const circles = within('boltCircle', Math.max(least, apart), largestBoltCircle(v));
  const mends = isPossible(circles) ? [circles] : [];
  const circle = `boltCircle ${figure(v.boltCircle)}`;
  if (isUnder(v.boltCircle, least)) {
    return [
      orTry(
        refuse(
          'bolt-circle-too-small',
          ['boltCircle', 'inner'],
          `${circle} with boltHole ${figure(v.boltHole)} runs into inner ${figure(v.inner)}`,
          mends,
        ),
        'inner',
        'boltHole',
        'leastSlot',
      ),
    ];
  }
  if (isUnder(v.boltCircle, apart)) {
    const share = (v.boltHole + web) / v.boltCircle;
    const fewer = share > 1 ? 1 : Math.floor(Math.PI / Math.asin(share) + 1e-9);
    return [
      orTry(
        refuse(
          'bolts-too-close',
          ['bolts', 'boltHole', 'boltCircle'],
          `bolts ${v.bolts} of boltHole ${figure(v.boltHole)} meet on ${circle}`,
          [...mends, orLess('bolts', fewer, 0)],
        ),
        'boltHole',
        'leastSlot',
      ),
    ];
  }
  return isUnder(rimMm(v), web)
    ? [
        orTry(
          refuse(
            'bolt-circle-too-big',
            ['boltCircle', 'boltHole', 'outer'],
            `${circle} with boltHole ${figure(v.boltHole)} runs off the plate of outer ${figure(v.outer)}`,
            mends,
            'make the plate larger',
          ),
          'outer',
          'outerHeight',
          'boltHole',
          cornerInput(v),
          'leastSlot',
        ),
      ]
    : [];
}

/** All bolts go into the one part that the ring lies on. */
const boltUse = (v: Ring): Pick<Cutout, 'use'> => {
  const { use } = meeting(
    asBoltHole({ shape: { kind: 'round', diameterMm: v.boltHole } }),
    'flange',
  );
  return use === undefined ? {} : { use };
};

/** Angles of the bolt holes, degrees. */
const boltAngles = (v: Ring): number[] =>
  Array.from({ length: v.bolts }, (_, i) => v.boltStart + (360 * i) / v.bolts);

const boltCentre = (v: Ring, deg: number): readonly [number, number] => {
  const a = (deg * Math.PI) / 180;
  return [(v.boltCircle / 2) * Math.cos(a), (v.boltCircle / 2) * Math.sin(a)];
};

/** The least metal outside a bolt hole. */
function rimMm(v: Ring): number {
  if (v.shape === 'round') return (v.outer - v.boltCircle - v.boltHole) / 2;
  const spare = boltAngles(v).map((deg) => cornerRimMm(v, boltCentre(v, deg)));
  return Math.min(...spare) - v.boltHole / 2;
}

/**
 * The metal outside the holes shrinks steadily as the circle grows, so the circle is found by
 * halving.
 */
function largestBoltCircle(v: Ring): number {
  let [fits, tooBig] = [0, Math.hypot(v.outer, heightOf(v))];
  for (let i = 0; i < 60; i++) {
    const boltCircle = (fits + tooBig) / 2;
    if (rimMm({ ...v, boltCircle }) >= webMm(v)) fits = boltCircle;
    else tooBig = boltCircle;
  }
  return fits;
}

/**
 * From a point to the edge of a plate: to its sides, or to the arc or the chamfer where it lies in
 * a corner.
 */
function cornerRimMm(v: Ring, [x, y]: readonly [number, number]): number {
  const r = v.cornerRadiusMm;
  const [dx, dy] = [v.outer / 2 - Math.abs(x), heightOf(v) / 2 - Math.abs(y)];
  if (v.cornerChamferMm > 0) return Math.min(dx, dy, (dx + dy - v.cornerChamferMm) / Math.SQRT2);
  return dx < r && dy < r ? r - Math.hypot(r - dx, r - dy) : Math.min(dx, dy);
}

function cutoutsOf(v: Ring): Cutout[] {
  const inner: Cutout[] =
    v.inner > 0 ? [{ kind: 'round', from: 'inner', centre: [0, 0], diameterMm: v.inner }] : [];
  const bolts = boltAngles(v).map((deg, i): Cutout => ({
    kind: 'round',
    from: `bolt ${i + 1}`,
    inputs: ['boltCircle'],
    centre: boltCentre(v, deg),
    diameterMm: v.boltHole,
    ...boltUse(v),
  }));
  return [
    ...inner,
    ...bolts,
    ...placeHoles('holes', v.holes, { origin: [0, 0], across: [0, 1], along: [1, 0] }),
  ];
}

function squareOutline(v: Ring): { readonly outline: Loop; readonly findings: readonly Finding[] } {
  const [w, h] = [v.outer, heightOf(v)];
  return roundFreeCorners('the plate', rectangle(-w / 2, -h / 2, w, h), [0, 1, 2, 3], v);
}

/** What the user checks against the gasket and the bolt heads. */
function lands(v: Ring): Finding[] {
  if (v.bolts === 0) return [];
  const inside =
    v.inner > 0 ? `, ${figure((v.boltCircle - v.boltHole - v.inner) / 2)} inside it` : '';
  const between =
    v.bolts > 1
      ? `; neighbouring bolts are ${figure(v.boltCircle * Math.sin(Math.PI / v.bolts))} apart, middle to middle`
      : '';
  const round =
    v.shape === 'round' && cornerMm(v) > 0
      ? [note('corner-radius-unused', `A round plate has no corners for ${cornerInput(v)}.`)]
      : [];
  return [
    note(
      'metal-beside-bolts',
      `Metal beside the bolt holes: ${figure(rimMm(v))} outside${inside}${between}.`,
    ),
    ...round,
  ];
}

import {
  advise,
  asBoltHole,
  defineTemplate,
  diameterWish,
  edge,
  faceOf,
  figure,
  FOLD_AXES,
  isUnder,
  just,
  meeting,
  note,
  orLess,
  orMore,
  orTry,
  refuse,
  stripPart,
  wish,
  without,
} from '../../src/template.ts';
import type { Feature, Finding, HoleSpec, Part } from '../../src/template.ts';
import { inputs, type Strap } from './inputs.ts';

/**
 * A strap over a tank or a bottle, with a foot on either side. What it holds gives the sizes, not
 * the strap.
 */
export default defineTemplate({
  family: 'strap',
  summary: 'Strap over a box or a round, with feet that are pulled down by bolts.',
  sketch: String.raw`
  over a box                         over a round
      _____________                       _______
     |  _________  |  ^                 .' _____ '.      ^
     | |  across | |  |               .' .'     '. '.    |
     | |         | |  |               | |  across | |    |
     | |         | | height           | |         | |  height
  ___| |         | |___               | |         | |    |
  |____|         |____|  v         ___| |         | |___
     |             |               |____|         |____|   v
     +-boltCentres-+
  The rubber lies between; the feet stand pullUp over their mounting.
`,
  inputs,
  cautions: ['sharp-edges', 'load-bearing'],
  examples: [
    {
      title: 'Strap over the battery of the cart',
      inputs: {
        name: 'battery-strap',
        over: 'box',
        across: 175,
        height: 190,
        boltCentres: 235,
        width: 30,
        material: 's235',
        thickness: 2,
        cornerRadius: 6,
      },
    },
    {
      title: 'Strap over the round spray tank, in its cradle',
      inputs: {
        name: 'spray-tank-strap',
        over: 'round',
        across: 300,
        height: 320,
        rubber: 4,
        boltCentres: 370,
        width: 40,
        pullUp: 5,
        boltHole: 11,
        beyond: 22,
        material: '1.4301',
        thickness: 2,
        quantity: 2,
      },
    },
    {
      title:
        'Odd on purpose: a thick strap over a slim bottle, plain holes, a tag hole in one side',
      inputs: {
        name: 'bottle-strap',
        over: 'round',
        across: '3in',
        height: 90,
        rubber: 0,
        boltCentres: 130,
        width: 25,
        pullUp: 0,
        boltHole: 6.6,
        beyond: 14,
        material: '5754-h111',
        thickness: 3,
        holesA: '30,12.5,5',
        hand: 'both',
      },
    },
  ],
  build: (v) => {
    const findings = impossible(v);
    if (findings.length > 0) return { findings };
    const footMm = boltFromSideMm(v) + v.beyond;
    const foot = (side: 'A' | 'B') => ({
      id: `foot ${side}`,
      lengthMm: footMm,
      holes: ['boltHole', [boltSlot(v)]] as const,
    });
    const sideMm = v.height + v.rubber - v.pullUp + v.thicknessMm;
    const sideA = {
      id: 'side A',
      lengthMm: sideMm,
      holes: ['holesA', v.holesA],
      holesFrom: 'below',
    } as const;
    const sideB = {
      id: 'side B',
      lengthMm: sideMm,
      holes: ['holesB', v.holesB],
      holesFrom: 'above',
    } as const;
    const outside = { ...v, measure: 'outside' } as const;
    const up = { angleDeg: 90, direction: 'up' } as const;
    if (v.over === 'round') {
      const wrap = { angleDeg: 180, direction: 'down' } as const;
      const built = stripPart(
        outside,
        v.width,
        [foot('A'), sideA, sideB, foot('B')],
        [up, wrap, up],
        'side A',
      );
      return {
        ...built,
        ...(built.part !== undefined && { part: withWishes(v, rolled(v, built.part)) }),
        findings: [...(built.findings ?? []), ...said(v)],
      };
    }
    const down = { angleDeg: 90, direction: 'down' } as const;
    const crown = {
      id: 'crown',
      lengthMm: insideMm(v) + 2 * v.thicknessMm,
      holes: ['holesCrown', v.holesCrown],
    } as const;
    const built = stripPart(
      outside,
      v.width,
      [foot('A'), sideA, crown, sideB, foot('B')],
      [up, down, down, up],
      'crown',
    );
    return {
      ...built,
      ...(built.part !== undefined && { part: withWishes(v, built.part) }),
      findings: [...(built.findings ?? []), ...said(v)],
    };
  },
});

/**
 * What the inputs mean on the strap beside what is stated of every strip: what it goes over, and
 * where it is bolted down.
 */
const withWishes = (v: Strap, part: Part): Part => {
  const [one, other] = ['A', 'B'].map((s): Feature => faceOf(`side ${s}`, 'down', 'inside')) as [
    Feature,
    Feature,
  ];
  const bolts = ['A', 'B'].map((s): Feature => ({
    kind: 'hole',
    panel: `foot ${s}`,
    from: 'boltHole 1',
  })) as [Feature, Feature];
  return {
    ...part,
    wishes: [
      wish('across + 2 rubber', insideMm(v), one, other),
      wish('boltCentres', v.boltCentres, ...bolts),
      ...(v.pullUp > 0
        ? []
        : ['A', 'B'].map((s) => diameterWish('boltHole', v.boltHole, `foot ${s}`, 'boltHole 1'))),
      wish('beyond', v.beyond, bolts[0], edge('foot A', 'down')),
      wish('beyond', v.beyond, bolts[1], edge('foot B', 'up')),
      ...(v.over === 'box'
        ? [
            wish(
              'height + rubber - pullUp',
              v.height + v.rubber - v.pullUp,
              faceOf('crown', 'down', 'inside'),
              faceOf('foot A', 'up', 'outside'),
            ),
          ]
        : []),
      ...(part.wishes ?? []).filter((w) => !w.input.startsWith('boltHole')),
    ],
  };
};

/** Between the inside faces of the two sides. */
const insideMm = (v: Strap): number => v.across + 2 * v.rubber;

/**
 * From the inside face of a side, which is the mould line of its foot, to the centre of the bolt.
 */
const boltFromSideMm = (v: Strap): number => (v.boltCentres - insideMm(v)) / 2;

const boltSlot = (v: Strap): HoleSpec => ({
  acrossMm: boltFromSideMm(v),
  alongMm: v.width / 2,
  number: '1',
  axes: FOLD_AXES,
  ...meeting(
    asBoltHole({
      shape:
        v.pullUp > 0
          ? { kind: 'slot', widthMm: v.boltHole, lengthMm: v.boltHole + v.pullUp, turnDeg: 90 }
          : { kind: 'round', diameterMm: v.boltHole },
    }),
    'mounting',
  ),
});

/**
 * The wrap is rolled, not folded: its radius is that of the rubber, and the middle of the sheet
 * keeps its length.
 */
const rolled = (v: Strap, part: Part): Part => ({
  ...part,
  folds: part.folds.map((fold) =>
    fold.angleDeg === 180
      ? { ...fold, insideRadiusMm: insideMm(v) / 2, rule: { id: 'k', k: 0.5 } }
      : fold,
  ),
});

function impossible(v: Strap): Finding[] {
  const findings: Finding[] = [];
  const { insideRadiusMm: r, thicknessMm: t } = v;
  const half = (v.boltHole + v.pullUp) / 2;
  // A side holds the bend of its foot and that of the crown, or ends at the middle of the round.
  const top = v.over === 'box' ? r + t : insideMm(v) / 2 + t;
  const height = top + r + v.pullUp - v.rubber + 1;
  if (isUnder(v.height, height)) {
    const what =
      v.over === 'box'
        ? 'leaves the sides no straight metal between their bends'
        : `reaches no higher than the middle of a round of across ${figure(v.across)} and the bends of the feet under it`;
    findings.push(
      orTry(
        refuse(
          'strap-too-low',
          ['height', ...(v.over === 'box' ? [] : ['across'])],
          `height ${figure(v.height)} ${what}`,
          [orMore('height', height)],
        ),
        'radius',
        'pullUp',
      ),
    );
  }
  const crown = 2 * r - 2 * v.rubber + 1;
  if (v.over === 'box' && isUnder(v.across, crown)) {
    findings.push(
      orTry(
        refuse(
          'crown-too-narrow',
          ['across'],
          `across ${figure(v.across)} leaves the crown no straight metal between its bends`,
          [orMore('across', crown)],
        ),
        'radius',
        'rubber',
      ),
    );
  }
  const centres = insideMm(v) + 2 * (r + 2 * t + half);
  if (isUnder(v.boltCentres, centres)) {
    findings.push(
      orTry(
        refuse(
          'bolts-too-close',
          ['boltCentres'],
          `boltCentres ${figure(v.boltCentres)} puts the slots into the bends of the feet`,
          [orMore('boltCentres', centres)],
        ),
        'across',
        'boltHole',
      ),
    );
  }
  if (isUnder(v.beyond, half + t)) {
    findings.push(
      orTry(
        refuse(
          'foot-too-short',
          ['beyond'],
          `beyond ${figure(v.beyond)} leaves no metal between the slot and the end of the foot`,
          [orMore('beyond', half + t)],
        ),
        'boltHole',
        'pullUp',
      ),
    );
  }
  if (isUnder(v.width, v.boltHole + 2 * t)) {
    findings.push(
      orTry(
        refuse(
          'strap-too-narrow',
          ['width', 'boltHole'],
          `width ${figure(v.width)} leaves no metal beside slots of boltHole ${figure(v.boltHole)}`,
          [orMore('width', v.boltHole + 2 * t)],
        ),
        'boltHole',
      ),
    );
  }
  if (v.over === 'round' && v.holesCrown.length > 0) {
    findings.push(
      refuse(
        'no-crown',
        ['holesCrown', 'over'],
        'holesCrown is for a strap over a box, and over round leaves no crown',
        [without('holesCrown'), just('over', 'box')],
      ),
    );
  }
  return findings;
}

/** What the user should know of the sizes that were worked out. */
function said(v: Strap): Finding[] {
  const findings: Finding[] = [];
  if (v.pullUp > 0) {
    findings.push(
      note(
        'strap-pull-up',
        `The feet stand ${figure(v.pullUp)} mm over their mounting until the bolts pull them down; the slots are ${figure(v.boltHole)} x ${figure(v.boltHole + v.pullUp)}.`,
      ),
    );
  }
  if (v.measure === 'inside') {
    findings.push(
      note(
        'strap-measure',
        'measure changes nothing on a strap: its sizes are those of what it holds.',
      ),
    );
  }
  // The arc of the bend stands off the corner of its inside faces by r (sqrt 2 - 1), along the
  // diagonal, and the sharp corner of the box by rubber x sqrt 2.
  const bites = v.insideRadiusMm * (1 - Math.SQRT1_2);
  if (v.over === 'box' && isUnder(v.rubber, bites)) {
    const mends = [orMore('rubber', bites), orLess('radius', v.rubber / (1 - Math.SQRT1_2))];
    findings.push(
      advise(
        'strap-corner',
        ['radius', 'rubber'],
        `A bend of radius ${figure(v.insideRadiusMm)} over rubber ${figure(v.rubber)} sits on the sharp corner of the box before it sits on its faces`,
        mends,
        'round the corner of the box',
      ),
    );
  }
  return findings;
}

import * as z from 'zod';
import { RULES } from '../../src/use/rules.ts';
import { FIT } from './fit-contract.ts';

const unit = z.enum(['mm', 'deg']);
const point = z.tuple([z.number(), z.number()]);

const datumLine = z.strictObject({
  kind: z.enum(['edge', 'square', 'hole', 'rim']),
  name: z.string(),
  at: point,
  towards: point,
});

const of = z.int();
const panel = z.string();
const space = z.tuple([z.number(), z.number(), z.number()]);
const rolled = {
  kind: z.literal('rolled'),
  frame: z.strictObject({ at: point, round: point, axis: point }),
  shape: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('cylinder'), radiusMm: z.number() }),
    z.strictObject({
      kind: z.literal('cone'),
      radiusMm: z.number(),
      heightMm: z.number(),
      offsetMm: z.number(),
      startDeg: z.number(),
    }),
  ]),
  from: point,
  to: point,
};
const place = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('edge'), panel, of, from: point, to: point }),
  z.strictObject({
    kind: z.literal('mould'),
    panel,
    fold: z.string(),
    measure: z.enum(['outside', 'inside']).optional(),
  }),
  z.strictObject({ kind: z.literal('face'), panel, heightMm: z.number() }),
  z.strictObject({ kind: z.literal('centre'), panel, of }),
  z.strictObject({ kind: z.literal('mark'), panel, at: point }),
  z.strictObject({ kind: z.literal('corner'), panel, at: point }),
  z.strictObject({ kind: z.literal('diameter'), of }),
  z.strictObject({ kind: z.literal('radius'), of, at: point }),
  z.strictObject({ kind: z.enum(['length', 'width']), of, from: point, to: point }),
  z.strictObject({ kind: z.literal('line'), fold: z.string() }),
  z.strictObject({ kind: z.literal('cut'), of }),
  z.discriminatedUnion('what', [
    z.strictObject({ ...rolled, what: z.literal('apart') }),
    z.strictObject({ ...rolled, what: z.literal('plane'), at: space, normal: space }),
  ]),
]);

/**
 * The names of a part in `make --json`, written a second time: no more, no fewer, no other types.
 */
const PART = z.strictObject({
  name: z.string(),
  family: z.string(),
  piece: z.string().nullable(),
  hand: z.enum(['left', 'right']),
  quantity: z.int(),
  material: z.strictObject({ id: z.string(), thicknessMm: z.number(), densityKgM3: z.number() }),
  rule: z.string(),
  blank: z.strictObject({
    widthMm: z.number(),
    heightMm: z.number(),
    areaMm2: z.number(),
    cutLengthMm: z.number(),
    pierces: z.int(),
    massKg: z.number(),
    datum: z.strictObject({ x: datumLine, y: datumLine }),
    holes: z.array(
      z.strictObject({
        name: z.string(),
        kind: z.string(),
        size: z.string(),
        panel: z.string(),
        inputs: z.array(z.string()),
        at: point,
        fromDatum: point,
      }),
    ),
  }),
  bends: z.array(
    z.strictObject({
      id: z.string(),
      angleDeg: z.number(),
      direction: z.enum(['up', 'down']),
      insideRadiusMm: z.number(),
      kFactor: z.number(),
      allowanceMm: z.number(),
      setbackMm: z.number(),
      deductionMm: z.number(),
      measure: z.enum(['outside', 'inside']),
      rule: z.string(),
      centreLine: z.tuple([point, point]),
    }),
  ),
  folded: z.strictObject({ sizeMm: z.tuple([z.number(), z.number(), z.number()]) }),
  foldPlan: z
    .strictObject({
      machine: z.string(),
      feasible: z.boolean().nullable(),
      steps: z.array(
        z.strictObject({
          bend: z.string(),
          clampedSide: z.string(),
          flip: z.boolean(),
          turnDeg: z.number(),
          stopAtDeg: z.number(),
          stop: z
            .strictObject({ offsetDeg: z.number(), basis: z.enum(['measured', 'assumed']) })
            .optional(),
          sightLineMm: z.number().nullable(),
          from: z.string(),
          nose: z
            .strictObject({
              radiusMm: z.number(),
              gapMm: z.number(),
              basis: z.enum(['measured', 'assumed']),
            })
            .nullable(),
          fingersMm: z.array(z.number()),
          note: z.string().nullable(),
          way: z.enum([
            'machine',
            'on packers',
            'off the end',
            'short die',
            'rest by hand',
            'over a block',
            'along slots',
            'round a former',
            'in rolls',
            'bumped',
            'by eye',
          ]),
          byHandDeg: z.number(),
          packerMm: z.number().optional(),
          tight: z
            .array(
              z.strictObject({ panel: z.string(), touches: z.string(), springsMm: z.number() }),
            )
            .optional(),
          inTwo: z
            .strictObject({
              stroke: z.union([z.literal(1), z.literal(2)]),
              keepsDeg: z.number(),
              otherStep: z.int(),
            })
            .optional(),
          bump: z
            .strictObject({
              hits: z.int(),
              angleDeg: z.number(),
              pitchMm: z.number(),
              firstMm: z.number(),
              standOffMm: z.number(),
              shortMm: z.number(),
              linesMm: z.array(z.number()),
              isClear: z.boolean().nullable(),
              doubts: z.array(z.string()),
            })
            .optional(),
          card: z.strictObject({
            faceUp: z.enum(['upper', 'lower']),
            mark: z.strictObject({ at: point, from: point }).nullable(),
            swungSide: z.string(),
            flipAbout: z.enum(['along', 'across']).nullable(),
            turnTo: z.enum(['left', 'right']).nullable(),
            keepsDeg: z.number(),
            barFitted: z.boolean().nullable(),
            tools: z.array(
              z.strictObject({ fromMm: z.number(), widthsMm: z.array(z.number()).min(1) }),
            ),
            clampedKg: z.number(),
            swungKg: z.number(),
            hand: z.enum(['left', 'right', 'both']),
            takeOff: z.enum(['to the front', 'along the machine', 'not at all']).nullable(),
            checks: z.array(
              z.strictObject({
                kind: z.enum(['height', 'over', 'depth', 'angle']),
                from: z.string(),
                to: z.string(),
                value: z.number(),
                unit: z.enum(['mm', 'deg']),
                plusMinus: z.number().nullable(),
              }),
            ),
          }),
        }),
      ),
      blockedBy: z.array(
        z.strictObject({
          bend: z.string(),
          after: z.array(z.string()),
          reason: z.string(),
          touches: z.string().nullable(),
          atDeg: z.number().nullable(),
          suggestion: z.string().nullable(),
        }),
      ),
      blockEachOther: z.array(z.string()),
      restsOn: z.strictObject({ measured: z.array(z.string()), assumed: z.array(z.string()) }),
      barTakenOff: z.literal(true).optional(),
    })
    .nullable(),
  proof: z.strictObject({
    worstMm: z.number(),
    measures: z.array(
      z.strictObject({
        name: z.string(),
        holes: z
          .array(z.string().regex(/^h[1-9]\d*$/))
          .min(1)
          .optional(),
        called: z.string().min(1).optional(),
        askedMm: z.number(),
        foundMm: z.number(),
        between: z.array(place).min(1),
        heightMm: z.number().optional(),
        atLeast: z.literal(true).optional(),
        input: z.string().optional(),
      }),
    ),
    angles: z.array(
      z.strictObject({
        name: z.string(),
        askedDeg: z.number(),
        foundDeg: z.number(),
        fold: z.string().nullable(),
        panels: z.tuple([panel, panel]).optional(),
        input: z.string().optional(),
      }),
    ),
    made: z.strictObject({
      measure: z.enum(['outside', 'inside']),
      kerfMm: z.number(),
      panels: z.array(z.strictObject({ name: z.string(), at: point })),
      cut: z.strictObject({
        outline: z.array(z.tuple([z.number(), z.number(), z.number()])),
        holes: z.array(z.array(z.tuple([z.number(), z.number(), z.number()]))),
      }),
      file: z.strictObject({
        unit: z.enum(['mm', 'inch']),
        statesUnit: z.boolean(),
        foldLines: z.boolean(),
      }),
    }),
  }),
  fit: FIT.nullable(),
  findings: z.array(
    z.strictObject({
      rule: z.string().refine((rule) => RULES.has(rule)),
      severity: z.enum(['stop', 'warn', 'note']),
      message: z.string(),
      panel: z.string().optional(),
      at: point.optional(),
      measured: z.strictObject({ value: z.number(), unit }).optional(),
      limit: z
        .union([
          z.strictObject({ atLeast: z.number(), atMost: z.number().optional(), unit }),
          z.strictObject({ atMost: z.number(), unit }),
        ])
        .optional(),
      inputs: z.array(z.string()).min(1).optional(),
      mends: z
        .array(
          z.union([
            z.strictObject({
              input: z.string(),
              atLeast: z.number(),
              atMost: z.number().optional(),
            }),
            z.strictObject({ input: z.string(), atMost: z.number() }),
            z.strictObject({
              input: z.string(),
              value: z.union([z.number(), z.string(), z.null()]),
            }),
          ]),
        )
        .min(1)
        .optional(),
    }),
  ),
  files: z.array(z.string()),
});

const triple = z.tuple([z.number(), z.number(), z.number()]);

/** The names of a tube, which has no blank: no more, no fewer, no other types. */
const TUBE = PART.extend({
  rule: z.literal('none'),
  blank: z.null(),
  bends: z.tuple([]),
  folded: z.null(),
  foldPlan: z.null(),
  proof: z.null(),
  fit: z.null(),
  tube: z.strictObject({
    cutLengthMm: z.number(),
    diameterMm: z.number(),
    wallMm: z.number(),
    bends: z.array(
      z.strictObject({
        angleDeg: z.number(),
        rotateDeg: z.number(),
        startMm: z.number(),
        pullToDeg: z.number(),
        radiusMm: z.number(),
      }),
    ),
    endsMm: z.tuple([triple, triple]),
  }),
  bendSheet: z.strictObject({
    straightsMm: z.array(z.number()),
    finishedMm: z.number(),
    wasteMm: z.strictObject({ lead: z.number(), tail: z.number() }),
    massKg: z.number(),
    steps: z.array(
      z.strictObject({
        bend: z.int(),
        clampAt: z.enum(['lead', 'tail']),
        endForEnd: z.boolean(),
        markMm: z.number(),
        turnDeg: z.number(),
        checkMm: z.number(),
      }),
    ),
    bender: z.string().nullable(),
    springback: z.enum(['measured', 'guessed']),
    proofMm: z.number(),
    endLikelyOffMm: z.number(),
  }),
});

const END = z.strictObject({
  curve: z.array(z.tuple([z.number(), z.number()])),
  node: z.number(),
  wrapMm: z.number(),
});

/** The names of a coped tube. */
const COPED = TUBE.omit({ bendSheet: true }).extend({ cope: END, otherCope: END.optional() });

/** The names in the reports of families. */
const REPORT = z.strictObject({
  name: z.string(),
  figures: z.array(
    z.strictObject({
      name: z.string(),
      value: z.number(),
      unit: z.string(),
      about: z.string().optional(),
    }),
  ),
  tables: z.array(
    z.strictObject({
      title: z.string(),
      columns: z.array(z.strictObject({ name: z.string(), unit: z.string() })),
      rows: z.array(z.array(z.number())),
    }),
  ),
});

/** The output of `make --json` of a family of sheet. */
export const MADE = z.strictObject({
  parts: z.array(PART),
  reports: z.array(REPORT),
  lists: z.array(
    z.strictObject({
      input: z.string(),
      count: z.int().positive(),
      what: z.string(),
      endsOpen: z.boolean(),
    }),
  ),
});

/** The same of a family of tubes. */
export const MADE_TUBES = MADE.extend({ parts: z.array(TUBE) });

/** The same of a family of coped tubes. */
export const MADE_COPED = MADE.extend({ parts: z.array(COPED) });

/** The output of `job --json`. */
export const JOB = z.strictObject({
  job: z.string(),
  folder: z.string(),
  parts: z.array(
    z.strictObject({
      name: z.string(),
      folder: z.string(),
      status: z.enum(['made', 'unchanged', 'refused']),
      reason: z.string().nullable(),
      parts: z.array(z.union([PART, TUBE, COPED])),
      reports: z.array(REPORT),
    }),
  ),
  summary: z.strictObject({
    made: z.int(),
    unchanged: z.int(),
    refused: z.int(),
    warnings: z.int(),
    silenced: z.int(),
    removed: z.int(),
  }),
  left: z.array(z.string()),
});

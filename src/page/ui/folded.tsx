import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { ModelAnswer } from '../core/model-questions.ts';
import type { BlankAnswer } from '../core/questions.ts';
import { FoldingSlider, sharesOfBlocked, useFolding } from './folding.tsx';
import { apart, atBlocked, cut, from, isSet, strokes, turn, zoom } from './folded-state.ts';
import { SolidCanvas } from './solid-canvas.tsx';
import { quick, slow } from './cores.ts';
import { isNarrow, jobText, partAsk, place, shopText } from './state.ts';
import { Svg } from './svg.tsx';
import { lengthText, sizesText } from './units.ts';

export const titleOf = ({ name, piece, hand }: BlankAnswer): string => `${piece ?? name}, ${hand}`;

const model = signal<ModelAnswer | null | undefined>(undefined);
/** The picture where the browser draws no solids. */
const drawn = signal<string | null>(null);
/** Whether this browser has turned out not to draw solids. */
const isWithoutSolids = signal(false);

const useModel = (blank: BlankAnswer, at: number): void => {
  const isPlanned = blank.foldPlan !== null;
  useEffect(() => {
    const ask = { ...partAsk(place.value.part), blank: at, isSet: isSet.value, isPlanned };
    void (isPlanned ? slow : quick).ask('model', ask).then((answer) => {
      if (answer !== undefined) model.value = answer;
    });
  }, [jobText.value, shopText.value, place.value.part, at, isSet.value, isPlanned]);
};

const useDrawn = (blank: BlankAnswer, at: number): void => {
  const isPlanned = blank.foldPlan?.feasible === true;
  useEffect(() => {
    if (!isWithoutSolids.value) return;
    const ask = {
      ...partAsk(place.value.part),
      blank: at,
      from: from.value,
      strokes: isPlanned ? (strokes.value ?? null) : null,
      isSet: blank.isOfSet && isSet.value,
      isApart: apart.value > 0,
    };
    void (isPlanned ? slow : quick).ask('folded', ask).then((answer) => {
      if (answer !== undefined) drawn.value = answer;
    });
  }, [
    isWithoutSolids.value,
    jobText.value,
    at,
    from.value,
    isNarrow.value,
    strokes.value,
    isSet.value,
    apart.value > 0,
  ]);
};

/** The part as it is folded: turned, cut open, folded up stroke by stroke, taken apart. */
export const Folded = ({ blank, at }: { readonly blank: BlankAnswer; readonly at: number }) => {
  useModel(blank, at);
  useDrawn(blank, at);
  const order = model.value?.pieces[0]?.order ?? [];
  const folding = useFolding(blank, at, isSet.value ? [] : order);
  const outside = sizesText(blank.folded?.sizeMm ?? []);
  const words = [
    isSet.value
      ? `${blank.name}: ${model.value?.pieces.length ?? 0} pieces in their places`
      : blank.tube === null
        ? `${titleOf(blank)}: ${outside} outside when folded`
        : `${titleOf(blank)}: the finished tube`,
    ...(folding.words === '' ? [] : [folding.words]),
  ].join('. ');
  if (model.value === null)
    return <p class="empty">Nothing to fold up while a finding stops the part.</p>;
  if (model.value === undefined)
    return (
      <p class="empty" role="status">
        Being made
      </p>
    );
  return (
    <div>
      <div class={folding.section === '' ? 'fold-up' : 'fold-up at-machine'}>
        {isWithoutSolids.value ? (
          drawn.value !== null && <Svg picture={drawn.value} label={words} />
        ) : (
          <SolidCanvas
            model={model.value}
            words={words}
            shown={{
              strokes: strokes.value ?? order.length,
              ...sharesOfBlocked(blank),
              apart: isSet.value ? apart.value : 0,
              cut: cut.value,
            }}
            onNone={() => {
              isWithoutSolids.value = true;
            }}
          />
        )}
        {folding.section !== '' && (
          <figure>
            <figcaption>{folding.caption}</figcaption>
            <Svg picture={folding.section} label={`${folding.caption}: ${folding.words}`} />
          </figure>
        )}
        {!isSet.value && blank.tube === null && <FoldingSlider blank={blank} folding={folding} />}
      </div>
      {blank.isOfSet && <Apart model={model.value} />}
      <Looking />
      {blank.folded !== null && <p class="facts">Outside {outside}</p>}
    </div>
  );
};

/** Degrees that a press turns the part by. */
const TURN_DEG = 30;

const CUTS = [
  ['', 'whole'],
  ['0', 'from the right'],
  ['1', 'from behind'],
  ['2', 'from above'],
] as const;

/** From where it is looked at, and where it is cut open. */
const Looking = () => (
  <div class="row small">
    {(
      [
        ['Turn left', -TURN_DEG, 0],
        ['Turn right', TURN_DEG, 0],
        ['From higher', 0, TURN_DEG],
        ['From lower', 0, -TURN_DEG],
      ] as const
    ).map(([words, side, rise]) => (
      <button key={words} type="button" onClick={() => turn(side, rise)}>
        {words}
      </button>
    ))}
    <button
      type="button"
      onClick={() => {
        from.value = null;
        zoom.value = 1;
      }}
    >
      First view
    </button>
    {!isWithoutSolids.value && (
      <label>
        Cut open
        <select
          value={cut.value === undefined ? '' : String(cut.value.axis)}
          onChange={(e) => {
            const { value } = e.currentTarget;
            cut.value =
              value === ''
                ? undefined
                : { axis: Number(value) as 0 | 1 | 2, at: cut.value?.at ?? 0.5 };
          }}
        >
          {CUTS.map(([value, words]) => (
            <option key={value} value={value}>
              {words}
            </option>
          ))}
        </select>
      </label>
    )}
    {cut.value !== undefined && (
      <label class="slider">
        How deep
        <input
          type="range"
          min={0}
          max={100}
          value={100 - cut.value.at * 100}
          onInput={(e) => {
            if (cut.value !== undefined)
              cut.value = { ...cut.value, at: 1 - Number(e.currentTarget.value) / 100 };
          }}
        />
      </label>
    )}
  </div>
);

/** A piece by itself or the whole that it is welded to, and that taken apart; its seams in words. */
const Apart = ({ model: { seams } }: { readonly model: ModelAnswer }) => (
  <>
    <div class="row small">
      <label class="tick">
        <input
          type="checkbox"
          checked={isSet.value}
          onChange={(e) => {
            isSet.value = e.currentTarget.checked;
            atBlocked.value = undefined;
          }}
        />
        The whole that is welded
      </label>
      {isSet.value && isWithoutSolids.value && (
        <label class="tick">
          <input
            type="checkbox"
            checked={apart.value > 0}
            onChange={(e) => {
              apart.value = e.currentTarget.checked ? 1 : 0;
            }}
          />
          Taken apart
        </label>
      )}
      {isSet.value && !isWithoutSolids.value && (
        <label class="slider">
          Taken apart
          <input
            type="range"
            min={0}
            max={100}
            value={apart.value * 100}
            aria-valuetext={
              apart.value === 0 ? 'joined' : `${Math.round(apart.value * 100)} percent apart`
            }
            onInput={(e) => {
              apart.value = Number(e.currentTarget.value) / 100;
            }}
          />
        </label>
      )}
    </div>
    {isSet.value && seams.length > 0 && (
      <table class="figures">
        <caption>Seams, by the letters in the picture</caption>
        <thead>
          <tr>
            <th scope="col">Seam</th>
            <th scope="col">Between</th>
            <th scope="col">Kind</th>
            <th scope="col">Length</th>
          </tr>
        </thead>
        <tbody>
          {seams.map(({ letter, between, kind, lengthMm }) => (
            <tr key={letter}>
              <th scope="row">{letter}</th>
              <td>{between}</td>
              <td>{kind}</td>
              <td>{lengthText(lengthMm, 0)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    )}
  </>
);

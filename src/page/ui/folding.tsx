import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { BlankAnswer } from '../core/questions.ts';
import { strokeAt } from '../model/folding-time.ts';
import { atBlocked, strokes } from './folded-state.ts';
import type { SolidShown } from './solid-view.ts';
import { slow } from './cores.ts';
import { jobText, partAsk, place } from './state.ts';

const section = signal('');

/** How far the folding is, in a picture of the machine and in words. */
export interface Folding {
  /** Strokes there are. */
  readonly of: number;
  readonly words: string;
  readonly caption: string;
  readonly section: string;
}

const angleOf = ({ bends }: BlankAnswer, fold: string): number =>
  bends.find(({ id }) => id === fold)?.angleDeg ?? 90;

/** The step of the plan that makes some folds, by its place; -1 where there is none. */
const stepOf = ({ foldPlan }: BlankAnswer, together: readonly string[]): number =>
  foldPlan?.steps.findIndex(({ bend }) => bend.split(' + ').includes(together[0] ?? '')) ?? -1;

/** Follows the slider: the machine's section of the stroke that it is in, and what to say of it. */
export const useFolding = (
  blank: BlankAnswer,
  at: number,
  order: readonly (readonly string[])[],
): Folding => {
  const of = order.length;
  const { stroke, share } = strokeAt(strokes.value ?? of, of);
  const step = stepOf(blank, order[stroke] ?? []);
  useEffect(() => {
    if (step < 0) {
      section.value = '';
      return;
    }
    const ask = { ...partAsk(place.value.part), blank: at, stroke: step, share };
    void slow.ask('section', ask).then((answer) => {
      if (answer !== undefined) section.value = answer ?? '';
    });
  }, [jobText.value, at, step, share]);
  const blocked = blockedOf(blank);
  if (blocked !== undefined)
    return {
      of: 0,
      words: blocked.words,
      caption: 'Where it stops',
      section: blank.steps[blocked.number]?.pictures.at(-1)?.picture ?? '',
    };
  if (of === 0) return { of, words: '', caption: '', section: '' };
  const angle = angleOf(blank, order[stroke]?.[0] ?? '');
  const words =
    strokes.value === 0
      ? `Flat, before the first of ${of} strokes`
      : `Stroke ${stroke + 1} of ${of}: ${foldsNamed(order[stroke] ?? [])} at ${(share * angle).toFixed(0)} of ${angle.toFixed(0)} degrees`;
  return {
    of,
    words,
    caption: step < 0 ? '' : `Stroke ${stroke + 1} at the machine`,
    section: step < 0 ? '' : section.value,
  };
};

const foldsNamed = (folds: readonly string[]): string =>
  folds.length > MOST_NAMED ? `all ${folds.length} folds` : `fold ${folds.join(' and ')}`;

const MOST_NAMED = 4;

interface BlockedLook {
  readonly number: number;
  readonly words: string;
  readonly shown: Pick<SolidShown, 'marked'> & Required<Pick<SolidShown, 'shares'>>;
}

/** The one of what stands in the way that is looked at, with the part as it then is. */
const blockedOf = (blank: BlankAnswer): BlockedLook | undefined => {
  const { foldPlan, bends } = blank;
  if (foldPlan?.feasible !== false) return undefined;
  const number = Math.min(atBlocked.value ?? 0, foldPlan.blockedBy.length - 1);
  const blocked = foldPlan.blockedBy[number];
  if (blocked === undefined) return undefined;
  const { bend, after, atDeg, reason, touches } = blocked;
  const turned = bend.split(' + ');
  const shares = new Map(
    bends.map(({ id, angleDeg }) => [
      id,
      after.includes(id) ? 1 : turned.includes(id) ? Math.min(1, (atDeg ?? 0) / angleDeg) : 0,
    ]),
  );
  const words = `Fold ${bend}${after.length === 0 ? ' first' : ` after ${after.join(', ')}`}: ${reason}${atDeg === null ? '' : ` (at ${atDeg.toFixed(0)} degrees)`}`;
  return { number, words, shown: { shares, marked: touches ?? undefined } };
};

export const sharesOfBlocked = (
  blank: BlankAnswer,
): Pick<SolidShown, 'marked'> & Partial<Pick<SolidShown, 'shares'>> =>
  blockedOf(blank)?.shown ?? { marked: undefined };

const isPlaying = signal(false);
/** Seconds that a stroke takes when it is played. */
const STROKE_S = 1.6;
/** Strokes a picture, where moving pictures are not wanted: from stroke to stroke. */
const still = matchMedia('(prefers-reduced-motion: reduce)');

const usePlay = (of: number): void => {
  useEffect(() => {
    if (!isPlaying.value) return undefined;
    let timer = 0;
    let last = performance.now();
    const on = (): void => {
      const now = performance.now();
      const by = (now - last) / 1000 / STROKE_S;
      const before = strokes.value ?? of;
      if (still.matches ? by >= 1 : by > 0) {
        strokes.value = Math.min(of, before + (still.matches ? 1 : by));
        last = now;
      }
      if (strokes.value === of) isPlaying.value = false;
      else timer = requestAnimationFrame(on);
    };
    timer = requestAnimationFrame(on);
    return () => cancelAnimationFrame(timer);
  }, [isPlaying.value, of]);
  useEffect(
    () => () => {
      isPlaying.value = false;
      strokes.value = undefined;
    },
    [],
  );
};

/** Folds the part up, stroke by stroke as it is planned; or shows what is in the way of that. */
export const FoldingSlider = ({
  blank,
  folding: { of, words },
}: {
  readonly blank: BlankAnswer;
  readonly folding: Folding;
}) => {
  usePlay(of);
  if (blank.foldPlan?.feasible === false && blank.foldPlan.blockedBy.length > 0)
    return <Blocked blank={blank} words={words} />;
  if (of === 0) return null;
  const play = (): void => {
    if (!isPlaying.value && (strokes.value ?? of) >= of) strokes.value = 0;
    isPlaying.value = !isPlaying.value;
  };
  return (
    <div class="folding">
      <div class="row small">
        <button type="button" onClick={play}>
          {isPlaying.value ? 'Stop' : 'Play the folds'}
        </button>
        <label class="slider">
          {blank.foldPlan?.feasible === true ? 'Folds, in the order of the plan' : 'Folds'}
          <input
            type="range"
            min={0}
            max={of}
            step={0.02}
            value={strokes.value ?? of}
            aria-valuetext={words}
            onInput={(e) => {
              isPlaying.value = false;
              strokes.value = Number(e.currentTarget.value);
            }}
          />
        </label>
      </div>
      <p class="facts">{words}</p>
    </div>
  );
};

const Blocked = ({ blank, words }: { readonly blank: BlankAnswer; readonly words: string }) => {
  const list = blank.foldPlan?.blockedBy ?? [];
  return (
    <div class="folding">
      <p class="state stop">
        <span aria-hidden="true">✕</span> No order of folds works here
      </p>
      {list.length > 1 && (
        <label>
          What is in the way
          <select
            value={String(atBlocked.value ?? 0)}
            onChange={(e) => {
              atBlocked.value = Number(e.currentTarget.value);
            }}
          >
            {list.map(({ bend, after, touches }, i) => (
              <option key={i} value={String(i)}>
                fold {bend}
                {after.length === 0 ? ' first' : ` after ${after.join(', ')}`}
                {touches === null ? '' : `: ${touches}`}
              </option>
            ))}
          </select>
        </label>
      )}
      <p class="facts">{words}</p>
    </div>
  );
};

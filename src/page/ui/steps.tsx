import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { BlankAnswer } from '../core/questions.ts';
import { Svg } from './svg.tsx';
import { doneOf, tick } from './ticks.ts';
import { stopped } from './work.ts';

/**
 * Keeps the screen of a phone awake while the steps are shown, where the browser can. A lock is let go
 * by the browser when another page is looked at, so it is taken again afterwards.
 */
const useAwake = (): void => {
  useEffect(() => {
    let lock: WakeLockSentinel | undefined;
    let isLeft = false;
    const take = async (): Promise<void> => {
      if (document.visibilityState !== 'visible' || lock?.released === false) return;
      try {
        lock = await navigator.wakeLock?.request('screen');
      } catch {
        // Without leave the screen goes dark as it always does.
      }
      if (isLeft) void lock?.release();
    };
    const onTurned = (): void => void take();
    onTurned();
    document.addEventListener('visibilitychange', onTurned);
    return () => {
      isLeft = true;
      document.removeEventListener('visibilitychange', onTurned);
      void lock?.release();
    };
  }, []);
};

/** The folds in their order, one a screen, to be ticked off at the machine. */
export const Steps = ({ blank }: { readonly blank: BlankAnswer }) => {
  const { steps, foldPlan, bends, tube } = blank;
  if (bends.length + (tube?.bends ?? 0) === 0)
    return <p class="empty">There is nothing to {tube === null ? 'fold' : 'bend'}.</p>;
  if (steps.length === 0)
    return (
      <p class="empty" role="status">
        {foldPlan === null
          ? stopped.value === undefined
            ? 'The order of folds is being worked out.'
            : 'It was stopped before the order of folds was known.'
          : 'No order of folds is known here: see what is said below.'}
      </p>
    );
  return <OneStep key={`${blank.name} ${blank.hand}`} blank={blank} />;
};

const OneStep = ({ blank }: { readonly blank: BlankAnswer }) => {
  useAwake();
  const { steps, machine, foldPlan, tube } = blank;
  const isPlan = foldPlan?.feasible === true || tube !== null;
  const done = isPlan ? doneOf(blank) : new Set<number>();
  const isFirst = (i: number): boolean => !done.has(i);
  // It goes on where it was left: at the first that is not done.
  const at = useSignal(Math.max(0, steps.map((_, i) => i).findIndex(isFirst)));
  const i = Math.min(at.value, steps.length - 1);
  const step = steps[i];
  if (step === undefined) return null;
  const go = (to: number): void => {
    at.value = to;
    document.querySelector('.step')?.scrollIntoView();
  };
  const onDone = (): void => {
    tick(blank, i);
    if (!done.has(i) && i + 1 < steps.length) go(i + 1);
  };
  return (
    <section class="step" aria-label={`Step ${i + 1} of ${steps.length}`}>
      <p class="facts">
        {isPlan
          ? `${machine === null ? '' : `On ${machine}. `}Step ${i + 1} of ${steps.length}`
          : `What prevents it, ${i + 1} of ${steps.length}`}
        {isPlan ? `, ${done.size} done` : ''}
      </p>
      {isPlan && <Marks of={steps.length} at={i} done={done} onGo={go} />}
      <h2>
        {step.title}
        {done.has(i) ? ' (done)' : ''}
      </h2>
      <dl class="lines">
        {step.lines.map(([word, line]) => (
          <div key={word + line}>
            <dt>{word}</dt>
            <dd>{line}</dd>
          </div>
        ))}
      </dl>
      <div class="beside">
        {step.pictures.map(({ title, picture }) => (
          <figure key={title}>
            <figcaption>{title}</figcaption>
            <Svg
              picture={picture}
              label={`${title}: ${step.lines.map((l) => l.join(' ')).join('. ')}`}
            />
          </figure>
        ))}
      </div>
      <div class="row at-hand">
        <button type="button" disabled={i === 0} onClick={() => go(i - 1)}>
          {isPlan ? 'Step before' : 'Before'}
        </button>
        {isPlan && (
          <button type="button" class="main" onClick={onDone}>
            {done.has(i) ? 'Not done after all' : 'Done'}
          </button>
        )}
        <button type="button" disabled={i + 1 === steps.length} onClick={() => go(i + 1)}>
          {isPlan ? 'Next step' : 'Next'}
        </button>
      </div>
    </section>
  );
};

/** All steps in a row, those that are done marked. */
const Marks = ({
  of,
  at,
  done,
  onGo,
}: {
  readonly of: number;
  readonly at: number;
  readonly done: ReadonlySet<number>;
  readonly onGo: (to: number) => void;
}) => (
  <div class="row marks" role="group" aria-label="Steps">
    {Array.from({ length: of }, (_, i) => (
      <button
        key={i}
        type="button"
        aria-current={i === at ? 'step' : undefined}
        aria-label={`Step ${i + 1}${done.has(i) ? ', done' : ''}`}
        onClick={() => onGo(i)}
      >
        {done.has(i) ? '✓' : ''} {i + 1}
      </button>
    ))}
  </div>
);

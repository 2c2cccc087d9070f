import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { BlankAnswer } from '../core/questions.ts';
import { Svg } from './svg.tsx';

const at = signal(0);
const done = signal<ReadonlySet<string>>(new Set());

/** Keeps the screen of a phone awake while the steps are shown, where the browser can. */
const useAwake = (): void => {
  useEffect(() => {
    let lock: WakeLockSentinel | undefined;
    let isLeft = false;
    void navigator.wakeLock
      ?.request('screen')
      .then((got) => {
        lock = got;
        if (isLeft) void got.release();
      })
      // Without leave the screen goes dark as it always does.
      .catch(() => undefined);
    return () => {
      isLeft = true;
      void lock?.release();
    };
  }, []);
};

/** The folds in their order, one a screen, to be ticked off at the machine. */
export const Steps = ({ blank }: { readonly blank: BlankAnswer }) => {
  useAwake();
  const { steps, machine, foldPlan, bends } = blank;
  if (bends.length === 0) return <p class="empty">There is nothing to fold.</p>;
  if (steps.length === 0)
    return (
      <p class="empty" role="status">
        {foldPlan === null
          ? 'The order of folds is being worked out.'
          : 'No order of folds is known here: see what is said below.'}
      </p>
    );
  const i = Math.min(at.value, steps.length - 1);
  const step = steps[i];
  if (step === undefined) return null;
  const key = `${blank.name} ${step.title}`;
  const isDone = done.value.has(key);
  const tick = (): void => {
    const next = new Set(done.value);
    if (isDone) next.delete(key);
    else next.add(key);
    done.value = next;
    if (!isDone && i + 1 < steps.length) at.value = i + 1;
  };
  return (
    <section class="step" aria-label={`Step ${i + 1} of ${steps.length}`}>
      <p class="facts">
        On {machine}. Step {i + 1} of {steps.length}
        {isDone ? ', done' : ''}
      </p>
      <h2>{step.title}</h2>
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
      <div class="row">
        <button type="button" disabled={i === 0} onClick={() => (at.value = i - 1)}>
          Step before
        </button>
        <button type="button" class="main" onClick={tick}>
          {isDone ? 'Not done after all' : 'Done'}
        </button>
        <button type="button" disabled={i + 1 === steps.length} onClick={() => (at.value = i + 1)}>
          Next step
        </button>
      </div>
    </section>
  );
};

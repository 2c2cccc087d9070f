import { progressWords } from '../model/progress.ts';
import { stopped, working } from './work.ts';

/** What takes long, how far it is, and a button that stops it; or what was stopped. */
export const WorkLine = () => {
  const work = working.value.at(-1);
  const ended = stopped.value;
  return (
    <div class={work === undefined && ended === undefined ? 'work none' : 'work'}>
      {/* Told at a turn, not at each step: a reader would never get to its end. */}
      <p class="unseen" role="status" aria-live="polite">
        {work === undefined
          ? ended === undefined
            ? ''
            : `Stopped: ${ended.what}. ${ended.left}`
          : `Working: ${work.what}${work.progress === undefined ? '' : `: ${work.progress.doing}`}`}
      </p>
      {work !== undefined ? (
        <>
          <p aria-hidden="true">
            <b>{work.what}</b>
            {work.progress === undefined ? '' : `: ${progressWords(work.progress)}`}
          </p>
          <progress
            aria-label={work.what}
            max={work.progress?.of ?? 1}
            {...(work.progress?.done !== undefined && { value: work.progress.done })}
          />
          <button type="button" class="main" onClick={work.stop}>
            Stop
          </button>
        </>
      ) : (
        ended !== undefined && (
          <>
            <p aria-hidden="true">
              <b>Stopped: {ended.what}.</b> {ended.left}
            </p>
            <button
              type="button"
              onClick={() => {
                stopped.value = undefined;
                ended.again();
              }}
            >
              Do it after all
            </button>
            <button
              type="button"
              onClick={() => {
                stopped.value = undefined;
              }}
            >
              Close
            </button>
          </>
        )
      )}
    </div>
  );
};

import { signal } from '@preact/signals';
import { type Offered, offer } from './download.ts';
import { Downloads } from './downloads.tsx';
import { ProblemLine } from './said.tsx';
import { saveNow, store } from './saving.ts';
import { jobText, shopText } from './state.ts';
import { askLong, underWay } from './work.ts';
import type { PackAnswer } from '../core/questions.ts';

const madeLines = signal<readonly string[] | undefined>(undefined);
const isBusy = signal(false);
const packed = signal<PackAnswer | undefined>(undefined);
const archives = signal<readonly Offered[]>([]);

const makeAll = async (): Promise<void> => {
  const { make } = store;
  if (make === undefined) return;
  isBusy.value = true;
  madeLines.value = undefined;
  try {
    await saveNow();
    const halt = new AbortController();
    const { answer } = await underWay(
      {
        what: 'Files of the whole job',
        left: 'Each part in the folder is whole: those that were done are new, the others as they were.',
        again: () => void makeAll(),
      },
      (tell) => make(tell, halt.signal),
      () => halt.abort(),
    );
    madeLines.value = answer;
  } catch (error) {
    madeLines.value = [error instanceof Error ? error.message : String(error)];
  }
  isBusy.value = false;
};

const packAll = async (): Promise<void> => {
  isBusy.value = true;
  packed.value = undefined;
  const answer = await askLong(
    'pack',
    { job: jobText.value, shop: shopText.value },
    {
      what: 'Archive for a cutting service',
      left: 'No archive was written.',
      again: () => void packAll(),
    },
  ).finally(() => {
    isBusy.value = false;
  });
  packed.value = answer;
  archives.value = offer(answer?.files ?? [], archives.value);
};

/** Files of the whole job: all papers into its folder, where a server keeps one, and archives. */
export const JobFiles = () => (
  <section>
    <h2>Files</h2>
    <div class="row">
      {store.make !== undefined && (
        <button type="button" class="main" disabled={isBusy.value} onClick={() => void makeAll()}>
          Make all files into the folder out
        </button>
      )}
      <button type="button" disabled={isBusy.value} onClick={() => void packAll()}>
        Archive for a cutting service
      </button>
    </div>
    {madeLines.value !== undefined && <pre role="status">{madeLines.value.join('\n')}</pre>}
    {packed.value !== undefined && <Packed answer={packed.value} />}
  </section>
);

const Packed = ({ answer: { problems, files, left } }: { readonly answer: PackAnswer }) => (
  <>
    <p role="status">{files.length === 0 ? 'No archive was written.' : 'Ready to be taken:'}</p>
    <Downloads files={archives.value} />
    {problems.length + left.length > 0 && (
      <ul>
        {problems.map((problem) => (
          <ProblemLine key={problem.input} problem={problem} />
        ))}
        {left.map(({ name, reason }) => (
          <li key={name}>
            Left out: <strong>{name}</strong>. {reason}
          </li>
        ))}
      </ul>
    )}
  </>
);

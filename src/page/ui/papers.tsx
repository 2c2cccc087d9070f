import { signal } from '@preact/signals';
import type { OutputId } from '../../use/outputs/index.ts';
import { type Offered, offer } from './download.ts';
import { Downloads } from './downloads.tsx';
import { askLong } from './work.ts';
import { partAsk } from './state.ts';

/** What can be had of a part, in the words of the person at the page. */
const PAPERS: readonly (readonly [OutputId | 'cut', string, string])[] = [
  ['cut', 'Cut files', 'DXF and SVG for the laser or plasma table'],
  ['card', 'Card template', 'true size, to be printed and laid on the part'],
  ['sheet', 'Job sheet', 'everything about the part on paper'],
  ['folding', 'Folding', 'the steps as pictures'],
  ['model', 'Model', 'the folded part, to be turned on any screen'],
];

const told = signal<string | undefined>(undefined);
const busy = signal(false);
const offered = signal<readonly Offered[]>([]);

const get = async (index: number, id: OutputId | 'cut'): Promise<void> => {
  busy.value = true;
  told.value = undefined;
  try {
    const what = PAPERS.find(([one]) => one === id)?.[1] ?? id;
    const answer = await askLong(
      'files',
      { ...partAsk(index), outputs: id === 'cut' ? [] : [id] },
      {
        what: `${what} of the part`,
        left: 'No file was written.',
        again: () => void get(index, id),
        key: `files ${id}`,
      },
    );
    if (answer === undefined) {
      busy.value = false;
      return;
    }
    const files = answer.files.filter(({ name }) => id === 'cut' || !isCut(name));
    offered.value = offer(files, offered.value);
    told.value =
      files.length === 0 ? 'Nothing was written: see what is said above.' : 'Ready to be taken:';
  } catch (error) {
    told.value = error instanceof Error ? error.message : String(error);
  }
  busy.value = false;
};

/** The cut files come with everything that is made; papers have a word behind the part's name. */
const isCut = (name: string): boolean =>
  name.endsWith('.dxf') || (name.endsWith('.svg') && !/-(?:folding|card|sheet)/.test(name));

/** Papers and files of a part, each with what it is. */
export const Papers = ({ index }: { readonly index: number }) => (
  <section class="said">
    <h2>Papers and files</h2>
    <ul class="papers">
      {PAPERS.map(([id, name, about]) => (
        <li key={id}>
          <button type="button" disabled={busy.value} onClick={() => void get(index, id)}>
            {name}
          </button>{' '}
          <span class="means">{about}</span>
        </li>
      ))}
    </ul>
    <p role="status">{told.value ?? ''}</p>
    <Downloads files={offered.value} />
  </section>
);

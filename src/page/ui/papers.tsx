import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { SheetName } from '../../model/paper.ts';
import type { OutputId } from '../../use/outputs/index.ts';
import type { BlankAnswer } from '../core/questions.ts';
import type { PapersAhead } from '../core/papers-ahead.ts';
import { slow } from './cores.ts';
import { type Offered, offer } from './download.ts';
import { Downloads } from './downloads.tsx';
import { paper, PAPERS_SOLD } from './papers-sold.ts';
import { askLong } from './work.ts';
import { jobText, partAsk, shopText } from './state.ts';

type Asked = OutputId | 'cut';

/** What can be had of a part, in the words of the person at the page. */
const PAPERS: readonly (readonly [Asked, string, string])[] = [
  ['cut', 'Cut files', 'for the laser or plasma table'],
  ['card', 'Card template', 'true size, to be printed and laid on the part'],
  ['sheet', 'Job sheet', 'everything about the part on paper'],
  ['folding', 'Folding', 'the steps as pictures'],
  ['assembly', 'Assembly', 'all pieces in their places, and their welds'],
  ['model', 'Model', 'the folded part, to be turned on any screen'],
];

/** What tubes have in the place of what is told of sheet; what stands in neither they have not. */
const TUBE_PAPERS: Readonly<
  Record<'bent' | 'coped', Readonly<Partial<Record<Asked, readonly [string, string]>>>>
> = {
  bent: {
    cut: ['Drawing', 'the tube, and its marks on the straight'],
    sheet: ['Bend sheet', 'everything to mark, cut and bend it by'],
    model: ['Model', 'the finished tube, to be turned on any screen'],
  },
  coped: {
    cut: ['Pattern', 'DXF and SVG of what is wrapped round the tube'],
    card: ['Wrap', 'the pattern at true size, to be printed and wrapped round'],
    sheet: ['Sheet', 'lengths, depths at twelve places, and the pattern'],
    model: ['Model', 'the finished tube, to be turned on any screen'],
  },
};

/** The papers of a part, each with its name and what it is. */
const papersOf = (
  tube: BlankAnswer['tube'],
  known: PapersAhead | undefined,
): readonly (readonly [Asked, string, string])[] =>
  PAPERS.flatMap(([id, name, about]) => {
    if (tube === null)
      return id !== 'assembly' || (known?.files.assembly ?? []).length > 0
        ? [[id, name, about] as const]
        : [];
    const own = TUBE_PAPERS[tube.kind][id];
    return own === undefined ? [] : [[id, ...own] as const];
  });

const told = signal<string | undefined>(undefined);
const busy = signal(false);
const offered = signal<readonly Offered[]>([]);
/** What would be written, by the part that it is of. */
const ahead = signal<{ readonly of: number; readonly told: PapersAhead } | undefined>(undefined);

const get = async (index: number, id: Asked, what: string): Promise<void> => {
  busy.value = true;
  told.value = undefined;
  try {
    const answer = await askLong(
      'files',
      { ...partAsk(index), outputs: id === 'cut' ? [] : [id], paper: paper.value },
      {
        what: `${what} of the part`,
        left: 'No file was written.',
        again: () => void get(index, id, what),
        key: `files ${id}`,
      },
    );
    if (answer === undefined) return;
    const files = answer.files.filter(({ name }) => id === 'cut' || !isCut(name));
    offered.value = offer(files, offered.value);
    told.value =
      files.length === 0 ? 'Nothing was written: see what is said above.' : 'Ready to be taken:';
  } catch (error) {
    told.value = error instanceof Error ? error.message : String(error);
  } finally {
    busy.value = false;
  }
};

/** The cut files come with everything that is made; papers have a word behind the part's name. */
const isCut = (name: string): boolean =>
  name.endsWith('.dxf') || (name.endsWith('.svg') && !/-(?:folding|card|sheet)/.test(name));

/** Asked when the whole part has been made: it needs its plan. */
const useAhead = (index: number, isWhole: boolean): void => {
  useEffect(() => {
    if (!isWhole) return;
    const [job, shop] = [jobText.value, shopText.value];
    void slow
      .ask('ahead', partAsk(index))
      .then((answer) => {
        if (answer !== undefined && job === jobText.value && shop === shopText.value)
          ahead.value = { of: index, told: answer };
      })
      .catch(() => undefined);
  }, [jobText.value, shopText.value, index, isWhole]);
};

/** More names than these are counted. */
const MOST_NAMED = 4;

const filesText = (names: readonly string[]): string =>
  names.length > MOST_NAMED
    ? `${names.slice(0, MOST_NAMED - 1).join(', ')} and ${names.length - MOST_NAMED + 1} more`
    : names.join(', ');

const pagesText = (count: number, on: SheetName): string =>
  `${count} ${count === 1 ? 'page' : 'pages'} of ${PAPERS_SOLD[on]}. `;

/** What a press would write. */
const Writes = ({ id, known }: { readonly id: Asked; readonly known: PapersAhead }) => {
  const names = known.files[id] ?? [];
  return (
    <p class="means">
      {names.length === 0
        ? 'Nothing, as the part is.'
        : `${id === 'card' ? pagesText(known.cardPages[paper.value], paper.value) : ''}${id === 'cut' && known.cutForm !== '' ? `${known.cutForm}. ` : ''}${filesText(names)}`}
    </p>
  );
};

const PaperChoice = () => (
  <label>
    Paper
    <select
      value={paper.value}
      onChange={(e) => {
        paper.value = e.currentTarget.value as SheetName;
      }}
    >
      {Object.entries(PAPERS_SOLD).map(([name, words]) => (
        <option key={name} value={name}>
          {words}
        </option>
      ))}
    </select>
  </label>
);

/** Papers and files of a part, each with what it is and what it will write. */
export const Papers = ({
  index,
  tube,
  isWhole,
}: {
  readonly index: number;
  readonly tube: BlankAnswer['tube'];
  readonly isWhole: boolean;
}) => {
  useAhead(index, isWhole);
  const known = isWhole && ahead.value?.of === index ? ahead.value.told : undefined;
  const shown = papersOf(tube, known);
  return (
    <section class="said">
      <h2>Papers and files</h2>
      <PaperChoice />
      <ul class="papers">
        {shown.map(([id, name, about]) => (
          <li key={id}>
            <button type="button" disabled={busy.value} onClick={() => void get(index, id, name)}>
              {name}
            </button>{' '}
            <span class="means">{about}</span>
            {known !== undefined && <Writes id={id} known={known} />}
          </li>
        ))}
      </ul>
      <p role="status">{told.value ?? ''}</p>
      <Downloads files={offered.value} />
    </section>
  );
};

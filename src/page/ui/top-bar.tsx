import { useEffect } from 'preact/hooks';
import { download } from './download.ts';
import { look, LOOKS } from './looks.ts';
import { unit } from './units.ts';
import { saving, store } from './saving.ts';
import { fileName, jobFile, jobText, place, shopFile } from './state.ts';

const LINKS = [
  ['#/', 'Job', 'job'],
  ['#/shop', 'Shop', 'shop'],
  ['#/check', 'Check a DXF', 'check'],
] as const;

const savedWords = (): string => {
  const { state, called } = saving.value;
  if (typeof state === 'object') return `Not saved: ${state.refused}`;
  if (state === 'changed outside') return `Not saved: the ${called} file was changed elsewhere`;
  if (state === 'saving') return 'Saving';
  return store.hasServer ? `Saved in ${fileName.value}` : 'Kept in this browser';
};

/** The file that the view in front changes: what is undone there. */
const fileHere = () => (place.value.view === 'shop' ? shopFile : jobFile);

/** Undo and redo by the keys that everybody knows, but not while a field has its own. */
const onKey = (event: KeyboardEvent): void => {
  if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') return;
  event.preventDefault();
  if (event.shiftKey) fileHere().redo();
  else fileHere().undo();
};

/** The name of the tool, the way about, undo and redo, and whether all is saved. */
export const TopBar = () => {
  useEffect(() => {
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
  const file = fileHere();
  const [undo, redo] = [file.undoWords.value, file.redoWords.value];
  return (
    <header class="top">
      <nav aria-label="Views">
        {LINKS.map(([href, words, view]) => {
          const isHere =
            place.value.view === view ||
            (view === 'job' && (place.value.view === 'part' || place.value.view === 'add'));
          return (
            <a key={href} href={href} aria-current={isHere ? 'page' : undefined}>
              {words}
            </a>
          );
        })}
      </nav>
      <div class="steps-back">
        <button
          type="button"
          onClick={() => file.undo()}
          disabled={undo === undefined}
          title={undo === undefined ? 'Nothing to undo' : `Undo: ${undo}`}
        >
          Undo<span class="what"> {undo ?? ''}</span>
        </button>
        <button
          type="button"
          onClick={() => file.redo()}
          disabled={redo === undefined}
          title={redo === undefined ? 'Nothing to redo' : `Redo: ${redo}`}
        >
          Redo<span class="what"> {redo ?? ''}</span>
        </button>
        <details class="more">
          <summary>More</summary>
          <div class="more-box">
            <label class="choice">
              <span class="label">Figures in</span>
              <select
                value={unit.value}
                onChange={(e) => {
                  unit.value = e.currentTarget.value === 'inch' ? 'inch' : 'mm';
                }}
              >
                <option value="mm">mm</option>
                <option value="inch">inch</option>
              </select>
            </label>
            <label class="choice">
              <span class="label">Look</span>
              <select
                value={look.value}
                onChange={(e) => {
                  const chosen = LOOKS.find(([each]) => each === e.currentTarget.value);
                  if (chosen !== undefined) look.value = chosen[0];
                }}
              >
                {LOOKS.map(([each, words]) => (
                  <option key={each} value={each}>
                    {words}
                  </option>
                ))}
              </select>
            </label>
            <button type="button" onClick={() => download(fileName.value, jobText.value)}>
              Download job
            </button>
          </div>
        </details>
      </div>
      <p class={`saved ${saving.value.state === 'saved' ? '' : 'busy'}`} role="status">
        {savedWords()}
      </p>
    </header>
  );
};

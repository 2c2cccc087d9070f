import { useEffect } from 'preact/hooks';
import { download } from './download.ts';
import { look, LOOKS } from './looks.ts';
import { setUnit, unit } from './units.ts';
import { saving, store } from './saving.ts';
import { fileName, jobText, place, redo, redoWords, undo, undoWords } from './state.ts';

const LINKS = [
  ['#/', 'Job', 'job'],
  ['#/shop', 'Shop', 'shop'],
  ['#/check', 'Check a DXF', 'check'],
] as const;

const savedWords = (): string => {
  const state = saving.value;
  if (typeof state === 'object') return `Not saved: ${state.refused}`;
  if (state === 'changed outside') return 'Not saved: the file was changed elsewhere';
  if (state === 'saving') return 'Saving';
  return store.hasServer ? `Saved in ${fileName.value}` : 'Kept in this browser';
};

/** Undo and redo by the keys that everybody knows, but not while a field has its own. */
const onKey = (event: KeyboardEvent): void => {
  if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') return;
  event.preventDefault();
  if (event.shiftKey) redo();
  else undo();
};

/** The name of the tool, the way about, undo and redo, and whether all is saved. */
export const TopBar = () => {
  useEffect(() => {
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
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
          onClick={undo}
          disabled={undoWords.value === undefined}
          title={undoWords.value === undefined ? 'Nothing to undo' : `Undo: ${undoWords.value}`}
        >
          Undo<span class="what"> {undoWords.value ?? ''}</span>
        </button>
        <button
          type="button"
          onClick={redo}
          disabled={redoWords.value === undefined}
          title={redoWords.value === undefined ? 'Nothing to redo' : `Redo: ${redoWords.value}`}
        >
          Redo<span class="what"> {redoWords.value ?? ''}</span>
        </button>
        <details class="more">
          <summary>More</summary>
          <div class="more-box">
            <label class="choice">
              <span class="label">Figures in</span>
              <select
                value={unit.value}
                onChange={(e) => setUnit(e.currentTarget.value === 'inch' ? 'inch' : 'mm')}
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
      <p class={`saved ${saving.value === 'saved' ? '' : 'busy'}`} role="status">
        {savedWords()}
      </p>
    </header>
  );
};

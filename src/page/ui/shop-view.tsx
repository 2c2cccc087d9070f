import { store } from './saving.ts';
import { job, shopText } from './state.ts';
import { signal } from '@preact/signals';
import { ProblemLine } from './said.tsx';

const saved = signal<string | undefined>(undefined);

const save = async (): Promise<void> => {
  const { value } = shopText;
  if (value === null) return;
  const done = await store.saveShop(value);
  saved.value = done.how === 'refused' ? `Not saved: ${done.why}` : 'Saved';
};

const FIRST = `# What the shop has. What is left out is as in the shop that is assumed.
name: my shop
`;

/** The shop that everything is checked against. */
export const ShopView = () => (
  <div>
    <h1>Shop</h1>
    <p>
      Parts are checked against <b>{job.value?.shopName ?? 'a small shop, assumed'}</b>: its
      folders, its cutter, its sheets.
    </p>
    {shopText.value === null ? (
      <button
        type="button"
        class="main"
        onClick={() => {
          shopText.value = FIRST;
        }}
      >
        Describe my shop
      </button>
    ) : (
      <>
        <label>
          Shop file
          <textarea
            class="file"
            rows={24}
            spellcheck={false}
            value={shopText.value}
            onInput={(e) => {
              shopText.value = e.currentTarget.value;
              saved.value = undefined;
            }}
          />
        </label>
        <div class="row">
          <button
            type="button"
            class="main"
            disabled={(job.value?.shopProblems.length ?? 0) > 0}
            onClick={() => void save()}
          >
            Save the shop
          </button>
        </div>
        <p role="status">{saved.value ?? ''}</p>
        {(job.value?.shopProblems.length ?? 0) > 0 && (
          <section class="said warn">
            <h2>Not in order yet; the assumed shop is used meanwhile</h2>
            <ul>
              {job.value?.shopProblems.map((p) => (
                <ProblemLine key={p.input} problem={p} />
              ))}
            </ul>
          </section>
        )}
      </>
    )}
  </div>
);

import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { withEntry } from '../model/job-text.ts';
import { MachineCard } from './machine-card.tsx';
import { ProblemLine } from './said.tsx';
import { ShopQuestions } from './shop-questions.tsx';
import { EntriesTable } from './entries-table.tsx';
import { askShop, shop } from './shop-state.ts';
import { job, shopFile, shopText } from './state.ts';
import { Strips } from './strips.tsx';

const isAsking = signal(false);

const FIRST = `# What the shop has. What is left out is as in the shop that is assumed.
name: my shop
`;

const MARKS = {
  folds: ['Fold lines come onto the metal as', ['lines', 'nicks', 'none']],
  face: ['The face that is marked', ['inside', 'outside']],
  drilled: ['Holes to be drilled', ['crosses', 'pierces']],
} as const;

const Marking = () => {
  const marking = shop.value?.marking;
  if (marking === undefined) return null;
  return (
    <section>
      <h2>Marking</h2>
      <div class="row asked">
        {(Object.keys(MARKS) as (keyof typeof MARKS)[]).map((name) => (
          <label key={name}>
            {MARKS[name][0]}
            <select
              value={marking[name]}
              onChange={(e) =>
                shopFile.change(
                  withEntry(shopText.value ?? FIRST, ['marking', name], e.currentTarget.value),
                  `${name} ${marking[name]} -> ${e.currentTarget.value}`,
                )
              }
            >
              {MARKS[name][1].map((choice) => (
                <option key={choice} value={choice}>
                  {choice}
                </option>
              ))}
            </select>
          </label>
        ))}
      </div>
    </section>
  );
};

const Cutters = () => (
  <section>
    <h2>Cutters and sheets</h2>
    <p class="means">
      A figure that you change is written into the shop file; until then what is assumed holds.
      Lengths are in mm unless they are typed with their unit.
    </p>
    {shop.value?.tables.map((table) => (
      <EntriesTable key={table.path.join('.')} table={table} />
    ))}
  </section>
);

const ShopFile = () => {
  const problems = job.value?.shopProblems ?? [];
  return (
    <details class="group">
      <summary>The shop file as text</summary>
      <label>
        Shop file
        <textarea
          class="file"
          rows={24}
          spellcheck={false}
          value={shopText.value ?? FIRST}
          onInput={(e) => shopFile.change(e.currentTarget.value, 'the shop file as text', 'text')}
        />
      </label>
      {problems.length > 0 && (
        <section class="said warn">
          <h3>Not in order yet; the assumed shop is used meanwhile</h3>
          <ul>
            {problems.map((p) => (
              <ProblemLine key={p.input} problem={p} />
            ))}
          </ul>
        </section>
      )}
    </details>
  );
};

/** The shop that everything is checked against. */
export const ShopView = () => {
  useEffect(() => {
    void askShop();
  }, [shopText.value]);
  const isFirst = shopText.value === null;
  return (
    <div>
      <h1>Shop</h1>
      <p>
        Parts are checked against <b>{job.value?.shopName ?? 'a small shop, assumed'}</b>: its
        folders, its cutter, its sheets.
      </p>
      {isFirst || isAsking.value ? (
        <ShopQuestions
          onDone={() => {
            isAsking.value = false;
          }}
        />
      ) : (
        <button
          type="button"
          onClick={() => {
            isAsking.value = true;
          }}
        >
          Add machines, cutters or sheets
        </button>
      )}
      <section>
        <h2>Machines</h2>
        {shop.value?.machines.map((machine) => (
          <MachineCard key={machine.id} machine={machine} />
        ))}
      </section>
      <Cutters />
      <Marking />
      <Strips />
      <ShopFile />
    </div>
  );
};

import { render } from 'preact';
import { AddView } from './add-view.tsx';
import { CheckView } from './check-view.tsx';
import { Conflicts } from './conflict.tsx';
import { JobView } from './job-view.tsx';
import { PartView } from './part-view.tsx';
import { ShopView } from './shop-view.tsx';
import { startSaving } from './saving.ts';
import { broken, place, startAsking } from './state.ts';
import { TopBar } from './top-bar.tsx';
import { WorkLine } from './work-line.tsx';

const VIEWS = { job: JobView, add: AddView, part: PartView, shop: ShopView, check: CheckView };

const App = () => {
  const View = VIEWS[place.value.view];
  return (
    <>
      <a class="skip" href="#main">
        To the contents
      </a>
      <TopBar />
      <main id="main" tabIndex={-1}>
        {broken.value !== undefined && (
          <section class="said stop" role="alert">
            <h2>Something went wrong in the tool itself</h2>
            <p>What you typed is kept. Go back a step with Undo, or load the page again.</p>
            <pre>{broken.value}</pre>
          </section>
        )}
        <Conflicts />
        <View />
      </main>
      <WorkLine />
    </>
  );
};

const root = document.querySelector('#root');
if (root !== null) render(<App />, root);
void startSaving().then(startAsking);

import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { FamilyAnswer } from '../core/questions.ts';
import { withPart } from '../model/job-text.ts';
import { freeName } from './part-card.tsx';
import { change, drawFamilies, families, familyPictures, jobText, partsOf } from './state.ts';
import { Svg } from './svg.tsx';

/**
 * Plain words by which a family is looked for, besides those of its own summary: what somebody says
 * who has never heard its name.
 */
const WORDS: Readonly<Record<string, string>> = {
  'bracket-angle': 'l bracket corner angle seat post mount',
  'bracket-channel': 'u channel box section rail bearing shoe',
  'bracket-gusset': 'corner shelf stiff triangle support web',
  'bracket-hat': 'top hat omega saddle pipe clamp stiffener',
  'bracket-zed': 'z step offset joggle hook',
  'duct-between':
    'intake air grille pipe hose adapter transition offset angled elbow reducer hood plenum',
  'duct-box': 'intake air scoop box grille plenum',
  'duct-transition': 'square to round duct adapter cone intake pipe',
  'heel-rest': 'foot pedal feet slip floor driver passenger',
  'neck-plate': 'filler neck flange housing recess dish fuel cap',
  'strut-brace': 'tower shock suspension turret engine bay',
  baffle: 'tank wall plate inside swash surge',
  cradle: 'tank hanger under floor straps cross rail carrier',
  elbow: 'bend duct pipe lobster back segment mitre rolled',
  cone: 'funnel reducer taper hopper outlet frustum rolled',
  panels: 'anything free form own part box lid odd',
  plate: 'flat outline gasket blanking any shape',
  ring: 'flange washer disc round filler',
  shell: 'cylinder pipe drum housing sleeve rolled ring round clamp',
  strap: 'band hold down battery pipe clamp',
  tank: 'fuel water box container saddle',
  'tank-plan': 'fuel water tank odd space corner notch slope cavity sender',
  'tank-sections': 'fuel water tank odd space cross section station taper under bed warped',
  'tube-bent': 'pipe hoop roll bar handle stay rail bent bender former bow',
  'tube-cope': 'pipe notch fishmouth saddle branch joint mitre cope strut',
  'tube-mitre': 'pipe elbow segment lobster corner bend welded exhaust air',
  'tube-hole': 'pipe through panel angle neck grommet ellipse template',
  'test-strip': 'coupon bend try calibrate',
  'vent-panel':
    'louvre louver vent grille slots bead swage stiffener engine side firewall cover hatch',
  tray: 'box for a battery pan open dish shelf with sides',
};

const wanted = signal('');

const isFound = ({ family, summary }: FamilyAnswer): boolean => {
  const text = `${family} ${summary} ${WORDS[family] ?? ''}`.toLowerCase();
  return wanted.value
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word.length > 2 || !/^(?:a|an|of|the|for|to|in)$/.test(word))
    .every((word) => text.includes(word));
};

const add = ({ family }: FamilyAnswer, inputs: Readonly<Record<string, unknown>>): void => {
  const name = freeName(family);
  const at = partsOf().length;
  change(
    withPart(jobText.value, { family, ...(name !== family && { name }), inputs }),
    `add ${name}`,
  );
  location.hash = `#/part/${at}/flat`;
};

/** The families as pictures, found by plain words. */
export const AddView = () => {
  useEffect(() => {
    void drawFamilies();
  }, [families.value]);
  return (
    <div>
      <h1>Add a part</h1>
      <label class="find">
        What is it for?
        <input
          type="search"
          value={wanted.value}
          placeholder="box for a battery"
          onInput={(e) => {
            wanted.value = e.currentTarget.value;
          }}
        />
      </label>
      <ul class="cards">
        {families.value.filter(isFound).map((one) => (
          <li class="card" key={one.family}>
            <Svg
              picture={familyPictures.value.get(one.family) ?? ''}
              label={`${one.family}, an example`}
              className="thumb"
            />
            <strong>{one.family}</strong>
            <p class="facts">{one.summary}</p>
            <div class="row small">
              <button type="button" class="main" onClick={() => add(one, {})}>
                Start empty
              </button>
              <button type="button" onClick={() => add(one, one.example)}>
                Start from the example
              </button>
            </div>
          </li>
        ))}
      </ul>
      {families.value.length > 0 && !families.value.some(isFound) && (
        <p role="status">
          Nothing is called that. Other words may help, or begin with <b>panels</b>: any part, panel
          by panel.
        </p>
      )}
    </div>
  );
};

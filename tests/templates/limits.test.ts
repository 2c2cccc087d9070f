import { FAMILIES } from '../../templates/index.ts';
import { checkLimits } from '../helpers/check-limits.ts';
import { loadFamily } from '../helpers/check-template.ts';

/** All figures of panels stand in maps and lines: `tests/panels/wrong` has their limits. */
const WITHOUT_FIGURES = ['panels'];

for (const family of FAMILIES.keys()) {
  if (WITHOUT_FIGURES.includes(family)) continue;
  const [example] = (await loadFamily(family)).examples;
  checkLimits(family, example?.inputs ?? {});
}

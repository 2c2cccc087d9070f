import { FAMILIES } from '../../templates/index.ts';
import { checkLimits } from '../helpers/check-limits.ts';
import { loadFamily } from '../helpers/check-template.ts';

for (const family of FAMILIES.keys()) {
  const [example] = (await loadFamily(family)).examples;
  checkLimits(family, example?.inputs ?? {});
}

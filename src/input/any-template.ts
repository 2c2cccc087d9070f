import type { CommonValues } from './common.ts';
import type { Built, Template } from './template.ts';

/**
 * A part family whose own inputs are known by its schema only, not by type: what a registry holds and the stages
 * take. Any `Template` is one. `build` stands here as a method so that TypeScript lets it ask for more than the
 * common values; `readInputs` gives it all that its schema promises.
 */
export interface AnyTemplate extends Omit<Template, 'build'> {
  build(values: CommonValues): Built;
}

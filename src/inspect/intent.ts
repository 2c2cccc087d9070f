import { layerKey } from '../dxf/read/layers.ts';
import { isCut, LAYERS } from '../dxf/write/layers.ts';

const MARK_LAYERS = new Set(LAYERS.filter(({ role }) => !isCut(role)).map(({ name }) => name));

/** Whether the lines of a layer are folded, marked or read in files of ours. */
export const isMarkLayer = (layer: string): boolean => MARK_LAYERS.has(layerKey(layer));

/**
 * Words for what is cut, and for what is not, as names of layers have them; they are beginnings of
 * words.
 */
const CUT_WORDS = /(?:^|[^a-z])(?:cut|outline|contour|profile|hole)/i;
const OTHER_WORDS =
  /(?:^|[^a-z])(?:fold|bend|crease|mark|scrib|etch|engrav|axis|axes|cent(?:re|er)|note|text|dim(?:s|ension)?(?![a-z])|annotation|construction|sketch|hidden|defpoints)/i;

/** What the name of a layer says about its lines; undefined where it says nothing. */
export const intentOf = (layer: string): 'cut' | 'other' | undefined => {
  if (CUT_WORDS.test(layer)) return 'cut';
  return OTHER_WORDS.test(layer) ? 'other' : undefined;
};

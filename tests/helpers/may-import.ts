/**
 * What may import what, a line each: a name is a folder of `src/` or a file in it, and stands before
 * the folders and files that it may import, in the folders named below one of theirs; `templates`
 * is the folder at the top.
 */
const TABLE = `
geometry:
rules:
statistics:
text: geometry
dxf/contours: geometry text
# It knows the text of a file alone: what writes DXF is another thing.
dxf/read: geometry text
model: geometry rules text
bending: geometry model text
cutting: geometry model
data: model text
dxf/write: geometry model text
lay: geometry model
paper/sizes: geometry model text
plan/machines: geometry model text
survey: geometry model statistics text
checks: bending geometry model plan/machines rules text
contract: bending data geometry model survey
fold: bending geometry model text
maker-model: dxf/write geometry model
flatten: bending fold geometry model text
measure: contract geometry model
plan/search: contract geometry model plan/machines
tube: contract geometry model text
use/rules: checks data rules
welds: bending fold geometry model text
assembly: data fold geometry model text welds
cutlist: contract geometry model text tube
fit: bending contract data geometry measure model statistics text
forms: bending contract data flatten geometry model survey text tube
plan/of-part: bending contract data fold geometry model plan/machines plan/search text
# It is an independent witness, and uses nothing of what made the file.
proof: contract dxf/contours dxf/read geometry measure model text
solid: fold geometry model tube
calibrate: bending contract data forms model statistics text tube
kit: bending contract forms geometry model rules text
laid: dxf/read geometry model proof
paper/draw: contract data fold geometry model paper/sizes plan/machines plan/of-part plan/search solid text
shop: bending data forms geometry model text
use/fit: contract fit flatten forms measure model text
use/made-part: contract model paper/sizes plan/of-part tube
use/use-case: contract forms model
panels: bending flatten fold forms geometry kit model text
paper/write: dxf/write geometry model paper/draw text
plan/of-panels: data forms geometry model plan/machines shop text
use/bend: bending contract forms model text use/use-case
use/calibrate: bending calibrate contract model shop text use/use-case
use/prove: contract dxf/read forms model proof text use/use-case
use/shop: bending data forms model shop text
use/survey: contract forms model survey text use/use-case
inspect: checks contract dxf/contours dxf/read dxf/write geometry model paper/draw paper/write text
paper/sheet: contract data fold model paper/draw paper/sizes paper/write plan/of-part solid text
template: bending contract data flatten forms geometry kit model panels text tube
use/panels: forms model panels use/use-case
paper/laid: cutting geometry model paper/draw paper/sheet text
paper/tube: contract data geometry model paper/draw paper/sheet paper/write text tube
stock: dxf/read forms geometry inspect model shop text
# The folders of the families; the registry of families needs their common type.
templates: forms template
use/inspect: contract data dxf/read forms inspect model text use/use-case
use/show: contract fold model paper/draw paper/sheet paper/tube solid text tube use/made-part
use/stock: contract forms geometry model shop stock text use/use-case
use/assembly: assembly contract data flatten fold geometry model paper/draw paper/sheet paper/write rules solid text use/made-part use/show
use/outputs: contract data dxf/write fit fold forms model paper/draw paper/sheet paper/tube paper/write plan/of-part rules solid text tube use/assembly use/made-part
use/laid: contract cutting data forms geometry model paper/laid paper/write rules stock text use/made-part use/outputs
use/make: assembly bending checks contract data flatten fold forms geometry measure model paper/draw paper/sizes plan/of-part proof rules shop text tube use/assembly use/fit use/made-part use/outputs use/use-case welds
jobfile: forms model text use/make use/outputs use/rules
use/check-template: data forms use/make
use/plan: contract data forms model paper/draw plan/of-panels plan/of-part plan/search text use/made-part use/make use/outputs use/use-case
use/job: contract cutlist data flatten forms jobfile model paper/draw paper/sheet paper/tube paper/write text use/assembly use/made-part use/make use/outputs use/use-case
use/cutlist: contract cutlist model text use/job use/laid use/made-part use/make use/use-case
use/lay: checks contract forms geometry laid lay model rules stock text use/job use/laid use/made-part use/make use/use-case
use/pack: contract cutlist data dxf/write fold forms geometry laid measure model paper/draw paper/sheet paper/write solid text use/assembly use/job use/laid use/made-part use/make use/outputs use/use-case
use/sketch: contract fold forms geometry measure model paper/draw solid use/made-part use/make use/pack use/show
index: assembly bending contract cutlist data dxf/write flatten fold forms jobfile laid measure model panels paper/draw paper/tube paper/write proof rules shop solid stock survey templates tube use/assembly use/bend use/calibrate use/check-template use/cutlist use/inspect use/job use/laid use/lay use/made-part use/make use/outputs use/pack use/panels use/plan use/prove use/rules use/sketch use/stock use/survey use/use-case
page: assembly contract data forms geometry jobfile measure model paper/draw paper/sheet paper/tube paper/write shop solid survey templates text use/assembly use/calibrate use/cutlist use/inspect use/job use/made-part use/make use/outputs use/pack use/plan use/prove use/shop use/show use/sketch
# Each command reads its files, asks the core, and writes, and does no more.
cli: bending contract cutlist data dxf/read forms inspect jobfile lay model page paper/draw paper/write rules shop stock templates text use/bend use/calibrate use/cutlist use/fit use/inspect use/job use/laid use/lay use/make use/outputs use/pack use/panels use/plan use/prove use/rules use/shop use/sketch use/stock use/survey use/use-case
`;

/** By name, what it may import. */
export const MAY_IMPORT: Readonly<Record<string, readonly string[]>> = Object.fromEntries(
  TABLE.split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'))
    .map((line) => {
      const [name = '', names = ''] = line.split(':');
      return [name, names.split(' ').filter(Boolean)];
    }),
);

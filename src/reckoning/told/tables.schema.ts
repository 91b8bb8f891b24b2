// What the tables of this room hold, column by column.
import { filledList, list, oneOf, optional, source, table, text, wholeNumber, yesOrEmpty } from '../../tables/cells.js';

/**
 * Words that tell of heat, and between which ends it may be, °C. A `device` is where it was heated; a `deed` says what
 * was done and not how hot. `boil*` stands for longer words too, `…` for up to six words between.
 */
export const heatDeeds = table({
  words: text,
  says: oneOf('temperature', 'device', 'deed'),
  low: wholeNumber,
  celsius: wholeNumber,
  source,
});

/**
 * Words of a write-up that may name what reacts with much; `bleach*` stands for longer words too. What needs another
 * word is a class by itself: `nitrite` is looked at only in `sodium nitrite`.
 */
export const reactiveWords = table({ word: text, needs_another: yesOrEmpty, source });

/**
 * A waste goes away as it is, or is kept or made harmless; `ground`: it goes to soil, plants or animals, whatever is
 * said of its drying or of its pot (`stands`). A step tells of waste where it names a `liquor`. `neutral*` stands for
 * longer words too.
 */
export const wasteWords = table({ words: text, says: oneOf('away', 'ground', 'kept', 'stands', 'liquor'), source });

/**
 * What words of a step tell of what is around the pot, and the words that stand for it among reagents. `hot_from`: °C
 * from which it matters, where water is named with it. `told_by`: words of which one stands in a clause that tells it,
 * `unless` those before it that take it back; `anod*` stands for longer words too.
 */
export const toldAround = table({
  circumstance: oneOf(
    'closed',
    'mouldy',
    'plunged',
    'water-last',
    'airborne',
    'rubbed',
    'swept',
    'current',
    'wet-in',
    'watered',
    'vacuumed',
    'microwaved',
    'swallowed',
    'fire-indoors',
    'burner-shut-in',
    'metal-fire-doused',
    'rags-heaped',
    'food-made',
    'evacuated',
    'hot-water',
  ),
  stands_as: filledList(';', text),
  hot_from: optional(wholeNumber),
  told_by: list(';', text),
  unless: list(';', text),
  source,
});

/**
 * Of fires: `embers`, or `coal` that `burns`, give carbon monoxide in any `room` or `tent`; a `stove` in a tent or in a
 * `shut-room`; none of them `outside`, unless it was `carried-in`; `no-fire` are none.
 */
const firesAndRooms = [
  'embers',
  'coal',
  'burns',
  'stove',
  'room',
  'tent',
  'shut-room',
  'outside',
  'carried-in',
  'no-fire',
] as const;

/**
 * Of a vacuum: `suction` on `thin-glass`, which is no `filter-flask` and into which nothing is only `put-by`;
 * `no-suction` is none.
 */
const vacuumWords = ['suction', 'thin-glass', 'filter-flask', 'put-by', 'no-suction'] as const;

/**
 * Words of steps beside a closing: `vessel`: what is closed; `shuts`: it is; `loose`: it is not, or is no vessel;
 * `loose-lid`: its lid lies loose on it, unless it is `luted`; `dry`, `wet`, `gassing`: how what is put away is;
 * `opens`: what is done then is not done closed, nor what `dries`, unless it `stays` in its jar; `parts`: it is no
 * longer with its liquor; `liquor`: only that is meant; `cold`: what goes in from there on meets it cold; `bottle`: a
 * bottle or jar by its use, which among reagents is taken to be closed; `all`: all that there is is meant. Of what is
 * tipped (`tips`) hot into `water`: `cools`: it is hot no more; `melt`: it was melted. Of dust: `grinds`, `dusts` (it
 * flies about), `sweeps`; `wetly`: with what lays it; `drily`: with nothing. Of a current: `electrolyses` tells it, or
 * a `supply` beside a `pole`, unless it drives something else (`worked`). Of what is wet and `goes-in` to something
 * hotter than it boils: that is a `fat`, a wax, a melt. Of water that only words bring: `waterless` brings none; it
 * comes last where what pours (`waters`) it, or `water-in` behind it, stands behind the `acid`. A `food-vessel` is one
 * from which somebody may eat or drink, and what is `in-mouth` may be swallowed, unless `no-mouth` stands before it;
 * `food-made` is an oven or a pot of the kitchen, unless it is `not-for-food`. Magnesium that is `alight` may be
 * `doused`. What `rests` `beside` a fire is warm and no more, unless it was `heated-by` it or stood in its flame
 * (`in-flame`); `fuel` with its article that goes `fuel-into` a fire is not what the pot holds, unless it
 * `holds-stuff`. `rags` lie spread or in water (`rags-safe`), unless anything there, or of them in the sentence behind
 * it (`rags-again`), is `rags-unsafe`; that are `oiled` are a danger where they are `heaped` and nothing says that they
 * are not (`unheaped`). `hot-water` goes onto what is named
 * with it, and `no-hot-water` onto nothing. `brushed … off` has up to six words between; `filter*` stands for longer
 * words too.
 */
export const aroundWords = table({
  words: text,
  says: oneOf(
    'vessel',
    'shuts',
    'loose',
    'loose-lid',
    'luted',
    'dry',
    'wet',
    'gassing',
    'opens',
    'dries',
    'stays',
    'parts',
    'liquor',
    'cold',
    'cools',
    'bottle',
    'all',
    'tips',
    'water',
    'melt',
    'grinds',
    'dusts',
    'sweeps',
    'wetly',
    'drily',
    'electrolyses',
    'supply',
    'pole',
    'worked',
    'fat',
    'goes-in',
    'waterless',
    'acid',
    'waters',
    'water-in',
    'food-vessel',
    'in-mouth',
    'no-mouth',
    'food-made',
    'not-for-food',
    'alight',
    'doused',
    'rags',
    'rags-safe',
    'rags-unsafe',
    'rags-again',
    'rests',
    'beside',
    'heated-by',
    'in-flame',
    'fuel-article',
    'fuel',
    'fuel-into',
    'holds-stuff',
    'heaped',
    'unheaped',
    'oiled',
    'hot-water',
    'no-hot-water',
    ...firesAndRooms,
    ...vacuumWords,
  ),
  source,
});

/**
 * Words of a write-up beside a name, in the languages of makers. `not`: what stands behind it was not put in, up to
 * what `breaks` (`would not shift, so …`); `puts` stands before what goes in, `into` before what it goes into, `deed …
 * with` before what it is done with, with nothing but `gap` between; `behind` a name says that it goes in, so `goes`
 * behind one that is no class, and `ends` at the end of its clause, as in German, and `lifts`, or any participle that
 * is not `unlike` it, behind what is done `with` it; with what a clause begins and the stain `comes-clean` was used, as
 * was what `works-on` a stain; what stands with its measure behind a `first-then` (`puis un verre de`) goes in; `and`
 * joins it to one. `work`: something is done that needs no second thing; `aim`: a name behind it is what is to be made;
 * `stuff` is meant as one though vessels and tools are made of it; `rinse` with water parts what comes after from what
 * was before. A sentence of `hearsay` tells nothing that was done, nor does what stands under a heading of `elsewhere`.
 * A name is there behind `holds` (`the bath of`), unless all is only `kept` somewhere, before `there` (`in it`), before
 * `together`, and where something `smells` of it, unless it is only a `food-smell`; and it was used where a stain
 * `fails` to go with it. What `puts` tells may stand further before it than a gap where `to` stands between; a `not`
 * behind `did` that a comma ends says nothing of what follows. What the maker `does` (`so I poured …`, in one word
 * `done-by-me`) is work in a sentence of hearsay too. A `story` names who it is of, or a time `long-ago` with
 * `somebody` in it, and `story-goes-on` in the sentence after; it is none where a `maker` is in it or the work is done
 * `as-they` did. What was `planned` and then `given-up`, with no more than `leaves-it` behind, or `but` something else
 * done `rather`, is no work, unless only its `manner` was, or something of it `was` done. Where the next sentence says
 * `anyway`, all of it is; and where it says that the maker `did-it`, so is what was not to be done. At which step
 * something listed goes in is told by what `takes-up` it, unless `out-again`, and by what goes in `in-portions` that a
 * sentence begins with; not after one that speaks of `all-of-it` otherwise than `until`. What is `driven` out again is
 * not put in, nor anything in a sentence of what is `yet-to-come`, of a `spot-test` (a `drop-of` something `onto` the
 * pigment), or of what was `put-back`. A name goes in where behind a comma stands how `much` of it, perhaps `about` so
 * much. What reacts with much and stands beside what is put in is there too, unless it is `stored`; beside reagents it
 * meets them where a `residue` of them stands in the same sentence, or a vessel of the work. What is `fetched` goes in
 * where the words behind it put `it` in, or a `clitic` before the verb (perhaps with what it `has` between), or a
 * `share` of it, or where that `ends-in` something; not where it goes somewhere that is `not-in`. What `comes-to`
 * something stands behind it (`zum Salpeter kam`). An `ordinary-stuff` is meant as one where it is put in, though its
 * name is a word for other things too. What stands in a `first-vessel` and in an `other-vessel` does not meet where it
 * `stays-apart` and nothing puts it together.
 */
export const toldWork = table({
  words: text,
  says: oneOf(
    'not',
    'breaks',
    'into',
    'puts',
    'deed',
    'with',
    'gap',
    'behind',
    'and',
    'work',
    'aim',
    'stuff',
    'rinse',
    'hearsay',
    'elsewhere',
    'smells',
    'holds',
    'kept',
    'stored',
    'residue',
    'there',
    'together',
    'fails',
    'ends',
    'lifts',
    'unlike',
    'comes-clean',
    'works-on',
    'first-then',
    'rather',
    'but',
    'first-vessel',
    'other-vessel',
    'stays-apart',
    'goes',
    'food-smell',
    'to',
    'did',
    'maker',
    'does',
    'done-by-me',
    'story',
    'long-ago',
    'story-goes-on',
    'somebody',
    'as-they',
    'planned',
    'given-up',
    'manner',
    'anyway',
    'did-it',
    'leaves-it',
    'was',
    'takes-up',
    'in-portions',
    'all-of-it',
    'until',
    'out-again',
    'driven',
    'yet-to-come',
    'spot-test',
    'drop-of',
    'onto',
    'put-back',
    'about',
    'much',
    'fetched',
    'it',
    'clitic',
    'has',
    'share',
    'ends-in',
    'not-in',
    'ordinary-stuff',
    'comes-to',
  ),
  source,
});

/**
 * Words of steps that say whose a heat was: what `makes` a product, or makes another of it, leaves none of the heat
 * before it; `some` of it, or something else, was heated; and what was weighed before (`weighs`) was not yet.
 */
export const productHeatWords = table({ words: text, says: oneOf('makes', 'some', 'weighs'), source });

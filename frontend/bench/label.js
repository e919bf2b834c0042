/**
 * The label: its ingredient list from what was really weighed, and what the rules of a market ask for.
 *
 * The same as bench/label.py, which says what each rule is, where it comes from and what is a guess.
 * Weights of names are BigInt shares of one whole, so an edge of 1.00 % is an edge.
 */

import { full, last } from "./lists.js";
import { byCodePoint, halfEven, sum } from "./whole.js";
import { point, say, sayAll } from "../words.js";
/** @import { Label, LabelName, LabelOptions, LabelSize, ListGroup, Market } from "../../bench/shapes/page" */
/** @import { MeasuredRecipe, Sheet, SheetComponent, Sourced, State } from "../../bench/shapes/page" */
/** @import { Full } from "../../types/lists" */

const COLOUR_KINDS = ["dye", "lake", "mica", "pigment"];
/**
 * @typedef {ReturnType<typeof begin>} Labelling
 * @typedef {[name: string, ppm: number | null]} InciName
 */

/** @type {{[M in Market]: Map<string, string>}} */
const WORDS = {
  us: new Map(Object.entries({ aqua: "Water", parfum: "Fragrance", water: "Water", fragrance: "Fragrance" })),
  eu: new Map(Object.entries({ aqua: "Aqua", parfum: "Parfum", water: "Aqua", fragrance: "Parfum" })),
};
const INCH_UM = 25_400;
const MOST_RANK = 20;
const PARTS = 232_792_560n; // the least that every rank up to the twentieth divides
const RANKS = PARTS * PARTS;
const MILLION = 1_000_000n;
const COLOUR = /^(CI [0-9]{5}|mica)$/i;
const SHARED = /^(.*[^ ]) +([0-9]{1,3})(?:\.([0-9]{1,4}))? *%$/;
/** @type {[number, number][]} */
const NET_SIXTEENTHS = [
  [5, 1],
  [25, 2],
  [100, 3],
  [Infinity, 4],
];

/**
 * One batch's label for one market; see bench/label.py.
 * @param {MeasuredRecipe} recipe @param {Sheet} sheet @param {State} state @param {Market} market
 * @param {LabelOptions} options @returns {Label}
 */
export function label(recipe, sheet, state, market, options) {
  const known = begin(recipe, sheet, state, market, options);
  weighUp(known);
  const rows = rowsOf(known);
  const heights = heightsOf(known);
  const net_mg = options.net_mg ?? sum(sheet.components.map(pieceMg));
  const precautions = precautionsOf(known);
  warnOfTheProduct(known);
  return {
    market,
    identity: options.identity || recipe.title,
    ingredients: rows,
    text: rows.map(({ name }) => name).join(", "),
    net_mg,
    net: netText(net_mg, market),
    batch: options.batch || state.number,
    opened: options.opened_months ? `${options.opened_months}M` : null,
    best_before: options.best_before ?? null,
    maker: options.maker ?? null,
    precautions,
    heights,
    needs: needsOf(known, net_mg, precautions),
    warnings: known.warnings,
    checked: checkedFor(market).map(([what, source]) => ({ what, source })),
    law: say("label-law"),
  };
}

/**
 * The names of an INCI text with their shares in ppm: "Aqua 40 %, Glycerin" gives Aqua 400000, Glycerin null.
 * @param {string} inci @returns {InciName[]}
 */
export function namesIn(inci) {
  return inci
    .replace(/^[ ,;]+|[ ,;]+$/g, "")
    .split(/[;,] +/)
    .filter((written) => written)
    .map((written) => {
      const shared = SHARED.exec(written);
      return shared
        ? [shared[1], Number(shared[2]) * 10_000 + Number((shared[3] ?? "").padEnd(4, "0"))]
        : [written, null];
    });
}

/**
 * What each name has of the whole, in parts of PPM x ranks, and whether that is known; see bench/label.py.
 * @param {InciName[]} names @returns {[bigint, boolean][]}
 */
export function sharesOf(names) {
  if (names.length === 1 && names[0][1] === null) return [[MILLION * RANKS, true]];
  let written = names.map(([, ppm]) => (ppm === null ? null : BigInt(ppm)));
  let left = MILLION - bigSum(written.map((ppm) => ppm ?? 0n));
  if (left < 0n) [written, left] = [written.map(() => null), MILLION];
  const falls = Math.min(written.filter((ppm) => ppm === null).length, MOST_RANK);
  let rank = 0;
  return written.map((ppm) => {
    if (ppm !== null) return [ppm * RANKS, true];
    rank += 1;
    let fall = 0n;
    for (let each = rank; each <= falls; each += 1) fall += PARTS / BigInt(each);
    return [left * (PARTS / BigInt(falls)) * fall, false];
  });
}

/**
 * Net content of one piece, never more than is there; see bench/label.py.
 * @param {number} mg @param {Market} market
 */
export function netText(mg, market) {
  const tenths = Math.floor(mg / 100);
  const sign = market === "us" ? "." : point();
  const grams =
    mg >= 10_000 ? `${Math.floor(mg / 1000)} g` : `${Math.floor(tenths / 10)}${sign}${tenths % 10} g`;
  if (market === "eu") return grams;
  const ounces = (BigInt(mg) * 10n * MILLION) / 28_349_523_125n;
  return `Net Wt ${ounces / 10n}.${ounces % 10n} oz (${grams})`;
}

/**
 * The least letter heights in µm, rounded up; null where no rule is known here.
 * @param {Market} market @param {LabelSize | null | undefined} size
 */
export function leastHeights(market, size) {
  if (market !== "us" || !size) return { list_um: null, net_um: null };
  const surface = size.width_um * size.height_um;
  const panel = surface * (size.shape === "rectangle" ? 100 : 40);
  const squareInch = INCH_UM * INCH_UM;
  const parts = surface < 12 * squareInch ? 32 : 16;
  const [, sixteenths] =
    NET_SIXTEENTHS.find(([most]) => panel <= 100 * most * squareInch) ?? last(NET_SIXTEENTHS);
  return { list_um: Math.ceil(INCH_UM / parts), net_um: Math.ceil((INCH_UM * sixteenths) / 16) };
}

/**
 * @param {MeasuredRecipe} recipe @param {Sheet} sheet @param {State} state @param {Market} market
 * @param {LabelOptions} options
 */
function begin(recipe, sheet, state, market, options) {
  return {
    recipe,
    sheet,
    state,
    market,
    options,
    warnings: /** @type {Sourced[]} */ ([]),
    weights: /** @type {Full<string, bigint>} */ (full()), // a name's key -> its share of total
    spelt: /** @type {Full<string, string>} */ (full()),
    unsure: /** @type {Set<string>} */ (new Set()),
    blends: /** @type {Set<string>} */ (new Set()), // whose shares nobody has told
    colours: /** @type {Set<string>} */ (new Set()),
    byHand: /** @type {Set<string>} */ (new Set()),
    allergens: /** @type {Full<string, bigint>} */ (full()),
    total: 0n,
    used: /** @type {Set<string>} */ (new Set()),
  };
}

/** @param {Labelling} given @param {string} says @param {string} source */
function warn({ warnings }, says, source) {
  if (!warnings.some((each) => each.says === says)) warnings.push({ says, source });
}

// What is in a piece

/** What a component gives to one finished piece. @param {SheetComponent} given */
const pieceMg = ({ takes, piece_mg }) => takes * piece_mg;

/** @template K @param {Map<K, bigint>} map @param {K} key @param {bigint} more */
const add = (map, key, more) => map.set(key, (map.get(key) ?? 0n) + more);
/** @param {bigint[]} numbers */
const bigSum = (numbers) => numbers.reduce((total, each) => total + each, 0n);
/** @type {(one: bigint, other: bigint) => bigint} */
const gcd = (one, other) => (other ? gcd(other, one % other) : one);

/** @param {Labelling} known */
function weighUp(known) {
  const { sheet, state } = known;
  /** @type {Full<string, Map<string, bigint>>} */
  const masses = full(); // component -> ingredient -> mg
  for (const line of sheet.lines) {
    const { in_mg, status } = state.lines[line.id];
    const settled = ["in", "left", "over", "short"].includes(status);
    const mg = in_mg || (settled ? line.about_mg || 0 : 0);
    if (mg) {
      if (!masses.has(line.component)) masses.set(line.component, new Map());
      add(masses.get(line.component), line.ingredient, BigInt(mg));
    } else if (status === "by_hand" || (line.mg === null && settled)) unweighed(known, line.ingredient);
  }
  const made = sheet.components.filter(({ id }) => masses.has(id));
  const sums = made.map(({ id }) => bigSum([...masses.get(id).values()]));
  const pieces = BigInt(sheet.size.pieces);
  // A part of drops alone has no mass on the sheet: what went in, for each piece.
  /** @type {[bigint, Map<string, bigint>][]} */
  const parts = made.map((component, place) => [
    BigInt(pieceMg(component)) || (sums[place] + pieces - 1n) / pieces,
    masses.get(component.id),
  ]);
  const whole = sums.reduce((most, each) => (most * each) / gcd(most, each), 1n);
  parts.forEach(([mg, mix], place) => {
    const scale = mg * (whole / sums[place]);
    known.total += mg * whole * MILLION * RANKS;
    for (const [ingredient, went] of mix) name(known, ingredient, went * scale);
  });
  if (known.blends.size) {
    warn(known, say("label-blends", { names: sayAll([...known.blends]) }), say("label-source-shares"));
  }
}

/** @param {Labelling} known @param {string} ingredient */
function inciOf(known, ingredient) {
  const about = known.recipe.ingredients[ingredient];
  const inci = known.options.cards?.[ingredient]?.inci || about.inci;
  if (!inci) {
    warn(known, say("label-no-inci", { name: about.name }), say("label-source-inci"));
  }
  known.used.add(ingredient);
  const names = namesIn(inci);
  return names.length ? names : [/** @type {InciName} */ ([about.name, null])];
}

/** @param {Labelling} known @param {string} ingredient */
function unweighed(known, ingredient) {
  const about = known.recipe.ingredients[ingredient];
  warn(known, say("label-unweighed", { name: about.name }), say("label-source-weight"));
  for (const [written] of inciOf(known, ingredient)) known.byHand.add(keyOf(known, written));
}

/** A name's key, its spelling for this market kept. @param {Labelling} given @param {string} written */
function keyOf({ market, spelt }, written) {
  const named = WORDS[market].get(written.toLowerCase()) ?? written;
  const key = named.toLowerCase();
  if (!spelt.has(key)) spelt.set(key, named);
  return key;
}

/**
 * Shares an ingredient's weight, in units of total / (PPM x ranks), out over its names.
 * @param {Labelling} known @param {string} ingredient @param {bigint} weight
 */
function name(known, ingredient, weight) {
  const about = known.recipe.ingredients[ingredient];
  const found = inciOf(known, ingredient);
  /** @type {InciName[]} */
  const names = about.kind === "fragrance" ? [["Parfum", null]] : found;
  const shares = sharesOf(names);
  if (shares.some(([, isKnown]) => !isKnown) || bigSum(shares.map(([share]) => share)) < MILLION * RANKS)
    known.blends.add(about.name);
  const coloured = names.map(([written]) => COLOUR.test(written));
  const all = COLOUR_KINDS.includes(about.kind) && !coloured.includes(true);
  names.forEach(([written], place) => {
    const key = keyOf(known, written);
    const [share, isKnown] = shares[place];
    if (!isKnown) known.unsure.add(key);
    add(known.weights, key, weight * share);
    if (all || coloured[place]) known.colours.add(key);
  });
  for (const allergen of about.fragrance?.allergens ?? []) {
    add(known.allergens, keyOf(known, allergen.name), weight * RANKS * BigInt(allergen.ppm));
  }
}

/** @param {Labelling} known @returns {LabelName[]} */
function rowsOf(known) {
  const { allergens, byHand, colours, market, recipe, spelt, total, unsure } = known;
  const weights = full(known.weights);
  if (market === "eu") {
    if (recipe.stays_on === null && allergens.size) {
      warn(known, say("label-skin"), say("label-source-allergens"));
    }
    const fold = recipe.stays_on === false ? 10_000n : 100_000n;
    for (const [key, weight] of allergens)
      if (weight * fold > total && !weights.has(key)) weights.set(key, weight);
  }
  /** @type {{[G in ListGroup]: string[]}} */
  const groups = { over: [], free: [], by_hand: [], colour: [] };
  /** @param {string} one @param {string} other */
  const heaviest = (one, other) => {
    const more = weights.get(other) - weights.get(one);
    return more ? (more > 0n ? 1 : -1) : byCodePoint(one, other);
  };
  for (const key of [...weights.keys()].sort(heaviest)) {
    const hundredfold = 100n * weights.get(key);
    const free = market === "us" ? hundredfold <= total : hundredfold < total;
    groups[colours.has(key) ? "colour" : free ? "free" : "over"].push(key);
  }
  for (const key of byHand) if (!weights.has(key)) groups[COLOUR.test(key) ? "colour" : "by_hand"].push(key);
  return /** @type {[ListGroup, string[]][]} */ (Object.entries(groups)).flatMap(([group, keys]) =>
    keys.map((key) => {
      const sure = weights.has(key) && !unsure.has(key) && !byHand.has(key);
      return {
        name: spelt.get(key),
        ppm: sure ? halfEven(weights.get(key) * MILLION, total) : null,
        group,
        sure,
      };
    }),
  );
}

// What the rules ask

/** @param {Labelling} given */
const kindsOf = ({ recipe, used }) => new Set([...used].map((key) => recipe.ingredients[key].kind));
/** @param {Set<string>} kinds @param {...string} of */
const some = (kinds, ...of) => of.some((kind) => kinds.has(kind));

/** @param {Labelling} known */
function precautionsOf(known) {
  const kinds = kindsOf(known);
  const told = (known.options.precautions ?? []).map((says) => ({ says, source: say("label-source-maker") }));
  const market = known.market;
  const source = say("label-source-practice");
  if (some(kinds, "oil", "butter", "solubiliser")) {
    told.push({ says: say("label-slippery", { market }), source });
  }
  if (some(kinds, "fragrance", "citric_acid", "surfactant", "soap_base", "whipping_base")) {
    told.push({ says: say("label-eyes", { market }), source });
  }
  return told;
}

/** @param {Labelling} known */
function warnOfTheProduct(known) {
  const kinds = kindsOf(known);
  if (known.market === "us") {
    if (some(kinds, "surfactant", "whipping_base")) {
      warn(known, say("label-foam"), say("label-source-us-second-hand", { section: "740.17" }));
    }
    if ([...known.colours].some((key) => key.startsWith("ci "))) {
      warn(known, say("label-colour-index"), say("label-source-colours"));
    }
    if (kinds.has("soap_base")) {
      warn(known, say("label-soap"), say("label-source-us", { section: "701.20" }));
    }
    warn(known, say("label-unproven"), say("label-source-us-second-hand", { section: "740.10" }));
  } else if (known.allergens.size) {
    warn(known, say("label-more-allergens"), say("label-source-more-allergens"));
  }
  if (known.recipe.looks_like_food) {
    warn(known, say("label-like-food"), say("label-source-food"));
  }
}

/** @param {Labelling} known */
function heightsOf(known) {
  const least = leastHeights(known.market, known.options.size);
  const letters = known.options.letters;
  /** @param {"list" | "net"} of @param {string} rule */
  const judge = (of, rule) => {
    const least_um = least[`${of}_um`];
    const has_um = letters?.[`${of}_um`] ?? null;
    const fits = least_um === null || has_um === null ? null : has_um >= least_um;
    if (least_um !== null && has_um !== null && !fits) {
      warn(
        known,
        say("label-too-small", { of, has: has_um, least: least_um }),
        say("label-source-us", { section: rule }),
      );
    }
    return { least_um, has_um, fits };
  };
  return {
    list: judge("list", "701.3(b)"),
    net: judge("net", "701.13"),
  };
}

/** @param {Labelling} given @param {number} netMg @param {Sourced[]} precautions */
function needsOf({ market, options, state, weights }, netMg, precautions) {
  const maker = Boolean(options.maker);
  if (market === "us") {
    const memory = say("label-source-us-memory", { section: "701" });
    return [
      { what: say("label-need-what"), there: true, source: memory },
      {
        what: say("label-need-net-us"),
        there: netMg > 0,
        source: say("label-source-us", { section: "701.13" }),
      },
      { what: say("label-need-place"), there: maker, source: memory },
      {
        what: say("label-need-list"),
        there: weights.size > 0,
        source: say("label-source-us", { section: "701.3" }),
      },
      { what: say("label-need-contact"), there: maker, source: say("label-source-contact") },
    ];
  }
  /** @type {[point: string, what: string, there: boolean][]} */
  const needs = [
    ["a", say("label-need-responsible"), maker],
    ["b", say("label-need-net-eu"), netMg > 0],
    ["c", say("label-need-date"), Boolean(options.opened_months || options.best_before)],
    ["d", say("label-need-precautions"), precautions.length > 0],
    ["e", say("label-need-batch"), Boolean(options.batch || state.number)],
    ["f", say("label-need-function"), Boolean(options.function)],
    ["g", say("label-need-ingredients"), weights.size > 0],
  ];
  return needs.map(([letter, what, there]) => ({
    what,
    there,
    source: say("label-source-eu", { point: letter }),
  }));
}

/** What is looked at on every label of a market. @param {Market} market */
function checkedFor(market) {
  const own =
    market === "us"
      ? [
          [say("label-checked-order-us"), say("label-source-us", { section: "701.3(a)" })],
          [say("label-checked-free-us"), say("label-source-us-second-hand", { section: "701.3(f)(2)" })],
          [say("label-checked-colours"), say("label-source-us-second-hand", { section: "701.3(f)(3)" })],
          [
            say("label-checked-letters"),
            say("label-source-us", { section: "701.3(b), 701.13; 16 CFR 500.21" }),
          ],
        ]
      : [
          [say("label-checked-order-eu"), say("label-source-eu", { point: "g" })],
          [say("label-checked-free-eu"), say("label-source-eu-second-hand", { point: "g" })],
          [say("label-checked-colours"), say("label-source-eu-second-hand", { point: "g" })],
          [say("label-checked-allergens"), say("label-source-allergens")],
        ];
  return [...own, [say("label-checked-net"), say("label-source-practice")]];
}

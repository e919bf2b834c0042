// What a recipe may say, as tables of fields (see recipe-fields.js): the page's copy of
// bench/shapes/recipe.py. tests/frontend/test_recipe_page.py holds the two together.

import { divides, runsByItself } from "../bench/steps/index.js";
import { say } from "../words.js";
import { choicesOf } from "./recipe-fields.js";
/** @import { WrittenRecipe, WrittenStep } from "../../bench/shapes/page" */
/** @import { ChoicesOf, Coded, Field, Part } from "../../types/recipe" */

/** @param {string} of @param {string[]} codes @returns {Coded} */
const coded = (of, ...codes) => ({ of, codes });

export const MEASURES = coded("measures", "metric", "us", "imperial");
export const VESSELS = coded("vessel", "bowl", "jug", "cup", "pan", "bag");

/** As bench/shapes/recipe.py has them: the server writes them in. @type {readonly string[]} */
const HAZARD_CODES = [];
/** @type {readonly string[]} */
const DOES_CODES = [];
/** @type {readonly string[]} */
const KIND_CODES = [];

export const ALL_HAZARDS = coded("hazard", ...HAZARD_CODES);
const DOES = coded("does", ...DOES_CODES);
export const FORMS = coded("form", "anhydrous", "monohydrate");
export const INGREDIENT_KINDS = coded("kind", ...KIND_CODES);

/** The component a path lies in. @param {WrittenRecipe} document @param {string} at @returns {Part | undefined} */
export const partAt = (document, at) =>
  at.startsWith("assembly") ? document.assembly : document.components[Number(at.split(".")[1])];

/** Every part with its letter: the components, then the assembly. @param {WrittenRecipe} document */
export const partsOf = (document) =>
  [...document.components, ...(document.assembly ? [document.assembly] : [])].map((part, place) => ({
    part,
    letter: "ABCDEFGHIJKLM"[place],
    id: "id" in part ? part.id : "assembly",
  }));

/** @param {WrittenRecipe} document @param {{readonly ingredient?: string}} line */
export const nameOfLine = (document, line) => document.ingredients[line.ingredient ?? ""]?.name ?? "";

/** @type {ChoicesOf} */
const lines = (document, at) =>
  (partAt(document, at)?.lines ?? [])
    .filter(({ ingredient }) => ingredient)
    .map((line) => [line.id, nameOfLine(document, line)]);
/** @type {ChoicesOf} */
const portions = (document, at) =>
  (partAt(document, at)?.steps ?? [])
    .flatMap((step) => (divides(step) ? step.portions : []))
    .map(({ id, name }) => [id, name]);
/** @type {ChoicesOf} */
const waits = (document, at) => [
  ["", "\u2013"],
  ...(partAt(document, at)?.steps ?? [])
    .filter(runsByItself)
    .map(({ id, title }) => /** @type {const} */ ([id, title])),
];
/** @type {ChoicesOf} */
const vessels = (document, at) => [...choicesOf(VESSELS), ...portions(document, at)];
/** @type {ChoicesOf} */
const ingredients = (document) => Object.entries(document.ingredients).map(([id, { name }]) => [id, name]);

/** Every step there is but the one at that path, as that step would name it. @type {ChoicesOf} */
export function otherSteps(document, at) {
  const here = partAt(document, at);
  const own = at.split(".steps.")[1].split(".")[0];
  return partsOf(document).flatMap(({ part, letter, id }) =>
    part.steps.flatMap((step, index) =>
      part === here && index === Number(own)
        ? []
        : [[part === here ? step.id : `${id}.${step.id}`, `${letter}${index + 1} ${step.title}`]],
    ),
  );
}

/**
 * What a step comes after as long as it names none: the one before it; the first of the joining, the end of each part.
 * @param {WrittenRecipe} document @param {string} at @returns {string[]}
 */
export function comesAfter(document, at) {
  const before = partAt(document, at)?.steps[Number(at.split(".steps.")[1].split(".")[0]) - 1];
  if (before) return [before.id];
  const parts = at.startsWith("assembly.") ? document.components : [];
  return parts.flatMap(({ id, steps }) => steps.slice(-1).map((step) => `${id}.${step.id}`));
}

/** @param {string} stem @returns {(had: readonly {id?: string}[]) => {id: string, name: string}} */
const nextId = (stem) => (had) => {
  let number = had.length + 1;
  while (had.some(({ id }) => id === stem + number)) number += 1;
  return { id: stem + number, name: "" };
};

/** @type {readonly Field[]} */
export const RECIPE = [
  [
    "use",
    "use",
    "pick",
    {
      ...coded("use", "bath", "wash", "left_on", "lips", "eyes", "air", "decoration"),
      said: (use) => say("product-use", { use }),
    },
  ],
  [
    "sold_in",
    "sold-in",
    "some",
    {
      ...coded("sold-in", "us", "eu", "uk", "ni"),
      said: (market) => say("product-market", { market }),
    },
    () => say("page-recipe-not-sold"),
  ],
  ["title", "title*", "grow"],
  ["written_for", "written-for*", "whole"],
  ["piece.one", "one", "", "bar"],
  ["piece.many", "many", "", "bars"],
  ["measures", "measures", "pick", MEASURES],
];
/** @type {readonly Field[]} */
export const RECIPE_MORE = [
  ["summary", "summary", "area"],
  ["keeps_months", "keeps-months", "whole"],
  ["stays_on", "stays-on", "maybe"],
  ["looks_like_food", "looks-like-food", "maybe"],
  ["asks_air", "asks-air", "maybe"],
  ["good_piece.mass.least", "good-mass-least", "", "95 g"],
  ["good_piece.mass.most", "good-mass-most", "", "105 g"],
  ["good_piece.ph.least", "good-ph-least", "decimal", "5.5"],
  ["good_piece.ph.most", "good-ph-most", "decimal", "7"],
  ["good_piece.look", "good-look", "grow"],
  ["good_piece.set", "good-set", "grow"],
  ["good_piece.judge", "good-judge", "list"],
  [
    "before",
    "before",
    "some",
    { ...coded("before", "cleaned", "cleared"), said: (what) => say(`gather-start-${what}`) },
  ],
];

/** @type {readonly Field[]} */
export const COMPONENT = [
  ["name", "part-name*", "grow"],
  ["piece", "weighs", "", "150 g"],
];
/** @type {readonly Field[]} */
export const COMPONENT_MORE = [
  ["spares", "spares", "whole"],
  ["stays_behind", "stays-behind", "", "20 g"],
  ["loss", "loss", "", "2 %"],
  ["part", "one-part", "", "100 g"],
  ["vessel", "made-in", "pick", VESSELS],
  ["mould.shape", "mould", "", "dome"],
  ["mould.held", "mould-held", "flag"],
];

/** @type {readonly Field[]} */
export const LINE = [
  ["tolerance", "tolerance", "", "2 %"],
  ["note", "note", "area"],
  ["optional", "left-out", "flag"],
  ["second_look", "second-look", "flag"],
  [
    "substitutes",
    "instead",
    "rows",
    {
      one: "substitute",
      blank: () => ({ ingredient: "" }),
      fields: [
        [
          "ingredient",
          "ingredient*",
          "pick",
          (document, at) => [["", "\u2013"], ...ingredients(document, at)],
        ],
        ["amount", "other-amount"],
        ["says", "what-changes", "grow"],
        ["changes_method", "changes-method", "flag"],
      ],
    },
  ],
];

/** @type {readonly Field[]} */
export const INGREDIENT = [
  ["name", "ingredient-name*", "grow"],
  ["kind", "kind", "pick", INGREDIENT_KINDS],
  ["density.g_per_ml", "density", "decimal", "1.09"],
  ["density.source", "density-source", "grow", "sheet"],
  ["density.tapped_g_per_ml", "density-tapped", "decimal"],
  ["active", "active", "", "70 %"],
  ["inci", "inci", "grow"],
  ["most_c", "most-warm", "decimal"],
  ["note", "note", "area"],
  ["hazards", "cautions", "some", ALL_HAZARDS],
];

/** What only one kind of ingredient is asked. @type {{readonly [kind: string]: readonly Field[] | undefined}} */
export const INGREDIENT_OF_KIND = {
  citric_acid: [["form", "form", "pick", FORMS]],
  fragrance: [
    ["fragrance.limit", "limit", "", "2.5 %"],
    ["fragrance.category", "category", "", "9"],
    [
      "fragrance.allergens",
      "allergens",
      "rows",
      {
        one: "allergen",
        blank: () => ({ name: "", share: "" }),
        fields: [
          ["name", "name*", "grow"],
          ["share", "of-fragrance*", "", "1.2 %"],
        ],
      },
    ],
  ],
};

/** @type {readonly Field[]} */
export const STEP_MORE = [
  ["window.latest", "within", "", "15 min"],
  ["window.stake", "or-else", "area"],
  ["window.rescue", "if-missed", "area"],
  ["window.from", "counted-from", "pick", otherSteps],
  ["hands", "hands", "", "5 min"],
  ["does", "does", "pick", DOES],
  ["tools", "tools", "list"],
  ["caution", "caution", "area"],
  ["reason", "reason", "area"],
  ["hazards", "usual-cautions", "some", ALL_HAZARDS],
  [
    "ways",
    "ways",
    "rows",
    {
      one: "way",
      blank: nextId("way"),
      fields: [
        ["name", "name*", "grow"],
        ["says", "how", "grow"],
        ["hazards", "cautions", "some", ALL_HAZARDS],
      ],
    },
  ],
  ["optional", "skipped", "flag"],
];

/**
 * @typedef {WrittenStep["kind"]} WrittenKind
 *
 * Each kind: what is asked at once, what in the fold, and how it begins. None of one that this version does not know.
 * @type {{readonly [K in WrittenKind]: {main: readonly Field[], more: readonly Field[], blank: () => object}}}
 */
export const KINDS = {
  weigh: {
    main: [
      ["lines", "weigh-in*", "some", lines],
      ["into", "into", "pick", vessels],
    ],
    more: [],
    blank: () => ({ lines: [] }),
  },
  do: {
    main: [["about", "takes-about", "", "3 min"]],
    more: [
      ["of", "works-on", "some", lines],
      ["tips", "tip-in", "list"],
      ["into", "into", "pick", vessels],
    ],
    blank: () => ({}),
  },
  melt: {
    main: [
      ["of", "melt-these*", "some", lines],
      ["heater", "melt-with*", "", "microwave"],
      ["burst", "heat-for*", "", "15 s"],
      ["look_for", "until*", "area"],
    ],
    more: [
      ["last_burst", "last-time-for", "", "10 s"],
      ["rest", "then-rest", "", "30 s"],
      ["from_c", "from-warm", "decimal"],
      ["to_c", "to-warm", "decimal"],
    ],
    blank: () => ({ of: [], heater: "", burst: "", look_for: "" }),
  },
  split: {
    main: [
      [
        "portions",
        "portions",
        "rows",
        {
          one: "portion",
          blank: nextId("portion"),
          fields: [
            ["name", "name*", "grow"],
            ["share", "shares", "whole"],
            ["mass", "or-mass", "", "300 g"],
          ],
        },
      ],
    ],
    more: [["from", "out-of", "pick", vessels]],
    blank: () => ({
      portions: [
        { id: "portion1", name: "" },
        { id: "portion2", name: "" },
      ],
    }),
  },
  check: {
    main: [
      ["ask", "ask*", "area"],
      ["yes", "if-so", "grow"],
      ["not_yet.do", "not-yet*", "area"],
      ["too_far.do", "too-far", "area"],
    ],
    more: [["too_far.wait", "leave-for", "", "5 min"]],
    blank: () => ({ ask: "", not_yet: { do: "" } }),
  },
  pieces: {
    main: [
      ["verb", "each-is", "", "pressed"],
      ["again", "asked-after", "area"],
      ["one_by_one", "one-by-one", "flag"],
      ["partial", "small-pieces", "flag"],
    ],
    more: [["of", "from-portions", "some", portions]],
    blank: () => ({}),
  },
  wait: {
    main: [
      ["word", "wait-until*", "", "dry"],
      ["earliest", "earliest*", "", "4 h"],
      ["usual", "usual*", "", "6 h"],
      ["latest", "latest", "", "24 h"],
      ["test", "how-to-tell", "area"],
      ["stake", "left-longer", "area"],
      ["rescue", "if-missed", "area"],
    ],
    more: [],
    blank: () => ({ word: "", earliest: "", usual: "" }),
  },
  turn: {
    main: [
      ["every", "every*", "", "6 h"],
      ["during", "during*", "pick", waits],
      ["word", "each-then*", "", "turned"],
    ],
    more: [],
    blank: () => ({ every: "", during: "", word: say("page-recipe-example-turned") }),
  },
};

/** The kinds, in the order in which they are offered. */
export const KIND_NAMES = /** @type {WrittenKind[]} */ (Object.keys(KINDS));

/** What a kind of step is called. @param {WrittenKind} kind */
export const kindName = (kind) => (KINDS[kind] ? say(`page-recipe-kind-${kind}`) : kind);

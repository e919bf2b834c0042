// What a recipe may say, as tables of fields (see recipe-fields.js): the page's copy of
// bench/recipe_schema.py. tests/frontend/test_recipe_page.py holds the two together.

import { runsByItself } from "../bench/steps/index.js";
/** @import { WrittenRecipe, WrittenStep } from "../../bench/shapes/page" */
/** @import { Choices, ChoicesOf, Field, Part } from "../../types/recipe" @param {string} text @returns {Choices} */
const words = (text) => text.split(" ").map((each) => [each, each.replaceAll("_", " ")]);

const HAZARDS = words("alcohol hot_fat hot_soap mixer powder slippery superheated wet_sockets");
const DOES = words("grind sift mix wipe whip colour spray press pour pipe unmould join sprinkle wrap label");
const INGREDIENT_KINDS = words(
  "alcohol bicarbonate botanical butter citric_acid dye fragrance lake mica oil pigment powder salt " +
    "soap_base solubiliser surfactant water whipping_base other",
);

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
    .flatMap((step) => (step.kind === "split" ? step.portions : []))
    .map(({ id, name }) => [id, name]);
/** @type {ChoicesOf} */
const waits = (document, at) => [
  ["", "\u2013"],
  ...(partAt(document, at)?.steps ?? [])
    .filter(runsByItself)
    .map(({ id, title }) => /** @type {const} */ ([id, title])),
];
/** @type {ChoicesOf} */
const vessels = (document, at) => [...words("bowl jug cup pan bag"), ...portions(document, at)];
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

/** @param {string} stem @returns {(had: readonly {id?: string}[]) => {id: string, name: string}} */
const nextId = (stem) => (had) => {
  let number = had.length + 1;
  while (had.some(({ id }) => id === stem + number)) number += 1;
  return { id: stem + number, name: "" };
};

/** @type {readonly Field[]} */
export const RECIPE = [
  ["title", "Title*", "grow"],
  ["written_for", "Written for, pieces*", "whole"],
  ["piece.one", "One is called", "", "bar"],
  ["piece.many", "Several are called", "", "bars"],
  [
    "measures",
    "Spoons and cups",
    "pick",
    [
      ["metric", "Metric"],
      ["us", "US"],
      ["imperial", "Imperial"],
    ],
  ],
];
/** @type {readonly Field[]} */
export const RECIPE_MORE = [
  ["summary", "About it", "area"],
  ["stays_on", "Stays on the skin", "maybe"],
  ["looks_like_food", "Could be taken for food", "maybe"],
];

/** @type {readonly Field[]} */
export const COMPONENT = [
  ["name", "Name of this part*", "grow"],
  ["piece", "One weighs", "", "150 g"],
];
/** @type {readonly Field[]} */
export const COMPONENT_MORE = [
  ["spares", "Spare pieces", "whole"],
  ["stays_behind", "Stays in the bowl", "", "20 g"],
  ["loss", "Lost in making", "", "2 %"],
  ["part", "One part is", "", "100 g"],
  ["vessel", "Made in", "pick", words("bowl jug cup pan bag")],
  ["mould.shape", "Mould, its shape", "", "dome"],
  ["mould.held", "It stays in the mould until turned out", "flag"],
];

/** @type {readonly Field[]} */
export const LINE = [
  ["tolerance", "May be off by", "", "2 %"],
  ["note", "Note", "area"],
  ["optional", "May be left out", "flag"],
  [
    "substitutes",
    "Instead of it",
    "rows",
    {
      one: "substitute",
      blank: () => ({ ingredient: "" }),
      fields: [
        [
          "ingredient",
          "Ingredient*",
          "pick",
          (document, at) => [["", "\u2013"], ...ingredients(document, at)],
        ],
        ["amount", "Amount, if another"],
        ["says", "Say", "grow"],
        ["changes_method", "Changes the method", "flag"],
      ],
    },
  ],
];

/** @type {readonly Field[]} */
export const INGREDIENT = [
  ["name", "Name, wherever it is used*", "grow"],
  ["kind", "What it is", "pick", INGREDIENT_KINDS],
  ["density.g_per_ml", "Density, g/mL", "decimal", "1.09"],
  ["density.source", "Density is from", "grow", "supplier's sheet"],
  ["density.tapped_g_per_ml", "Density tapped down", "decimal"],
  ["active", "Active share", "", "70 %"],
  ["inci", "INCI name", "grow"],
  ["most_c", "Not above, \u00b0C", "decimal"],
  ["note", "Note", "area"],
  ["hazards", "Cautions", "some", HAZARDS],
];

/** What only one kind of ingredient is asked. @type {{readonly [kind: string]: readonly Field[] | undefined}} */
export const INGREDIENT_OF_KIND = {
  citric_acid: [["form", "It is", "pick", words("anhydrous monohydrate")]],
  fragrance: [
    ["fragrance.limit", "Limit on its IFRA certificate", "", "2.5 %"],
    ["fragrance.category", "For category", "", "9"],
    [
      "fragrance.allergens",
      "Allergens it names",
      "rows",
      {
        one: "allergen",
        blank: () => ({ name: "", share: "" }),
        fields: [
          ["name", "Name*", "grow"],
          ["share", "Share of the fragrance*", "", "1.2 %"],
        ],
      },
    ],
  ],
};

/** @type {readonly Field[]} */
export const STEP_MORE = [
  ["window.latest", "Must follow within", "", "15 min"],
  ["window.stake", "Or else", "area"],
  ["window.rescue", "If missed", "area"],
  ["window.from", "Counted from", "pick", otherSteps],
  ["hands", "Takes your hands for", "", "5 min"],
  ["does", "It does", "pick", DOES],
  ["tools", "Tools, commas between", "list"],
  ["caution", "Caution", "area"],
  ["reason", "Why", "area"],
  ["hazards", "Usual cautions", "some", HAZARDS],
  [
    "ways",
    "Ways to do it",
    "rows",
    {
      one: "way",
      blank: nextId("way"),
      fields: [
        ["name", "Name*", "grow"],
        ["says", "Say", "grow"],
        ["hazards", "Cautions", "some", HAZARDS],
      ],
    },
  ],
  ["optional", "May be skipped", "flag"],
];

/**
 * @typedef {WrittenStep["kind"]} WrittenKind
 *
 * Each kind: its name, what it is for, what is asked at once, what in the fold, and how it begins.
 * @type {{readonly [K in WrittenKind]: {says: string, main: readonly Field[], more: readonly Field[], blank: object}}}
 */
export const KINDS = {
  weigh: {
    says: "Weigh",
    main: [
      ["lines", "Weigh in*", "some", lines],
      ["into", "Into", "pick", vessels],
    ],
    more: [],
    blank: { lines: [] },
  },
  do: {
    says: "Do",
    main: [["about", "Takes about", "", "3 min"]],
    more: [
      ["of", "What it works on", "some", lines],
      ["tips", "Tip in the jug or cup named", "list"],
      ["into", "Into", "pick", vessels],
    ],
    blank: {},
  },
  melt: {
    says: "Melt",
    main: [
      ["of", "Melt*", "some", lines],
      ["heater", "In*", "", "microwave"],
      ["burst", "Heat for*", "", "15 s"],
      ["look_for", "Until*", "area"],
    ],
    more: [
      ["last_burst", "Last time for", "", "10 s"],
      ["rest", "Then rest", "", "30 s"],
      ["from_c", "From, \u00b0C", "decimal"],
      ["to_c", "To, \u00b0C", "decimal"],
    ],
    blank: { of: [], heater: "", burst: "", look_for: "" },
  },
  split: {
    says: "Split",
    main: [
      [
        "portions",
        "Portions",
        "rows",
        {
          one: "portion",
          blank: nextId("portion"),
          fields: [
            ["name", "Name*", "grow"],
            ["share", "Shares", "whole"],
            ["mass", "Or mass", "", "300 g"],
          ],
        },
      ],
    ],
    more: [["from", "Out of", "pick", vessels]],
    blank: {
      portions: [
        { id: "portion1", name: "" },
        { id: "portion2", name: "" },
      ],
    },
  },
  check: {
    says: "Check",
    main: [
      ["ask", "Ask*", "area"],
      ["yes", "If so, the button says", "grow"],
      ["not_yet.do", "If not yet*", "area"],
      ["too_far.do", "If too far", "area"],
    ],
    more: [["too_far.wait", "If too far, leave it for", "", "5 min"]],
    blank: { ask: "", not_yet: { do: "" } },
  },
  pieces: {
    says: "Pieces",
    main: [
      ["verb", "Each is", "", "pressed"],
      ["again", "Asked after each", "area"],
      ["one_by_one", "Count them one by one", "flag"],
      ["partial", "Count part pieces", "flag"],
    ],
    more: [["of", "From portions", "some", portions]],
    blank: {},
  },
  wait: {
    says: "Wait",
    main: [
      ["word", "To*", "", "dry"],
      ["earliest", "Earliest*", "", "4 h"],
      ["usual", "Usually*", "", "6 h"],
      ["latest", "Latest", "", "24 h"],
      ["test", "How to tell", "area"],
      ["stake", "If left longer", "area"],
      ["rescue", "If missed", "area"],
    ],
    more: [],
    blank: { word: "", earliest: "", usual: "" },
  },
  turn: {
    says: "Turn",
    main: [
      ["every", "Every*", "", "6 h"],
      ["during", "While this goes on*", "pick", waits],
      ["word", "Each is then*", "", "turned"],
    ],
    more: [],
    blank: { every: "", during: "", word: "turned" },
  },
};

/** The kinds, in the order in which they are offered. */
export const KIND_NAMES = /** @type {WrittenKind[]} */ (Object.keys(KINDS));

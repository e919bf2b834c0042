/** What a market asks of a label beside its list. The same as bench/label_rules.py, which has the sources. */

import { clpNeeds, clpOpen, warnOfTheMixture } from "./label-clp.js";
import { warn } from "./label-list.js";
import { hundredthsOfAnOunce, LEAST_NOMINAL_MG, leastHeights } from "./label-net.js";
import { byCodePoint } from "./whole.js";
import { say, sayAll } from "../words.js";
/** @import { LabelHeights, LabelNeed, ProductUse, LetterHeight, Market, Sourced } from "../../bench/shapes/page" */
/** @import { CheckedRule, Clp } from "../../bench/shapes/page" */
/** @import { Labelling } from "./label-list.js" */

const MOST_MONTHS = 30;
const COMMON_NAMES = new RegExp(
  "\\b(soap|bath (bomb|fizz|salts?|melt|oil|tablet|truffle|bar)|bubble bath|shower (steamer|gel|bar)|body wash" +
    "|scrub|lotion|balm|cream|(body|hand|foot) butter|hand wash|cleanser|shampoo|powder|body oil|mask|deodorant)s?\\b",
);
const ZIP = /\b[A-Z]{2},? [0-9]{5}(-[0-9]{4})?\b/;
const US_PHONE = /(^|[^0-9])(\+?1[ .-])?\(?[2-9][0-9]{2}\)?[ .-][0-9]{3}[ .-][0-9]{4}([^0-9]|$)/;
const ELECTRONIC = /[^ @]+@[^ @]+\.[a-z]{2,}|(https?:\/\/|www\.)[^ ]+|[a-z0-9-]+\.(com|net|org|us)\b/;
const UK_POSTCODE = /\b[A-Z]{1,2}[0-9][A-Z0-9]? ?[0-9][A-Z]{2}\b/;

/** What it is for; null: nobody knows. @param {Labelling} known @returns {ProductUse | null} */
function useOf(known) {
  const use = known.options.use || known.recipe.use;
  if (use) return use;
  if (known.recipe.stays_on) return "left_on";
  const kinds = kindsOf(known);
  return some(kinds, "bicarbonate", "carbonate") && some(kinds, "acid", "citric_acid") ? "bath" : null;
}

/** What only scents the air is a mixture under CLP in the EU and the UK. @param {Labelling} known */
export const isMixture = (known) => known.market !== "us" && useOf(known) === "air";

/** @param {Labelling} given */
const kindsOf = ({ recipe, used }) => new Set([...used].map((key) => recipe.ingredients[key].kind));
/** @param {Set<string>} kinds @param {...string} of */
const some = (kinds, ...of) => of.some((kind) => kinds.has(kind));
/** @param {Labelling} known @param {string[]} keys */
const spelt = (known, keys) => sayAll(keys.map((key) => known.spelt.get(key)));
/**
 * Whether the table says so of a name.
 * @param {Labelling} given @param {"foams" | "peroxide" | "unlisted" | "which"} what
 */
const are =
  ({ known }, what) =>
  (/** @type {string} */ key) =>
    Boolean(known.get(key)?.[what]);
/** The names of detergents that foam. @param {Labelling} known */
const foaming = (known) => [...known.weights.keys()].filter(are(known, "foams"));
/** @param {string} section */
const cfr = (section) => say("label-source-us", { section });
/** @param {Market} market @param {string} letter */
const article = (market, letter) =>
  market === "uk" ? say("label-source-uk", { point: letter }) : say("label-source-eu", { point: letter });

// How long it keeps

/** Whether a time after opening means nothing. @param {Labelling} given */
export const isOpenedIdle = ({ options }) => Boolean(options.single_use);

/** Whether it keeps for more than 30 months; null: nobody said. @param {Labelling} given */
function keepsLonger({ options }) {
  const { keeps_months: months, today, best_before: best, lots_best_before: lots } = options;
  if (months) return months > MOST_MONTHS;
  if (best && today) return isLater(best, today);
  return lots && today && !isLater(lots, today) ? false : null;
}

/** Whether a day is more than 30 months after another. @param {string} day @param {string} today */
function isLater(day, today) {
  const [year, month, ofMonth] = day.split("-").map(Number);
  const [yearNow, monthNow, now] = today.split("-").map(Number);
  const months = 12 * (year - yearNow) + month - monthNow;
  return months > MOST_MONTHS || (months === MOST_MONTHS && ofMonth > now);
}

/** @param {Labelling} known */
function isDated(known) {
  const { best_before: best, opened_months: opened } = known.options;
  return keepsLonger(known) ? isOpenedIdle(known) || Boolean(opened) : Boolean(best);
}

// What is printed

/** @param {Labelling} known @returns {Sourced[]} */
export function precautions(known) {
  const { market, options } = known;
  const [kinds, use] = [kindsOf(known), useOf(known)];
  const told = (options.precautions ?? []).map((says) => ({ says, source: say("label-source-maker") }));
  if (isMixture(known)) return told;
  const source = say("label-source-practice");
  if (some(kinds, "oil", "butter", "solubiliser") && (use === "bath" || use === "wash")) {
    told.push({ says: say("label-slippery", { market }), source });
  }
  if (some(kinds, "fragrance", "citric_acid", "surfactant", "soap_base", "whipping_base")) {
    told.push({ says: say("label-eyes", { market }), source });
  }
  if (market === "us" && use === "bath" && foaming(known).length && options.meant_for !== "adults") {
    told.push({ says: say("label-law-foam", { meant: options.meant_for || "all" }), source: cfr("740.17") });
  }
  if (market !== "us" && [...known.weights.keys()].some(are(known, "peroxide"))) {
    told.push({ says: say("label-law-peroxide", { market }), source: say("label-source-peroxide") });
  }
  return told;
}

// What is to be looked at

/** @param {Labelling} known @param {Clp | null} clp */
export function warnOfTheProduct(known, clp) {
  if (known.market === "us") warnUs(known);
  else if (clp) warnOfTheMixture(known, clp);
  else warnEurope(known);
  warnOfDays(known);
  if (known.recipe.looks_like_food) warn(known, say("label-like-food"), say("label-source-food"));
}

/** @param {Labelling} known */
function warnUs(known) {
  const [kinds, use] = [kindsOf(known), useOf(known)];
  const foams = foaming(known).length > 0;
  const mayFoam = some(kinds, "surfactant", "whipping_base") && !foams && (use === null || use === "bath");
  if (foams && use === "bath") warn(known, say("label-foam-directions"), cfr("740.17"));
  else if ((foams && use === null) || mayFoam) warn(known, say("label-foam"), cfr("740.17"));
  const numbers = [...known.colours].filter((key) => key.startsWith("ci ")).sort(byCodePoint);
  if (numbers.length) {
    const names = spelt(known, numbers);
    warn(known, say("label-colour-index", { names }), say("label-source-colours"));
  }
  const listed = [...known.weights.keys()];
  const unlisted = listed.filter(are(known, "unlisted"));
  if (unlisted.length) {
    const names = spelt(known, unlisted);
    warn(known, say("label-colour-unlisted", { names }), say("label-source-colours"));
  }
  const unknown = listed.filter((key) => !known.known.has(key) && !numbers.includes(key));
  if (unknown.length) {
    warn(known, say("label-english", { names: spelt(known, unknown) }), say("label-source-english"));
  }
  if (kinds.has("soap_base")) warn(known, say("label-soap"), cfr("701.20"));
  warn(known, say("label-unproven"), cfr("740.10"));
}

/** @param {Labelling} known */
function warnEurope(known) {
  const { market, recipe, used } = known;
  if (known.allergens.size && market === "eu") {
    warn(known, say("label-more-allergens"), say("label-source-more-allergens"));
  }
  if (known.newer.size) {
    const names = sayAll([...known.newer]);
    warn(known, say("label-not-asked-allergens", { names }), say("label-source-former-allergens"));
  }
  const untold = [...used]
    .map((key) => recipe.ingredients[key])
    .filter(({ kind, fragrance }) => kind === "fragrance" && !fragrance?.allergens.length)
    .map(({ name }) => name);
  if (untold.length) {
    warn(known, say("label-allergens-untold", { names: sayAll(untold) }), say("label-source-allergens"));
  }
  const which = [...known.colours].filter(are(known, "which")).sort(byCodePoint);
  if (which.length) {
    const source = say("label-source-eu-second-hand", { point: "g" });
    warn(known, say("label-which-number", { names: spelt(known, which) }), source);
  }
}

/** @param {Labelling} known */
function warnOfDays(known) {
  const { best_before: best, today, lots_best_before: lots, opened_months: opened } = known.options;
  const source = say("label-source-practice");
  if (best && today && best < today) warn(known, say("label-past"), source);
  if (best && lots && best > lots) warn(known, say("label-beyond-lots", { day: lots }), source);
  if (opened && isOpenedIdle(known)) warn(known, say("label-opened-idle"), say("label-source-opened"));
}

/** @param {Labelling} known @param {number} netMg @returns {LabelHeights} */
export function heights(known, netMg) {
  const least = leastHeights(known.market, known.options.size, netMg);
  const ofNet = known.market === "us" ? cfr("701.13") : say("label-source-digits");
  return {
    list: height(known, "list", cfr("701.3(b)"), least.list_um),
    net: height(known, "net", ofNet, least.net_um),
  };
}

/**
 * @param {Labelling} known @param {"list" | "net"} of @param {string} source @param {number | null} least_um
 * @returns {LetterHeight}
 */
function height(known, of, source, least_um) {
  const has_um = known.options.letters?.[`${of}_um`] ?? null;
  const fits = least_um === null || has_um === null ? null : has_um >= least_um;
  if (least_um !== null && has_um !== null && !fits) {
    warn(known, say("label-too-small", { of, has: has_um, least: least_um }), source);
  }
  return { least_um, has_um, fits };
}

// What has to stand on it

/**
 * @param {Labelling} known @param {number} netMg @param {Sourced[]} cautions @param {Clp | null} clp
 * @returns {LabelNeed[]}
 */
export function needs(known, netMg, cautions, clp) {
  if (clp) return clpNeeds(known, clp, netMg);
  return known.market === "us" ? needsUs(known, netMg) : needsEurope(known, netMg, cautions);
}

/** @param {Labelling} given @param {number} netMg @returns {LabelNeed[]} */
function needsUs({ options, recipe, weights }, netMg) {
  const maker = options.maker ?? "";
  const identity = (options.identity || recipe.title).toLowerCase();
  const isKnown = Boolean(options.function) || COMMON_NAMES.test(identity);
  const hasContact = [ZIP, US_PHONE, ELECTRONIC].some((each) => each.test(maker));
  return [
    { what: say("label-need-what"), there: isKnown, source: cfr("701.11") },
    { what: say("label-need-net-us"), there: hundredthsOfAnOunce(netMg) > 0, source: cfr("701.13") },
    { what: say("label-need-place"), there: ZIP.test(maker), source: cfr("701.12") },
    { what: say("label-need-list"), there: weights.size > 0, source: cfr("701.3") },
    { what: say("label-need-contact"), there: hasContact, source: say("label-source-contact") },
  ];
}

/** @param {Labelling} known @param {number} netMg @param {Sourced[]} cautions @returns {LabelNeed[]} */
function needsEurope(known, netMg, cautions) {
  const { market, options, state, weights } = known;
  const maker = options.maker ?? "";
  const isFreeOfNet = Boolean(options.single_use) || (netMg > 0 && netMg < LEAST_NOMINAL_MG);
  /** @type {[point: string, what: string, there: boolean][]} */
  const asked = [
    [
      "a",
      say("label-need-responsible", { market }),
      market === "uk" ? UK_POSTCODE.test(maker) : Boolean(maker),
    ],
    ["b", say("label-need-net-eu"), netMg > 0 || isFreeOfNet],
    ["c", say("label-need-date"), isDated(known)],
    ["d", say("label-need-precautions"), cautions.length > 0],
    ["e", say("label-need-batch"), Boolean(options.batch || state.number)],
    ["f", say("label-need-function"), Boolean(options.function)],
    ["g", say("label-need-ingredients"), weights.size > 0],
  ];
  return asked.map(([letter, what, there]) => ({ what, there, source: article(market, letter) }));
}

// What was looked at, and what was not

/** @param {Labelling} given @param {Clp | null} clp @returns {CheckedRule[]} */
export function checked({ market, options }, clp) {
  const secondHand = say("label-source-eu-second-hand", { point: "g" });
  const own = clp
    ? [
        [say("label-checked-classes"), say("label-source-mixture")],
        [say("label-checked-digits"), say("label-source-digits")],
      ]
    : market === "us"
      ? [
          [say("label-checked-order-us"), cfr("701.3(a)")],
          [say("label-checked-free-us"), cfr("701.3(f)(2)")],
          [say("label-checked-colours"), cfr("701.3(f)(3)")],
          [say("label-checked-letters"), cfr("701.3(b), 701.13; 16 CFR 500.21")],
        ]
      : [
          [say("label-checked-order-eu"), article(market, "g")],
          [say("label-checked-free-eu"), secondHand],
          [say("label-checked-colours"), secondHand],
          [say("label-checked-allergens"), say("label-source-allergens")],
          [say("label-checked-digits"), say("label-source-digits")],
        ];
  if (typeof options.net_mg === "number") own.push([say("label-checked-net"), say("label-source-practice")]);
  return own.map(([what, source]) => ({ what, source }));
}

/**
 * What is for the maker to look at: it is said before all else.
 * @param {Labelling} known @param {Clp | null} clp @returns {Sourced[]}
 */
export function notChecked(known, clp) {
  const { market, options } = known;
  const practice = say("label-source-practice");
  const asked = [];
  if (typeof options.net_mg !== "number") asked.push([say("label-open-net"), practice]);
  if (useOf(known) === null) asked.push([say("label-open-use"), practice]);
  if (market === "us") {
    asked.push(
      [say("label-open-place"), cfr("701.13")],
      [say("label-open-language"), cfr("701.2(b)")],
      [say("label-open-made-for"), cfr("701.12")],
    );
  } else if (!clp) {
    if (typeof options.single_use !== "boolean" && options.opened_months) {
      asked.push([say("label-open-single"), say("label-source-opened")]);
    }
    if (keepsLonger(known) === null) asked.push([say("label-open-life"), article(market, "c")]);
    asked.push([say("label-open-origin"), article(market, "a")]);
  }
  if (market === "eu") {
    const source = clp ? say("label-source-clp-language") : say("label-source-language-eu");
    asked.push([say("label-open-language-eu"), source]);
  } else if (market === "uk") {
    asked.push([say("label-open-northern-ireland"), say("label-source-northern-ireland")]);
  }
  if (options.best_before && !options.lots_best_before) asked.push([say("label-open-lots"), practice]);
  const said = asked.map(([says, source]) => ({ says, source }));
  return clp ? [...clpOpen(known, clp), ...said] : said;
}

/** Said before all else. @param {Labelling} known @returns {Sourced[]} */
export function dutiesOpen({ options: { open_duties: count } }) {
  return count ? [{ says: say("label-open-duties", { count }), source: say("label-source-duties") }] : [];
}

/** What is due before it is sold. @param {Market} market @param {Clp | null} clp @returns {Sourced[]} */
export function duties(market, clp) {
  if (clp) return dutiesOfAMixture(market);
  const asked =
    market === "us"
      ? [
          [say("label-duty-substantiate"), say("label-source-us-safety")],
          [say("label-duty-register"), say("label-source-us-register")],
          [say("label-duty-events"), say("label-source-contact")],
        ]
      : [
          [say("label-duty-report"), say("label-source-report")],
          [say("label-duty-file"), say("label-source-file")],
          [say("label-duty-notice", { market }), say("label-source-notice", { market })],
        ];
  if (market === "uk") asked.push([say("label-duty-uk-person"), say("label-source-uk-person")]);
  return asked.map(([says, source]) => ({ says, source }));
}

/** @param {Market} market @returns {Sourced[]} */
function dutiesOfAMixture(market) {
  const source = say("label-source-clp-memory");
  const asked = [say("label-duty-classify"), ...(market === "eu" ? [say("label-duty-poison")] : [])];
  return asked.map((says) => ({ says, source }));
}

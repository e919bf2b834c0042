/**
 * The sheet: a recipe at one size for one kit. Every weight on a scale, every wait and burst.
 *
 * A pure function of (measured recipe, size, kit): the same inputs give the same bytes here and on
 * the server, so a run can start with no network. A sheet is never edited.
 *
 * Ids say where a thing belongs: "base.1.dry" is the step `dry` of round 1 of the component `base`.
 */

import { nearest, over, readDensity } from "./amounts.js";
import { BenchError } from "./errors.js";
import { burstPlan, heatUj, inBursts } from "./heating.js";
import { full, last } from "./lists.js";
import { cavities, makeMg, MOST_PIECES, piecesFrom, roomMg, rounds, vesselFor } from "./sizing.js";
import { bowlScale, cupScale, toleranceMg, uncertaintyPpm } from "./weighing.js";
import {
  ceiling,
  divided,
  grams,
  halfEven,
  perCent,
  PPM,
  product,
  shareOut,
  sum,
  toDivision,
} from "./whole.js";
/** @import { Burst, ChosenSize, Component, Ingredient, Kit, MeasuredRecipe } from "../../bench/shapes/page" */
/** @import { RecipeLine, RecipeMelt, RecipeRef, RecipeStep, RecipeWeigh, Scale } from "../../bench/shapes/page" */
/** @import { Sheet, SheetIngredient, SheetLine, SheetVessel, Size, SizeRequest } from "../../bench/shapes/page" */
/** @import { Spoon, Step, Vessel, Warn, Window } from "../../bench/shapes/page" */
/** @import { Draft, Place } from "../../types/bench" */
/** @import { Full } from "../../types/lists" */
/** @import { Int } from "./whole.js" */

const SHEET_FORMAT = "bowlside-sheet/1";
const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
const ASSEMBLY = "assembly";

/**
 * @typedef {(pieces: number, says: string, out?: string | null) => ChosenSize} Sized
 * @typedef {Omit<Size, "pieces">} Choices
 * @typedef {RecipeLine & {instead_of?: string}} ChosenLine
 * @typedef {{mg: number, tolerancePpm: number}} GoingIn
 * @typedef {{name: string, share: number, of: number, staysIn: string | null}} PortionOf
 * @typedef {{top: Int, bottom: Int}} Factor
 * @typedef {{component: string, closing: string}} Leader
 * @typedef {Pick<Window, "state" | "class" | "price_ms" | "lost_ms" | "rescue">} Guarded
 * @typedef {ReturnType<typeof begin>} Laying what is being laid out: the inputs, and the sheet's lists as they grow
 */

/**
 * Turns "how big?" into a size: {size, says, runs_out}.
 *
 * request: {by: "pieces", pieces} | {by: "mass", mg} | {by: "moulds", component, moulds} |
 * {by: "mix", component, mg} (that much of its mix is left to use up) |
 * {by: "stock", stock: {ingredient: mg}}, and optionally without, swaps and weigh. runs_out names
 * the ingredient that stops a larger batch (by stock only).
 * @param {MeasuredRecipe} recipe @param {Kit} kit @param {SizeRequest} request @returns {ChosenSize}
 */
export function chooseSize(recipe, kit, request) {
  /** @type {Choices} */
  const chosen = {
    without: [...(request.without ?? [])].sort(),
    swaps: request.swaps ?? {},
    weigh: request.weigh ?? "running",
  };
  /** @type {Sized} */
  const sized = (pieces, says, out = null) => ({ size: { pieces, ...chosen }, says, runs_out: out });
  const many = recipe.piece.many;
  if (request.by === "pieces") return sized(request.pieces, "");
  if (request.by === "mass") {
    const each = sum(recipe.components.map((component) => component.takes * component.piece_mg));
    const pieces = each ? Math.min(divided(request.mg, each)[0], MOST_PIECES) : 0;
    if (pieces < 1) {
      throw new BenchError("mg", `One of these weighs ${grams(each, 1000)}. Ask for at least that much.`);
    }
    const most = pieces === MOST_PIECES ? ", the most in one batch" : "";
    return sized(
      pieces,
      `${pieces} ${many} of ${grams(each, 1000)} make ${grams(pieces * each, 1000)}${most}`,
    );
  }
  if (request.by === "moulds") {
    const component = recipe.components.find((each) => each.id === request.component);
    const held = component ? mouldCavities(kit, component) : null;
    if (!component || held === null) {
      throw new BenchError(
        "component",
        `No mould in the kit fits “${request.component}”. Add one, or size by pieces.`,
      );
    }
    const [most] = divided(request.moulds * held - component.spares, component.takes);
    const pieces = Math.min(most, MOST_PIECES);
    if (pieces < 1) {
      throw new BenchError("moulds", "That many moulds do not give one whole piece. Fill more of them.");
    }
    return sized(pieces, `${request.moulds} × ${held} cavities give ${pieces} ${many}`);
  }
  if (request.by === "mix") return sizeByMix(recipe, request.component, request.mg, sized);
  return sizeByStock(recipe, kit, request.stock, chosen, sized);
}

/**
 * Cavities in one set of the moulds that fit, whether or not they are held through a wait.
 * @param {Kit} kit @param {Component} component
 */
function mouldCavities(kit, component) {
  if (!component.mould) return null;
  return cavities(kit, { ...component, mould: { ...component.mould, held: true } });
}

/**
 * How many whole pieces a mix that is left gives, spares and what stays behind taken off first.
 * @param {MeasuredRecipe} recipe @param {string} id @param {number} mg @param {Sized} sized
 */
function sizeByMix(recipe, id, mg, sized) {
  const weighed = recipe.components.filter((each) => each.id !== ASSEMBLY && each.piece_mg);
  const component = weighed.find((each) => each.id === id);
  if (!component) {
    const could = weighed.map((each) => each.id).join(", ");
    throw new BenchError(
      "component",
      `“${id}” is not a part that is weighed. ${could ? `It could be ${could}.` : "Size by pieces."}`,
    );
  }
  const [most] = divided(piecesFrom(component, mg) - component.spares, component.takes);
  const pieces = Math.min(most, MOST_PIECES);
  if (pieces < 1) {
    const least = makeMg(component, component.takes + component.spares);
    throw new BenchError(
      "mg",
      `One piece takes ${grams(ceiling(least, 1000) * 1000, 1000)} of ${component.name}. Ask with at least that much.`,
    );
  }
  const { one, many } = recipe.piece;
  return sized(pieces, `${grams(mg, 1000)} of ${component.name} gives ${pieces} ${pieces > 1 ? many : one}`);
}

/**
 * The largest batch the stock allows, by halving: every need grows with the pieces.
 * @param {MeasuredRecipe} recipe @param {Kit} kit @param {{[ingredient: string]: number}} stock @param {Choices} chosen
 * @param {Sized} sized
 */
function sizeByStock(recipe, kit, stock, chosen, sized) {
  for (const key of Object.keys(stock)) {
    if (!Object.hasOwn(recipe.ingredients, key)) {
      throw new BenchError(`stock.${key}`, `The recipe has no ingredient “${key}”.`);
    }
    if (!isWeighed(recipe, key)) {
      const { name } = recipe.ingredients[key];
      throw new BenchError(`stock.${key}`, `${name} is not weighed in this recipe, so it sets no size.`);
    }
  }
  /** What is short for this many: null when nothing is, "" when the kit cannot make so many. @param {number} pieces */
  const short = (pieces) => {
    /** @type {Sheet} */
    let sheet;
    try {
      sheet = makeSheet(recipe, { id: "", version: 0 }, { pieces, ...chosen }, kit);
    } catch (error) {
      if (pieces === 1 || !(error instanceof BenchError)) throw error;
      return "";
    }
    // The one that runs out first is the one furthest from enough.
    const needs = new Map(sheet.ingredients.map((each) => [each.id, each.mg]));
    const lacking = Object.keys(stock)
      .filter((key) => (needs.get(key) ?? 0) > stock[key])
      .map((key) => ({ key, share: (BigInt(stock[key]) * 10n ** 9n) / BigInt(needs.get(key) ?? 0) }))
      .sort((one, other) =>
        one.share === other.share ? (one.key < other.key ? -1 : 1) : one.share < other.share ? -1 : 1,
      );
    return lacking[0]?.key ?? null;
  };
  const first = short(1);
  if (first !== null) {
    throw new BenchError(
      `stock.${first}`,
      `There is not enough ${recipe.ingredients[first].name} for one piece.`,
    );
  }
  let [low, high] = [1, MOST_PIECES];
  if (short(high) === null) return sized(high, `${high} ${recipe.piece.many}, the most in one batch`);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (short(middle) === null) low = middle;
    else high = middle;
  }
  const out = short(low + 1);
  const stops = out ? `${recipe.ingredients[out].name} runs out first` : "the kit takes no more";
  const says = `${low} ${low > 1 ? recipe.piece.many : recipe.piece.one}; ${stops}`;
  return sized(low, says, out || null);
}

/**
 * Whether any line, or a stand-in for one, takes this ingredient by weight.
 * @param {MeasuredRecipe} recipe @param {string} ingredient
 */
function isWeighed(recipe, ingredient) {
  const lines = recipe.components.flatMap((component) => component.lines);
  const measures = [...lines, ...lines.flatMap((line) => line.substitutes)];
  return measures.some((each) => each.ingredient === ingredient && each.ug);
}

/**
 * The sheet of a measured recipe at a size for a measured kit.
 *
 * ref: {id, version} of the recipe. size: {pieces, without, swaps, weigh}. A BenchError names the
 * field at fault and the way out.
 * @param {MeasuredRecipe} recipe @param {RecipeRef} ref @param {Size} size @param {Kit} kit @returns {Sheet}
 */
export function makeSheet(recipe, ref, size, kit) {
  if (!(size.pieces >= 1 && size.pieces <= MOST_PIECES)) {
    throw new BenchError(
      "pieces",
      `A batch has from 1 to ${MOST_PIECES} pieces; ${size.pieces} is not. Make a smaller batch, or several.`,
    );
  }
  const draft = begin(recipe, size, kit);
  checkChoices(draft);
  const chosen = full(
    draft.components.map((component) => /** @type {const} */ ([component.id, chosenLines(draft, component)])),
  );
  const counts = countRounds(draft);
  const about = draft.components.map((component, place) => {
    const { perRound, why } = counts.get(component.id);
    const masses = perRound.map((count) => roundMg(draft, component, count, chosen.get(component.id)));
    masses.forEach((mass, index) => {
      layRound(draft, component, index + 1, perRound[index], mass, chosen.get(component.id));
    });
    return {
      id: component.id,
      letter: LETTERS[place],
      name: component.name,
      count: sum(perRound),
      spares: component.spares,
      piece_mg: component.piece_mg,
      stays_behind_mg: component.stays_behind_mg,
      loss_ppm: component.loss_ppm,
      make_mg: sum(masses),
      rounds: masses.map((mass, index) => ({ round: index + 1, count: perRound[index], make_mg: mass })),
      why,
    };
  });
  linkSteps(draft, counts);
  return {
    format: SHEET_FORMAT,
    recipe: { id: ref.id, version: ref.version, title: recipe.title },
    size: { pieces: size.pieces, without: [...size.without].sort(), swaps: size.swaps, weigh: size.weigh },
    piece: recipe.piece,
    kit,
    components: about,
    ingredients: totals(draft),
    lines: draft.lines,
    vessels: draft.vessels,
    steps: draft.steps,
    warnings: draft.warnings,
  };
}

/** What is being laid out. @param {MeasuredRecipe} recipe @param {Size} size @param {Kit} kit */
function begin(recipe, size, kit) {
  return {
    recipe,
    size,
    kit,
    components: recipe.components.filter((component) => component.steps.length || component.lines.length),
    lines: /** @type {SheetLine[]} */ ([]),
    vessels: /** @type {SheetVessel[]} */ ([]),
    steps: /** @type {Draft<Step>[]} */ ([]),
    warnings: /** @type {Warn[]} */ ([]),
    inUse: /** @type {Map<string, {component: Component, label: string}>} */ (new Map()), // by a kit vessel's id
  };
}

/** @param {Laying} draft @param {string} where @param {string} text */
function warn(draft, where, text) {
  if (!draft.warnings.some((each) => each.where === where && each.text === text)) {
    draft.warnings.push({ where, text });
  }
}

// What the maker chose

/** @param {Laying} draft */
function checkChoices(draft) {
  /** @type {Map<string, RecipeLine>} */
  const lines = new Map(
    draft.components.flatMap((component) =>
      component.lines.map((line) => /** @type {const} */ ([`${component.id}.${line.id}`, line])),
    ),
  );
  for (const key of draft.size.without) {
    if (!lines.get(key)?.optional) {
      throw new BenchError(
        "without",
        `“${key}” is not an optional line of this recipe, so it cannot be left out.`,
      );
    }
  }
  for (const [key, ingredient] of Object.entries(draft.size.swaps)) {
    const standIns = (lines.get(key)?.substitutes ?? []).map((each) => each.ingredient);
    if (!standIns.includes(ingredient)) {
      const could = standIns.length ? `It could be ${standIns.join(", ")}.` : "It has no substitutes.";
      throw new BenchError(`swaps.${key}`, `“${ingredient}” does not stand in for “${key}”. ${could}`);
    }
  }
}

/**
 * The component's lines less those left out, stand-ins in their places.
 * @param {Laying} draft @param {Component} component @returns {ChosenLine[]}
 */
function chosenLines(draft, component) {
  const { without, swaps } = draft.size;
  return component.lines
    .filter((line) => !without.includes(`${component.id}.${line.id}`))
    .map((line) => {
      const key = `${component.id}.${line.id}`;
      if (!Object.hasOwn(swaps, key)) return line;
      const standIn = line.substitutes.find((each) => each.ingredient === swaps[key]);
      if (!standIn) return line; // `checkChoices` refused it
      const { ingredient, ug, nl, count, unit, about_ug, texture, says } = standIn;
      const meant = draft.recipe.ingredients[line.ingredient].name;
      const note = [`Instead of: ${meant}.`, line.note, says].filter(Boolean).join(" ");
      return { ...line, ingredient, ug, nl, count, unit, about_ug, texture, note, instead_of: meant };
    });
}

// Rounds

/** Pieces per round and the reasons, for every component; the assembly follows its windows. @param {Laying} draft */
function countRounds(draft) {
  /** @type {Full<string, {perRound: number[], why: string[]}>} */
  const counts = full();
  for (const component of draft.components) {
    if (component.id === ASSEMBLY) {
      const leader = leaderOf(component);
      const led = leader ? counts.get(leader.component).perRound : [];
      if (led.length > 1) {
        const name = draft.components.find((each) => each.id === leader?.component)?.name;
        counts.set(ASSEMBLY, {
          perRound: shareOut(draft.size.pieces, led),
          why: [`${name} is made in ${led.length} rounds and must be used at once`],
        });
      } else {
        counts.set(ASSEMBLY, { perRound: [draft.size.pieces], why: [] });
      }
      continue;
    }
    const mould = component.mould;
    if (mould && !draft.kit.moulds.some((each) => each.shape === mould.shape)) {
      warn(draft, component.id, `The kit has no ${mould.shape} mould; sized as if there were enough.`);
    }
    const count = draft.size.pieces * component.takes + component.spares;
    counts.set(component.id, rounds(component, draft.kit, count));
  }
  return counts;
}

/**
 * {component, closing}: the component whose window the assembly must keep, so whose rounds it
 * follows, and the assembly's step that closes that window. Null when it keeps none.
 * @param {Component} assembly @returns {Leader | null}
 */
function leaderOf(assembly) {
  for (const step of assembly.steps) {
    for (const reference of step.window?.from ?? []) {
      const [source] = reference.split(".");
      if (source !== ASSEMBLY) return { component: source, closing: step.id };
    }
  }
  return null;
}

// One round of one component

/**
 * The mass of one round, in mg. The assembly's lines are written for so many pieces.
 * @param {Laying} draft @param {Component} component @param {number} count @param {ChosenLine[]} chosen
 */
function roundMg(draft, component, count, chosen) {
  if (component.id !== ASSEMBLY) return makeMg(component, count);
  const writtenUg = sum(chosen.map((line) => line.ug ?? 0));
  return halfEven(product(writtenUg, count), 1000 * draft.recipe.written_for);
}

/**
 * @param {Laying} draft @param {Component} component @param {number} number @param {number} count @param {number} mass
 * @param {ChosenLine[]} chosen
 */
function layRound(draft, component, number, count, mass, chosen) {
  const weights = chosen.map((line) => line.ug ?? 0);
  const shares = shareOut(mass, weights);
  const masses = full(chosen.map((line, index) => /** @type {const} */ ([line.id, shares[index]])));
  // Volumes, drops and counts grow with the mass of the component, or with the pieces where it
  // has no weighed line at all.
  const whole = sum(weights);
  const writtenCount = draft.recipe.written_for * component.takes + component.spares;
  const factor = whole ? { top: product(mass, 1000), bottom: whole } : { top: count, bottom: writtenCount };
  const weighedIn = new Map(
    component.steps
      .filter((step) => step.kind === "weigh")
      .flatMap((step) => step.lines.map((key) => /** @type {const} */ ([key, step]))),
  );
  const places = layPlaces(draft, component, number, chosen, masses, weighedIn);
  for (const line of chosen) {
    const step = weighedIn.get(line.id);
    layLine(draft, component, number, line, masses.get(line.id), factor, step, step && places.get(step.into));
  }
  const ingredients = full(
    chosen.map((line) => /** @type {const} */ ([line.id, draft.recipe.ingredients[line.ingredient]])),
  );
  for (const step of component.steps) layStep(draft, component, number, count, step, ingredients, masses);
}

/**
 * The vessels of a round by label, each with the scale it stands on while lines go in.
 * @param {Laying} draft @param {Component} component @param {number} number @param {ChosenLine[]} chosen
 * @param {Full<string, number>} masses @param {Map<string, RecipeWeigh>} weighedIn
 */
function layPlaces(draft, component, number, chosen, masses, weighedIn) {
  const { kit } = draft;
  const portions = portionsOf(component);
  /** @type {Map<string, GoingIn[]>} */
  const goingIn = new Map(labelsOf(component).map((label) => [label, []]));
  for (const line of chosen) {
    const mg = masses.get(line.id);
    const into = weighedIn.get(line.id)?.into;
    if (into !== undefined && mg) goingIn.get(into)?.push({ mg, tolerancePpm: line.tolerance_ppm });
  }
  // All of a component ends up in its bowl, and is divided from there; the assembly's lines go
  // onto the pieces.
  const massOf = (/** @type {GoingIn[]} */ lines) => sum(lines.map(({ mg }) => mg));
  const wholeMg = massOf([...goingIn.values()].flat());
  /** @type {Map<string, SheetVessel>} */
  const places = new Map();
  /** @type {Map<string, Vessel | null>} */
  const vessels = new Map();
  for (const [label, lines] of goingIn) {
    const id = `${component.id}.${number}.${label}`;
    const portion = portions.get(label);
    let load = massOf(lines);
    if (label === "bowl" && component.id !== ASSEMBLY) load = wholeMg;
    else if (portion) load = ceiling(product(wholeMg, portion.share), portion.of);
    const kind = label === "bowl" || portion ? component.vessel : label;
    const shared = portion?.staysIn ?? "";
    const vessel = vessels.has(shared)
      ? (vessels.get(shared) ?? null)
      : vesselInHand(draft, component, label, kind, load);
    vessels.set(label, vessel);
    const empty = vessel?.empty_mg ?? 0;
    /** @type {Scale | null} */
    let scale = null;
    if (lines.length || (portion && kit.scales.length)) {
      scale = bowlScale(kit, empty + load, lines);
      if (!scale) warn(draft, id, `No scale carries ${grams(empty + load, 1000)}: weigh this in parts.`);
    }
    if (vessel && load > vessel.holds_mg) {
      warn(draft, id, `${vessel.name} holds ${grams(vessel.holds_mg, 1000)}; ${grams(load, 1000)} goes in.`);
    }
    places.set(label, {
      id,
      component: component.id,
      round: number,
      label,
      name: portion?.name ?? vessel?.name ?? spokenLabel(label),
      scale: scale?.id ?? null,
      empty_mg: empty,
      holds_mg: vessel?.holds_mg ?? null,
      kit: vessel?.id ?? null,
    });
  }
  draft.vessels.push(...places.values());
  return places;
}

/**
 * The smallest vessel that takes the load and is not in use for another part of the batch.
 *
 * Parts are made side by side, so two of them in one bowl is a clash, and is said. Small cups are
 * wiped and used again, and the rounds of one part follow each other.
 * @param {Laying} draft @param {Component} component @param {string} label @param {string} kind @param {number} load
 */
function vesselInHand(draft, component, label, kind, load) {
  const { kit, inUse } = draft;
  /** @param {Vessel} vessel */
  const isOurs = ({ id }) => {
    const used = inUse.get(id);
    return !used || (used.component === component && used.label === label);
  };
  const free = kit.vessels.filter((vessel) => kind === "cup" || isOurs(vessel));
  let vessel = vesselFor({ ...kit, vessels: free }, kind, load);
  if (!vessel || (roomMg(kit, vessel) ?? 0) < load) {
    const shared = vesselFor(kit, kind, load);
    if (shared && (!vessel || (roomMg(kit, shared) ?? 0) >= load)) vessel = shared;
  }
  if (!vessel || kind === "cup") return vessel;
  const other = inUse.get(vessel.id) ?? { component, label };
  inUse.set(vessel.id, other);
  const where = `${component.id}.${label}`;
  if (other.component !== component) {
    const names = `${component.name} and for ${other.component.name}`;
    warn(draft, where, `${vessel.name} is needed for ${names}: empty it in between.`);
  } else if (other.label !== label) {
    warn(draft, where, `${vessel.name} is needed twice for ${component.name}: have another ${kind} ready.`);
  }
  return vessel;
}

/**
 * What a component is divided into: label -> {name, share, of, staysIn}, a share of the whole.
 *
 * The last portion of a split stays in the bowl it was divided from, so it counts as the whole.
 * @param {Component} component
 */
function portionsOf(component) {
  /** @type {Map<string, PortionOf>} */
  const portions = new Map();
  for (const step of component.steps) {
    if (step.kind !== "split") continue;
    const of = sum(step.portions.map((portion) => portion.share));
    step.portions.forEach(({ id, name, share }, index) => {
      const isLast = index === step.portions.length - 1;
      portions.set(id, { name, share: isLast ? of : share, of, staysIn: isLast ? step.from : null });
    });
  }
  return portions;
}

/** @param {string} label */
function spokenLabel(label) {
  const words = label.replaceAll("_", " ");
  return words[0].toUpperCase() + words.slice(1);
}

/** The vessels a component's steps name, in the order of their first use. @param {Component} component */
function labelsOf(component) {
  /** @type {Set<string>} */
  const labels = new Set();
  for (const step of component.steps) {
    if (step.kind === "weigh") labels.add(step.into);
    if (step.kind === "do" && step.tips.length)
      [...step.tips, step.into].forEach((label) => labels.add(label));
    if (step.kind === "split") {
      [step.from, ...step.portions.map((portion) => portion.id)].forEach((label) => labels.add(label));
    }
  }
  return [...labels];
}

/**
 * @param {Laying} draft @param {Component} component @param {number} number @param {ChosenLine} line @param {number} mg
 * @param {Factor} factor @param {RecipeWeigh | undefined} step @param {SheetVessel | undefined} vessel
 */
function layLine(draft, component, number, line, mg, factor, step, vessel) {
  const prefix = `${component.id}.${number}`;
  const where = `${prefix}.${line.id}`;
  const written = `${component.id}.${line.id}`; // said once, however many rounds there are
  const { recipe, kit } = draft;
  const name = recipe.ingredients[line.ingredient].name;
  const bowl = kit.scales.find((scale) => scale.id === vessel?.scale) ?? null;
  const weighed = Boolean(line.ug);
  const { scale, cup } =
    weighed && vessel ? scaleFor(draft, line, mg, bowl, where) : { scale: bowl, cup: false };
  /** @param {number | null} amount @param {number} unit */
  const grown = (amount, unit) =>
    amount === null ? null : halfEven(product(amount, factor.top), product(factor.bottom, unit));
  const nl = grown(line.nl, 1);
  const count = grown(line.count, 1000);
  if (count === 0) warn(draft, written, `${name} comes to less than one a round; one is used.`);
  const spoons = nl === null ? "" : spoonsFor(recipe.spoons, nl);
  if (nl !== null && 2 * nl < last(recipe.spoons).nl)
    warn(draft, written, `${name} comes to less than the smallest spoon.`);
  if (line.unit === "drops") {
    warn(draft, written, "Drops differ from dropper to dropper. Weigh them when the amount matters.");
  }
  draft.lines.push({
    id: where,
    component: component.id,
    round: number,
    line: line.id,
    ingredient: line.ingredient,
    name,
    vessel: vessel?.id ?? null,
    step: step ? `${prefix}.${step.id}` : null,
    mg: weighed ? mg : null,
    nl,
    count: count === 0 ? 1 : count,
    unit: line.unit,
    about_mg: grown(line.about_ug, 1000),
    tolerance_mg: weighed && scale ? toleranceMg(mg, line.tolerance_ppm, scale.division_mg) : 0,
    scale: weighed && scale ? scale.id : null,
    division_mg: weighed && scale ? scale.division_mg : null,
    cup,
    spoons,
    by_spoon: weighed && scale ? bySpoon(recipe, line.ingredient, mg, scale) : "",
    optional: line.optional,
    note: line.note,
    instead_of: line.instead_of ?? "",
  });
}

/**
 * What is too little for its scale to show, in spoons, where its density is known; else "".
 * @param {MeasuredRecipe} recipe @param {string} key @param {number} mg @param {Scale} scale
 */
function bySpoon({ ingredients, spoons }, key, mg, scale) {
  const { density } = ingredients[key];
  if (!mg || toDivision(mg, scale.division_mg) || !density) return "";
  const nl = nearest(over([BigInt(mg) * 1000n, 1n], readDensity(density.g_per_ml))); // g/mL is µg/nL
  return nl ? spoonsFor(spoons, nl) : "";
}

/**
 * The scale this line is weighed on, and whether in a small cup first.
 * @param {Laying} draft @param {ChosenLine} line @param {number} mg @param {Scale | null} scale @param {string} where
 * @returns {{scale: Scale | null, cup: boolean}}
 */
function scaleFor(draft, line, mg, scale, where) {
  const inBowl = { scale, cup: false };
  if (!mg || (scale && uncertaintyPpm(mg, scale.division_mg) <= line.tolerance_ppm)) return inBowl;
  const vessel = vesselFor(draft.kit, "cup", mg);
  const found = cupScale(draft.kit, vessel?.empty_mg ?? 0, mg, line.tolerance_ppm);
  if (!found) return inBowl;
  if (!found.meets) {
    const share = uncertaintyPpm(mg, found.scale.division_mg);
    const name = draft.recipe.ingredients[line.ingredient].name;
    warn(
      draft,
      where,
      `${grams(mg, 10)} of ${name} is too little for any scale here: ${found.scale.name} may be off by ` +
        `${perCent(share, PPM)}. Make more, or use a finer scale.`,
    );
  }
  return found.scale.id === scale?.id ? inBowl : { scale: found.scale, cup: true };
}

const SPOON_GRAIN = 8; // nL: what the drawer's own rounding comes to over several spoons

/**
 * A volume in spoons a drawer really holds: 2¾ tsp is "2 tsp + ½ tsp + ¼ tsp".
 *
 * To the nearest smallest spoon, and what that is off by from 1 % is said: "⅛ tsp (4 % less)". Less than half
 * the smallest is a share of it.
 * @param {readonly Spoon[]} drawer @param {number} nl
 */
function spoonsFor(drawer, nl) {
  const smallest = last(drawer);
  if (2 * nl < smallest.nl) return `${Math.max(1, halfEven(100 * nl, smallest.nl))} % of ${smallest.name}`;
  let left = nl + divided(smallest.nl, 2)[0];
  let told = 0;
  /** @type {string[]} */
  const said = [];
  for (const { name, nl: each } of drawer) {
    const [count] = divided(left + SPOON_GRAIN, each);
    left = Math.max(0, left - count * each);
    told += count * each;
    if (count && /^[½¼⅛]/.test(name)) said.push(count === 1 ? name : `${count} × ${name}`);
    else if (count) said.push(`${count} ${name === "cup" && count > 1 ? "cups" : name}`);
  }
  const off = halfEven(product(100, Math.abs(told - nl)), nl);
  return said.join(" + ") + (off ? ` (${off} % ${told > nl ? "more" : "less"})` : "");
}

// Steps

/**
 * ingredients: by the line in use, stand-ins included.
 * @param {Laying} draft @param {Component} component @param {number} number @param {number} count @param {RecipeStep}
 * step
 * @param {Full<string, Ingredient>} ingredients @param {Full<string, number>} masses
 */
function layStep(draft, component, number, count, step, ingredients, masses) {
  const prefix = `${component.id}.${number}`;
  const common = {
    id: `${prefix}.${step.id}`,
    component: component.id,
    round: number,
    step: step.id,
    title: step.title,
    says: step.says,
    reason: step.reason,
    after: [],
    optional: step.optional,
    cautions: [...step.cautions],
    ways: step.ways,
    window: null,
    keeps: [],
    hands_ms: step.hands_ms,
    tools: step.tools,
    tail_ms: 0,
    hold_for: [],
  };
  /** @type {Step} */
  let made;
  switch (step.kind) {
    case "weigh": {
      const keys = step.lines.filter((key) => masses.has(key));
      const cautions = [...step.cautions];
      for (const caution of keys.flatMap((key) => ingredients.get(key).cautions))
        if (!cautions.includes(caution)) cautions.push(caution);
      made = {
        ...common,
        kind: "weigh",
        cautions,
        lines: keys.map((key) => `${prefix}.${key}`),
        vessel: `${prefix}.${step.into}`,
      };
      break;
    }
    case "do":
      made = {
        ...common,
        kind: "do",
        about_ms: step.about_ms,
        mg: sum(step.of.filter((key) => masses.has(key)).map((key) => masses.get(key))) || null,
        tips: step.tips.map((label) => `${prefix}.${label}`),
        into: `${prefix}.${step.into}`,
      };
      break;
    case "melt":
      made = { ...common, kind: "melt", ...meltPlan(draft.kit, step, masses, ingredients) };
      break;
    case "split":
      made = {
        ...common,
        kind: "split",
        vessel: `${prefix}.${step.from}`,
        portions: step.portions.map(({ id, name, share }) => ({ vessel: `${prefix}.${id}`, name, share })),
      };
      break;
    case "check": {
      const { ask, yes, not_yet, too_far } = step;
      const rest = "too_far_ms" in step ? { too_far_ms: step.too_far_ms } : {};
      made = { ...common, kind: "check", ask, yes, not_yet, too_far, ...rest };
      break;
    }
    case "pieces": {
      const { one_by_one, again, partial, verb } = step;
      const of = step.of.map((portion) => `${prefix}.${portion}`);
      const { piece_mg } = component;
      made = {
        ...common,
        kind: "pieces",
        one_by_one,
        again,
        partial,
        verb,
        count,
        of,
        piece_mg,
        follows: [],
      };
      break;
    }
    case "wait": {
      const { word, earliest_ms, usual_ms, latest_ms, test, stake } = step;
      made = {
        ...common,
        kind: "wait",
        ...{ word, earliest_ms, usual_ms, latest_ms, test, stake },
        ...guarded(step),
      };
      break;
    }
  }
  draft.steps.push(/** @type {Draft<Step>} */ (made));
}

/**
 * The planned bursts, [] when the recipe does not give what an estimate needs.
 * @param {Kit} kit @param {RecipeMelt} step @param {Full<string, number>} masses
 * @param {Full<string, Ingredient>} ingredients
 */
function meltPlan(kit, step, masses, ingredients) {
  const keys = step.of.filter((key) => masses.has(key));
  const mg = sum(keys.map((key) => masses.get(key)));
  const heater = kit.heaters.find((each) => each.kind === step.heater);
  const heats = keys.flatMap((key) => {
    const { heat } = ingredients.get(key);
    return heat ? [{ mg: masses.get(key), heat }] : [];
  });
  const { from_mk: from, to_mk: to } = step;
  const rest = inBursts(step.heater) ? step.rest_ms : 0;
  /** @type {Burst[]} */
  let bursts = [];
  if (from !== null && to !== null && heater?.absorbed_w && mg && heats.length === keys.length) {
    const total = heats.reduce((uj, part) => uj + heatUj(part.mg, part.heat, from, to), 0n);
    bursts = burstPlan(total, heater.absorbed_w, step.burst_ms, step.last_burst_ms, rest);
  }
  return {
    mg,
    heater: heater?.name ?? step.heater,
    bursts,
    more: bursts.length ? { ms: step.last_burst_ms, rest_ms: rest } : { ms: step.burst_ms, rest_ms: 0 },
    to_mk: step.to_mk,
    look_for: step.look_for,
  };
}

// Needs between steps, once every round is laid out

/**
 * Fills in `after`, `window`, `keeps`, `tail_ms` and `hold_for`, now that every round has its steps.
 * @param {Laying} draft @param {Full<string, {perRound: number[]}>} counts
 */
function linkSteps(draft, counts) {
  const numberOf = (/** @type {string} */ component) => counts.get(component).perRound.length;
  const assembly = draft.components.find((component) => component.id === ASSEMBLY);
  const leader = assembly ? leaderOf(assembly) : null;
  const paired = new Set(leader ? [ASSEMBLY, leader.component] : []);
  /** @type {Full<string, RecipeStep>} */
  const written = full(
    draft.components.flatMap((component) =>
      component.steps.map((step) => /** @type {const} */ ([`${component.id}.${step.id}`, step])),
    ),
  );
  /** @param {string} reference @param {Place} place */
  const instances = (reference, { component, round }) => {
    const [source, step] = reference.split(".");
    if (source === component || (paired.has(source) && paired.has(component)))
      return [`${source}.${round}.${step}`];
    return Array.from({ length: numberOf(source) }, (_, index) => `${source}.${index + 1}.${step}`);
  };
  const byId = byIdOf(draft.steps);
  for (const step of draft.steps) {
    const source = written.get(`${step.component}.${step.step}`);
    step.after = source.after.flatMap((reference) => instances(reference, step));
    const opened = (/** @type {Window} */ window) => ({
      from: window.from.flatMap((reference) => instances(reference, step)),
      latest_ms: window.latest_ms,
      stake: window.stake,
      ...guarded(window),
    });
    if (source.window) step.window = opened(source.window);
    step.keeps = (source.keeps ?? []).map(opened);
  }
  for (const component of draft.components) {
    for (let number = 2; number <= numberOf(component.id); number += 1) {
      const frees = freeing(component, number - 1, leader);
      const prefix = `${component.id}.${number}.`;
      for (const step of component.steps) {
        const { after } = byId.get(prefix + step.id);
        if (!after.some((need) => need.startsWith(prefix)) && !after.includes(frees)) after.push(frees);
      }
    }
  }
  addFollows(draft.steps, full(draft.components.map(({ id, takes }) => [id, takes])));
  dropEmpty(draft.steps);
  addTails(draft.steps);
  addHolds(draft.steps);
}

/** @param {Draft<Step>[]} steps */
const byIdOf = (steps) => full(steps.map((step) => /** @type {const} */ ([step.id, step])));

/**
 * The step of a round that gives back what the next round needs: mould, bowl or hands.
 * @param {Component} component @param {number} number @param {Leader | null} leader
 */
function freeing(component, number, leader) {
  if (leader && component.id === leader.component) return `${ASSEMBLY}.${number}.${leader.closing}`;
  // A held mould comes free when it is emptied; a bowl at the first piece-by-piece step: the
  // pressing, pouring or piping.
  const isHeld = component.mould?.held;
  const frees = component.steps.find((step) => (isHeld ? step.unmoulds : step.kind === "pieces"));
  return `${component.id}.${number}.${(frees ?? last(component.steps)).id}`;
}

/** @param {Laying} draft */
function totals({ lines, recipe }) {
  // The most of the finished piece that an ingredient's own papers allow; nothing where they do not say.
  const limitOf = (/** @type {string} */ key) => {
    const limit = recipe.ingredients[key].fragrance?.limit_ppm ?? null;
    return limit === null ? {} : { limit_ppm: limit };
  };
  /** @type {Full<string, Draft<SheetIngredient>>} */
  const found = full();
  for (const line of lines) {
    if (!found.has(line.ingredient)) {
      found.set(line.ingredient, {
        id: line.ingredient,
        name: line.name,
        mg: 0,
        nl: 0,
        count: 0,
        ...limitOf(line.ingredient),
      });
    }
    const total = found.get(line.ingredient);
    total.mg += line.mg || line.about_mg || 0;
    total.nl += line.nl ?? 0;
    total.count += line.count ?? 0;
  }
  return [...found.values()];
}

/**
 * What a window is over, and what it costs to miss it; a recipe measured long ago does not say.
 * @param {Guarded} window
 */
function guarded(window) {
  const own = "rescue" in window ? { rescue: window.rescue } : {};
  return {
    state: window.state ?? "",
    class: window.class ?? "quality",
    price_ms: window.price_ms ?? 0,
    lost_ms: window.lost_ms ?? null,
    ...own,
  };
}

/** The recipe's own window of a step, and those by nature. @param {Draft<Step>} step */
const windowsOf = ({ window, keeps = [] }) => [...(window ? [window] : []), ...keeps];

/**
 * Takes out weighings with nothing left to weigh; what came after one comes after its needs.
 * @param {Draft<Step>[]} steps
 */
function dropEmpty(steps) {
  for (const empty of steps.filter((step) => step.kind === "weigh" && !step.lines.length)) {
    steps.splice(steps.indexOf(empty), 1);
    for (const step of steps) {
      for (const needs of [step.after, ...windowsOf(step).map(({ from }) => from)]) {
        const place = needs.indexOf(empty.id);
        if (place >= 0) needs.splice(place, 1, ...empty.after.filter((need) => !needs.includes(need)));
      }
    }
  }
}

/**
 * follows: for each count of pieces, the counts that its pieces come from.
 *
 * [{steps: [ids], takes}]: one for each such count with all its rounds, and how many of its pieces
 * one of these takes.
 * @param {Draft<Step>[]} steps @param {Full<string, number>} takes
 */
function addFollows(steps, takes) {
  const byId = byIdOf(steps);
  for (const step of steps) {
    if (step.kind !== "pieces") continue;
    /** @type {Map<string, {steps: string[], takes: number}>} */
    const sources = new Map();
    const seen = new Set();
    const stack = [...step.after];
    for (let key = stack.pop(); key !== undefined; key = stack.pop()) {
      if (seen.has(key)) continue;
      seen.add(key);
      const before = byId.get(key);
      const isInside = before.component === step.component;
      if (before.kind === "pieces" && (isInside || step.component === ASSEMBLY)) {
        const name = `${before.component} ${before.step}`; // a space sorts before any letter of an id
        const source = sources.get(name) ?? { steps: [], takes: isInside ? 1 : takes.get(before.component) };
        source.steps.push(key);
        sources.set(name, source);
      } else {
        stack.push(...before.after);
      }
    }
    step.follows = [...sources].sort(([one], [other]) => (one < other ? -1 : 1)).map(([, source]) => source);
    for (const source of step.follows) source.steps.sort();
  }
}

/**
 * tail_ms: the longest run of usual waits from the start of a step to the end of the batch.
 * @param {Draft<Step>[]} steps
 */
function addTails(steps) {
  /** @type {Full<string, Draft<Step>[]>} */
  const followers = full(steps.map((step) => [step.id, []]));
  for (const step of steps) for (const need of step.after) followers.get(need).push(step);
  /** @type {Full<string, number>} */
  const tails = full();
  /** @type {Set<string>} */
  const opened = new Set();
  for (const start of steps) {
    const stack = [start];
    while (stack.length) {
      const step = last(stack);
      const open = followers.get(step.id).filter((each) => !tails.has(each.id));
      if (open.length) {
        if (opened.has(step.id)) {
          // Met again before what follows it was settled.
          throw new BenchError(
            "pieces",
            `This many takes several rounds, and “${step.title}” would wait for a later round of ` +
              "itself. Make fewer pieces, or use larger moulds and vessels.",
          );
        }
        opened.add(step.id);
        stack.push(...open);
        continue;
      }
      stack.pop();
      const own = step.kind === "wait" ? step.usual_ms : 0;
      tails.set(step.id, own + Math.max(0, ...followers.get(step.id).map((each) => tails.get(each.id))));
    }
  }
  for (const step of steps) step.tail_ms = tails.get(step.id);
}

/**
 * hold_for: what else must be ready before a step is worth beginning, because a window follows.
 *
 * For a window opened by F and closed by C, what C needs of other parts should be done before F,
 * and before the hands-on steps of F's own round that lead straight to it.
 * @param {Draft<Step>[]} steps
 */
function addHolds(steps) {
  const byId = byIdOf(steps);
  /** @type {Map<string, Set<string>>} */
  const known = new Map(); // many closings ask about the same steps
  /** @param {string} key */
  const before = (key) => {
    const found = known.get(key) ?? allBefore(byId, key);
    known.set(key, found);
    return found;
  };
  for (const step of steps) step.hold_for = [];
  for (const closing of steps) {
    for (const opener of new Set(windowsOf(closing).flatMap(({ from }) => from))) {
      const upstream = before(opener);
      const others = closing.after.filter(
        (need) =>
          !sameRound(byId.get(need), byId.get(opener)) && !upstream.has(need) && !before(need).has(opener),
      );
      for (const key of handsBefore(byId, opener)) {
        const held = byId.get(key).hold_for;
        held.push(...others.filter((need) => !held.includes(need)));
      }
    }
  }
}

/** @param {Place} one @param {Place} other */
function sameRound(one, other) {
  return one.component === other.component && one.round === other.round;
}

/** @param {Full<string, Draft<Step>>} byId @param {string} key */
function allBefore(byId, key) {
  /** @type {Set<string>} */
  const seen = new Set();
  const stack = [...byId.get(key).after];
  for (let need = stack.pop(); need !== undefined; need = stack.pop()) {
    if (seen.has(need)) continue;
    seen.add(need);
    stack.push(...byId.get(need).after);
  }
  return seen;
}

/**
 * The opener and the steps of its round that lead to it with no wait between.
 * @param {Full<string, Draft<Step>>} byId @param {string} opener
 */
function handsBefore(byId, opener) {
  /** @type {Set<string>} */
  const chain = new Set();
  const stack = [opener];
  for (let key = stack.pop(); key !== undefined; key = stack.pop()) {
    const step = byId.get(key);
    if (chain.has(key) || step.kind === "wait" || !sameRound(step, byId.get(opener))) continue;
    chain.add(key);
    stack.push(...step.after);
  }
  return [...chain];
}

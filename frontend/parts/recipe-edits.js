// Edits of a recipe that touch more than one place: pure, a document in and a new one out.
// Ids of what is new are x1, x2…, until it has a name to make an id of.

import { isAsNeeded } from "../bench/amounts.js";
import { nameKey } from "../bench/shelf.js";
import { byHand, countsPieces, heats, putsIn, runsByItself } from "../bench/steps/index.js";
import { thingsAt, withValue, valueAt } from "./recipe-fields.js";
import { KINDS, STEP_MORE } from "./recipe-forms.js";
import { idFor } from "./words.js";
/** @import { WrittenKind } from "./recipe-forms.js" */
/** @import { WrittenIngredient, WrittenLine, WrittenRecipe, WrittenStep } from "../../bench/shapes/page" */
/** @import { ComponentPath, LinePath, ListPath, Part, PartPath, StepPath } from "../../types/recipe" */
/** @import { TextItem } from "./recipe-text.js" */

const FRESH = /^x\d+$/;

/**
 * @param {WrittenRecipe} document @param {<P extends Part>(part: P, id: string) => P} change
 * @returns {WrittenRecipe}
 */
const eachPart = (document, change) => ({
  ...document,
  components: document.components.map((part) => change(part, part.id)),
  ...(document.assembly && { assembly: change(document.assembly, "assembly") }),
});
/** @param {string} one @param {string} other */
const isSame = (one, other) => nameKey(one) === nameKey(other);

/** @param {WrittenRecipe} document */
function freshId(document) {
  const used = new Set(JSON.stringify(document).match(/"x\d+"/g));
  let number = 1;
  while (used.has(`"x${number}"`)) number += 1;
  return `x${number}`;
}

export function blankRecipe() {
  const blank = /** @type {const} */ ({
    format: "bowlside-recipe/1",
    title: "",
    written_for: 0,
    ingredients: {},
    components: [],
  });
  return addComponent(withValue(blank, "written_for", ""));
}

/** @param {WrittenRecipe} document @param {string} [name] @returns {WrittenRecipe} */
export function addComponent(document, name = "") {
  const id = freshId(document);
  const made = addLine(
    { ...document, components: [...document.components, { id, name, lines: [], steps: [] }] },
    `components.${document.components.length}`,
  );
  if (made.components.length === 1) return made;
  const assembly = made.assembly ?? { takes: [], steps: [] };
  const missing = made.components.filter(
    (part) => !assembly.takes.some(({ component }) => component === part.id),
  );
  return {
    ...made,
    assembly: {
      ...assembly,
      takes: [...assembly.takes, ...missing.map((part) => ({ component: part.id, count: 1 }))],
    },
  };
}

/** @param {WrittenRecipe} document @param {PartPath} at @param {Partial<WrittenLine>} [written] */
export function addLine(document, at, written = {}) {
  const lines = valueAt(document, `${at}.lines`) ?? [];
  return withValue(document, `${at}.lines`, [
    ...lines,
    { id: freshId(document), ingredient: "", amount: "", ...written },
  ]);
}

/**
 * A weigh step begins with every line that no step weighs yet: ticked, for all to see.
 * @param {WrittenRecipe} document @param {PartPath} at @param {WrittenKind} kind @param {object} [written]
 */
export function addStep(document, at, kind, written = {}) {
  const { steps, lines = [] } = valueAt(document, at);
  const weighed = new Set(steps.flatMap((each) => (putsIn(each) ? each.lines : [])));
  const left = lines
    .filter(({ id, ingredient, amount }) => ingredient && !weighed.has(id) && !isAsNeeded(amount))
    .map(({ id }) => id);
  const weighs = putsIn({ kind }) && { lines: left };
  const step = { id: freshId(document), kind, title: "", ...KINDS[kind].blank(), ...written, ...weighs };
  return withValue(document, `${at}.steps`, [...steps, step]);
}

/**
 * Another kind of step: its title and what every kind may say stay, what only the old kind says goes.
 * @param {WrittenRecipe} document @param {StepPath} at @param {WrittenKind} kind
 */
export function asKind(document, at, kind) {
  const step = valueAt(document, at);
  const every = ["id", "title", "says", "after", ...STEP_MORE.map(([key]) => key.split(".")[0])];
  const kept = Object.fromEntries(Object.entries(step).filter(([key]) => every.includes(key)));
  return withValue(document, at, { ...KINDS[kind].blank(), ...kept, kind });
}

/** @param {WrittenRecipe} document @param {string} ingredient */
const usesOf = (document, ingredient) =>
  JSON.stringify([document.components, document.assembly]).split(`"ingredient":"${ingredient}"`).length - 1;

/** @param {WrittenRecipe} document @param {string} id @returns {WrittenRecipe} */
function withoutIngredient(document, id) {
  const { [id]: _, ...ingredients } = document.ingredients;
  return { ...document, ingredients };
}

/** Whether more is written of an ingredient than its name. @param {WrittenIngredient | undefined} ingredient */
export const hasDetails = (ingredient) => Object.keys(ingredient ?? {}).length > 1;

/**
 * A line's ingredient while its name is typed: its own, which has that name now, or a new one where others use it
 * too.
 * @param {WrittenRecipe} document @param {LinePath} at @param {string} text
 */
export function nameLine(document, at, text) {
  const { ingredient } = valueAt(document, at);
  const mine = document.ingredients[ingredient];
  const isMineAlone = mine && usesOf(document, ingredient) === 1;
  if (isMineAlone && (text.trim() || hasDetails(mine)))
    return withValue(document, `ingredients.${ingredient}.name`, text);
  if (!text.trim()) return pointed(document, at, "");
  return anew(document, at, { name: text });
}

/**
 * The line made to mean this ingredient; the one it meant goes if nothing else uses it.
 * @param {WrittenRecipe} document @param {LinePath} at @param {string} id
 */
function pointed(document, at, id) {
  const { ingredient } = valueAt(document, at);
  const now = withValue(document, `${at}.ingredient`, id);
  return document.ingredients[ingredient] && usesOf(now, ingredient) === 0
    ? withoutIngredient(now, ingredient)
    : now;
}

/** @param {WrittenRecipe} document @param {LinePath} at @param {WrittenIngredient} about */
function anew(document, at, about) {
  const id = freshId(document);
  return pointed({ ...document, ingredients: { ...document.ingredients, [id]: about } }, at, id);
}

/**
 * What was taken over for an old name goes with it; what else is written of the ingredient stays.
 * @param {WrittenRecipe} document @param {string} ingredient @param {readonly string[]} fields
 */
export const withoutFields = (document, ingredient, fields) =>
  fields.reduce(
    (changed, field) => withValue(changed, `ingredients.${ingredient}.${field}`, undefined),
    document,
  );

/**
 * What a line means is another ingredient than the one renamed: one of this name and nothing known of it.
 * @param {WrittenRecipe} document @param {LinePath} at
 */
export function asAnother(document, at) {
  const { name } = document.ingredients[valueAt(document, at).ingredient];
  return settleLine(anew(document, at, { name }), at, null, []);
}

/**
 * What a line means is that ingredient after all, which has the new name wherever it is used.
 * @param {WrittenRecipe} document @param {LinePath} at @param {string} ingredient
 */
export function renamedEverywhere(document, at, ingredient) {
  const { name } = document.ingredients[valueAt(document, at).ingredient];
  return withValue(pointed(document, at, ingredient), `ingredients.${ingredient}.name`, name);
}

/**
 * The name is written: it may be that of another ingredient here, or of one known from elsewhere,
 * whose details come with it.
 * @param {WrittenRecipe} document @param {LinePath} at @param {WrittenIngredient | null | undefined} before what the
 * line meant before @param {readonly WrittenIngredient[]} known
 */
export function settleLine(document, at, before, known) {
  const { ingredient } = valueAt(document, at);
  const mine = document.ingredients[ingredient];
  if (!mine) return document;
  if (!mine.name.trim()) return pointed(document, at, "");
  const there = Object.keys(document.ingredients).find(
    (id) => id !== ingredient && isSame(document.ingredients[id].name, mine.name),
  );
  if (there) return settleId(pointed(document, at, there), at, mine.name);
  const isAnother = before && !isSame(before.name, mine.name);
  const details = isAnother || !hasDetails(mine) ? known.find(({ name }) => isSame(name, mine.name)) : null;
  if (!FRESH.test(ingredient))
    return details
      ? withValue(document, `ingredients.${ingredient}`, { ...details, name: mine.name })
      : document;
  let settled = document;
  const id = idFor(mine.name, new Set(Object.keys(settled.ingredients)));
  settled = withoutIngredient(
    {
      ...settled,
      ingredients: { ...settled.ingredients, [id]: details ? { ...details, name: mine.name } : mine },
    },
    ingredient,
  );
  /** @template {{readonly ingredient: string}} T @param {T} each @returns {T} */
  const rename = (each) => (each.ingredient === ingredient ? { ...each, ingredient: id } : each);
  settled = eachPart(settled, (part) =>
    part.lines
      ? withValue(
          part,
          "lines",
          part.lines.map((line) => ({
            ...rename(line),
            ...(line.substitutes && { substitutes: line.substitutes.map(rename) }),
          })),
        )
      : part,
  );
  return settleId(settled, at, mine.name);
}

/**
 * Give what is at this path (a component, a line, a step) an id made of its name, if it has none yet.
 * @param {WrittenRecipe} document @param {ComponentPath | LinePath | StepPath} at @param {string} name
 */
export function settleId(document, at, name) {
  const { id } = valueAt(document, at);
  if (!FRESH.test(id) || !name.trim()) return document;
  const siblings = thingsAt(document, at.replace(/\.\d+$/, ""));
  const taken = new Set([...siblings.flatMap((each) => each.id ?? []), "assembly"]);
  const named = withValue(document, `${at}.id`, idFor(name, taken));
  return relinked(named, at, id, valueAt(named, at).id);
}

/**
 * A path as the part that it lies in, the list of it, and the place in that; a part's own has the part alone.
 * @param {string} at @returns {{root: PartPath, list: "lines" | "steps" | undefined, index: number}}
 */
function spotOf(at) {
  const [, root, list, index] = /^(components\.\d+|assembly)(?:\.(lines|steps)\.(\d+))?$/.exec(at) ?? [];
  return {
    root: /** @type {PartPath} */ (root ?? "assembly"),
    list: /** @type {"lines" | "steps" | undefined} */ (list),
    index: Number(index),
  };
}

/**
 * Everything that names the component, line or step at (or once at) this path names it anew; null: no longer.
 * @param {WrittenRecipe} document @param {string} at @param {string} from @param {string | null} to
 * @returns {WrittenRecipe}
 */
function relinked(document, at, from, to) {
  /** @param {readonly string[] | undefined} list @param {string} old @param {string | null} now */
  const swap = (list, old, now) => list?.flatMap((each) => (each === old ? (now ?? []) : each));
  const { root, list } = spotOf(at);
  const there = root === "assembly" ? null : valueAt(document, root);
  const owner = root === "assembly" ? "assembly" : (there?.id ?? from);
  if (list === "lines") {
    return withValue(
      document,
      `${root}.steps`,
      valueAt(document, `${root}.steps`).map((step) => ({
        ...step,
        ...(putsIn(step) && { lines: swap(step.lines, from, to) }),
        ...("of" in step && step.of && !countsPieces(step) && { of: swap(step.of, from, to) }),
      })),
    );
  }
  /** @param {string} reference @param {string} part */
  const renamed = (reference, part) => {
    if (!list) return reference.startsWith(`${from}.`) ? to && to + reference.slice(from.length) : reference;
    if (reference === `${owner}.${from}`) return to && `${owner}.${to}`;
    return part === owner && reference === from ? to : reference;
  };
  const linked = eachPart(document, (part, id) => {
    const taken =
      "takes" in part && !list
        ? withValue(
            part,
            "takes",
            part.takes.flatMap((take) =>
              take.component === from ? (to ? { ...take, component: to } : []) : take,
            ),
          )
        : part;
    return withValue(
      taken,
      "steps",
      part.steps.map((step) => {
        let kept = step;
        if (step.after) {
          const after = step.after.flatMap((each) => renamed(each, id) || []);
          // Not "after nothing": after the step before.
          const isLost = step.after.length > 0 && after.length === 0;
          kept = withValue(kept, "after", isLost ? undefined : after);
        }
        if (step.window?.from) {
          const opens = renamed(step.window.from, id) || undefined;
          kept = withValue(kept, "window", withValue(step.window, "from", opens));
        }
        if ("during" in step) kept = withValue(kept, "during", renamed(step.during, id) || "");
        return kept;
      }),
    );
  });
  if (linked.components.length > 1 || !linked.assembly || linked.assembly.steps.length > 0) return linked;
  const { assembly: _, ...alone } = linked;
  return alone;
}

/** @param {WrittenRecipe} document @param {ListPath} at @param {number} index */
export function without(document, at, index) {
  const list = thingsAt(document, at);
  const left = withValue(
    document,
    at,
    list.filter((_, place) => place !== index),
  );
  return relinked(left, at === "components" ? "assembly" : `${at}.${index}`, list[index].id ?? "", null);
}

/** @param {WrittenRecipe} document @param {ListPath} at @param {number} from @param {number} to */
export function moved(document, at, from, to) {
  const list = [...thingsAt(document, at)];
  list.splice(to, 0, ...list.splice(from, 1));
  return withValue(document, at, list);
}

/**
 * A line or a step put at the end of another part ("components.1" or "assembly"); what it needs of the part it leaves
 * goes with it.
 * @param {WrittenRecipe} document @param {LinePath | StepPath} at @param {PartPath} to
 */
export function shifted(document, at, to) {
  const { root: from, list = "steps", index } = spotOf(at);
  /** @param {PartPath} root */
  const idOf = (root) => (root === "assembly" ? root : valueAt(document, root).id);
  const thing = valueAt(document, at);
  const there = thingsAt(document, `${to}.${list}`);
  const id = there.some((each) => each.id === thing.id)
    ? idFor(thing.id, new Set([...there.flatMap((each) => each.id ?? []), "assembly"]))
    : thing.id;
  if ("ingredient" in thing)
    return withValue(without(document, `${from}.lines`, index), `${to}.lines`, [...there, { ...thing, id }]);
  // Others go on naming it, and it goes on naming others, each from where it stands now.
  /** @param {string} reference @param {string} part */
  const full = (reference, part) => (reference.includes(".") ? reference : `${part}.${reference}`);
  /** @param {string} reference @param {string} part @param {string} by */
  const seen = (reference, part, by) => {
    const whole = full(reference, part);
    const now = whole === `${idOf(from)}.${thing.id}` ? `${idOf(to)}.${id}` : whole;
    return now.startsWith(`${by}.`) ? now.slice(by.length + 1) : now;
  };
  /** @template {WrittenStep} S @param {S} step @param {string} part @param {string} by @returns {S} */
  const relook = (step, part, by) => {
    const looked = step.after
      ? withValue(
          step,
          "after",
          step.after.map((each) => seen(each, part, by)),
        )
      : step;
    return step.window?.from
      ? withValue(looked, "window", { ...step.window, from: seen(step.window.from, part, by) })
      : looked;
  };
  // What it weighs and works on stays behind.
  const leaving = relook(withValue(thing, "id", id), idOf(from), idOf(to));
  const moving = putsIn(leaving)
    ? withValue(leaving, "lines", [])
    : withValue(leaving, "of", heats(leaving) ? [] : undefined);
  const left = eachPart(document, (part, key) =>
    withValue(
      part,
      "steps",
      part.steps.filter((step) => step !== thing).map((step) => relook(step, key, key)),
    ),
  );
  return withValue(left, `${to}.steps`, [...valueAt(left, `${to}.steps`), moving]);
}

/**
 * What was confirmed of a pasted text, each in the part it was put to: one of the text's, by its key, or one that is
 * here, by its id.
 * @param {WrittenRecipe} document @param {readonly TextItem[]} items @param {readonly WrittenIngredient[]} known
 */
export function withText(document, items, known) {
  let made = document;
  /** @type {Map<string, PartPath>} */
  const parts = new Map(made.components.map(({ id }, place) => [id, `components.${place}`]));
  for (const { as, name = "", amount = "", kind = "do", key = "", part = "", times = {} } of items) {
    const at = parts.get(part);
    if (as === "title") made = { ...made, title: name };
    if (as === "part") {
      const place = made.components.length - 1;
      const { name: here, lines, steps } = made.components[place];
      if (!here && steps.length === 0 && (lines ?? []).every((line) => !line.ingredient))
        made = withValue(made, `components.${place}.name`, name);
      else made = addComponent(made, name);
      /** @type {ComponentPath} */
      const put = `components.${made.components.length - 1}`;
      parts.set(key, put);
      made = settleId(made, put, name);
    }
    if (as === "line" && at) {
      made = withValue(
        made,
        `${at}.lines`,
        (valueAt(made, `${at}.lines`) ?? []).filter((line) => line.ingredient || line.amount),
      );
      /** @type {LinePath} */
      const line = `${at}.lines.${valueAt(made, `${at}.lines`)?.length ?? 0}`;
      made = addLine(made, at, { amount });
      made = settleLine(nameLine(made, line, name), line, null, known);
    }
    if (as === "step" && at) {
      const { earliest = "", usual = "", about } = times;
      const timed = runsByItself({ kind }) ? { earliest, usual } : byHand({ kind }) && about ? { about } : {};
      /** @type {StepPath} */
      const step = `${at}.steps.${valueAt(made, `${at}.steps`).length}`;
      made = addStep(made, at, kind, {
        title: name.slice(0, 120),
        ...(name.length > 120 && { says: name }),
        ...timed,
      });
      made = settleId(made, step, name);
    }
  }
  return made;
}

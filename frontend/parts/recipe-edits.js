// Edits of a recipe that touch more than one place: pure, a document in and a new one out.
// Ids of what is new are x1, x2…, until it has a name to make an id of.

import { withValue, valueAt } from "./recipe-fields.js";
import { KINDS } from "./recipe-forms.js";
import { idFor } from "./words.js";

const FRESH = /^x\d+$/;

const eachPart = (document, change) => ({
  ...document,
  components: document.components.map((part) => change(part, part.id)),
  ...(document.assembly && { assembly: change(document.assembly, "assembly") }),
});
const isSame = (one, other) => one.trim().toLowerCase() === other.trim().toLowerCase();

function freshId(document) {
  const used = new Set(JSON.stringify(document).match(/"x\d+"/g));
  let number = 1;
  while (used.has(`"x${number}"`)) number += 1;
  return `x${number}`;
}

export function blankRecipe() {
  return addComponent({
    format: "bowlside-recipe/1",
    title: "",
    written_for: "",
    ingredients: {},
    components: [],
  });
}

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

export function addLine(document, at, written = {}) {
  const lines = valueAt(document, `${at}.lines`) ?? [];
  return withValue(document, `${at}.lines`, [
    ...lines,
    { id: freshId(document), ingredient: "", amount: "", ...written },
  ]);
}

/** A weigh step begins with every line that no step weighs yet: ticked, for all to see. */
export function addStep(document, at, kind, written = {}) {
  const { steps, lines = [] } = valueAt(document, at);
  const step = { id: freshId(document), kind, title: "", ...KINDS[kind].blank, ...written };
  if (kind === "weigh") {
    const weighed = new Set(steps.flatMap((each) => (each.kind === "weigh" ? each.lines : [])));
    step.lines = lines
      .filter(({ id, ingredient, amount }) => ingredient && !weighed.has(id) && !isSame(amount, "to texture"))
      .map(({ id }) => id);
  }
  return withValue(document, `${at}.steps`, [...steps, step]);
}

/** Another kind of step: its title and what every kind may say stay, what only the old kind says goes. */
export function asKind(document, at, kind) {
  const step = valueAt(document, at);
  const own = new Set([...KINDS[step.kind].main, ...KINDS[step.kind].more].map(([key]) => key.split(".")[0]));
  const kept = Object.fromEntries(Object.entries(step).filter(([key]) => !own.has(key)));
  return withValue(document, at, { ...KINDS[kind].blank, ...kept, kind });
}

const usesOf = (document, ingredient) =>
  JSON.stringify([document.components, document.assembly]).split(`"ingredient":"${ingredient}"`).length - 1;

function withoutIngredient(document, id) {
  const { [id]: _, ...ingredients } = document.ingredients;
  return { ...document, ingredients };
}

/** Whether more is written of an ingredient than its name. */
export const hasDetails = (ingredient) => Object.keys(ingredient ?? {}).length > 1;

/**
 * A line's ingredient while its name is typed: its own, which has that name now, or a new one where others use it
 * too.
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

/** The line made to mean this ingredient; the one it meant goes if nothing else uses it. */
function pointed(document, at, id) {
  const { ingredient } = valueAt(document, at);
  const now = withValue(document, `${at}.ingredient`, id);
  return document.ingredients[ingredient] && usesOf(now, ingredient) === 0
    ? withoutIngredient(now, ingredient)
    : now;
}

function anew(document, at, about) {
  const id = freshId(document);
  return pointed({ ...document, ingredients: { ...document.ingredients, [id]: about } }, at, id);
}

/** What a line means is another ingredient than the one renamed: one of this name and nothing known of it. */
export function asAnother(document, at) {
  const { name } = document.ingredients[valueAt(document, at).ingredient];
  return settleLine(anew(document, at, { name }), at, null, []);
}

/** What a line means is that ingredient after all, which has the new name wherever it is used. */
export function renamedEverywhere(document, at, ingredient) {
  const { name } = document.ingredients[valueAt(document, at).ingredient];
  return withValue(pointed(document, at, ingredient), `ingredients.${ingredient}.name`, name);
}

/**
 * The name is written: it may be that of another ingredient here, or of one known from elsewhere,
 * whose details come with it.
 * @param before what the line meant before: the ingredient as it was, or null
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
  const rename = (each) => (each.ingredient === ingredient ? { ...each, ingredient: id } : each);
  settled = eachPart(settled, (part) =>
    part.lines
      ? {
          ...part,
          lines: part.lines.map((line) => ({
            ...rename(line),
            ...(line.substitutes && { substitutes: line.substitutes.map(rename) }),
          })),
        }
      : part,
  );
  return settleId(settled, at, mine.name);
}

/** Give what is at this path (a component, a line, a step) an id made of its name, if it has none yet. */
export function settleId(document, at, name) {
  const { id } = valueAt(document, at);
  if (!FRESH.test(id) || !name.trim()) return document;
  const siblings = valueAt(document, at.replace(/\.\d+$/, ""));
  const taken = new Set([...siblings.map((each) => each.id), "assembly"]);
  const named = withValue(document, `${at}.id`, idFor(name, taken));
  return relinked(named, at, id, valueAt(named, `${at}.id`));
}

/** Everything that names the component, line or step at (or once at) this path names it anew; null: no longer. */
function relinked(document, at, from, to) {
  const swap = (list, old, now) => list?.flatMap((each) => (each === old ? (now ?? []) : each));
  const [, root, , list] = /^(components\.\d+|assembly)(\.(lines|steps)\.\d+)?$/.exec(at);
  const owner = root === "assembly" ? "assembly" : (valueAt(document, root)?.id ?? from);
  if (list === "lines") {
    return withValue(
      document,
      `${root}.steps`,
      valueAt(document, `${root}.steps`).map((step) => ({
        ...step,
        ...(step.kind === "weigh" && { lines: swap(step.lines, from, to) }),
        ...(step.of && step.kind !== "pieces" && { of: swap(step.of, from, to) }),
      })),
    );
  }
  const renamed = (reference, part) => {
    if (!list) return reference.startsWith(`${from}.`) ? to && to + reference.slice(from.length) : reference;
    if (reference === `${owner}.${from}`) return to && `${owner}.${to}`;
    return part === owner && reference === from ? to : reference;
  };
  const linked = eachPart(document, (part, id) => ({
    ...part,
    ...(part.takes &&
      !list && {
        takes: part.takes.flatMap((take) =>
          take.component === from ? (to ? { ...take, component: to } : []) : take,
        ),
      }),
    steps: part.steps.map((step) => {
      const kept = { ...step };
      if (step.after) {
        kept.after = step.after.map((each) => renamed(each, id)).filter(Boolean);
        // Not "after nothing": after the step before.
        if (step.after.length > 0 && kept.after.length === 0) delete kept.after;
      }
      if (step.window?.from) {
        kept.window = { ...step.window, from: renamed(step.window.from, id) };
        if (!kept.window.from) delete kept.window.from;
      }
      return kept;
    }),
  }));
  if (linked.components.length > 1 || !linked.assembly || linked.assembly.steps.length > 0) return linked;
  const { assembly: _, ...alone } = linked;
  return alone;
}

export function without(document, at, index) {
  const gone = valueAt(document, `${at}.${index}`);
  const left = withValue(
    document,
    at,
    valueAt(document, at).filter((_, place) => place !== index),
  );
  return relinked(left, at === "components" ? "assembly" : `${at}.${index}`, gone.id, null);
}

export function moved(document, at, from, to) {
  const list = [...valueAt(document, at)];
  list.splice(to, 0, ...list.splice(from, 1));
  return withValue(document, at, list);
}

/**
 * A line or a step put at the end of another part ("components.1" or "assembly"); what it needs of the part it leaves
 * goes with it.
 */
export function shifted(document, at, to) {
  const [, from, list, index] = /^(components\.\d+|assembly)\.(lines|steps)\.(\d+)$/.exec(at);
  const idOf = (root) => valueAt(document, root).id ?? "assembly";
  const thing = valueAt(document, at);
  const there = valueAt(document, `${to}.${list}`) ?? [];
  const id = there.some((each) => each.id === thing.id)
    ? idFor(thing.id, new Set([...there.map((each) => each.id), "assembly"]))
    : thing.id;
  if (list === "lines")
    return withValue(without(document, `${from}.lines`, Number(index)), `${to}.lines`, [
      ...there,
      { ...thing, id },
    ]);
  // Others go on naming it, and it goes on naming others, each from where it stands now.
  const full = (reference, part) => (reference.includes(".") ? reference : `${part}.${reference}`);
  const seen = (reference, part, by) => {
    const whole = full(reference, part);
    const now = whole === `${idOf(from)}.${thing.id}` ? `${idOf(to)}.${id}` : whole;
    return now.startsWith(`${by}.`) ? now.slice(by.length + 1) : now;
  };
  const relook = (step, part, by) => ({
    ...step,
    ...(step.after && { after: step.after.map((each) => seen(each, part, by)) }),
    ...(step.window?.from && { window: { ...step.window, from: seen(step.window.from, part, by) } }),
  });
  const { lines: weighed, of, ...rest } = relook({ ...thing, id }, idOf(from), idOf(to));
  const moving = { ...rest, ...(weighed && { lines: [] }), ...(of && thing.kind === "melt" && { of: [] }) };
  const left = eachPart(document, (part, key) => ({
    ...part,
    steps: part.steps.filter((step) => step !== thing).map((step) => relook(step, key, key)),
  }));
  return withValue(left, `${to}.steps`, [...valueAt(left, `${to}.steps`), moving]);
}

/**
 * What was confirmed of a pasted text, each in the part it was put to: one of the text's, by its key, or one that is
 * here, by its id.
 */
export function withText(document, items, known) {
  let made = document;
  const parts = new Map(made.components.map(({ id }, place) => [id, `components.${place}`]));
  for (const { as, name, amount, kind, key, part, times = {} } of items) {
    const at = parts.get(part);
    if (as === "title") made = { ...made, title: name };
    if (as === "part") {
      const last = `components.${made.components.length - 1}`;
      const { name: here, lines, steps } = valueAt(made, last);
      if (!here && steps.length === 0 && lines.every((line) => !line.ingredient))
        made = withValue(made, `${last}.name`, name);
      else made = addComponent(made, name);
      parts.set(key, `components.${made.components.length - 1}`);
      made = settleId(made, parts.get(key), name);
    }
    if (as === "line") {
      made = withValue(
        made,
        `${at}.lines`,
        valueAt(made, `${at}.lines`).filter((line) => line.ingredient || line.amount),
      );
      made = addLine(made, at, { amount });
      const line = `${at}.lines.${valueAt(made, `${at}.lines`).length - 1}`;
      made = settleLine(nameLine(made, line, name), line, null, known);
    }
    if (as === "step") {
      const { earliest = "", usual = "", about } = times;
      const timed = { wait: { earliest, usual }, do: about ? { about } : {} }[kind];
      made = addStep(made, at, kind, {
        title: name.slice(0, 120),
        ...(name.length > 120 && { says: name }),
        ...timed,
      });
      made = settleId(made, `${at}.steps.${valueAt(made, `${at}.steps`).length - 1}`, name);
    }
  }
  return made;
}

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
  return addComponent({ format: "bowlside-recipe/1", title: "", written_for: "", ingredients: {}, components: [] });
}

export function addComponent(document, name = "") {
  const id = freshId(document);
  const made = addLine({ ...document, components: [...document.components, { id, name, lines: [], steps: [] }] }, `components.${document.components.length}`);
  if (made.components.length === 1) return made;
  const assembly = made.assembly ?? { takes: [], steps: [] };
  const missing = made.components.filter((part) => !assembly.takes.some(({ component }) => component === part.id));
  return { ...made, assembly: { ...assembly, takes: [...assembly.takes, ...missing.map((part) => ({ component: part.id, count: 1 }))] } };
}

export function addLine(document, at, written = {}) {
  const lines = valueAt(document, `${at}.lines`) ?? [];
  return withValue(document, `${at}.lines`, [...lines, { id: freshId(document), ingredient: "", amount: "", ...written }]);
}

/** A weigh step begins with every line that no step weighs yet: ticked, for all to see. */
export function addStep(document, at, kind, written = {}) {
  const { steps, lines = [] } = valueAt(document, at);
  const step = { id: freshId(document), kind, title: "", ...KINDS[kind].blank, ...written };
  if (kind === "weigh") {
    const weighed = new Set(steps.flatMap((each) => (each.kind === "weigh" ? each.lines : [])));
    step.lines = lines.filter(({ id, ingredient, amount }) => ingredient && !weighed.has(id) && !isSame(amount, "to texture")).map(({ id }) => id);
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

const usesOf = (document, ingredient) => JSON.stringify([document.components, document.assembly]).split(`"ingredient":"${ingredient}"`).length - 1;

function withoutIngredient(document, id) {
  const { [id]: _, ...ingredients } = document.ingredients;
  return { ...document, ingredients };
}

/** A line's ingredient by the name typed: one that is here, or a new one. */
export function nameLine(document, at, text) {
  const { ingredient } = valueAt(document, at);
  const mine = document.ingredients[ingredient];
  const isMineAlone = mine && FRESH.test(ingredient) && Object.keys(mine).length === 1 && usesOf(document, ingredient) === 1;
  const there = Object.keys(document.ingredients).find((id) => isSame(document.ingredients[id].name, text) && !(isMineAlone && id === ingredient));
  if (!text.trim() || there) {
    const pointed = withValue(document, `${at}.ingredient`, there ?? "");
    return isMineAlone ? withoutIngredient(pointed, ingredient) : pointed;
  }
  if (isMineAlone) return withValue(document, `ingredients.${ingredient}`, { name: text });
  const id = freshId(document);
  return withValue(withValue(document, `ingredients.${id}`, { name: text }), `${at}.ingredient`, id);
}

/** The name is written: the ingredient it replaced goes if nothing uses it, details known elsewhere come. */
export function settleLine(document, at, left, known) {
  let settled = left && document.ingredients[left] && usesOf(document, left) === 0 ? withoutIngredient(document, left) : document;
  const { ingredient } = valueAt(settled, at);
  const mine = settled.ingredients[ingredient];
  if (!mine || !FRESH.test(ingredient)) return settled;
  const details = Object.keys(mine).length === 1 ? known.find(({ name }) => isSame(name, mine.name)) : null;
  const id = idFor(mine.name, new Set(Object.keys(settled.ingredients)));
  settled = withoutIngredient({ ...settled, ingredients: { ...settled.ingredients, [id]: { ...details, ...mine } } }, ingredient);
  const rename = (each) => (each.ingredient === ingredient ? { ...each, ingredient: id } : each);
  settled = eachPart(settled, (part) => (part.lines ? { ...part, lines: part.lines.map((line) => ({ ...rename(line), ...(line.substitutes && { substitutes: line.substitutes.map(rename) }) })) } : part));
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
    return withValue(document, `${root}.steps`, valueAt(document, `${root}.steps`).map((step) => ({ ...step, ...(step.kind === "weigh" && { lines: swap(step.lines, from, to) }), ...(step.of && step.kind !== "pieces" && { of: swap(step.of, from, to) }) })));
  }
  const renamed = (reference, part) => {
    if (!list) return reference.startsWith(`${from}.`) ? to && to + reference.slice(from.length) : reference;
    if (reference === `${owner}.${from}`) return to && `${owner}.${to}`;
    return part === owner && reference === from ? to : reference;
  };
  const linked = eachPart(document, (part, id) => ({
    ...part,
    ...(part.takes && !list && { takes: part.takes.flatMap((take) => (take.component === from ? (to ? { ...take, component: to } : []) : take)) }),
    steps: part.steps.map((step) => {
      const kept = { ...step };
      if (step.after) {
        kept.after = step.after.map((each) => renamed(each, id)).filter(Boolean);
        if (step.after.length > 0 && kept.after.length === 0) delete kept.after; // not "after nothing": after the step before
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
  const left = withValue(document, at, valueAt(document, at).filter((_, place) => place !== index));
  return relinked(left, at === "components" ? "assembly" : `${at}.${index}`, gone.id, null);
}

export function moved(document, at, from, to) {
  const list = [...valueAt(document, at)];
  list.splice(to, 0, ...list.splice(from, 1));
  return withValue(document, at, list);
}

/** What was confirmed of a pasted text, put at the end of the recipe. */
export function withText(document, items, known) {
  let made = document;
  let at = `components.${made.components.length - 1}`;
  for (const { as, name, amount, kind, time } of items) {
    if (as === "title") made = { ...made, title: name };
    if (as === "part") {
      const { name: here, lines, steps } = valueAt(made, at);
      if (!here && steps.length === 0 && lines.every((line) => !line.ingredient)) made = withValue(made, `${at}.name`, name);
      else made = addComponent(made, name);
      at = `components.${made.components.length - 1}`;
      made = settleId(made, at, name);
    }
    if (as === "line") {
      made = withValue(made, `${at}.lines`, valueAt(made, `${at}.lines`).filter((line) => line.ingredient || line.amount));
      made = addLine(made, at, { amount });
      const line = `${at}.lines.${valueAt(made, `${at}.lines`).length - 1}`;
      made = settleLine(nameLine(made, line, name), line, "", known);
    }
    if (as === "step") {
      const timed = { wait: { usual: time }, do: { about: time } }[kind];
      made = addStep(made, at, kind, { title: name.slice(0, 120), ...(name.length > 120 && { says: name }), ...(time && timed) });
      made = settleId(made, `${at}.steps.${valueAt(made, `${at}.steps`).length - 1}`, name);
    }
  }
  return made;
}

// The fields of a recipe being written, drawn from tables (recipe-forms.js).
//
//   fieldRow(pen, "components.0", ["piece", "weighs", "", "150 g"])
//
// A field is [key, label, type, extra]; the key may be dotted; the label is a code of the catalogue, and what ends in
// * must be filled in. Types: "" text (extra: an example, in figures or as a code of the catalogue), grow (text on as
// many rows as it needs), area (the same, several lines), whole, decimal, flag, maybe (yes, no, not said), pick
// (extra: codes of the catalogue, or what gives [value, label] pairs), some (the same, any number), list (words
// between commas), rows (extra: {fields, one, blank}).
//
// The pen is the screen's: pen.read(at), pen.write(at, value), pen.reshape(change) where what is
// drawn changes with it, pen.fields (path -> the field), pen.open (folds that are open).

import { point, say } from "../words.js";
import { h, setAttr, setText } from "./dom.js";
import { mark } from "./marks.js";
/** @import { Child, Props } from "../../types/dom" */
/** @import { Control } from "../../types/parts" */
/** @import { Choices, ChoicesOf, Coded, Field, FieldThere } from "../../types/recipe" */
/** @import { ListPath, Pen, RowsField, ValueAt } from "../../types/recipe" */

/** @param {string} at @param {string} key */
export const join = (at, key) => (at ? `${at}.${key}` : key);

/** The fields of a value that has any. @param {unknown} value @returns {{readonly [key: string]: unknown} | null} */
export const fieldsOf = (value) =>
  typeof value === "object" && value !== null ? /** @type {{[key: string]: unknown}} */ (value) : null;

/**
 * A value by its dotted path, or undefined.
 * @template {string} P @param {object} document @param {P} at
 */
export const valueAt = (document, at) =>
  /** @type {ValueAt<P>} */ (
    (at ? at.split(".") : []).reduce(
      (value, key) => fieldsOf(value)?.[key],
      /** @type {unknown} */ (document),
    )
  );

/** The things of a list by its dotted path; none where there is no list. @param {object} document @param {string} at */
export const thingsAt = (document, at) => {
  /** @type {unknown} */
  const list = valueAt(document, at);
  return Array.isArray(list) ? /** @type {readonly {id?: string}[]} */ (list) : [];
};

/** @param {unknown} value */
const isNothing = (value) =>
  value === undefined ||
  value === "" ||
  (typeof value === "object" &&
    Object.values(value ?? {}).every((each) => each === undefined || each === ""));

/**
 * A copy with that value there; undefined takes it away, and with it an object left with nothing.
 * @template T @param {T} document @param {string} at @param {unknown} value @returns {T}
 */
export function withValue(document, at, value) {
  const [key, ...rest] = at.split(".");
  /** @type {{[key: string]: unknown}} */
  const copy = Object.assign(Array.isArray(document) ? [] : {}, document);
  const inner = rest.length ? withValue(fieldsOf(document)?.[key] ?? {}, rest.join("."), value) : value;
  const isGroup = rest.length === 1 && !Array.isArray(inner) && value === undefined;
  if (inner === undefined || (isGroup && isNothing(inner))) delete copy[key];
  else copy[key] = inner;
  return /** @type {T} */ (/** @type {unknown} */ (copy));
}

/**
 * A field for one line of text, as tall as its words need: long ones wrap and are not cut.
 * @param {Props<HTMLTextAreaElement>} [props]
 */
export function growing(props = {}) {
  const input = h("textarea", { rows: 1, class: "grow", autocomplete: "off", ...props });
  input.addEventListener("keydown", (event) => {
    if (event.key === "Enter") event.preventDefault();
  });
  input.addEventListener("input", () => {
    if (/[\r\n]/.test(input.value)) input.value = input.value.replace(/\s*[\r\n]+\s*/g, " ");
  });
  return fitted(input);
}

/** @type {{[type: string]: string | undefined}} */
const KEYPADS = { whole: "numeric", decimal: "decimal" };

/**
 * As tall as its words, in a browser that does not see to that by itself, too: whenever they or its width change.
 * @param {HTMLTextAreaElement} input
 */
function fitted(input) {
  if (CSS.supports("field-sizing", "content")) return input;
  let width = 0;
  const fit = () => {
    input.style.height = "auto";
    input.style.height = `${input.scrollHeight + input.offsetHeight - input.clientHeight}px`;
  };
  input.addEventListener("input", fit);
  new ResizeObserver(() => {
    if (input.clientWidth === width) return; // its own change of height
    width = input.clientWidth;
    requestAnimationFrame(fit); // not in here, where fields further down would wait for another frame
  }).observe(input);
  return input;
}

/** What a field is called. @param {string} code with or without its star */
export const labelOf = (code) => say(`page-recipe-field-${code.replace("*", "")}`);

/** @param {Coded} coded @returns {Choices} */
export const choicesOf = ({ of, codes, said }) =>
  codes.map((code) => [
    code,
    said ? said(code) : say(`page-recipe-choice-${of}-${code.replaceAll("_", "-")}`),
  ]);

/** What may stand in a field: figures as they are, or words of the catalogue. @param {string} given */
const exampleOf = (given) =>
  /\d/.test(given) ? given.replace(".", point()) : say(`page-recipe-example-${given}`);

/** @param {Pen} pen @param {string} at @param {Coded | ChoicesOf} extra */
const optionsOf = (pen, at, extra) =>
  typeof extra === "function" ? extra(pen.document, at) : choicesOf(extra);

/**
 * @typedef {{value: unknown, needed: boolean}} Given
 * @typedef {Given & {type: string, example: string | null}} GivenText
 * @typedef {Given & {choices: Coded | ChoicesOf, none?: (() => string) | undefined}} GivenChoices
 */

/** @param {Pen} pen @param {string} at @param {GivenText} given */
function plain(pen, at, { type, example, value, needed }) {
  const input =
    type === "area"
      ? fitted(h("textarea", { rows: 2 }))
      : type === "grow" || type === "list"
        ? growing({ placeholder: example })
        : h("input", {
            type: "text",
            autocomplete: "off",
            placeholder: example,
            inputmode: KEYPADS[type] ?? null,
          });
  input.value = Array.isArray(value) ? value.join(", ") : String(value ?? "");
  input.addEventListener("input", () => {
    const text = input.value;
    /** @type {string | number | string[] | undefined} */
    let next = text === "" && !needed ? undefined : text;
    if (type === "whole" && /^\d{1,9}$/.test(text.trim())) next = Number(text);
    if (type === "list" && next)
      next = text
        .split(",")
        .map((each) => each.trim())
        .filter(Boolean);
    pen.write(at, next);
  });
  return input;
}

/**
 * Draw choices, and again whenever what is written elsewhere changes them.
 * @param {Pen} pen @param {string} at @param {Coded | ChoicesOf} extra @param {(choices: Choices) => void} draw
 */
function choosing(pen, at, extra, draw) {
  let drawn = "";
  const again = () => {
    const choices = optionsOf(pen, at, extra);
    const told = JSON.stringify(choices);
    if (told !== drawn) draw(choices);
    drawn = told;
  };
  again();
  if (typeof extra === "function") pen.live(again);
}

/** Longer choices would be cut where two fields stand side by side: a pick does not wrap. */
const FITS_HALF = 10;

/** @param {Pen} pen @param {string} at @param {GivenChoices} given */
function pick(pen, at, { choices: extra, needed }) {
  const input = h("select");
  choosing(pen, at, extra, (choices) => {
    const value = pen.read(at);
    input.replaceChildren(
      ...(needed ? [] : [h("option", { value: "" }, "\u2013")]),
      ...choices.map(([key, label]) => h("option", { value: key, selected: key === value }, label)),
    );
  });
  input.addEventListener("change", () => pen.write(at, input.value || undefined));
  return input;
}

/** @param {Pen} pen @param {string} at @param {Given} given */
function maybe(pen, at, { value }) {
  const input = h(
    "select",
    {},
    [
      ["", say("page-recipe-not-said")],
      ["yes", say("page-recipe-choose-yes")],
      ["no", say("page-recipe-choose-no")],
    ].map(([key, label]) =>
      h("option", { value: key, selected: key !== "" && (key === "yes") === value }, label),
    ),
  );
  input.addEventListener("change", () => pen.write(at, input.value ? input.value === "yes" : undefined));
  return input;
}

/** @param {Pen} pen @param {string} at @param {string} label @param {unknown} value */
function flag(pen, at, label, value) {
  const box = h("input", { type: "checkbox", checked: Boolean(value), "data-at": at });
  box.addEventListener("change", () => pen.write(at, box.checked || undefined));
  return h("label", { class: "choice" }, box, h("span", {}, label));
}

/** @param {Pen} pen @param {string} at @param {string} label @param {GivenChoices} given */
function some(pen, at, label, { choices: extra, needed, none }) {
  /** @returns {readonly unknown[]} */
  const chosenNow = () => {
    /** @type {unknown} */
    const there = pen.read(at);
    return Array.isArray(there) ? there : [];
  };
  const hint = makeHint(at);
  const list = h("div", { class: "r-boxes" });
  choosing(pen, at, extra, (choices) => {
    /** @param {string} key @param {boolean} checked */
    const makeBox = (key, checked) => h("input", { type: "checkbox", checked, "data-at": `${at}=${key}` });
    const nothing = none && makeBox("", pen.read(at) !== undefined && !chosenNow().length);
    const ticked = choices.map(([key]) => makeBox(key, chosenNow().includes(key)));
    for (const [place, box] of ticked.entries())
      box.addEventListener("change", () => {
        const chosen = new Set(chosenNow());
        chosen[box.checked ? "add" : "delete"](choices[place][0]);
        const kept = choices.map(([each]) => each).filter((each) => chosen.has(each));
        if (nothing) nothing.checked = false;
        pen.write(at, kept.length || needed ? kept : undefined);
      });
    nothing?.addEventListener("change", () => {
      for (const box of ticked) box.checked = false;
      pen.write(at, nothing.checked ? [] : undefined);
    });
    /** @param {HTMLElement} box @param {string} text */
    const row = (box, text) => h("label", { class: "choice" }, box, h("span", {}, text));
    const boxes = ticked.map((box, place) => row(box, choices[place][1]));
    if (nothing) boxes.push(row(nothing, none()));
    list.replaceChildren(
      ...(boxes.length ? boxes : [h("span", { class: "soft small" }, say("page-recipe-no-choices"))]),
    );
  });
  const node = h(
    "fieldset",
    { class: "some", "data-at": at, tabindex: -1 },
    h("legend", {}, label),
    list,
    hint,
  );
  pen.fields.set(at, { input: node, hint });
  return node;
}

/** @param {Pen} pen @param {string} at @param {string} label @param {RowsField[3]} extra @returns {HTMLElement} */
function rows(pen, at, label, { fields, one, blank }) {
  const value = thingsAt(pen.document, at);
  return h(
    "fieldset",
    { class: "some" },
    h("legend", {}, label),
    value.map((_, index) =>
      h(
        "div",
        { class: "r-row" },
        fieldRows(pen, `${at}.${index}`, fields),
        h(
          "button",
          {
            type: "button",
            class: "quiet",
            onclick: () =>
              pen.reshape((document) => {
                const left = thingsAt(document, at).filter((_each, place) => place !== index);
                return withValue(document, at, left.length ? left : undefined);
              }, `${at}+`),
          },
          say(`page-recipe-row-remove-${one}`),
        ),
      ),
    ),
    h(
      "button",
      {
        type: "button",
        class: "quiet",
        "data-at": `${at}+`,
        onclick: () =>
          pen.reshape(
            (document) => withValue(document, at, [...thingsAt(document, at), blank(thingsAt(document, at))]),
            `${at}.${value.length}.${fields[0][0]}`,
          ),
      },
      say(`page-recipe-row-add-${one}`),
    ),
  );
}

/** @param {string} at */
const makeHint = (at) => h("small", { class: "hint", id: `hint-${at}` });

/**
 * One field with its label, and below it the place for what it means or what is wrong with it.
 * @param {Pen} pen @param {string} at @param {Field} field @param {string} [label] what it is called here
 * @returns {HTMLElement}
 */
export function fieldRow(pen, at, field, label = labelOf(field[1])) {
  const [key, title] = field;
  const path = join(at, key);
  const given = { value: pen.read(path), needed: title.endsWith("*") };
  if (field[2] === "flag") return flag(pen, path, label, given.value);
  if (field[2] === "some") return some(pen, path, label, { ...given, choices: field[3], none: field[4] });
  if (field[2] === "rows") return rows(pen, path, label, field[3]);
  if (field[2] === "pick")
    return labelled(
      pen,
      path,
      label,
      pick(pen, path, { ...given, choices: field[3] }),
      optionsOf(pen, path, field[3]).some(([, each]) => each.length > FITS_HALF) ? "wide" : "",
    );
  if (field[2] === "maybe") return labelled(pen, path, label, maybe(pen, path, given));
  const [, , type = "", extra] = field;
  const example = typeof extra === "string" ? exampleOf(extra) : null;
  const input = plain(pen, path, { ...given, type, example });
  return labelled(pen, path, label, input, type === "area" ? "wide" : "");
}

/** @param {Pen} pen @param {string} path @param {string} label @param {Control} input @param {string} [more] */
export function labelled(pen, path, label, input, more = "") {
  const hint = makeHint(path);
  setAttr(input, "data-at", path);
  setAttr(input, "aria-describedby", hint.id);
  input.addEventListener("change", () => pen.settle(path));
  pen.fields.set(path, { input, hint });
  return h(
    "div",
    { class: `r-field ${more}` },
    h("label", { class: "field" }, h("span", {}, label), input),
    hint,
  );
}

/** @param {Pen} pen @param {string} at @param {readonly Field[]} fields @returns {HTMLElement[]} */
export const fieldRows = (pen, at, fields = []) => fields.map((field) => fieldRow(pen, at, field));

/**
 * What is beside a field: a meaning, or, once its maker has left it, what is wrong with it.
 * @param {FieldThere} field @param {string} text @param {boolean} isFault
 */
export function sayBeside({ input, hint }, text, isFault) {
  setText(hint, text);
  setAttr(hint, "data-fault", isFault);
  if (input.matches("input,select,textarea")) setAttr(input, "aria-invalid", isFault ? "true" : null);
}

/**
 * A fold that is built when it is opened, and stays open when the page is drawn again.
 * @param {Pen} pen @param {string} key @param {Child} summary
 * @param {() => Child | readonly (Child | readonly Child[])[]} build
 */
export function fold(pen, key, summary, build) {
  const node = h(
    "details",
    { class: "r-fold", "data-fold": key },
    h("summary", { "data-at": `${key}?` }, summary),
  );
  const fill = () => {
    if (node.childElementCount === 1) node.append(h("div", { class: "r-fold-in" }, [build()].flat(2)));
  };
  node.addEventListener("toggle", () => {
    pen.open[node.open ? "add" : "delete"](key);
    if (!node.open) return;
    fill();
    pen.refresh();
  });
  if (pen.open.has(key)) {
    fill();
    node.open = true;
  }
  return node;
}

/**
 * A list whose items change places: by Alt and the arrows anywhere in one, by its handle, by its Up
 * and Down, by drag. make(item, at, index, order): order(...more) is a row with what else may be
 * done with an item. Up and Down are no stops of the keyboard's, which has the arrows.
 * @template {{readonly [key: string]: unknown} | object} T @template {ListPath} P @param {Pen} pen @param {P} at
 * @param {readonly T[]} items @param {(item: T) => string} nameOf @param {(item: T, at: `${P}.${number}`, index:
 * number, order: (...more: Child[]) => HTMLElement) => Child | (Child | Child[])[]} make
 */
export function ordered(pen, at, items, nameOf, make) {
  const list = h("ol", { class: "r-list" });
  /** @param {number} from @param {number} to */
  const move = (from, to) => {
    if (to >= 0 && to < items.length && to !== from) pen.move(at, from, to, nameOf(items[from]));
  };
  list.append(
    ...items.map((item, index) => {
      const name = nameOf(item) || say("page-recipe-unnamed");
      const handle = h(
        "button",
        {
          type: "button",
          class: "handle",
          "data-at": `${at}.${index}#`,
          "aria-label": say("page-recipe-move", { name }),
          title: say("page-recipe-drag"),
        },
        mark("drag"),
      );
      /** @param {Child[]} more */
      const order = (...more) =>
        h(
          "div",
          { class: "r-order" },
          more,
          h(
            "button",
            {
              type: "button",
              class: "quiet",
              "aria-label": say("page-recipe-remove-it", { name }),
              onclick: () => pen.drop(at, index, name),
            },
            say("page-recipe-remove"),
          ),
        );
      /** @param {string} way @param {string} label @param {number} by @param {string} sign */
      const arrow = (way, label, by, sign) =>
        h(
          "button",
          {
            type: "button",
            class: "arrow",
            tabindex: -1,
            "data-at": `${at}.${index}${way}`,
            "aria-label": label,
            "aria-disabled": items[index + by] ? null : "true",
            onclick: () => move(index, index + by),
          },
          sign,
        );
      const arrows =
        items.length > 1 &&
        h(
          "div",
          { class: "r-arrows" },
          arrow("Up", say("page-recipe-go-up", { name }), -1, "\u2191"),
          arrow("Down", say("page-recipe-go-down", { name }), 1, "\u2193"),
        );
      const made = [make(item, `${at}.${index}`, index, order)].flat();
      const node = h("li", { class: "r-item" }, handle, ...made, arrows);
      /** @param {Event} event */
      const onHandle = (event) => event.target === handle;
      node.addEventListener("keydown", (event) => {
        const by = event.key === "ArrowUp" ? -1 : event.key === "ArrowDown" ? 1 : 0;
        if (!by || !(event.altKey || onHandle(event))) return;
        event.preventDefault();
        event.stopPropagation(); // a step inside a component: the step moves, the component stays
        move(index, index + by);
      });
      draggable(handle, node, list, (to) => move(index, to));
      return node;
    }),
  );
  return list;
}

const NEAR_EDGE_PX = 72;
const FRAME_MS = 1000 / 60;
const LONGEST_FRAME_MS = 100;

/**
 * Follows the pointer; near the top or the foot the page scrolls on, the faster the nearer.
 * @param {HTMLElement} handle @param {HTMLElement} node @param {HTMLElement} list @param {(to: number) => void} drop
 */
function draggable(handle, node, list, drop) {
  handle.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    // Listened to on the page: moving the node would let go of a pointer that it has captured.
    const ended = new AbortController();
    const { signal } = ended;
    let at = event.clientY;
    let scrolling = 0;
    let scrolledAt = 0;
    /** What is carried, and all it may pass, shown short, and still under the pointer. */
    const lift = () => {
      const was = node.getBoundingClientRect().top;
      node.classList.add("dragged");
      list.classList.add("moving");
      scrollBy(0, node.getBoundingClientRect().top - was);
    };
    const end = () => {
      ended.abort();
      cancelAnimationFrame(scrolling);
      node.classList.remove("dragged");
      list.classList.remove("moving");
      drop([...list.children].indexOf(node));
    };
    const place = () => {
      /** @param {Element} each */
      const middle = (each) => each.getBoundingClientRect().top + each.getBoundingClientRect().height / 2;
      const next = [...list.children].find((each) => each !== node && at < middle(each)) ?? null;
      if (next !== node.nextElementSibling) list.insertBefore(node, next);
    };
    /** As far on a slow phone, with few frames, as on a quick one. @param {number} now */
    const scroll = (now) => {
      const frames = Math.min(now - (scrolledAt || now), LONGEST_FRAME_MS) / FRAME_MS;
      scrolledAt = now;
      const foot =
        innerHeight - (parseFloat(getComputedStyle(document.documentElement).scrollPaddingBottom) || 0);
      const past = Math.min(0, at - NEAR_EDGE_PX) || Math.max(0, at - foot + NEAR_EDGE_PX);
      const { top, bottom } = list.getBoundingClientRect();
      if ((past < 0 && top < NEAR_EDGE_PX) || (past > 0 && bottom > foot - NEAR_EDGE_PX)) {
        scrollBy(0, (past / 3 + 3 * Math.sign(past)) * frames);
        place();
      }
      scrolling = requestAnimationFrame(scroll);
    };
    /** @param {PointerEvent} event */
    const follow = ({ clientY }) => {
      at = clientY;
      if (!scrolling) {
        lift();
        scrolling = requestAnimationFrame(scroll);
      }
      place();
    };
    document.addEventListener("pointermove", follow, { signal });
    document.addEventListener("pointerup", end, { signal });
    document.addEventListener("pointercancel", end, { signal });
  });
}

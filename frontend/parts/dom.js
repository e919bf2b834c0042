// Building and changing the page without markup strings, so that no name from a recipe
// can ever become markup, and a repeated update touches only what differs.
//
//   const row = h("li", { class: "line" }, h("b", {}, "Citric acid"), " 240 g");
//   setText(row.firstChild, "Cream of tartar");
//   keyed(list, items, (item) => item.id, makeRow, updateRow);

/** @import { Child, Keyed, Named, Props, Value } from "../../types/dom" */
/** @import { Told } from "../../types/told" */

const SVG = "http://www.w3.org/2000/svg";

/**
 * @template {Element} E
 * @param {E} node @param {{[name: string]: unknown}} props @param {(Child | readonly Child[])[]} children
 * @returns {E}
 */
function fill(node, props, children) {
  for (const [name, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue;
    if (typeof value === "function")
      node.addEventListener(name.slice(2), /** @type {EventListener} */ (value));
    else node.setAttribute(name, value === true ? "" : String(value));
  }
  const there = children
    .flat()
    .filter((child) => child !== null && child !== undefined && child !== false)
    .map((child) => (typeof child === "number" ? String(child) : child));
  node.append(...there);
  return node;
}

/**
 * An HTML element; `on…` properties are listeners, the others attributes.
 * @template {string} K @param {K} tag @param {Props<Named<K>>} [props] @param {(Child | readonly Child[])[]} children
 * @returns {Named<K>}
 */
export function h(tag, props = {}, ...children) {
  const node = /** @type {Named<K>} */ (document.createElement(tag));
  // Which VoiceOver does not see in one without bullets.
  if (tag === "ul" || tag === "ol") node.setAttribute("role", "list");
  return fill(node, props, children);
}

/**
 * An SVG element, same rules.
 * @template {keyof SVGElementTagNameMap} K
 * @param {K} tag @param {Props} [props] @param {(Child | readonly Child[])[]} children
 */
export function s(tag, props = {}, ...children) {
  return fill(document.createElementNS(SVG, tag), props, children);
}

/** Fetch a style sheet. @param {string} href @returns {Promise<boolean>} whether it came */
export const styled = (href) =>
  new Promise((resolve) => {
    const link = h("link", { rel: "stylesheet", href, onload: () => resolve(true) });
    link.onerror = () => {
      link.remove();
      resolve(false);
    };
    document.head.append(link);
  });

/**
 * Write a text only when it differs; true when it did. A text that stays a text is changed where it stands: a node
 * that comes or goes has a browser look over all rules that ask what is in an element.
 * @param {Node} node @param {string} text
 */
export function setText(node, text) {
  if (node.textContent === text) return false;
  const there = node.firstChild;
  if (text && there?.nodeType === Node.TEXT_NODE && !there.nextSibling) there.nodeValue = text;
  else node.textContent = text;
  return true;
}

/**
 * Write an attribute only when it differs; null removes it.
 * @param {Element} node @param {string} name @param {Value} value
 */
export function setAttr(node, name, value) {
  if (value === null || value === undefined || value === false) {
    if (node.hasAttribute(name)) node.removeAttribute(name);
    return;
  }
  const text = value === true ? "" : String(value);
  if (node.getAttribute(name) !== text) node.setAttribute(name, text);
}

/** @param {Element} node @param {unknown} shown */
export function show(node, shown) {
  node.toggleAttribute("hidden", !shown); // SVG elements have no hidden property
}

/**
 * Make a parent's children match a list, keeping nodes whose key stays, so focus and
 * listeners live on. `update(node, item, index)` runs for every item.
 * @template T, K @template {Element} E
 * @param {Keyed<K, E>} parent @param {readonly T[]} items @param {(item: T, index: number) => K} keyOf
 * @param {(item: T, index: number) => E} make @param {(node: E, item: T, index: number) => void} [update]
 */
export function keyed(parent, items, keyOf, make, update) {
  /** @type {Map<K, E>} */
  const had = parent.keyedNodes ?? new Map();
  /** @type {Map<K, E>} */
  const has = new Map();
  const keys = items.map(keyOf);
  const stays = new Set(keys);
  // What goes, goes first: else all that comes after it would seem to have moved.
  for (const [key, node] of had) if (!stays.has(key)) node.remove();
  let place = parent.firstElementChild;
  items.forEach((item, index) => {
    const node = had.get(keys[index]) ?? make(item, index);
    update?.(node, item, index);
    if (node === place) place = place.nextElementSibling;
    else parent.insertBefore(node, place);
    has.set(keys[index], node);
  });
  parent.keyedNodes = has;
}

/**
 * Make a parent's children these nodes, in order; one that stays is not taken out, so that what is typed in it, and
 * its focus, live on.
 * @param {Node} parent @param {readonly Node[]} nodes
 */
export function setChildren(parent, nodes) {
  const stays = new Set(nodes);
  for (const child of [...parent.childNodes]) if (!stays.has(child)) child.remove();
  let place = parent.firstChild;
  for (const node of nodes) {
    if (node === place) place = place.nextSibling;
    else parent.insertBefore(node, place);
  }
}

/** An element within another that is known to be there. @param {ParentNode} node @param {string} selector */
export const part = (node, selector) => /** @type {HTMLElement} */ (node.querySelector(selector));

/** An element within another, if it is there. @param {ParentNode} node @param {string} selector */
export const find = (node, selector) => /** @type {HTMLElement | null} */ (node.querySelector(selector));

/** What has the focus. */
export const focused = () => (document.activeElement instanceof HTMLElement ? document.activeElement : null);

/** Whether anything of a node is drawn. @param {Element} node */
export const isDrawn = (node) => node.getClientRects().length > 0;

/** What has the focus, and is in sight, stays where it stands, whatever comes above it. @param {() => void} change */
export function stay(change) {
  const field = focused();
  const { top = 0, bottom = 0 } = field?.getBoundingClientRect() ?? {};
  change();
  if (field && bottom > 0 && top < innerHeight) scrollBy(0, field.getBoundingClientRect().top - top);
}

/** The first element in one that has one, or the one at that place. @param {Element} node @param {number} [place] */
export const first = (node, place = 0) => /** @type {HTMLElement} */ (node.children[place]);

/**
 * What a field of an element holds until it is given: it comes with the first `data`, and nothing reads it before.
 * @template T @returns {T}
 */
export const given = () => /** @type {T} */ (/** @type {unknown} */ (null));

/**
 * Whether two pieces of plain data say the same, so that a screen need not be built again.
 * @param {unknown} a @param {unknown} b
 */
export function sameData(a, b) {
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}

/**
 * News up: a bubbling event with a plain detail.
 * @template {keyof Told} K @param {EventTarget} node @param {K} name @param {Told[K]} [detail]
 */
export function tell(node, name, detail) {
  return node.dispatchEvent(new CustomEvent(name, { detail: detail ?? {}, bubbles: true }));
}

/**
 * Define an element once, however often its module is imported.
 * @param {string} name @param {CustomElementConstructor} constructor
 */
export function define(name, constructor) {
  if (!customElements.get(name)) customElements.define(name, constructor);
}

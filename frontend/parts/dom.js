// Building and changing the page without markup strings, so that no name from a recipe
// can ever become markup, and a repeated update touches only what differs.
//
//   const row = h("li", { class: "line" }, h("b", {}, "Citric acid"), " 240 g");
//   setText(row.firstChild, "Cream of tartar");
//   keyed(list, items, (item) => item.id, makeRow, updateRow);

const SVG = "http://www.w3.org/2000/svg";

function fill(node, props, children) {
  for (const [name, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
    else node.setAttribute(name, value === true ? "" : String(value));
  }
  node.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== false));
  return node;
}

/** An HTML element; `on…` properties are listeners, the others attributes. */
export function h(tag, props = {}, ...children) {
  const node = document.createElement(tag);
  if (tag === "ul" || tag === "ol") node.setAttribute("role", "list"); // which VoiceOver does not see in one without bullets
  return fill(node, props, children);
}

/** An SVG element, same rules. */
export function s(tag, props = {}, ...children) {
  return fill(document.createElementNS(SVG, tag), props, children);
}

/** Write a text only when it differs; true when it did. */
export function setText(node, text) {
  if (node.textContent === text) return false;
  node.textContent = text;
  return true;
}

/** Write an attribute only when it differs; null removes it. */
export function setAttr(node, name, value) {
  if (value === null || value === undefined || value === false) {
    if (node.hasAttribute(name)) node.removeAttribute(name);
    return;
  }
  const text = value === true ? "" : String(value);
  if (node.getAttribute(name) !== text) node.setAttribute(name, text);
}

export function show(node, shown) {
  node.toggleAttribute("hidden", !shown); // SVG elements have no `hidden` property
}

/**
 * Make a parent's children match a list, keeping nodes whose key stays, so focus and
 * listeners live on. `update(node, item, index)` runs for every item.
 */
export function keyed(parent, items, keyOf, make, update) {
  const had = parent.keyedNodes ?? new Map();
  const has = new Map();
  let place = parent.firstElementChild;
  items.forEach((item, index) => {
    const key = keyOf(item, index);
    const node = had.get(key) ?? make(item, index);
    update?.(node, item, index);
    if (node === place) place = place.nextElementSibling;
    else parent.insertBefore(node, place);
    has.set(key, node);
  });
  for (const [key, node] of had) if (has.get(key) !== node) node.remove();
  parent.keyedNodes = has;
}

/** Make a parent's children these nodes, in order; one that stays is not taken out, so that what is typed in it, and its focus, live on. */
export function setChildren(parent, nodes) {
  const stays = new Set(nodes);
  for (const child of [...parent.childNodes]) if (!stays.has(child)) child.remove();
  let place = parent.firstChild;
  for (const node of nodes) {
    if (node === place) place = place.nextSibling;
    else parent.insertBefore(node, place);
  }
}

/** Whether two pieces of plain data say the same, so that a screen need not be built again. */
export function sameData(a, b) {
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}

/** News up: a bubbling event with a plain detail. */
export function tell(node, name, detail = {}) {
  return node.dispatchEvent(new CustomEvent(name, { detail, bubbles: true }));
}

/** Define an element once, however often its module is imported. */
export function define(name, constructor) {
  if (!customElements.get(name)) customElements.define(name, constructor);
}

/**
 * What a vessel is made of, and what follows: metal does not go into a microwave.
 *
 * A kit says it; where one of earlier does not, a name that says it counts.
 */

import { inBursts } from "./heating.js";
import { heatedIn, heats } from "./steps/index.js";
/** @import { Component, Kit, Vessel } from "../../bench/shapes/page" */

const METALS = ["aluminium", "copper", "enamel", "steel"]; // enamel is glass on steel
const NAMED_METAL = new RegExp(
  "(?<!\\p{L})(?:steel|enamel|metal|alumini?um|copper|iron|tin" +
    "|(?:edel)?stahl\\p{L}*|emaill?e\\p{L}*|metall\\p{L}*|alu|kupfer\\p{L}*|eisen\\p{L}*|blech\\p{L}*" +
    "|acier|émail\\p{L}*|métal\\p{L}*|cuivre|inox|acero|esmalt\\p{L}*|cobre|acciaio" +
    "|smalt\\p{L}*|metallo|rame)(?!\\p{L})",
  "iu",
);

/** @param {Vessel} vessel */
export const isMetal = ({ name, material }) =>
  material ? METALS.includes(material) : NAMED_METAL.test(name);

/**
 * The vessels of a kind that are not proposed for a label: metal for a microwave, where there is another.
 * @param {Kit} kit @param {Component} component @param {string} label @param {string} kind @returns {Set<string>}
 */
export function unfit(kit, component, label, kind) {
  if (!microwaved(component).has(label)) return new Set();
  const having = kit.vessels.filter((each) => each.kind === kind);
  const metal = having.filter(isMetal).map(({ id }) => id);
  return new Set(metal.length < having.length ? metal : []);
}

/** The vessels of a part, by label, that stand in a microwave. @param {Component} component */
export function microwaved(component) {
  const melts = component.steps.filter((step) => heats(step) && inBursts(step.heater));
  return new Set(melts.flatMap((step) => heatedIn(step, component)));
}

/** The vessels of a round, each with the scale it stands on while lines go in. */

import { isMetal, microwaved, unfit } from "../materials.js";
import { roomMg, vesselFor } from "../sizing.js";
import { ASSEMBLY } from "../states.js";
import { divides, vesselsNamed } from "../steps/index.js";
import { bowlScale } from "../weighing.js";
import { ceiling, product, sum } from "../whole.js";
import { warn } from "./parts.js";
/** @import { Component, RecipeWeigh, Scale, SheetVessel, Vessel } from "../../../bench/shapes/page" */
/** @import { Full } from "../../../types/lists" */
/** @import { ChosenLine } from "./chosen.js" */
/** @import { Laying } from "./parts.js" */

/**
 * @typedef {{mg: number, tolerancePpm: number}} GoingIn
 * @typedef {{name: string, share: number, of: number, staysIn: string | null}} PortionOf
 */

/**
 * The vessels of a round by label, each with the scale it stands on while lines go in.
 * @param {Laying} draft @param {Component} component @param {number} number @param {ChosenLine[]} chosen
 * @param {Full<string, number>} masses @param {Map<string, RecipeWeigh>} weighedIn
 */
export function layPlaces(draft, component, number, chosen, masses, weighedIn) {
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
      if (!scale) warn(draft, { where: id, kind: "no_scale", mg: empty + load });
    }
    if (vessel && load > vessel.holds_mg) {
      const { name, holds_mg } = vessel;
      warn(draft, { where: id, kind: "too_full", vessel: name, holds_mg, mg: load });
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
  const notForIt = unfit(kit, component, label, kind);
  let vessel = vesselFor({ ...kit, vessels: free }, kind, load, notForIt);
  if (!vessel || (roomMg(kit, vessel) ?? 0) < load) {
    const shared = vesselFor(kit, kind, load, notForIt);
    if (shared && (!vessel || (roomMg(kit, shared) ?? 0) >= load)) vessel = shared;
  }
  if (vessel && isMetal(vessel) && microwaved(component).has(label)) {
    warn(draft, { where: `${component.id}.${label}`, kind: "metal", vessel: vessel.name });
  }
  if (!vessel || kind === "cup") return vessel;
  const other = inUse.get(vessel.id) ?? { component, label };
  inUse.set(vessel.id, other);
  const where = `${component.id}.${label}`;
  if (other.component !== component) {
    const names = { vessel: vessel.name, part: component.name, other: other.component.name };
    warn(draft, { where, kind: "for_two_parts", ...names });
  } else if (other.label !== label) {
    warn(draft, {
      where,
      kind: "needed_twice",
      vessel: vessel.name,
      part: component.name,
      vessel_kind: kind,
    });
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
    if (!divides(step)) continue;
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
const labelsOf = (component) => [...new Set(component.steps.flatMap(vesselsNamed))];

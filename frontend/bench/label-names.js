/** What a name is called on a label of each market, and which allergens are one. As bench/label_names.py. */

import { ON_LABEL } from "./label-table.js";
/** @import { Market } from "../../bench/shapes/page" */
/** @import { OnLabel } from "./label-table.js" */

const NUMBER = /\bCI ?([0-9]{5})\b/i;
const MIRROR = /^(?:\((?:[+-]|±|[RSrs])\)-?|(?:dl|[dlDL])-)+/;
const TABLE = new Map(Object.entries(ON_LABEL));

/** The name without what tells its mirror image. @param {string} written */
export function allergenName(written) {
  const bare = written.trim().replace(MIRROR, "");
  const [first = ""] = bare;
  return first.toUpperCase() + bare.slice(first.length);
}

/** @param {string} name */
const plain = (name) => (name.toLowerCase().match(/[a-z0-9]+/g) ?? []).join(" ");

/**
 * A name as this market wants it, and what is known of it.
 * @param {string} written @param {Market} market @returns {[name: string, about: OnLabel | null]}
 */
export function onMarket(written, market) {
  const number = NUMBER.exec(written)?.[1];
  const place = market === "us" ? "us" : "eu";
  if (number) {
    const about = TABLE.get(`ci ${number}`) ?? null;
    return [(market === "us" && about?.us) || `CI ${number}`, about];
  }
  const bare = plain(written);
  const found = TABLE.get(bare);
  if (found) return [found[place], found];
  const dye = bare.endsWith(" lake") ? TABLE.get(bare.slice(0, -" lake".length)) : null;
  if (dye?.colour) return [market === "us" ? `${dye.us} Lake` : dye.eu, dye];
  return [written, null];
}

/** Whether it is named by a Colour Index number. @param {string} written */
export const isNumber = (written) => NUMBER.test(written);

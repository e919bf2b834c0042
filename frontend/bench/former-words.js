/**
 * What was said in words of ours where today a code stands, in recipes and sheets of earlier versions. The same as
 * bench/former_words.py, which says more.
 */

import { sha256 } from "./sha256.js";

/** @type {{[beginning: string]: string}} */
const CODES = {
  "6acea178": "hot_soap",
  "926e26d9": "hot_fat",
  "77771e8b": "powder",
  "451477a5": "alcohol",
  "7451e3aa": "wet_sockets",
  e4f1eac9: "superheated",
  "032fc58d": "mixer",
  dc8ade70: "slippery",
  "179df008": "melted_base",
  be24d3d1: "warm_fat",
  f2aa175f: "wetted_fizz",
  b3879f90: "whipped_base",
  "0d3d5748": "beaten_topping",
  c9d1f6df: "piped_top",
  df769ea2: "first_layer",
  d768672d: "unwrapped",
  "0eab31ff": "too_wet",
  "781e36b9": "yes",
  a4c3ed04: "done",
  dc909f70: "instead_of",
};
const LENGTH = 8;

/** The code that stands today where this text did; else "". @param {string} text */
export const coded = (text) => (text && CODES[sha256(text).slice(0, LENGTH)]) ?? "";

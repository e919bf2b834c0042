/**
 * What was said in words of ours where today a code stands, in recipes and sheets of earlier versions. The same as
 * bench/former_words.py, which says more.
 */

import { sha256 } from "./sha256.js";

/** By the beginning of the hash; the server writes them in. @type {{[beginning: string]: string}} */
const CODES = {};
const LENGTH = 8;

/** The code that stands today where this text did; else "". @param {string} text */
export const coded = (text) => (text && CODES[sha256(text).slice(0, LENGTH)]) ?? "";

/** What the page does to ears, hands and the phone's screen; the one door to this folder. */

import { awake, mayGoDark } from "./awake.js";
import { arm, canRing, layAhead, ring, unlock } from "./sounds.js";
import { prime, say, sayAgain } from "./speech.js";

export const senses = Object.freeze({
  arm,
  awake,
  canRing,
  layAhead,
  mayGoDark,
  prime,
  ring,
  say,
  sayAgain,
  unlock,
});

/** What the page does to ears, hands and the phone's screen; the one door to this folder. */

import { awake } from "./awake.js";
import { ring, unlock } from "./sounds.js";
import { say, sayAgain } from "./speech.js";

export const senses = Object.freeze({ awake, ring, say, sayAgain, unlock });

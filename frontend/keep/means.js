/**
 * What this browser, at this address, will not do, in words for the maker.
 *
 * Over plain http browsers withhold much; the page works while it is open, and says what is missing.
 */

import { isApple, isInstalled } from "../platform.js";

const INSECURE = "because this page was opened over plain http";
const LACKING = "because this browser has no way to";

/** @param {{durable: boolean}} given @returns {string[]} a sentence for each thing that is missing, and what follows */
export function cannot({ durable }) {
  const why = isSecureContext ? LACKING : INSECURE;
  /** @type {[unknown, string, string?][]} */
  const missing = [
    [
      navigator.serviceWorker,
      "It cannot open or reload without the server: keep it open until the run is finished",
    ],
    [navigator.wakeLock, "It cannot keep the screen on: set the phone's own screen time-out to its longest"],
    [
      navigator.storage && durable,
      isApple && !isInstalled
        ? "Safari clears what is kept here after 7 days without a visit: add the page to the home " +
          "screen, open it there, and pair there"
        : "The phone may clear what is kept here when it runs short of space: let it reach the server soon after a run",
      isApple && !isInstalled
        ? "because it is not on the home screen"
        : navigator.storage
          ? "because the browser has not promised to keep it"
          : why,
    ],
    [globalThis.speechSynthesis, "It cannot speak", LACKING],
    [globalThis.AudioContext, "It cannot ring", LACKING],
  ];
  return missing.filter(([there]) => !there).map(([, says, because = why]) => `${says} (${because}).`);
}

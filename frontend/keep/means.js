/**
 * What this browser, at this address, will not do; the studio screen says it.
 *
 * Over plain http browsers withhold much; the page works while it is open, and says what is missing.
 */

import { isApple, isInstalled } from "../platform.js";

/** @import { Cannot, Because } from "../../types/keep" */

/**
 * Each thing that is missing, and why.
 * @param {{durable: boolean}} given @returns {{what: Cannot, because: Because}[]}
 */
export function cannot({ durable }) {
  const why = isSecureContext ? "lacking" : "insecure";
  const isInSafari = isApple && !isInstalled;
  /** @type {[there: unknown, what: Cannot, because: Because][]} */
  const missing = [
    [navigator.serviceWorker, "reload", why],
    [navigator.wakeLock, "awake", why],
    [
      navigator.storage && durable,
      isInSafari ? "keep-in-safari" : "keep",
      isInSafari ? "not-installed" : navigator.storage ? "no-promise" : why,
    ],
    [globalThis.speechSynthesis, "speak", "lacking"],
    [globalThis.AudioContext, "ring", "lacking"],
  ];
  return missing.filter(([there]) => !there).map(([, what, because]) => ({ what, because }));
}

/**
 * Keeps the screen on while a run is open.
 *
 * The phone takes the lock away whenever the page is out of sight, so it is asked for again each
 * time the page comes back. Missing over plain http; a phone low on power may say no, and then is not asked again at
 * every touch: to ask costs as much as to answer one.
 */

import { holdsScreen } from "../platform.js";

const AGAIN_MS = 60_000;
let wanted = false;
let askedAt = -Infinity;
/** @type {WakeLockSentinel | null} */
let lock = null;
/** @type {Promise<void> | null} */
let asking = null;
let refused = false;

/** The screen is to be held on, and is not: the phone said no, or cannot. */
export function mayGoDark() {
  return wanted && (refused || !holdsScreen);
}

/** @param {boolean} on @returns {Promise<boolean>} whether the screen is held on now */
export async function awake(on) {
  if (on !== wanted) {
    wanted = on;
    askedAt = -Infinity;
    if (on) document.addEventListener("visibilitychange", hold);
    else document.removeEventListener("visibilitychange", hold);
  }
  if (!on) await release();
  else if (!refused || performance.now() - askedAt >= AGAIN_MS) await hold();
  return lock !== null;
}

function hold() {
  if (lock || document.visibilityState !== "visible") return undefined;
  asking ??= ask().finally(() => (asking = null));
  return asking;
}

async function ask() {
  askedAt = performance.now();
  try {
    const held = await navigator.wakeLock?.request("screen");
    held?.addEventListener("release", () => {
      if (lock === held) lock = null;
    });
    lock = held ?? null;
    refused = !held;
  } catch {
    lock = null; // asked for again when the page is next in sight
    refused = document.visibilityState === "visible";
  }
  if (!wanted) await release();
}

async function release() {
  await lock?.release();
  lock = null;
}

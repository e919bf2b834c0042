// What kind of phone this is, as far as it changes what a maker must be told or be handed.

const said = navigator.userAgent;
const PIECE_MS = 4; // of a slow phone it is a frame or two

/** An iPhone or an iPad, which calls itself a Mac. All browsers there are of one engine, WebKit. */
export const isApple =
  /iPhone|iPad|iPod/.test(said) || (said.includes("Macintosh") && navigator.maxTouchPoints > 1);

/** Opened from the home screen, as an app of its own. */
export const isInstalled = navigator.standalone === true || matchMedia("(display-mode: standalone)").matches;

/** iOS before 18.4 grants an installed page its screen lock and then does nothing (from memory of WebKit's notes). */
export const holdsScreen = !(isApple && isInstalled && before(18, 4));

/**
 * Between two pieces of a longer work: what was touched meanwhile is answered, and the page painted, before the next.
 * @returns {Promise<void>}
 */
export const breathe = () => globalThis.scheduler?.yield?.() ?? new Promise((resolve) => setTimeout(resolve));

/**
 * Asked between the pieces of a work: a breath to be awaited once they lasted a few milliseconds together.
 * @returns {() => Promise<void> | null}
 */
export function pacing() {
  let since = performance.now();
  const begin = () => {
    since = performance.now();
  };
  return () => (performance.now() - since < PIECE_MS ? null : breathe().then(begin));
}

/** @param {number} major @param {number} minor */
function before(major, minor) {
  const [, own, less = 0] = said.match(/ OS (\d+)_(\d+)/) ?? said.match(/Version\/(\d+)\.(\d+)/) ?? [];
  return Number(own) < major || (Number(own) === major && Number(less) < minor);
}

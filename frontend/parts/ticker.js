// One shared timer for everything that counts. It starts with the first listener, stops
// with the last, and sleeps while the page is hidden: all counting is against absolute
// instants, so nothing is lost by not looking.
//
//   const stop = onTick(() => …);   // about once a second, just after the second turns
//   stop();

const listeners = /** @type {Set<() => void>} */ (new Set());
/** @type {ReturnType<typeof setTimeout> | undefined} */
let timer;

function turn() {
  timer = undefined;
  for (const listener of [...listeners]) listener();
  arm();
}

function arm() {
  if (timer !== undefined || listeners.size === 0 || document.hidden) return;
  timer = setTimeout(turn, 1000 - (Date.now() % 1000) + 4);
}

document.addEventListener("visibilitychange", () => {
  clearTimeout(timer);
  timer = undefined;
  if (!document.hidden && listeners.size) turn();
});

/** @param {() => void} listener */
export function onTick(listener) {
  listeners.add(listener);
  arm();
  return () => {
    listeners.delete(listener);
    if (listeners.size === 0) {
      clearTimeout(timer);
      timer = undefined;
    }
  };
}

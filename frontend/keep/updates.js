/**
 * The page's own copy on this phone (see sw.js), and when a newer one may take over.
 *
 * A newer copy is fetched whole, then waits: it takes over when the maker says so, or when the
 * page is next opened. It never changes a page that is in use.
 */

/** A page that stays open for days asks about a newer copy this often. */
const ASK_AGAIN_MS = 3_600_000;

/** Once a worker has all its files, or has given up. @param {ServiceWorker} worker @returns {Promise<void>} */
const settled = (worker) =>
  new Promise((done) => {
    const look = () => worker.state !== "installing" && done();
    worker.addEventListener("statechange", look);
    look();
  });

export class Updates extends EventTarget {
  /** @type {ServiceWorkerRegistration | null} */
  #registration = null;
  /** @type {Promise<void>} */
  #renewed = Promise.resolve();
  #asked = -Infinity;

  /** The browser runs no worker from here, as with a certificate that it was only told to overlook. */
  barred = false;

  /** A copy is on this phone: the page opens with no network. */
  kept = false;

  /** @type {Promise<void> | null} */
  #started = null;

  start() {
    return (this.#started ??= this.#start());
  }

  async #start() {
    if (!navigator.serviceWorker) return;
    try {
      this.#follow(await navigator.serviceWorker.register(new URL("../sw.js", import.meta.url)));
    } catch (error) {
      this.barred = error instanceof DOMException && error.name === "SecurityError";
      this.dispatchEvent(new Event("change"));
      return; // the page works while open; kept stays false and the screens say so
    }
    document.addEventListener("visibilitychange", this.#look);
  }

  /** A newer copy is here and waits for the maker's word. */
  get waiting() {
    return Boolean(this.#registration?.waiting && this.#registration.active);
  }

  /** Let the newer copy take over, and load the page from it. */
  apply() {
    const { waiting } = this.#registration ?? {};
    if (waiting) this.#letIn(waiting);
  }

  /** @param {ServiceWorker} worker */
  #letIn(worker) {
    const look = () => worker.state === "activated" && location.reload();
    worker.addEventListener("statechange", look);
    worker.postMessage("take over");
    look();
  }

  /**
   * Ask for a newer copy, and let it take over if there is one; a page without a worker just loads again. One after
   * the other: a browser that is asked twice at once answers both with what it asked for first.
   */
  renew() {
    const renewed = this.#renewed.then(() => this.#renew());
    this.#renewed = renewed.catch(() => {});
    return renewed;
  }

  async #renew() {
    await this.start();
    if (!this.#registration) return location.reload();
    // The first answer may be to what the browser had asked by itself just before: the next one is to this.
    const coming = (await this.#ask()) ?? (await this.#ask());
    if (!coming) return;
    await settled(coming);
    if (coming.state === "redundant") throw new Error("updates.js renew: the copy did not come whole");
    this.#letIn(coming); // not the one that waits: a browser may say later that it is this
  }

  async #ask() {
    await this.#registration?.update();
    return this.#registration?.installing ?? this.#registration?.waiting;
  }

  stop() {
    document.removeEventListener("visibilitychange", this.#look);
  }

  #look = () => {
    if (document.visibilityState !== "visible" || performance.now() - this.#asked < ASK_AGAIN_MS) return;
    this.#asked = performance.now();
    this.#registration?.update().catch(() => {}); // no network: ask another time
  };

  /** @param {ServiceWorkerRegistration} registration */
  #follow(registration) {
    const watch = () => registration.installing?.addEventListener("statechange", () => this.#notice());
    this.#registration = registration;
    this.#asked = performance.now();
    registration.addEventListener("updatefound", watch);
    watch();
    this.#notice();
  }

  #notice() {
    this.kept = Boolean(this.#registration?.active);
    this.dispatchEvent(new Event("change"));
  }
}

/**
 * The phone's own disk: IndexedDB, and nothing else in the page touches it.
 *
 *   const store = await openStore();
 *   await store.write({ entries: { put: [entry] }, outbox: { put: [{ id, run }] } }, { strict: true });
 *   const { runs, entries } = await store.read("runs", "entries");
 *
 * A write is one transaction over any number of stores: all of it is on disk when the promise
 * resolves, none of it when the promise rejects.
 */

import { say } from "../words.js";
/** @import { Changed, Changes, EntryRow, Meta, RunRow, StoreName, Stores, WriteOptions } from "../../types/keep" */

/** Each version's new stores, so that an old phone's disk is brought forward a version at a time. */
/** @type {((db: IDBDatabase) => void)[]} */
const VERSIONS = [
  (db) => {
    db.createObjectStore("recipes", { keyPath: "id" });
    db.createObjectStore("kit", { keyPath: "id" }); // one row
    db.createObjectStore("runs", { keyPath: "id" });
    db.createObjectStore("entries", { keyPath: "id" }).createIndex("run", "run");
    db.createObjectStore("outbox", { keyPath: "id" }); // what the server has not kept yet
    db.createObjectStore("preferences", { keyPath: "key" });
    db.createObjectStore("meta", { keyPath: "key" }); // device, clock, cursors, rings
  },
  (db) => {
    db.createObjectStore("drafts", { keyPath: "id" }); // recipes being written
  },
  (db) => {
    db.createObjectStore("versions", { keyPath: "id" }); // recipes as this phone's runs were made by
  },
  (db) => {
    db.createObjectStore("pictures", { keyPath: "id" }); // photographs taken on this phone
  },
  (db) => {
    db.createObjectStore("seen", { keyPath: "id" }); // what the server alone works out, as last seen
  },
  () => {}, // recipes lie as text, which a page before this one cannot read
  () => {}, // and so do journals that came whole
];

/** The phone could not keep something. `says` tells the maker, in a sentence, what to do. */
export class StoreError extends Error {
  /** @param {string} name @param {string} says @param {unknown} cause */
  constructor(name, says, cause) {
    super(says, { cause });
    this.name = name;
    this.says = says;
  }
}

/** The disk was turned to another generation of the studio meanwhile; nothing was written. */
export class OtherGeneration extends Error {}

/** @param {unknown} cause */
function storeError(cause) {
  const name = cause !== null && typeof cause === "object" && "name" in cause ? cause.name : cause;
  if (name === "QuotaExceededError") {
    return new StoreError("StorageFull", say("page-keep-full"), cause);
  }
  return new StoreError("StorageFailed", say("page-keep-failed", { why: String(name) }), cause);
}

/**
 * @param {{name?: string, onBlocked?: () => void, onClosed?: () => void}} [options]
 *   onBlocked: another tab holds an older disk open; opening goes on once it is closed.
 *   onClosed: a newer page needs this disk, or the browser took it away; reload to go on.
 * @returns {Promise<Store>}
 * @throws {StoreError} NoStorage when this browser gives the page no disk
 */
export function openStore({ name = "bowlside", onBlocked, onClosed } = {}) {
  return new Promise((resolve, reject) => {
    const refuse = (/** @type {unknown} */ cause) =>
      reject(new StoreError("NoStorage", say("page-keep-no-disk"), cause));
    /** @type {IDBOpenDBRequest} */
    let opening;
    try {
      opening = indexedDB.open(name, VERSIONS.length);
    } catch (cause) {
      refuse(cause);
      return;
    }
    opening.onblocked = () => onBlocked?.();
    opening.onerror = () => refuse(opening.error);
    opening.onupgradeneeded = ({ oldVersion }) => {
      for (const upgrade of VERSIONS.slice(oldVersion)) upgrade(opening.result);
    };
    opening.onsuccess = () => {
      const db = opening.result;
      db.onversionchange = () => {
        db.close();
        onClosed?.();
      };
      db.onclose = () => onClosed?.();
      resolve(new Store(db));
    };
  });
}

/** @typedef {<N extends StoreName>(name: N) => StoreOf<Stores[N]>} Shelves the stores of a transaction, by name */

/**
 * @template Row
 * @typedef {Omit<IDBObjectStore, "getAll" | "get" | "put"> & {
 *   getAll: () => IDBRequest<Row[]>, get: (key: string) => IDBRequest<Row | undefined>, put: (row: Row) => IDBRequest
 * }} StoreOf a store of such rows
 */

/**
 * @typedef {(request: IDBRequest, act: () => void) => void} Attempt what is done once the request is answered; what it
 *   throws is the change's refusal, as what is thrown at once is
 */

/** The key of a row that may be marked. @param {Stores[StoreName]} row */
const idOf = (row) => ("id" in row ? row.id : row.key);

export class Store {
  /** @type {IDBDatabase} */
  #db;

  /** @param {IDBDatabase} db */
  constructor(db) {
    this.#db = db;
  }

  /**
   * Every row of the named stores, from one moment.
   * @template {StoreName} N @param {N[]} names @returns {Promise<{[K in N]: Stores[K][]}>}
   */
  read(...names) {
    return this.#transact(names, "readonly", "default", (stores) => {
      const asked = names.map((name) => ({ name, request: stores(name).getAll() }));
      return () =>
        /** @type {{[K in N]: Stores[K][]}} */ (
          Object.fromEntries(asked.map(({ name, request }) => [name, request.result]))
        );
    });
  }

  /**
   * These runs with their entries, from one moment.
   * @param {readonly string[]} ids @returns {Promise<{runs: RunRow[], entries: EntryRow[]}>}
   */
  runs(ids) {
    return this.#transact(["runs", "entries"], "readonly", "default", (stores) => {
      const asked = ids.map((id) => ({
        run: stores("runs").get(id),
        entries: /** @type {IDBRequest<EntryRow[]>} */ (stores("entries").index("run").getAll(id)),
      }));
      return () => ({
        runs: asked.flatMap(({ run }) => run.result ?? []),
        entries: asked.flatMap(({ entries }) => entries.result),
      });
    });
  }

  /**
   * One row, or undefined.
   * @template {StoreName} N @param {N} name @param {string} key @returns {Promise<Stores[N] | undefined>}
   */
  get(name, key) {
    return this.#transact([name], "readonly", "default", (stores) => {
      const asked = stores(name).get(key);
      return () => asked.result;
    });
  }

  /** Every key of a store. @param {StoreName} name @returns {Promise<string[]>} */
  keys(name) {
    return this.#transact([name], "readonly", "default", (stores) => {
      const asked = stores(name).getAllKeys();
      return () => asked.result.map(String);
    });
  }

  /**
   * @param {Changes} changes by store; mark: put, where there is a row of that key yet
   * @param {WriteOptions} [options] under: while the disk is of this generation, or nothing with an OtherGeneration
   * @returns {Promise<void>}
   */
  write(changes, { strict = false, under } = {}) {
    const durability = strict ? "strict" : "default";
    const parts = /** @type {[StoreName, Changed<Stores[StoreName]>][]} */ (Object.entries(changes));
    const names = new Set(parts.map(([name]) => name));
    if (under !== undefined) names.add("meta");
    let isOther = false;
    const written = this.#transact([...names], "readwrite", durability, (stores, transaction, attempt) => {
      let asked = 0;
      // Not left to end by itself: WebKit keeps a page that was left as it stood, and an open write of its
      // would shut the disk to every page after it.
      /** @template T @param {IDBRequest<T>} request @param {(result: T) => void} then */
      const ask = (request, then) => {
        asked += 1;
        attempt(request, () => {
          asked -= 1;
          then(request.result);
          if (asked === 0 && !isOther) transaction.commit();
        });
      };
      const write = () => {
        for (const [name, change] of parts) {
          const store = transaction.objectStore(name);
          for (const row of change.put ?? []) store.put(row);
          for (const row of change.mark ?? [])
            ask(store.getKey(idOf(row)), (key) => key !== undefined && store.put(row));
          for (const key of change.delete ?? []) store.delete(key);
        }
      };
      if (under === undefined) {
        write();
        if (asked === 0) transaction.commit();
        return;
      }
      ask(stores("meta").get("generation"), (row) => {
        isOther = (row?.value ?? null) !== under;
        if (isOther) transaction.abort();
        else write();
      });
    });
    return written.catch((error) => {
      throw isOther ? new OtherGeneration() : error;
    });
  }

  /**
   * Replace one meta value by what `change` makes of it, with no other tab in between.
   * @template {keyof Meta} K
   * @param {K} key @param {(value: Meta[K] | undefined) => Meta[K]} change given undefined when there is none yet
   * @returns {Promise<Meta[K]>} the value that is there now
   */
  revise(key, change) {
    return this.#transact(["meta"], "readwrite", "strict", (stores, transaction, attempt) => {
      const meta = stores("meta");
      /** @type {Meta[K]} */
      let value;
      const asked = meta.get(key);
      attempt(asked, () => {
        value = change(/** @type {Meta[K] | undefined} */ (asked.result?.value));
        meta.put({ key, value });
        transaction.commit();
      });
      return () => value;
    });
  }

  close() {
    this.#db.close();
  }

  /**
   * @template T
   * @param {StoreName[]} names @param {IDBTransactionMode} mode @param {IDBTransactionDurability} durability
   * @param {(stores: Shelves, transaction: IDBTransaction, attempt: Attempt) => (() => T) | undefined} work what it
   *   gives back is asked once all is on the disk
   * @returns {Promise<T>}
   */
  #transact(names, mode, durability, work) {
    return new Promise((resolve, reject) => {
      /** @type {(() => T) | undefined} */
      let result;
      try {
        const transaction = this.#db.transaction(names, mode, { durability });
        transaction.oncomplete = () => resolve(/** @type {T} */ (result?.()));
        // The failed request says why; those that only went down with the others do not, and the abort that follows
        // does.
        transaction.onerror = ({ target }) => {
          const { error } = /** @type {IDBRequest} */ (target);
          if (error?.name !== "AbortError") reject(storeError(error ?? transaction.error));
        };
        transaction.onabort = () => reject(storeError(transaction.error));
        const whole = (/** @type {() => void} */ act) => {
          try {
            act();
          } catch (cause) {
            reject(storeError(cause));
            transaction.abort(); // a put that throws must not leave half of the change behind
          }
        };
        /** @type {Attempt} */
        const attempt = (request, act) => {
          request.onsuccess = () => whole(act);
        };
        const stores = /** @type {Shelves} */ ((name) => transaction.objectStore(name));
        whole(() => {
          result = work(stores, transaction, attempt);
        });
      } catch (cause) {
        reject(storeError(cause));
      }
    });
  }
}

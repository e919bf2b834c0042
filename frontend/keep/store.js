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

/** Each version's new stores, so that an old phone's disk is brought forward a version at a time. */
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
];

/** The phone could not keep something. `says` tells the maker, in a sentence, what to do. */
export class StoreError extends Error {
  constructor(name, says, cause) {
    super(says, { cause });
    this.name = name;
    this.says = says;
  }
}

/** The disk was turned to another generation of the studio meanwhile; nothing was written. */
export class OtherGeneration extends Error {}

function storeError(cause) {
  if (cause?.name === "QuotaExceededError") {
    return new StoreError(
      "StorageFull",
      "This phone is full: nothing was kept. Free some space on it, then touch again.",
      cause,
    );
  }
  return new StoreError(
    "StorageFailed",
    `This phone could not keep that (${cause?.name ?? "no reason given"}): nothing was kept. Touch again; if it stays so, reload the page.`,
    cause,
  );
}

/**
 * @param {{name?: string, onBlocked?: () => void, onClosed?: () => void}} [options]
 *   onBlocked: another tab holds an older disk open; opening goes on once it is closed.
 *   onClosed: a newer page needs this disk, or the browser took it away; reload to go on.
 * @throws {StoreError} NoStorage when this browser gives the page no disk
 */
export function openStore({ name = "bowlside", onBlocked, onClosed } = {}) {
  return new Promise((resolve, reject) => {
    const refuse = (cause) =>
      reject(
        new StoreError(
          "NoStorage",
          "This browser gives the page no place to keep a run. Leave private browsing, or allow site data.",
          cause,
        ),
      );
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

class Store {
  #db;

  constructor(db) {
    this.#db = db;
  }

  /** Every row of the named stores, from one moment. @returns {Promise<Record<string, object[]>>} */
  read(...names) {
    return this.#transact(names, "readonly", "default", (stores) => {
      const asked = names.map((name) => [name, stores(name).getAll()]);
      return () => Object.fromEntries(asked.map(([name, request]) => [name, request.result]));
    });
  }

  /** These runs with their entries, from one moment. @returns {Promise<{runs: object[], entries: object[]}>} */
  runs(ids) {
    return this.#transact(["runs", "entries"], "readonly", "default", (stores) => {
      const asked = ids.map((id) => [stores("runs").get(id), stores("entries").index("run").getAll(id)]);
      return () => ({
        runs: asked.flatMap(([run]) => run.result ?? []),
        entries: asked.flatMap(([, entries]) => entries.result),
      });
    });
  }

  /** One row, or undefined. */
  get(name, key) {
    return this.#transact([name], "readonly", "default", (stores) => {
      const asked = stores(name).get(key);
      return () => asked.result;
    });
  }

  /** Every key of a store. */
  keys(name) {
    return this.#transact([name], "readonly", "default", (stores) => {
      const asked = stores(name).getAllKeys();
      return () => asked.result;
    });
  }

  /**
   * @param {Record<string, {put?: object[], mark?: object[], delete?: string[]}>} changes by store; mark: put, where
   *   there is a row of that key yet
   * @param {{strict?: boolean, under?: string|null}} [options] strict: flushed to the medium, not only to the system.
   *   under: only while the disk is of this generation (meta "generation"), or nothing with an OtherGeneration
   */
  write(changes, { strict = false, under } = {}) {
    const durability = strict ? "strict" : "default";
    const names = new Set([...Object.keys(changes), ...(under === undefined ? [] : ["meta"])]);
    let isOther = false;
    const written = this.#transact([...names], "readwrite", durability, (stores, transaction) => {
      let asked = 0;
      // Not left to end by itself: WebKit keeps a page that was left as it stood, and an open write of its
      // would shut the disk to every page after it.
      const ask = (request, then) => {
        asked += 1;
        request.onsuccess = () => {
          asked -= 1;
          then(request.result);
          if (asked === 0 && !isOther) transaction.commit();
        };
      };
      const write = () => {
        for (const [name, change] of Object.entries(changes)) {
          for (const row of change.put ?? []) stores(name).put(row);
          for (const row of change.mark ?? [])
            ask(stores(name).getKey(row.id), (key) => key !== undefined && stores(name).put(row));
          for (const key of change.delete ?? []) stores(name).delete(key);
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
   * @param {(value: any) => any} change given undefined when there is none yet
   * @returns {Promise<any>} the value that is there now
   */
  revise(key, change) {
    return this.#transact(["meta"], "readwrite", "strict", (stores, transaction) => {
      const meta = stores("meta");
      let value;
      const asked = meta.get(key);
      asked.onsuccess = () => {
        value = change(asked.result?.value);
        meta.put({ key, value });
        transaction.commit();
      };
      return () => value;
    });
  }

  close() {
    this.#db.close();
  }

  #transact(names, mode, durability, work) {
    return new Promise((resolve, reject) => {
      let result;
      try {
        const transaction = this.#db.transaction(names, mode, { durability });
        transaction.oncomplete = () => resolve(result?.());
        // The failed request says why; those that only went down with the others do not, and the abort that follows does.
        transaction.onerror = ({ target }) =>
          target.error?.name !== "AbortError" && reject(storeError(target.error ?? transaction.error));
        transaction.onabort = () => reject(storeError(transaction.error));
        try {
          result = work((name) => transaction.objectStore(name), transaction);
        } catch (cause) {
          transaction.abort(); // a put that throws must not leave half of the change behind
          throw cause;
        }
      } catch (cause) {
        reject(storeError(cause));
      }
    });
  }
}

// The device's disk: IndexedDB, strict, one row an entry. Also the bags, so that a session opens without a network.

/** @import {Bag} from "./types.js" */
/** @import {Kept, Shelf} from "./outbox.js" */

const NAME = "cuffwright-deck";

/** @template T @param {IDBRequest<T>} request @returns {Promise<T>} */
function done(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** @param {IDBFactory} [factory] @returns {Promise<IDBDatabase>} */
export function openDatabase(factory = indexedDB) {
  const request = factory.open(NAME, 1);
  request.onupgradeneeded = () => {
    const rows = request.result.createObjectStore("entries", { keyPath: "entry.id" });
    rows.createIndex("session", "entry.session");
    rows.createIndex("sent", "sent");
    request.result.createObjectStore("bags", { keyPath: "session.id" });
    request.result.createObjectStore("about");
  };
  return done(request);
}

/** @param {IDBDatabase} base @param {string} store @param {(rows: IDBObjectStore) => void} write @returns {Promise<void>} */
function strictly(base, store, write) {
  return new Promise((resolve, reject) => {
    const change = base.transaction(store, "readwrite", { durability: "strict" });
    change.oncomplete = () => resolve();
    change.onerror = change.onabort = () => reject(change.error);
    write(change.objectStore(store));
  });
}

/** @param {Kept} one @param {Kept} other */
const inOrder = (one, other) => one.entry.seq - other.entry.seq || (one.entry.id < other.entry.id ? -1 : 1);

/** @implements {Shelf} */
export class Disk {
  /** @param {IDBDatabase} base */
  constructor(base) {
    this.base = base;
  }

  /** @param {Kept[]} kept */
  put(kept) {
    return kept.length === 0 ? Promise.resolve() : strictly(this.base, "entries", (rows) => kept.forEach((one) => rows.put(one)));
  }

  /** @param {string} session @returns {Promise<Kept[]>} */
  async all(session) {
    const rows = this.base.transaction("entries").objectStore("entries").index("session");
    return (await done(rows.getAll(session))).sort(inOrder);
  }

  async waiting() {
    const rows = this.base.transaction("entries").objectStore("entries").index("sent");
    const [waiting, refused] = await Promise.all([done(rows.getAll("waiting")), done(rows.getAll("refused"))]);
    return [...waiting, ...refused].sort(inOrder);
  }

  /** @param {Bag} bag */
  keepBag(bag) {
    return strictly(this.base, "bags", (rows) => rows.put(bag));
  }

  /** @param {string} session @returns {Promise<Bag|undefined>} */
  bag(session) {
    return done(this.base.transaction("bags").objectStore("bags").get(session));
  }

  /** @param {string} name @param {string} value */
  keep(name, value) {
    return strictly(this.base, "about", (rows) => rows.put(value, name));
  }

  /** @param {string} name @returns {Promise<string|undefined>} */
  about(name) {
    return done(this.base.transaction("about").objectStore("about").get(name));
  }
}

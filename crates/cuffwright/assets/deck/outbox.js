// What was written down and is not yet acknowledged. An entry is on the device's disk before anything on the screen
// changes; it leaves the outbox only when the server names its id; what the server refuses stays and is shown.

/** @import {Entry} from "./types.js" */

/** @typedef {"waiting"|"there"|"refused"} Sent */
/** @typedef {{entry:Entry, sent:Sent, says:string}} Kept */

/**
 * A durable place. Every promise is kept only once the data would survive a power cut.
 * @typedef {object} Shelf
 * @property {(entries: Kept[]) => Promise<void>} put
 * @property {(session: string) => Promise<Kept[]>} all
 * @property {() => Promise<Kept[]>} waiting  of every session, in the device's order
 */

/** @typedef {{id:string, outcome:"added"|"already"|"erased"|"refused"|"invalid"|"unknown", says:string}} Ack */
/** @typedef {(entries: Entry[]) => Promise<Ack[]>} Post  fails when nothing is known about the entries */

/** Entries that go together. */
const BATCH = 60;
const FIRST_WAIT_MS = 1000;
const LONGEST_WAIT_MS = 15_000;

export class Outbox {
  /** @type {Map<string, Kept>} waiting and refused, in order */
  #open = new Map();
  #sending = false;
  #later = false;
  #wait = FIRST_WAIT_MS;
  #listeners = new Set();
  /** @type {"unknown"|"reached"|"away"|"closed"} how the last attempt went */
  reach = "unknown";

  /** @param {Shelf} shelf @param {Post} post @param {(run: () => void, ms: number) => void} later */
  constructor(shelf, post, later = (run, ms) => void setTimeout(run, ms)) {
    this.shelf = shelf;
    this.post = post;
    this.later = later;
  }

  /** Takes up what an earlier page left. */
  async open() {
    for (const kept of await this.shelf.waiting()) this.#open.set(kept.entry.id, kept);
    this.#tell();
    void this.send();
  }

  get waiting() {
    return [...this.#open.values()].filter((kept) => kept.sent === "waiting").length;
  }

  get refused() {
    return [...this.#open.values()].filter((kept) => kept.sent === "refused");
  }

  /** Stores; when this is done the entries are on the disk, and only then may the screen change. @param {Entry[]} entries */
  async append(entries) {
    if (entries.length === 0) return;
    const kept = entries.map((entry) => /** @type {Kept} */ ({ entry, sent: "waiting", says: "" }));
    await this.shelf.put(kept);
    for (const one of kept) this.#open.set(one.entry.id, one);
    this.#tell();
    // While nobody answers, new entries wait for the next try instead of making one each.
    if (!this.#later) void this.send();
  }

  /** Sends what waits, oldest first, one batch at a time, until nothing waits or nobody answers. */
  async send() {
    if (this.#sending) return;
    this.#sending = true;
    try {
      for (;;) {
        const batch = [...this.#open.values()].filter((kept) => kept.sent === "waiting").slice(0, BATCH);
        if (batch.length === 0) break;
        const acks = await this.post(batch.map((kept) => kept.entry));
        this.reach = "reached";
        if (!(await this.#settle(batch, acks))) throw new Error("nothing was acknowledged");
        this.#wait = FIRST_WAIT_MS;
      }
    } catch (error) {
      this.reach = error instanceof Closed ? "closed" : "away";
      const wait = this.#wait;
      this.#wait = Math.min(LONGEST_WAIT_MS, wait * 2);
      this.#later = true;
      this.later(() => {
        this.#later = false;
        void this.send();
      }, wait);
    } finally {
      this.#sending = false;
      this.#tell();
    }
  }

  /** @param {Kept[]} batch @param {Ack[]} acks */
  async #settle(batch, acks) {
    const byId = new Map(acks.map((ack) => [ack.id, ack]));
    /** @type {Kept[]} */
    const changed = [];
    for (const kept of batch) {
      const ack = byId.get(kept.entry.id);
      if (!ack) continue;
      if (ack.outcome === "added" || ack.outcome === "already" || ack.outcome === "erased") changed.push({ ...kept, sent: "there" });
      else if (ack.outcome === "refused" || ack.outcome === "invalid") changed.push({ ...kept, sent: "refused", says: ack.says });
    }
    await this.shelf.put(changed);
    for (const kept of changed) {
      if (kept.sent === "there") this.#open.delete(kept.entry.id);
      else this.#open.set(kept.entry.id, kept);
    }
    this.#tell();
    return 0 < changed.length;
  }

  /** Everything that is not acknowledged, as a file that any device can hand in. */
  export() {
    return JSON.stringify({ shape: "cuffwright.outbox/1", entries: [...this.#open.values()].map((kept) => kept.entry) }, null, 1);
  }

  /** @param {() => void} listener */
  listen(listener) {
    this.#listeners.add(listener);
  }

  #tell() {
    for (const listener of this.#listeners) listener();
  }
}

/** The server answers and does not let this device in: a person must sign in or pair it again. Nothing is lost. */
export class Closed extends Error {}

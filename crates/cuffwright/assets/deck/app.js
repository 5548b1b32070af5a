// Ties the parts together: the bag, the disk, the session, the clock of the page. Everything that changes goes through
// `put`: first onto the disk, then into the state, then onto the screen.

import { Awake } from "./awake.js";
import { Beat } from "./beat.js";
import { freshId } from "./ids.js";
import { Closed, Outbox } from "./outbox.js";
import { Session } from "./session.js";
import { Disk, openDatabase } from "./shelf.js";
import { speak } from "./words.js";

/** @import {Bag, Entry} from "./types.js" */

const TICK_MS = 100;

export class App {
  beat = new Beat();
  awake = new Awake();
  #listeners = new Set();
  /** @type {Promise<unknown>} one change after the other */
  #chain = Promise.resolve();
  /** Milliseconds from a touch to the disk, newest last: shown on the status page and read by tests. @type {number[]} */
  took = [];
  #shift = 0;
  /** Tells a wall view on the same device that something changed. */
  #calls = "BroadcastChannel" in globalThis ? new BroadcastChannel("cuffwright-deck") : undefined;

  /** @param {Bag} bag @param {Disk} disk @param {Outbox} outbox @param {Entry[]} entries */
  constructor(bag, disk, outbox, entries) {
    this.bag = bag;
    this.disk = disk;
    this.outbox = outbox;
    speak(bag.words);
    this.session = new Session(bag, entries, { freshId, wall: () => new Date().toISOString(), boot: freshId() });
    // The session clock never goes back, whatever was done to the wall clock between two loads of this page.
    this.#shift = Math.max(0, this.session.state.last - pageTime());
    outbox.listen(() => this.#tell());
  }

  /** Session time now, milliseconds. */
  now() {
    return pageTime() + this.#shift;
  }

  /** Session time of a contact: when the finger came down, not when the page got round to it. @param {Event} event */
  at(event) {
    const late = performance.now() - event.timeStamp;
    return this.now() - (0 < late && late < 1000 ? late : 0);
  }

  /** Stores, then shows. @param {(t: number) => Entry[]} make @param {Event} [event] @returns {Promise<Entry[]>} */
  put(make, event) {
    const t = event ? this.at(event) : this.now();
    const began = performance.now();
    const done = this.#chain.then(async () => {
      const entries = make(t);
      if (entries.length === 0) return entries;
      await this.outbox.append(entries);
      this.session.take(entries);
      this.#calls?.postMessage("changed");
      if (event) this.took = [...this.took.slice(-499), performance.now() - began];
      this.#tell();
      return entries;
    });
    this.#chain = done.catch((error) => this.broken(error));
    return done;
  }

  /** The disk did not take it: the screen must say so, and nothing on it has changed. @param {unknown} error */
  broken(error) {
    this.failure = String(error);
    this.#tell();
  }
  failure = "";
  /** Whether the shell is kept for a load without a network. @type {"unknown"|"active"|"none"} */
  worker = "unknown";

  run() {
    setInterval(() => this.#tick(), TICK_MS);
    document.addEventListener("visibilitychange", () => {
      if (!document.hidden) void this.awake.want();
      this.#tick();
    });
    addEventListener("online", () => void this.outbox.send());
  }

  #ticking = false;

  #tick() {
    const visible = !document.hidden;
    if (!this.#ticking) {
      this.#ticking = true;
      void this.put((t) => this.session.tick(t, visible)).finally(() => (this.#ticking = false));
    }
    this.#sound();
    this.#tell();
  }

  #sound() {
    const t = this.now();
    const now = this.session.now(t);
    const phase = now.phase;
    if (phase?.kind !== "work" || (now.kind !== "run" && now.kind !== "lead")) {
      const next = now.kind === "run" && phase && this.session.phases[phase.index + 1];
      if (now.kind !== "run" || !next || next.kind !== "work") return this.beat.stop();
      return this.beat.follow(`${next.index}`, this.tempoOf(next), next.seconds, -now.left);
    }
    this.beat.follow(`${phase.index}`, this.tempoOf(phase), phase.seconds, now.kind === "lead" ? -now.left : now.ms);
  }

  /** The beat everybody hears. In stations each group has its own exercise, so the clock counts plain seconds. @param {import("./types.js").Phase} phase @returns {import("./types.js").Tempo} */
  tempoOf(phase) {
    return this.bag.exercises[phase.exercise]?.tempo ?? { kind: "hold" };
  }

  /** @param {() => void} listener */
  listen(listener) {
    this.#listeners.add(listener);
  }

  #tell() {
    for (const listener of this.#listeners) listener();
  }
}

function pageTime() {
  return performance.timeOrigin + performance.now();
}

/** Fetches the bag where there is a network; else the one on the disk. @param {Disk} disk @param {string} session @returns {Promise<Bag|undefined>} */
async function bagOf(disk, session) {
  const kept = await disk.bag(session);
  try {
    // A bag in use is not swapped under a running session.
    if (kept && 0 < (await disk.all(session)).length) return kept;
    const answer = await fetch(`/deck/session/${session}/bag`, { headers: { accept: "application/json" } });
    if (!answer.ok) return kept;
    /** @type {Bag} */
    const bag = await answer.json();
    let device = await disk.about("device");
    if (!device) await disk.keep("device", (device = freshId()));
    bag.device = device;
    await disk.keepBag(bag);
    return bag;
  } catch {
    return kept;
  }
}

/** @param {Entry[]} entries */
async function post(entries) {
  const answer = await fetch("/deck/outbox", {
    method: "POST",
    redirect: "manual",
    headers: { "content-type": "application/json", accept: "application/json" },
    body: JSON.stringify({ sent: new Date().toISOString(), entries }),
  });
  if (answer.type === "opaqueredirect" || answer.status === 401 || answer.status === 403) throw new Closed(String(answer.status));
  if (!answer.ok) throw new Error(String(answer.status));
  return (await answer.json()).acks;
}

/** @param {string} session @returns {Promise<App|undefined>} */
export async function openApp(session) {
  const disk = new Disk(await openDatabase());
  const bag = await bagOf(disk, session);
  if (!bag) return undefined;
  const outbox = new Outbox(disk, post);
  const entries = (await disk.all(session)).map((kept) => kept.entry);
  const app = new App(bag, disk, outbox, entries);
  await outbox.open();
  void navigator.storage?.persist?.();
  return app;
}

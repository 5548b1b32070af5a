// One session on one device: touches and the clock become entries. It decides, and leaves storing and showing to others.

import { nowAt, workBegun } from "./clock.js";
import { capOf, exerciseAt, lineAt, phasesOfBag } from "./plan.js";
import { heldBack, keyOf, linesOf, mayBegin, standing, State } from "./state.js";
import { Watch } from "./watch.js";

/** @import {Bag, Entry, Line, Phase, Reason, Slot} from "./types.js" */
/** @import {PersonState} from "./state.js" */

/** Two contacts of one finger come closer together than this, milliseconds. */
const BOUNCE_MS = 600;
/** A page that was not awake for this long cannot say what it would have seen, milliseconds. */
const ASLEEP_MS = 2000;
/** How long before the cap a look makes it seen, milliseconds. */
export const NEAR_CAP_MS = 30_000;

/** @typedef {{who:string, person:PersonState, line:Line, phase:Phase, began:number, cap_ms:number}} Started */

export class Session {
  watch = new Watch();
  #lastTick = NaN;
  #watching = "";
  /** @type {Map<string, number>} */
  #touched = new Map();
  /** @type {Map<string, Started[]>} */
  #started = new Map();
  #seen = 0;

  /**
   * @param {Bag} bag @param {Entry[]} entries
   * @param {{freshId: () => string, wall: () => string, boot: string}} edge
   */
  constructor(bag, entries, edge) {
    this.bag = bag;
    this.edge = edge;
    this.state = new State(bag, entries);
    this.#seen = entries.length;
  }

  get waves() {
    return Math.max(1, this.state.waves);
  }

  get phases() {
    return phasesOfBag(this.bag, this.waves);
  }

  /** @param {number} t */
  now(t) {
    const go = this.state.halt ? undefined : this.state.go;
    return nowAt(this.phases, go && { phase: go.phase ?? 0, t: go.t, lead: this.bag.timing.lead_s * 1000 }, t);
  }

  /** Writes down; the caller stores the result and then hands it to `take`. @param {number} t @param {Partial<Entry>[]} what @returns {Entry[]} */
  write(t, what) {
    const base = { session: this.bag.session.id, device: this.bag.device, boot: this.edge.boot, t: Math.round(t), wall: this.edge.wall() };
    return what.map((one) => /** @type {Entry} */ ({ ...base, id: this.edge.freshId(), seq: (this.#seen += 1), ...one }));
  }

  /** @param {Entry[]} entries */
  take(entries) {
    this.state.add(entries);
    this.#seen = Math.max(this.#seen, this.state.seq);
    this.#started.clear();
  }

  /** Everybody who stands along the wall, in their order: those who are here, whether they work or not. */
  wall() {
    return this.state.wall();
  }

  /**
   * Where somebody stands in the plan. Stations, partners and waves follow from the order along the wall as it was at
   * the start, unless a person placed them; whoever comes late joins the last wave.
   * @param {PersonState} person
   */
  placeOf(person) {
    const index = Math.max(0, this.wall().indexOf(person));
    const atStart = Math.max(1, this.state.atStart());
    const stations = Math.max(1, this.bag.exercises.length);
    const group = 0 <= person.group ? person.group : index < atStart ? Math.floor((index * stations) / atStart) : index % stations;
    const wave = Math.min(this.waves - 1, Math.floor(index / Math.ceil(atStart / this.waves)));
    return { group, half: index % 2, wave, lines: linesOf(person, this.bag), first: person.swimmer.first };
  }

  /** Who began a stretch of work that began then. @param {Phase} phase @param {number} began @returns {Started[]} */
  started(phase, began) {
    const key = `${phase.index}|${began}`;
    const known = this.#started.get(key);
    if (known) return known;
    /** @type {Started[]} */
    const started = [];
    for (const person of this.wall()) {
      const line = lineAt(phase, this.bag.exercises, this.placeOf(person));
      if (line && mayBegin(person, line, began, this.bag)) {
        started.push({ who: person.swimmer.id, person, line, phase, began, cap_ms: capOf(phase, line) * 1000 });
      }
    }
    this.#started.set(key, started);
    return started;
  }

  /** @param {Started} one @returns {Slot} */
  slotOf(one) {
    const { line, phase, person } = one;
    const used = person.used.get(`${line.exercise}|${line.side}`) ?? line.planned;
    /** @type {Slot} */
    const slot = { exercise: line.exercise, side: line.side, set: phase.set, planned: line.planned, used, sets: line.sets, cap_s: one.cap_ms / 1000 };
    const before = person.sets.get(keyOf({ ...slot, set: phase.set - 1 }));
    const ended = before?.end ?? before?.cap;
    if (ended) slot.rest_s = Math.max(0, Math.round((one.began - (ended.t ?? one.began)) / 100) / 10);
    return slot;
  }

  /** The set somebody is in, or was in when this stretch ended. @param {string} who @param {number} t */
  current(who, t) {
    const now = this.now(t);
    if (now.kind !== "run" || now.phase?.kind !== "work") return undefined;
    return this.started(now.phase, now.began).find((one) => one.who === who);
  }

  /** @param {Started} one */
  setOf(one) {
    return one.person.sets.get(keyOf(this.slotOf(one)));
  }

  /**
   * A touch on a place. Nothing comes of a second contact of the same finger, nor of a touch outside a set.
   * @param {string} who @param {"cue"|Reason} what @param {number} t
   * @returns {Entry[]}
   */
  touch(who, what, t) {
    const last = this.#touched.get(who) ?? -Infinity;
    if (Math.abs(t - last) < BOUNCE_MS) return [];
    const one = this.current(who, t);
    if (!one || !one.line.timed || standing(this.setOf(one)) !== "open") return [];
    this.#touched.set(who, t);
    this.watch.look(who, (t - one.began) / 1000);
    const base = { who, run: this.state.go?.id, phase: one.phase.index, ms: Math.round(t - one.began), slot: this.slotOf(one) };
    const bridged = this.state.go?.boot !== this.edge.boot ? { bridged: true } : {};
    if (what === "cue") return this.write(t, [{ k: "cue", ...base, ...bridged }]);
    return this.write(t, [{ k: "end", reason: what, ...base, ...bridged }]);
  }

  /** Takes back the last touch on this swimmer's set. @param {string} who @param {number} t @returns {Entry[]} */
  undo(who, t) {
    const set = this.latest(who, t);
    const of = set?.end ?? set?.cues.at(-1);
    return of ? this.write(t, [{ k: "undo", of: of.id, who }]) : [];
  }

  /** The set that touches and notes are about: the running one, else the last one. @param {string} who @param {number} t */
  latest(who, t) {
    const one = this.current(who, t);
    if (one) return this.setOf(one);
    return [...(this.state.people.get(who)?.sets.values() ?? [])].sort((a, b) => lastOf(b) - lastOf(a))[0];
  }

  /** Names the fault of a set that is already stored. @param {string} who @param {string} fault @param {number} t */
  note(who, fault, t) {
    const set = this.latest(who, t);
    return set ? this.write(t, [{ k: "note", who, fault, slot: set.slot, run: (set.end ?? set.cap ?? set.cues[0])?.run }]) : [];
  }

  /** "These held": only near the cap, and only for those still working. @param {string[]} whos @param {number} t */
  held(whos, t) {
    /** @type {Partial<Entry>[]} */
    const marks = [];
    for (const who of whos) {
      const one = this.current(who, t);
      if (!one || standing(this.setOf(one)) !== "open" || t - one.began < one.cap_ms - NEAR_CAP_MS) continue;
      if (this.setOf(one)?.held) continue;
      this.watch.look(who, (t - one.began) / 1000);
      marks.push({ k: "held", who, run: this.state.go?.id, phase: one.phase.index, ms: Math.round(t - one.began), slot: this.slotOf(one) });
    }
    return this.write(t, marks);
  }

  /**
   * The clock moved on. Whoever is still live at the cap gets one, and it says whether this page was awake then.
   * @param {number} t @param {boolean} visible
   * @returns {Entry[]}
   */
  tick(t, visible) {
    const last = this.#lastTick;
    this.#lastTick = t;
    const go = this.state.go;
    if (!go || this.state.halt) return [];
    /** @type {Partial<Entry>[]} */
    const caps = [];
    /** @type {Map<string, Partial<Entry>>} */
    const taught = new Map();
    for (const { phase, began } of workBegun(this.phases, { phase: go.phase ?? 0, t: go.t, lead: this.bag.timing.lead_s * 1000 }, t)) {
      for (const one of this.started(phase, began)) {
        const at = began + one.cap_ms;
        const set = this.setOf(one);
        if (t < at) continue;
        if (!one.line.timed) {
          if (!one.person.taught.has(one.line.exercise)) taught.set(`${one.who} ${one.line.exercise}`, { k: "taught", who: one.who, exercise: one.line.exercise });
          continue;
        }
        if (set?.cap || set?.end) continue;
        const awake = visible && last <= at && t - last < ASLEEP_MS;
        caps.push({ k: "cap", who: one.who, run: go.id, phase: phase.index, ms: one.cap_ms, slot: this.slotOf(one), awake });
      }
    }
    return this.write(t, [...caps, ...taught.values()]);
  }

  /** Who is to be looked at; nobody outside a set. @param {number} t */
  marked(t) {
    const now = this.now(t);
    if (now.kind !== "run" || now.phase?.kind !== "work") return (this.#watching = "");
    const run = `${this.state.go?.id}|${now.phase.index}`;
    if (this.#watching.split(" ")[0] !== run) this.watch.begin();
    const live = this.started(now.phase, now.began)
      .filter((one) => standing(this.setOf(one)) === "open" && now.ms < one.cap_ms)
      .map((one) => ({ who: one.who, ...one.line.prior, cap: one.cap_ms / 1000 }));
    const who = this.watch.next(live, now.ms / 1000);
    this.#watching = `${run} ${who}`;
    return who;
  }

  /** Sets the next stretch of work going. @param {number} phase @param {number} t */
  begin(phase, t) {
    return this.write(t, [{ k: "go", phase }]);
  }

  /** Everything stops. Whoever is in a set was called away; their seconds stand, and prove nothing. @param {number} t @param {string} what */
  stopAll(t, what) {
    const now = this.now(t);
    /** @type {Partial<Entry>[]} */
    const ends = [];
    if (now.kind === "run" && now.phase?.kind === "work") {
      for (const one of this.started(now.phase, now.began)) {
        if (!one.line.timed || standing(this.setOf(one)) !== "open") continue;
        ends.push({ k: "end", reason: "left", who: one.who, run: this.state.go?.id, phase: one.phase.index, ms: Math.round(t - one.began), slot: this.slotOf(one) });
      }
    }
    return this.write(t, [...ends, { k: "halt", what, phase: now.phase?.index ?? 0 }]);
  }

  /** Why somebody may not be started; "" when they may. @param {PersonState} person */
  heldBack(person) {
    return heldBack(person, this.bag);
  }

  /** @param {Phase} phase @param {PersonState} person */
  exerciseOf(phase, person) {
    return exerciseAt(phase, this.bag.exercises, this.placeOf(person));
  }
}

/** @param {import("./state.js").SetState} set */
function lastOf(set) {
  return Math.max(0, ...[set.end, set.cap, ...set.cues].map((entry) => entry?.t ?? 0));
}

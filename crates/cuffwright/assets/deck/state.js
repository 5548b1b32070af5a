// What the entries of one session amount to on this device. A fold over a set: order and doubles do not matter, and a
// reloaded page stands where it stood.

import { scenarioOf, stopFor } from "./pain.js";

/** @import {Bag, Entry, Line, Reason, Slot, Swimmer} from "./types.js" */

/**
 * @typedef {object} SetState
 * @property {Slot} slot
 * @property {Entry[]} cues
 * @property {Entry|undefined} end
 * @property {Entry|undefined} cap
 * @property {boolean} held
 * @property {string} fault
 */

/**
 * @typedef {object} PersonState
 * @property {Swimmer} swimmer
 * @property {boolean} present
 * @property {number} since  session time from which the swimmer is here; a set that began earlier is not theirs
 * @property {number} gone  session time of leaving; Infinity while here
 * @property {Entry|undefined} answers
 * @property {Entry|undefined} effort
 * @property {Entry[]} pains
 * @property {Map<string, number>} stopped  exercises that are over for today, since when
 * @property {number} stoppedShoulder
 * @property {number} stoppedAll
 * @property {Map<string, string>} used  rung by exercise and side, where another than planned is used
 * @property {Map<string, SetState>} sets
 * @property {number} group
 * @property {Set<string>} taught  exercises that were taught today
 * @property {number} order  place along the wall: the order in which they were marked as here
 */

/** @param {Slot} slot */
export const keyOf = (slot) => `${slot.exercise}|${slot.side}|${slot.set}`;

export class State {
  /** @type {Map<string, Entry>} */
  #entries = new Map();
  /** @type {Map<string, PersonState>} */
  people = new Map();
  /** @type {Entry|undefined} */
  go = undefined;
  /** @type {Entry|undefined} */
  firstGo = undefined;
  /** @type {Entry|undefined} */
  halt = undefined;
  /** @type {Entry[]} */
  incidents = [];
  /** @type {Map<string, Entry>} newest inspection by kit mark */
  kit = new Map();
  adults = 1;
  waves = 0;
  /** @type {Entry|undefined} */
  ratioBy = undefined;
  /** @type {Set<string>} */
  undone = new Set();
  last = 0;
  seq = 0;

  /** @param {Bag} bag @param {Entry[]} entries */
  constructor(bag, entries = []) {
    this.bag = bag;
    for (const entry of entries) this.#entries.set(entry.id, entry);
    this.#fold();
  }

  /** Every entry, in the order of the device. */
  entries() {
    return [...this.#entries.values()].sort(inOrder);
  }

  /** @param {Entry[]} entries */
  add(entries) {
    const fresh = entries.filter((entry) => !this.#entries.has(entry.id));
    for (const entry of fresh) this.#entries.set(entry.id, entry);
    // Most entries only add; one that takes something back makes the whole be read again.
    const isLater = fresh.every((entry) => entry.k !== "undo" && this.seq < entry.seq);
    if (isLater) fresh.sort(inOrder).forEach((entry) => this.#take(entry));
    else this.#fold();
  }

  #fold() {
    const all = this.entries();
    this.undone = new Set(all.filter((entry) => entry.k === "undo").map((entry) => entry.of ?? ""));
    this.people = new Map(this.bag.swimmers.map((swimmer) => [swimmer.id, emptyPerson(swimmer)]));
    this.go = this.firstGo = this.halt = this.ratioBy = undefined;
    this.incidents = [];
    this.kit = new Map();
    this.adults = 1;
    this.waves = 0;
    this.last = this.seq = 0;
    for (const entry of all) this.#take(entry);
  }

  /** @param {Entry} entry */
  #take(entry) {
    this.last = Math.max(this.last, entry.t);
    this.seq = Math.max(this.seq, entry.seq);
    if (this.undone.has(entry.id) || (entry.run && this.undone.has(entry.run))) return;
    const person = this.people.get(entry.who ?? "");
    if (person) takePerson(person, entry, this.bag);
    else this.#takeGroup(entry);
  }

  /** @param {Entry} entry */
  #takeGroup(entry) {
    if (entry.k === "go") {
      [this.go, this.halt] = [entry, undefined];
      this.firstGo ??= entry;
    }
    if (entry.k === "halt") this.halt = entry;
    else if (entry.k === "incident") this.incidents.push(entry);
    else if (entry.k === "kit" && entry.mark) this.kit.set(entry.mark, entry);
    else if (entry.k === "crew") {
      this.adults = entry.adults ?? this.adults;
      this.waves = entry.waves ?? this.waves;
      if (entry.by) this.ratioBy = entry;
    }
  }

  /** Everybody who stands along the wall, in their order. Whoever comes late stands at the end; whoever left leaves a gap. */
  wall() {
    return [...this.people.values()].filter((person) => person.present).sort((one, other) => one.order - other.order);
  }

  /** How many stood there when the session began. */
  atStart() {
    const began = this.firstGo?.seq ?? Infinity;
    return this.wall().filter((person) => person.order < began).length;
  }
}

/** @param {Entry} one @param {Entry} other */
function inOrder(one, other) {
  return one.seq - other.seq || (one.id < other.id ? -1 : 1);
}

/** @param {Swimmer} swimmer @returns {PersonState} */
function emptyPerson(swimmer) {
  return {
    swimmer, present: false, since: Infinity, gone: Infinity, answers: undefined, effort: undefined, pains: [],
    stopped: new Map(), stoppedShoulder: Infinity, stoppedAll: Infinity, used: new Map(), sets: new Map(), group: -1, order: Infinity, taught: new Set(),
  };
}

/** @param {PersonState} person @param {Entry} entry @param {Bag} bag */
function takePerson(person, entry, bag) {
  switch (entry.k) {
    case "attend":
      person.present = entry.present === true;
      person.order = !person.present ? Infinity : Math.min(person.order, entry.seq);
      person.since = entry.t;
      person.gone = Infinity;
      break;
    case "leave":
      person.gone = entry.t;
      break;
    case "answers":
      person.answers = entry;
      break;
    case "place":
      person.group = entry.group ?? -1;
      break;
    case "effort":
      person.effort = entry;
      break;
    case "taught":
      if (entry.exercise) person.taught.add(entry.exercise);
      break;
    case "rung":
      person.used.set(`${entry.exercise}|${entry.side}`, entry.rung ?? "");
      break;
    case "pain":
      takePain(person, entry, bag);
      break;
    case "cue":
    case "end":
    case "cap":
    case "held":
    case "note":
      if (entry.slot) takeSet(setOf(person, entry.slot), entry);
  }
}

/** @param {PersonState} person @param {Entry} entry @param {Bag} bag */
function takePain(person, entry, bag) {
  person.pains.push(entry);
  if (entry.when !== "during") return;
  const stop = stopFor(entry, bag.pain);
  if (stop === "stop-session") person.stoppedAll = Math.min(person.stoppedAll, entry.t);
  if (stop === "stop-shoulder") person.stoppedShoulder = Math.min(person.stoppedShoulder, entry.t);
  if (stop === "stop-exercise" && entry.exercise && !person.stopped.has(entry.exercise)) person.stopped.set(entry.exercise, entry.t);
}

/** @param {PersonState} person @param {Slot} slot @returns {SetState} */
function setOf(person, slot) {
  const key = keyOf(slot);
  let found = person.sets.get(key);
  if (!found) {
    found = { slot, cues: [], end: undefined, cap: undefined, held: false, fault: "" };
    person.sets.set(key, found);
  }
  return found;
}

/** @param {SetState} set @param {Entry} entry */
function takeSet(set, entry) {
  if (entry.k === "cue") set.cues.push(entry);
  if (entry.k === "end" && (!set.end || (entry.ms ?? 0) < (set.end.ms ?? 0))) set.end = entry;
  if (entry.k === "cap") set.cap = entry;
  // A look counts for the cap only near its end.
  if (entry.k === "held" && (set.slot.cap_s - 30) * 1000 <= (entry.ms ?? 0)) set.held = true;
  if (entry.k === "note") set.fault = entry.fault ?? set.fault;
  if (entry.k === "end" && entry.fault && !set.fault) set.fault = entry.fault;
}

/**
 * Why a swimmer may not be started now; "" when they may.
 * @param {PersonState} person @param {Bag} bag
 * @returns {""|"absent"|"gone"|"not-answered"|"something-new"|"nothing-allowed"|"stopped"}
 */
export function heldBack(person, bag) {
  if (!person.present) return "absent";
  if (person.gone !== Infinity) return "gone";
  if (!person.answers) return "not-answered";
  if (person.answers.fresh) return "something-new";
  if (person.stoppedAll !== Infinity) return "stopped";
  if (linesOf(person, bag).length === 0) return "nothing-allowed";
  return "";
}

/** What a swimmer may do today, after what was answered. @param {PersonState} person @param {Bag} bag @returns {Line[]} */
export function linesOf(person, bag) {
  const said = person.answers;
  if (!said || said.left === undefined || said.right === undefined) return [];
  const scenario = scenarioOf({ left: said.left, right: said.right, kind: said.kind ?? "unstated" }, bag.pain);
  return person.swimmer.lines[scenario] ?? [];
}

/**
 * May this line be worked in a stretch that began at this time? What happened after its beginning does not change who began.
 * @param {PersonState} person @param {Line} line @param {number} began @param {Bag} bag
 */
export function mayBegin(person, line, began, bag) {
  if (!person.present || began < person.since || person.gone <= began) return false;
  if (!person.answers || person.answers.fresh || began < person.answers.t) return false;
  if (person.stoppedAll <= began || (person.stopped.get(line.exercise) ?? Infinity) <= began) return false;
  const exercise = bag.exercises.find((one) => one.id === line.exercise);
  return !(exercise?.loads_shoulder && person.stoppedShoulder <= began);
}

/**
 * How a set stands, in one word. @param {SetState|undefined} set
 * @returns {"open"|"seen"|"unseen"|"not-observed"|Reason}
 */
export function standing(set) {
  if (set?.end?.reason) return set.end.reason;
  if (set?.cap) return set.cap.awake ? (set.held ? "seen" : "unseen") : "not-observed";
  return "open";
}

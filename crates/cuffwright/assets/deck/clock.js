// Where the session stands at a moment, worked out from when it was set going. Pure: the time is handed in.

/** @import {Phase, Tempo} from "./types.js" */

/** @typedef {{phase:number, t:number, lead:number}} Go  which stretch was begun, when, and after how long a lead-in (ms) */

/**
 * @typedef {object} Now
 * @property {"idle"|"lead"|"run"|"wait"|"over"} kind
 * @property {Phase|undefined} phase
 * @property {number} ms  since the stretch began
 * @property {number} left  milliseconds to its end; time waited, for "wait"
 * @property {number} began  session time at which the stretch began
 */

/**
 * Stretches follow one another by themselves up to a change-over: that one waits for a person.
 * @param {Phase[]} phases @param {Go|undefined} go @param {number} t @returns {Now}
 */
export function nowAt(phases, go, t) {
  if (!go) return { kind: "idle", phase: phases[0], ms: 0, left: 0, began: 0 };
  let began = go.t + go.lead;
  if (t < began) return { kind: "lead", phase: phases[go.phase], ms: 0, left: began - t, began };
  for (let index = go.phase; index < phases.length; index += 1) {
    const phase = phases[index];
    const ms = t - began;
    if (phase.kind === "change") return { kind: "wait", phase, ms, left: ms, began };
    if (ms < phase.seconds * 1000) return { kind: "run", phase, ms, left: phase.seconds * 1000 - ms, began };
    began += phase.seconds * 1000;
  }
  return { kind: "over", phase: undefined, ms: t - began, left: 0, began };
}

/** Every stretch of work begun by a "go" up to a moment, with when it began. @param {Phase[]} phases @param {Go} go @param {number} t */
export function workBegun(phases, go, t) {
  /** @type {{phase:Phase, began:number}[]} */
  const begun = [];
  let began = go.t + go.lead;
  for (let index = go.phase; index < phases.length && phases[index].kind !== "change"; index += 1) {
    if (t < began) break;
    if (phases[index].kind === "work") begun.push({ phase: phases[index], began });
    began += phases[index].seconds * 1000;
  }
  return begun;
}

/** The next stretch of work at or after an index; -1 when there is none. @param {Phase[]} phases @param {number} from */
export function nextWork(phases, from) {
  return phases.findIndex((phase, index) => from <= index && phase.kind === "work");
}

/**
 * Where a repetition is: which part of it, how far through it, which repetition.
 * @typedef {{part:"out"|"hold"|"back"|"circle", share:number, count:number, clockwise:boolean, turnIn:number}} Beat
 */

/** @param {Tempo} tempo @param {number} ms @returns {Beat} */
export function beatAt(tempo, ms) {
  const s = ms / 1000;
  if (tempo.kind === "hold") return { part: "hold", share: 0, count: 0, clockwise: true, turnIn: 0 };
  if (tempo.kind === "circles") {
    const turn = Math.floor(s / tempo.every_s);
    return { part: "circle", share: s % 1, count: Math.floor(s), clockwise: turn % 2 === 0, turnIn: tempo.every_s - (s % tempo.every_s) };
  }
  const whole = tempo.out + tempo.hold + tempo.back;
  const within = s % whole;
  const count = Math.floor(s / whole);
  if (within < tempo.out) return { part: "out", share: within / tempo.out, count, clockwise: true, turnIn: 0 };
  if (within < tempo.out + tempo.hold) return { part: "hold", share: (within - tempo.out) / tempo.hold, count, clockwise: true, turnIn: 0 };
  return { part: "back", share: (within - tempo.out - tempo.hold) / tempo.back, count, clockwise: true, turnIn: 0 };
}

/** Minutes and seconds, rounded up: a clock that still shows 0:01 is still running. @param {number} ms */
export function shown(ms) {
  const s = Math.ceil(Math.max(0, ms) / 1000 - 1e-9);
  return `${Math.floor(s / 60)}:${String(s % 60).padStart(2, "0")}`;
}

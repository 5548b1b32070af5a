// The common clock of a session as a list of stretches, and who does what in each of them. Pure.

/** @import {Bag, Exercise, Line, Pattern, Phase, Swimmer} from "./types.js" */

/**
 * @typedef {object} Shape
 * @property {Pattern} pattern
 * @property {number} waves
 * @property {{arms: "one"|"both"|"midline", cap_s: number, sets: number}[]} exercises
 * @property {{rest_s:number, side_s:number, change_s:number}} timing
 */

/**
 * The whole session, stretch by stretch. A change-over lasts as long as it lasts: its seconds are what is planned for.
 * @param {Shape} shape
 * @returns {Phase[]}
 */
export function phasesOf(shape) {
  /** @type {Phase[]} */
  const phases = [];
  const blocks = shape.pattern === "stations" ? stations(shape) : oneByOne(shape);
  for (let wave = 0; wave < shape.waves; wave += 1) {
    for (const block of blocks) {
      if (0 < phases.length) phases.push(stretch(phases.length, "change", shape.timing.change_s, block, wave));
      const turns = turnsOf(block);
      turns.forEach((turn, place) => {
        if (0 < place) {
          const gap = turns.length === block.sets ? ["rest", shape.timing.rest_s] : ["side", shape.timing.side_s];
          phases.push(stretch(phases.length, /** @type {"rest"|"side"} */ (gap[0]), Number(gap[1]), block, wave, turn));
        }
        phases.push(stretch(phases.length, "work", block.cap_s, block, wave, turn));
      });
    }
  }
  return phases;
}

/** @typedef {{exercise:number, round:number, arms:"one"|"both", cap_s:number, sets:number, pairs:boolean}} Block */

/** @param {Shape} shape @returns {Block[]} */
function oneByOne(shape) {
  return shape.exercises.map((exercise, index) => ({
    exercise: index,
    round: index,
    arms: exercise.arms === "one" ? "one" : "both",
    cap_s: exercise.cap_s,
    sets: exercise.sets,
    pairs: shape.pattern === "pairs",
  }));
}

/** Everybody changes together, so one clock serves all: the longest set and the most turns set its length. @param {Shape} shape @returns {Block[]} */
function stations(shape) {
  const arms = shape.exercises.some((exercise) => exercise.arms === "one") ? "one" : "both";
  const cap_s = Math.max(...shape.exercises.map((exercise) => exercise.cap_s));
  const sets = Math.max(...shape.exercises.map((exercise) => exercise.sets));
  return shape.exercises.map((_, round) => ({ exercise: -1, round, arms, cap_s, sets, pairs: false }));
}

/** @typedef {{set:number, arm:"both"|"first"|"second", half:number}} Turn */

/** @type {Turn["arm"][]} */
const IN_TURN = ["first", "second"];
/** @type {Turn["arm"][]} */
const TOGETHER = ["both"];

/** The work of one block in order: sets, arms in turn, partners in turn. @param {Block} block @returns {Turn[]} */
function turnsOf(block) {
  /** @type {Turn[]} */
  const turns = [];
  for (let set = 1; set <= block.sets; set += 1) {
    for (const arm of block.arms === "one" ? IN_TURN : TOGETHER) {
      for (const half of block.pairs ? [0, 1] : [-1]) turns.push({ set, arm, half });
    }
  }
  return turns;
}

/**
 * @param {number} index @param {Phase["kind"]} kind @param {number} seconds @param {Block} block @param {number} wave
 * @param {Turn} [turn] @returns {Phase}
 */
function stretch(index, kind, seconds, block, wave, turn = { set: 1, arm: "both", half: -1 }) {
  return { index, kind, seconds, exercise: block.exercise, round: block.round, wave, ...turn };
}

/** Seconds that the plan needs. @param {Phase[]} phases */
export function secondsOf(phases) {
  return phases.reduce((sum, phase) => sum + phase.seconds, 0);
}

/** What a swimmer needs to be placed in a plan. @typedef {{group:number, half:number, wave:number, lines:Line[], first:Record<string,"left"|"right">}} Placed */

/**
 * Which exercise a swimmer is at. @param {Phase} phase @param {Exercise[]} exercises @param {Placed} person
 * @returns {Exercise|undefined}
 */
export function exerciseAt(phase, exercises, person) {
  const index = phase.exercise < 0 ? (person.group + phase.round) % exercises.length : phase.exercise;
  return exercises[index];
}

/**
 * What a swimmer does in a stretch of work; nothing when it is not their turn, or nothing is prescribed.
 * @param {Phase} phase @param {Exercise[]} exercises @param {Placed} person
 * @returns {Line|undefined}
 */
export function lineAt(phase, exercises, person) {
  if (phase.kind !== "work" || phase.wave !== person.wave) return undefined;
  if (0 <= phase.half && phase.half !== person.half) return undefined;
  const exercise = exerciseAt(phase, exercises, person);
  if (!exercise) return undefined;
  const mine = person.lines.filter((line) => line.exercise === exercise.id && phase.set <= line.sets);
  if (exercise.arms !== "one") return phase.arm === "second" ? undefined : mine[0];
  if (phase.arm === "both") return undefined;
  const first = person.first[exercise.id] ?? "left";
  const side = phase.arm === "first" ? first : first === "left" ? "right" : "left";
  return mine.find((line) => line.side === side);
}

/** Longest this set may last for this swimmer, seconds. @param {Phase} phase @param {Line} line */
export function capOf(phase, line) {
  return Math.min(phase.seconds, line.cap_s);
}

/**
 * Waves needed so that nobody starts above the supervision ratio. Under 13 or still learning counts by the stricter
 * number; with two adults the larger number holds for a group without either.
 * @param {{young:number, all:number}} group @param {Bag["ratio"]} ratio @param {number} adults
 */
export function wavesNeeded(group, ratio, adults) {
  if (group.all === 0) return 1;
  const most = 0 < group.young ? ratio.under_13 * adults : adults < 2 ? ratio.from_13 : ratio.two_adults;
  return Math.max(1, Math.ceil(group.all / most));
}

/** @param {Bag} bag @param {number} waves @returns {Phase[]} */
export function phasesOfBag(bag, waves) {
  return phasesOf({ pattern: bag.session.pattern, waves, exercises: bag.exercises, timing: bag.timing });
}

// What a pain number means on deck. Before the session the server has already judged every answer that can be given
// (a "scenario" each); here an answer only finds its scenario. During a set the table says what stops. The numbers come
// from the bag; nothing here makes an outcome milder than the server would.

/** @import {Bag, Entry, Scenario} from "./types.js" */

/**
 * @param {{left:number, right:number, kind:string}} answer @param {Bag["pain"]} rule
 * @returns {Scenario}
 */
export function scenarioOf(answer, rule) {
  const worst = Math.max(answer.left, answer.right);
  if (worst === 0) return "clear";
  if (rule.refer_from <= worst) return "stop";
  if (rule.out_from <= worst) return "out";
  const both = 0 < answer.left && 0 < answer.right;
  if (both && answer.kind === "ache") return "ache";
  if (both) return "both";
  return 0 < answer.left ? "left" : "right";
}

/** @typedef {"go-on"|"stop-exercise"|"stop-shoulder"|"stop-session"} PainStop */

/**
 * What stops when pain is said in a set. Silence about the number stops all work of the shoulders, as it does in the record.
 * @param {{left?:number, right?:number, kind?:string, signs?:string[]}} said @param {Bag["pain"]} rule
 * @returns {PainStop}
 */
export function stopFor(said, rule) {
  if (0 < (said.signs ?? []).length) return "stop-session";
  if (said.left === undefined && said.right === undefined) return "stop-shoulder";
  const left = said.left ?? 0;
  const right = said.right ?? 0;
  const worst = Math.max(left, right);
  if (rule.refer_from <= worst) return "stop-session";
  if (rule.event_from <= worst) return "stop-shoulder";
  const isAche = said.kind === "ache" && 0 < left && 0 < right;
  return isAche || worst < rule.stop_exercise_from ? "go-on" : "stop-exercise";
}

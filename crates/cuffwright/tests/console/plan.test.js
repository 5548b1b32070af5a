import assert from "node:assert/strict";
import { test } from "node:test";
import { phasesOf, secondsOf, wavesNeeded } from "../../assets/deck/plan.js";
import { beatAt, nowAt, shown } from "../../assets/deck/clock.js";
import { bag, begun, exercise, line } from "./bag.js";
import table from "./budget.json" with { type: "json" };

const TIMING = { rest_s: 30, side_s: 5, change_s: 45 };
const clock = (seconds) => `${Math.floor(seconds / 60)}:${String(Math.round(seconds % 60)).padStart(2, "0")}`;
const plan = (arms, cap_s, sets = 3, pattern = "together", waves = 1) => phasesOf({ pattern, waves, timing: TIMING, exercises: arms.map((one) => ({ arms: one, cap_s, sets })) });

test("slots and whole sessions last as long as the trade's table says", () => {
  for (const row of table.slots) assert.equal(clock(secondsOf(plan([row.arms], row.cap_s, row.sets))), row.lasts, JSON.stringify(row));
  for (const row of table.sessions) {
    const arms = Array.from({ length: row.exercises }, (_, place) => (place < row.one_arm ? "one" : "both"));
    assert.equal(clock(secondsOf(plan(arms, row.cap_s))), row.lasts, JSON.stringify(row));
  }
});

test("thirty swimmers at five stations of a minute need 23 minutes", () => {
  assert.equal(clock(secondsOf(plan(["both", "both", "both", "both", "both"], 60, 3, "stations"))), "23:00");
});

test("pairs double the time of a set, and a wave doubles the session", () => {
  const one = secondsOf(plan(["both"], 60));
  assert.equal(secondsOf(plan(["both"], 60, 3, "pairs")), 2 * 3 * 60 + 5 * 5);
  assert.equal(secondsOf(plan(["both"], 60, 3, "together", 2)), 2 * one + 45);
});

test("a change-over waits for a person, everything else follows by itself", () => {
  const phases = plan(["both", "both"], 60, 2);
  const go = { phase: 0, t: 1000, lead: 5000 };
  const at = (t) => nowAt(phases, go, t);
  assert.deepEqual([at(1000).kind, at(1000).left], ["lead", 5000]);
  assert.deepEqual([at(6000).kind, at(6000).ms], ["run", 0]);
  assert.equal(at(65_999).phase.kind, "work");
  assert.equal(at(66_000).phase.kind, "rest");
  assert.equal(at(96_000).phase.set, 2);
  assert.equal(at(156_000).kind, "wait");
  assert.equal(at(999_000_000).kind, "wait");
  assert.equal(nowAt(phases, { phase: 4, t: 0, lead: 0 }, 150_001).kind, "over");
});

test("ball circles turn every 15 s and the plus is held", () => {
  const circles = { kind: "circles", every_s: 15 };
  for (const [s, clockwise] of [[0, true], [14.9, true], [15, false], [29.99, false], [30, true], [119, false]]) assert.equal(beatAt(circles, s * 1000).clockwise, clockwise, `${s}`);
  const plus = { kind: "beat", out: 2, hold: 2, back: 2 };
  for (const [s, part, count] of [[0, "out", 0], [1.99, "out", 0], [2, "hold", 0], [3.99, "hold", 0], [4, "back", 0], [6, "out", 1], [119, "back", 19]]) {
    assert.deepEqual([beatAt(plus, s * 1000).part, beatAt(plus, s * 1000).count], [part, count], `${s}`);
  }
});

test("the clock shows whole seconds and never zero while it runs", () => {
  for (const [ms, words] of [[120_000, "2:00"], [119_001, "2:00"], [119_000, "1:59"], [1, "0:01"], [0, "0:00"], [-5, "0:00"]]) assert.equal(shown(ms), words);
});

test("weaker arm first, the other in the second turn, and nobody in a set they were not given", () => {
  const made = bag(2, [exercise("RC-1", "one", 60, 3)]);
  made.swimmers[0].first = { "RC-1": "right" };
  made.swimmers[1].lines.clear = [line("RC-1", "left", 60, 2)];
  const { session } = begun(made);
  const sides = session.phases.filter((phase) => phase.kind === "work").map((phase) => session.started(phase, 1000).map((one) => `${one.who} ${one.line.side}`).join(", "));
  assert.deepEqual(sides, ["w0 right, w1 left", "w0 left", "w0 right, w1 left", "w0 left", "w0 right", "w0 left"]);
});

test("waves keep the supervision ratio", () => {
  const ratio = { under_13: 8, from_13: 15, two_adults: 20 };
  for (const [young, all, adults, waves] of [[0, 15, 1, 1], [0, 16, 1, 2], [0, 20, 2, 1], [0, 21, 2, 2], [1, 9, 1, 2], [1, 16, 2, 1], [0, 40, 1, 3], [0, 0, 1, 1]]) {
    assert.equal(wavesNeeded({ young, all }, ratio, adults), waves, `${young} ${all} ${adults}`);
  }
});

test("stations: every group does every exercise once", () => {
  const made = bag(9, [exercise("A", "both", 30, 1), exercise("B", "both", 30, 1), exercise("C", "both", 30, 1)], { pattern: "stations" });
  const { session, put } = begun(made);
  put(session.begin(0, 10));
  const done = new Map();
  for (const phase of session.phases.filter((one) => one.kind === "work")) for (const one of session.started(phase, 20)) done.set(one.who, `${done.get(one.who) ?? ""}${one.line.exercise}`);
  assert.equal(done.size, 9);
  for (const order of done.values()) assert.equal([...order].sort().join(""), "ABC");
});

test("whoever comes late begins with the next set, and stands at the end", () => {
  const made = bag(4, [exercise("A", "both", 60, 3)]);
  const { session, put } = begun(made);
  put(session.write(1, [{ k: "attend", who: "w1", present: false }]));
  put(session.begin(0, 1000));
  put(session.write(20_000, [{ k: "attend", who: "w1", present: true, late: true }, { k: "answers", who: "w1", left: 0, right: 0, fresh: false, how: "self" }]));
  const first = session.now(30_000);
  assert.deepEqual(session.started(first.phase, first.began).map((one) => one.who), ["w0", "w2", "w3"]);
  const second = session.now(6000 + 90_000);
  assert.deepEqual(session.started(second.phase, second.began).map((one) => one.who), ["w0", "w2", "w3", "w1"]);
});

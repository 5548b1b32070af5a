import assert from "node:assert/strict";
import { test } from "node:test";
import { Session } from "../../assets/deck/session.js";
import { standing, State } from "../../assets/deck/state.js";
import { scenarioOf, stopFor } from "../../assets/deck/pain.js";
import { bag, begun, edge, exercise, random } from "./bag.js";

/** Lets the clock run, a quarter of a second at a time. */
function run(stage, from, to, step = 250, visible = true) {
  for (let t = from; t <= to; t += step) stage.put(stage.session.tick(t, visible));
}
const stands = (session, who, key = "SC-1|both|1") => standing(session.state.people.get(who).sets.get(key));
const START = 10_000;
const BEGAN = START + 5000;

function stage(count = 3) {
  const made = begun(bag(count));
  made.put(made.session.begin(0, START));
  return made;
}

test("a second contact of the same finger is one form loss", () => {
  const one = stage();
  assert.equal(one.put(one.session.touch("w0", "form", BEGAN + 40_000)).length, 1);
  assert.equal(one.session.touch("w0", "form", BEGAN + 40_080).length, 0, "80 ms later");
  assert.equal(one.session.touch("w0", "form", BEGAN + 41_000).length, 0, "already ended");
  assert.equal(stands(one.session, "w0"), "form");
  assert.equal(one.session.state.people.get("w0").sets.get("SC-1|both|1").end.ms, 40_000);
});

test("a contact that bounces from the cue to form loss counts as the cue", () => {
  const one = stage();
  one.put(one.session.touch("w0", "cue", BEGAN + 40_000));
  assert.equal(one.session.touch("w0", "form", BEGAN + 40_500).length, 0);
  assert.equal(one.put(one.session.touch("w0", "form", BEGAN + 45_000)).length, 1);
});

test("undo brings a swimmer back into the set, and the set then runs to the cap", () => {
  const one = stage();
  one.put(one.session.touch("w0", "form", BEGAN + 40_000));
  one.put(one.session.undo("w0", BEGAN + 42_000));
  assert.equal(stands(one.session, "w0"), "open");
  run(one, BEGAN + 42_000, BEGAN + 121_000);
  assert.equal(stands(one.session, "w0"), "unseen");
});

test("these held makes a cap seen, and only in the last thirty seconds", () => {
  const one = stage();
  run(one, BEGAN, BEGAN + 60_000);
  assert.equal(one.session.held(["w0"], BEGAN + 60_000).length, 0);
  run(one, BEGAN + 60_250, BEGAN + 95_000);
  one.put(one.session.held(["w0", "w1"], BEGAN + 95_000));
  run(one, BEGAN + 95_250, BEGAN + 121_000);
  assert.deepEqual(["w0", "w1", "w2"].map((who) => stands(one.session, who)), ["seen", "seen", "unseen"]);
});

test("a page that slept over the cap has observed nothing", () => {
  const one = stage();
  run(one, BEGAN, BEGAN + 60_000);
  run(one, BEGAN + 180_000, BEGAN + 181_000);
  assert.equal(stands(one.session, "w0"), "not-observed");
  const hidden = stage();
  run(hidden, BEGAN, BEGAN + 121_000, 250, false);
  assert.equal(stands(hidden.session, "w0"), "not-observed");
});

test("a form loss touched just before the cap stands, though the cap was written first", () => {
  const one = stage();
  run(one, BEGAN, BEGAN + 119_750);
  const touched = one.session.touch("w0", "form", BEGAN + 119_900);
  run(one, BEGAN + 120_000, BEGAN + 121_000);
  one.put(touched);
  assert.equal(stands(one.session, "w0"), "form");
});

test("a fault is named after the set is stored, and its newest name holds", () => {
  const one = stage();
  one.put(one.session.touch("w0", "form", BEGAN + 40_000));
  one.put(one.session.note("w0", "F03", BEGAN + 42_000));
  one.put(one.session.note("w0", "F06", BEGAN + 44_000));
  assert.equal(one.session.state.people.get("w0").sets.get("SC-1|both|1").fault, "F06");
});

test("pain in a set stops what the table says, at once and from the next set on", () => {
  const rule = { out_from: 3, stop_exercise_from: 1, event_from: 3, refer_from: 5 };
  for (const [said, stop] of [
    [{ left: 0, right: 0 }, "go-on"], [{ left: 2, right: 2, kind: "ache" }, "go-on"], [{ left: 2, right: 2, kind: "joint" }, "stop-exercise"],
    [{ left: 0, right: 1, kind: "ache" }, "stop-exercise"], [{ right: 2 }, "stop-exercise"], [{ right: 3 }, "stop-shoulder"], [{ left: 4, right: 4, kind: "ache" }, "stop-shoulder"],
    [{ left: 5 }, "stop-session"], [{}, "stop-shoulder"], [{ left: 1, signs: ["chest-pain"] }, "stop-session"],
  ]) assert.equal(stopFor(said, rule), stop, JSON.stringify(said));
  const one = stage();
  one.put(one.session.touch("w0", "pain", BEGAN + 30_000));
  one.put(one.session.write(BEGAN + 30_000, [{ k: "pain", who: "w0", when: "during", exercise: "SC-1", left: 2, right: 0 }]));
  const second = one.session.phases.find((phase) => phase.kind === "work" && phase.set === 2);
  assert.deepEqual(one.session.started(second, BEGAN + 150_000).map((one) => one.who), ["w1", "w2"]);
});

test("more pain never finds a milder scenario", () => {
  const rule = { out_from: 3, stop_exercise_from: 1, event_from: 3, refer_from: 5 };
  const worse = { clear: 0, ache: 1, left: 2, right: 2, both: 3, out: 4, stop: 5 };
  for (let left = 0; left <= 10; left += 1) for (let right = 0; right <= 10; right += 1) for (const kind of ["ache", "joint", "unstated"]) {
    const here = worse[scenarioOf({ left, right, kind }, rule)];
    if (0 < left && 0 < right) assert.ok(worse[scenarioOf({ left: 0, right, kind: "joint" }, rule)] <= Math.max(here, 2));
    // An ache is of both sides by its meaning; on one side it is read as the joint.
    if (kind !== "ache" || (0 < left && 0 < right)) assert.ok(here <= worse[scenarioOf({ left: Math.min(10, left + 1), right: Math.min(10, right + 1), kind }, rule)]);
  }
});

test("who may not cannot be started: absent, not asked, something new, nothing allowed", () => {
  const made = bag(5);
  made.swimmers[3].lines.clear = [];
  const session = new Session(made, [], edge());
  const put = (what) => session.take(session.write(0, what));
  put([{ k: "attend", who: "w1", present: true }]);
  for (const who of ["w2", "w3", "w4"]) put([{ k: "attend", who, present: true }, { k: "answers", who, left: 0, right: who === "w4" ? 6 : 0, fresh: who === "w2", how: "self" }]);
  const why = made.swimmers.map((swimmer) => session.heldBack(session.state.people.get(swimmer.id)));
  assert.deepEqual(why, ["absent", "not-answered", "something-new", "nothing-allowed", "nothing-allowed"]);
  assert.equal(session.started(session.phases[0], 1000).length, 0);
});

test("all-stop ends every running set as called away, and nothing more is written until a person begins again", () => {
  const one = stage();
  one.put(one.session.touch("w0", "form", BEGAN + 20_000));
  one.put(one.session.stopAll(BEGAN + 30_000, "stop"));
  run(one, BEGAN + 30_000, BEGAN + 200_000);
  assert.deepEqual(["w0", "w1", "w2"].map((who) => stands(one.session, who)), ["form", "left", "left"]);
  assert.equal(one.session.now(BEGAN + 200_000).kind, "idle");
});

test("a false start taken back leaves no set behind", () => {
  const one = begun(bag(2));
  const [go] = one.put(one.session.begin(0, START));
  one.put(one.session.touch("w0", "form", BEGAN + 2000));
  one.put(one.session.write(BEGAN + 3000, [{ k: "undo", of: go.id }]));
  assert.equal(one.session.state.people.get("w0").sets.size, 0);
});

test("a reloaded page stands where it stood", () => {
  const one = stage();
  run(one, BEGAN, BEGAN + 50_000);
  one.put(one.session.touch("w0", "form", BEGAN + 50_000));
  const again = new Session(one.session.bag, JSON.parse(JSON.stringify(one.log)), edge(2));
  assert.equal(stands(again, "w0"), "form");
  assert.equal(again.now(BEGAN + 55_000).phase.index, 0);
  const [touched] = again.touch("w1", "form", BEGAN + 56_000);
  assert.ok(one.log.at(-1).seq < touched.seq);
  assert.equal(touched.bridged, true);
});

test("rest before a set is the real one, by side", () => {
  const one = stage();
  one.put(one.session.touch("w0", "form", BEGAN + 80_000));
  const second = one.session.phases.find((phase) => phase.kind === "work" && phase.set === 2);
  const slot = one.session.slotOf(one.session.started(second, BEGAN + 150_000)[0]);
  assert.equal(slot.rest_s, 70);
});

test("any drop that is sent again, any double, any order: the same state", () => {
  for (let seed = 1; seed <= 60; seed += 1) {
    const draw = random(seed);
    const one = begun(bag(6, [exercise("A", "both", 40, 2), exercise("B", "one", 30, 1)]), seed);
    let t = START;
    for (const phase of [0, 4]) {
      one.put(one.session.begin(phase, t));
      for (let step = 0; step < 480; step += 1) {
        t += 250;
        one.put(one.session.tick(t, true));
        const who = `w${Math.floor(draw() * 6)}`;
        const dice = draw();
        if (dice < 0.02) one.put(one.session.touch(who, "cue", t));
        else if (dice < 0.04) one.put(one.session.touch(who, dice < 0.03 ? "form" : "chose-to-stop", t));
        else if (dice < 0.05) one.put(one.session.undo(who, t));
        else if (dice < 0.06) one.put(one.session.note(who, "F03", t));
        else if (dice < 0.08) one.put(one.session.held(["w0", "w1", who], t));
        else if (dice < 0.082) one.put(one.session.write(t, [{ k: "pain", who, when: "during", left: Math.floor(draw() * 4), right: 0, exercise: "A" }]));
      }
    }
    const told = [...one.log, ...one.log.filter(() => draw() < 0.3)].map((entry) => JSON.parse(JSON.stringify(entry)));
    for (let place = told.length - 1; 0 < place; place -= 1) {
      const other = Math.floor(draw() * (place + 1));
      [told[place], told[other]] = [told[other], told[place]];
    }
    const bit = new State(one.session.bag);
    while (told.length) bit.add(told.splice(0, 1 + Math.floor(draw() * 7)));
    const seen = (state) => [...state.people.values()].map((person) => [person.swimmer.id, person.stoppedAll, person.stoppedShoulder, [...person.stopped], [...person.sets].map(([key, set]) => [key, standing(set), set.fault, set.end?.ms]).sort()]);
    assert.deepEqual(seen(bit), seen(one.session.state), `seed ${seed}`);
  }
});

test("forty swimmers and three exercises at sixty times the speed: every set is accounted for", () => {
  const made = begun(bag(40, [exercise("A", "both"), exercise("B", "one", 60), exercise("C", "both", 60)]));
  const { session, put } = made;
  const draw = random(9);
  let t = START;
  let expected = 0;
  const losses = new Map();
  for (const [place, phase] of session.phases.entries()) {
    if (0 < place && phase.kind !== "change") continue;
    put(session.begin(place === 0 ? 0 : place + 1, t));
    // One screen frame of a sixty-fold clock is about a second.
    for (let now = session.now(t); now.kind === "lead" || now.kind === "run"; t += 960, now = session.now(t)) {
      put(session.tick(t, true));
      if (now.kind !== "run" || now.phase.kind !== "work") continue;
      for (const one of session.started(now.phase, now.began)) {
        const key = `${one.who}|${one.line.exercise}|${one.line.side}|${now.phase.set}`;
        if (!losses.has(key)) losses.set(key, Math.exp(Math.log(80) + 0.5 * (draw() + draw() + draw() - 1.5) * 2) * 1000);
        if (losses.get(key) <= now.ms) put(session.touch(one.who, "form", now.began + Math.round(losses.get(key))));
      }
    }
    put(session.tick(t, true));
  }
  expected = 40 * (3 + 6 + 3);
  let sets = 0;
  for (const person of session.state.people.values()) for (const [key, set] of person.sets) {
    sets += 1;
    const lost = losses.get(`${person.swimmer.id}|${key}`);
    const stood = standing(set);
    if (stood === "form") assert.ok(Math.abs(set.end.ms - lost) <= 100, `${key}: ${set.end.ms} for ${lost}`);
    else assert.ok(set.slot.cap_s * 1000 - 1000 < lost && stood === "unseen", `${key}: ${stood} though form was lost at ${lost}`);
  }
  assert.equal(sets, expected);
});

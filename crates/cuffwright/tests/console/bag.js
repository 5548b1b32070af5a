// A small invented bag for the tests, and a driver that plays a session second by second with a clock of its own.

import { Session } from "../../assets/deck/session.js";
import { idFrom } from "../../assets/deck/ids.js";

/** A generator that gives the same numbers from the same seed (mulberry32). */
export function random(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export const BEAT = { kind: "beat", out: 1, hold: 0, back: 1 };

export function exercise(id, arms, cap_s = 120, sets = 3) {
  return { id, name: id, arms, loads_shoulder: true, uses_band: true, tempo: BEAT, cap_s, sets, movement: "", set_up: "", cautions: [], faults: [{ code: "F03", name: "shrug", cue: "" }], figure: "" };
}

export function line(exercise, side, cap_s = 120, sets = 3) {
  return { exercise, side, planned: "b16", rung_name: "16 N", sets, cap_s, timed: true, tempo: BEAT, prior: { mu: Math.log(70), sigma: 0.5 }, easier: [] };
}

export function bag(count, exercises = [exercise("SC-1", "both")], more = {}) {
  const swimmers = [];
  for (let place = 0; place < count; place += 1) {
    const lines = exercises.flatMap((one) => (one.arms === "one" ? ["left", "right"] : ["both"]).map((side) => line(one.id, side, one.cap_s, one.sets)));
    swimmers.push({
      id: `w${place}`, name: `Swimmer ${place}`, full_name: `Swimmer ${place}`, under_13: false, teaching: false, latex: "", emergency: "", contacts: [], asked_today: false,
      lines: { clear: lines, ache: lines, left: lines.filter((one) => one.side !== "left"), right: [], both: [], out: [], stop: [] }, why_not: "", first: {},
    });
  }
  return {
    shape: "cuffwright.bag/1", device: "test", session: { id: "s1", date: "2026-11-25", number: 1, context: "rested", title: "", pattern: "together", minutes: 26, by: "", ...more },
    made_at: "", may_decide: true, club: "", practitioner: { name: "", phone: "" }, place: { number: "", address: "", entrance: "", defibrillator: "" },
    timing: { rest_s: 30, side_s: 5, change_s: 45, lead_s: 5, cue_grace_s: 5 }, pain: { out_from: 3, stop_exercise_from: 1, event_from: 3, refer_from: 5 },
    ratio: { under_13: 8, from_13: 15, two_adults: 20 }, exercises, swimmers, kit: [], words: {},
  };
}

export function edge(seed = 1) {
  const draw = random(seed);
  let millis = 1_795_600_000_000;
  return { freshId: () => idFrom((millis += 1), (bytes) => bytes.forEach((_, at) => (bytes[at] = Math.floor(draw() * 256)))), wall: () => "2026-11-25T16:00:00Z", boot: `boot${seed}` };
}

/** A session in which everybody is here and free of pain. */
export function begun(bag, seed = 1) {
  const session = new Session(bag, [], edge(seed));
  const log = [];
  const put = (entries) => {
    log.push(...entries);
    session.take(entries);
    return entries;
  };
  bag.swimmers.forEach((swimmer) => put(session.write(0, [{ k: "attend", who: swimmer.id, present: true }, { k: "answers", who: swimmer.id, left: 0, right: 0, kind: "unstated", how: "spoken", fresh: false, effort: 4 }])));
  return { session, log, put };
}

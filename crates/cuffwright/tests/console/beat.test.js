import assert from "node:assert/strict";
import { test } from "node:test";
import { cuesOf } from "../../assets/deck/beat.js";

const tones = (tempo, seconds) => cuesOf(tempo, seconds).filter((cue) => 0 <= cue.at);

test("a beat of one and one sounds every second, low and high in turn", () => {
  const cues = tones({ kind: "beat", out: 1, hold: 0, back: 1 }, 10).slice(1, -1);
  assert.deepEqual(cues.map((cue) => cue.at), [1, 2, 3, 4, 5, 6, 7, 8, 9]);
  assert.deepEqual(cues.map((cue) => cue.tone).slice(0, 4), ["back", "out", "back", "out"]);
});

test("onsets do not drift over ten minutes, whatever the tempo", () => {
  for (const tempo of [{ kind: "beat", out: 1.1, hold: 0, back: 1.3 }, { kind: "beat", out: 2, hold: 2, back: 2 }]) {
    const whole = tempo.out + tempo.hold + tempo.back;
    tones(tempo, 600).filter((cue) => cue.tone === "out").forEach((cue, place) => assert.ok(Math.abs(cue.at - (place + 1) * whole) < 1e-9, `${place}`));
  }
});

test("circles turn every fifteen seconds and a hold is counted in tens", () => {
  assert.deepEqual(tones({ kind: "circles", every_s: 15 }, 60).filter((cue) => cue.tone === "turn").map((cue) => cue.at), [15, 30, 45]);
  assert.deepEqual(tones({ kind: "hold" }, 45).map((cue) => cue.at), [0, 10, 20, 30, 40, 45]);
});

test("cues stand in order and end with the set", () => {
  for (const tempo of [{ kind: "beat", out: 2, hold: 2, back: 2 }, { kind: "circles", every_s: 15 }, { kind: "hold" }]) {
    const cues = cuesOf(tempo, 120);
    cues.forEach((cue, place) => assert.ok(place === 0 || cues[place - 1].at <= cue.at));
    assert.deepEqual(cues.at(-1), { at: 120, tone: "end" });
  }
});

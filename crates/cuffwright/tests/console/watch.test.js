import assert from "node:assert/strict";
import { test } from "node:test";
import { above, chance, Watch } from "../../assets/deck/watch.js";
import { random } from "./bag.js";

test("the normal tail agrees with printed tables", () => {
  for (const [z, share] of [[0, 0.5], [1, 0.158655], [1.96, 0.0249979], [2.5, 0.00620967], [-1, 0.841345], [3, 0.0013499]]) assert.ok(Math.abs(above(z) - share) < 6e-7, `${z}`);
});

test("the chance rises for a short prior, is a chance, and never breaks far out", () => {
  const short = { who: "a", mu: Math.log(40), sigma: 0.4, cap: 120 };
  const long = { who: "b", mu: Math.log(110), sigma: 0.4, cap: 120 };
  for (let s = 0; s <= 120; s += 1) {
    assert.ok(chance(long, s) <= chance(short, s), `${s}`);
    for (const one of [short, long]) assert.ok(0 <= chance(one, s) && chance(one, s) <= 1 && !Number.isNaN(chance(one, s)));
  }
  assert.equal(chance({ who: "a", mu: 0, sigma: 0.05, cap: 120 }, 100), 1);
});

/** Plays one set and counts looks. */
function play(count, cap, seed) {
  const draw = random(seed);
  const all = Array.from({ length: count }, (_, place) => ({ who: `w${place}`, mu: Math.log(30 + 120 * draw()), sigma: 0.3 + 0.4 * draw(), cap }));
  const watch = new Watch();
  watch.begin();
  const marks = new Map();
  for (let s = 0; s < cap; s += 1) {
    const mark = watch.next(all, s);
    marks.set(mark, (marks.get(mark) ?? 0) + 1);
  }
  return { all, marks };
}

test("everybody is looked at in every set that is long enough for it", () => {
  for (let seed = 1; seed <= 40; seed += 1) {
    for (const [count, cap] of [[1, 30], [8, 60], [15, 120], [20, 120], [29, 120]]) {
      const { marks } = play(count, cap, seed);
      assert.equal(marks.size, count, `${count} swimmers in ${cap} s, seed ${seed}`);
    }
  }
});

test("spare looks go where form is likeliest to go", () => {
  const watch = new Watch();
  watch.begin();
  const live = [{ who: "sure", mu: Math.log(400), sigma: 0.3, cap: 120 }, { who: "shaky", mu: Math.log(60), sigma: 0.3, cap: 120 }, { who: "middling", mu: Math.log(150), sigma: 0.3, cap: 120 }];
  const seconds = new Map();
  for (let s = 0; s < 120; s += 1) {
    const mark = watch.next(live, s);
    seconds.set(mark, (seconds.get(mark) ?? 0) + 1);
  }
  assert.ok(seconds.get("sure") < seconds.get("shaky"), JSON.stringify([...seconds]));
});

test("sixty swimmers are re-marked in under a millisecond", () => {
  const live = Array.from({ length: 60 }, (_, place) => ({ who: `w${place}`, mu: Math.log(40 + place), sigma: 0.4, cap: 120 }));
  const watch = new Watch();
  watch.begin();
  for (let s = 0; s < 2000; s += 1) watch.next(live, s % 120);
  const began = process.hrtime.bigint();
  const rounds = 500;
  for (let round = 0; round < rounds; round += 1) watch.next(live, (round * 4.1) % 120);
  const each = Number(process.hrtime.bigint() - began) / 1e6 / rounds;
  assert.ok(each < 1, `${each} ms`);
});

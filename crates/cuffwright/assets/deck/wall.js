// What the group sees: clock, figure, side. No name, no time of anybody, no pain, no order. It follows the console on
// the same device, from the disk and from what the console calls out.

import { beatAt, nowAt, shown } from "./clock.js";
import { drawing, el, mark, say } from "./dom.js";
import { phasesOfBag } from "./plan.js";
import { State } from "./state.js";
import { Disk, openDatabase } from "./shelf.js";
import { speak, text } from "./words.js";

const root = /** @type {HTMLElement} */ (document.querySelector("#deck-wall"));
const id = root.dataset.session ?? "";
const disk = new Disk(await openDatabase());
const bag = await disk.bag(id);

if (!bag) root.replaceChildren(el("p", { role: "alert" }, root.dataset.nobag ?? ""));
else follow(bag);

/** @param {import("./types.js").Bag} bag */
function follow(bag) {
  speak(bag.words);
  let state = new State(bag);
  const clock = el("p", { class: "deck-clock", role: "timer" });
  const what = el("p", { class: "deck-what" });
  const cue = el("p", { class: "deck-cue" });
  const figure = el("div", { class: "deck-figure" });
  root.replaceChildren(clock, el("div", { class: "deck-wall-side" }, what, cue), figure);
  let drawn = "";

  async function read() {
    state = new State(bag, (await disk.all(id)).map((kept) => kept.entry));
  }

  function show() {
    const t = Math.max(performance.timeOrigin + performance.now(), state.last);
    const phases = phasesOfBag(bag, Math.max(1, state.waves));
    const go = state.halt ? undefined : state.go;
    const now = nowAt(phases, go && { phase: go.phase ?? 0, t: go.t, lead: bag.timing.lead_s * 1000 }, t);
    const phase = now.phase;
    const exercise = phase && 0 <= phase.exercise ? bag.exercises[phase.exercise] : undefined;
    say(clock, now.kind === "run" || now.kind === "lead" ? shown(now.left) : "–");
    mark(clock, "data-kind", now.kind === "run" ? phase?.kind : now.kind);
    const works = now.kind === "run" && phase?.kind === "work";
    say(what, works ? text(`wall-${phase.arm}`) : now.kind === "lead" ? text("beat-ready") : now.kind === "run" ? text("wall-rest") : text("wall-wait"));
    const beat = works && exercise ? beatAt(exercise.tempo, now.ms) : undefined;
    say(cue, !beat ? "" : beat.part === "circle" ? text(beat.turnIn < 3 ? "beat-turn" : beat.clockwise ? "beat-clockwise" : "beat-counter") : text(`beat-${beat.part}`));
    if (exercise && exercise.id !== drawn) {
      drawn = exercise.id;
      const figured = drawing(exercise.figure);
      figure.replaceChildren(figured ?? el("p", { class: "deck-movement" }, exercise.movement));
    }
  }

  const calls = new BroadcastChannel("cuffwright-deck");
  calls.onmessage = () => void read();
  setInterval(() => void read(), 2000);
  setInterval(show, 100);
  void read().then(() => (root.dataset.ready = "yes"));
}

// The wall line: one clock above, the swimmers below in the order in which they stand. Places never move; the next one
// to look at is marked.

import { beatAt, nextWork, shown } from "./clock.js";
import { drawing, el, mark, say, touched } from "./dom.js";
import { placeRow } from "./place.js";
import { personSheet } from "./sheet.js";
import { NEAR_CAP_MS } from "./session.js";
import { text } from "./words.js";

/** @import {Phase} from "./types.js" */

/** Most swimmers that a phone shows at once. */
const PHONE_MOST = 15;
/** How many places share one "these held". */
const ROW = 5;

/** @param {import("./app.js").App} app @param {() => void} onwards */
export function liveView(app, onwards) {
  const { session, bag } = app;
  const sheet = personSheet(app);
  const clock = el("p", { class: "deck-clock", role: "timer", "aria-live": "off" });
  const what = el("p", { class: "deck-what" });
  const cue = el("p", { class: "deck-cue", "aria-hidden": "true" });
  const bar = el("span", {});
  const beat = el("div", { class: "deck-beat", "aria-hidden": "true" }, bar);
  const sound = el("button", { type: "button", class: "deck-sound", "aria-pressed": "true" }, text("sound"));
  sound.addEventListener("click", () => {
    app.beat.on = !app.beat.on;
    if (!app.beat.on) app.beat.stop();
    else void app.beat.wake();
    mark(sound, "aria-pressed", String(app.beat.on));
  });
  const many = el("p", { class: "deck-many", hidden: true }, text("too-many"));
  const figure = el("div", { class: "deck-figure" });
  const go = el("button", { type: "button", class: "deck-primary", id: "go" });
  const back = el("button", { type: "button", class: "deck-choice", id: "false-start" }, text("false-start"));
  const wall = el("ol", { class: "deck-wall", id: "wall" });
  /** @type {ReturnType<typeof placeRow>[]} */
  let places = [];
  /** @type {{node:HTMLElement, whos:string[], button:HTMLButtonElement}[]} */
  let holds = [];
  let drawnFor = "";
  let figureFor = "";
  let markedAt = -1;
  let marked = "";

  touched(go, () => {
    const t = app.now();
    const next = upcoming(t);
    if (next < 0) return onwards();
    void app.beat.wake().catch(() => undefined);
    void app.awake.want();
    void app.put((at) => session.begin(next, at));
  });
  back.addEventListener("click", () => void app.put((t) => (session.state.go ? session.write(t, [{ k: "undo", of: session.state.go.id }]) : [])));

  /** The stretch of work that "go" would begin. @param {number} t */
  function upcoming(t) {
    const now = session.now(t);
    if (now.kind === "over") return -1;
    if (session.state.halt) return nextWork(session.phases, (session.state.halt.phase ?? -1) + 1);
    if (now.kind === "idle") return nextWork(session.phases, 0);
    return nextWork(session.phases, (now.phase?.index ?? -1) + 1);
  }

  /** Rows are made when somebody joins or another wave comes to the wall; nobody's row is ever moved. @param {Phase|undefined} phase */
  function draw(phase) {
    const wave = phase?.wave ?? session.waves - 1;
    const here = session.wall().filter((person) => session.placeOf(person).wave === wave);
    const key = `${wave} ${here.map((person) => person.swimmer.id).join()}`;
    if (key === drawnFor) return;
    drawnFor = key;
    many.hidden = here.length <= PHONE_MOST;
    const known = new Map(places.map((place) => [place.who, place]));
    places = here.map((person) => known.get(person.swimmer.id) ?? placeRow(app, person.swimmer.id, sheet));
    holds = [];
    /** @type {Node[]} */
    const rows = [];
    for (let from = 0; from < places.length; from += ROW) {
      const some = places.slice(from, from + ROW);
      const whos = some.map((place) => place.who);
      const button = el("button", { type: "button", class: "deck-held" });
      touched(button, (event) => void app.put((t) => session.held(whos, t), event));
      const node = el("li", { class: "deck-held-row" }, button);
      holds.push({ node, whos, button });
      rows.push(...some.map((place) => place.node), node);
    }
    wall.replaceChildren(...rows);
    mark(wall, "data-count", String(places.length));
  }

  /** @param {number} t */
  function mark1(t) {
    // Once a second is enough, and keeps the mark calm.
    const second = Math.floor(t / 1000);
    if (second !== markedAt) {
      markedAt = second;
      marked = session.marked(t);
    }
    return marked;
  }

  return {
    node: el("div", { class: "deck-live" }, el("div", { class: "deck-panel" }, el("div", { class: "deck-time-box" }, clock, el("div", { class: "deck-say" }, what, cue), sound, beat), figure, el("div", { class: "deck-row deck-go" }, go, back)), many, wall),
    update() {
      const t = app.now();
      const now = session.now(t);
      const next = upcoming(t);
      draw(now.kind === "run" || now.kind === "lead" ? now.phase : session.phases[next]);
      say(clock, now.kind === "run" || now.kind === "lead" ? shown(now.left) : now.kind === "wait" ? shown(now.ms) : "0:00");
      mark(clock, "data-kind", now.kind === "run" ? now.phase?.kind : now.kind);
      say(what, words(now.kind, now.phase, t));
      const waits = now.kind !== "run" && now.kind !== "lead";
      go.hidden = !waits;
      say(go, next < 0 ? text("to-after") : session.state.firstGo ? text("go-next", { what: exerciseName(session.phases[next]) }) : text("go-first", { what: exerciseName(session.phases[next]) }));
      back.hidden = !((now.kind === "run" || now.kind === "lead") && t - (session.state.go?.t ?? -Infinity) < 20_000);
      twin(now.kind === "run" ? now.phase : undefined, now.ms, now.kind === "lead" ? now.left : 0);
      const at = mark1(t);
      const near = now.kind === "run" && now.phase?.kind === "work";
      for (const place of places) place.update(t, now, place.who === at);
      for (const { whos, button } of holds) {
        const live = near ? places.filter((place) => whos.includes(place.who) && place.stands === "open" && place.left <= NEAR_CAP_MS).length : 0;
        button.disabled = live === 0;
        say(button, live === 0 ? text("held-later") : text("held-these", { n: live }));
      }
    },
  };

  /** @param {Phase|undefined} phase */
  function exerciseName(phase) {
    if (!phase) return "";
    return phase.exercise < 0 ? text("stations", { n: phase.round + 1, of: bag.exercises.length }) : (bag.exercises[phase.exercise]?.name ?? "");
  }

  /** @param {string} kind @param {Phase|undefined} phase @param {number} t */
  function words(kind, phase, t) {
    if (session.state.halt && kind === "idle") return text("now-halted");
    if (kind === "idle" || !phase) return kind === "over" ? text("now-over") : text("now-idle");
    const name = exerciseName(phase);
    const wave = 1 < session.waves ? ` ${text("wave", { n: phase.wave + 1, of: session.waves })}` : "";
    if (kind === "lead") return text("now-lead", { what: name }) + wave;
    if (kind === "wait") return text("now-wait", { what: name }) + wave;
    const of = setsOf(phase);
    const arm = phase.arm === "both" ? "" : ` ${text(`arm-${phase.arm}`)}`;
    const half = phase.half < 0 ? "" : ` ${text(`half-${phase.half}`)}`;
    return text(`now-${phase.kind}`, { what: name, set: phase.set, of, time: shown(t) }) + arm + half + wave;
  }

  /** @param {Phase} phase */
  function setsOf(phase) {
    return phase.exercise < 0 ? Math.max(...bag.exercises.map((one) => one.sets)) : (bag.exercises[phase.exercise]?.sets ?? phase.set);
  }

  /** The beat for the eye: a bar that goes out and back, and the word of what is done now. @param {Phase|undefined} phase @param {number} ms @param {number} lead */
  function twin(phase, ms, lead) {
    if (!phase || phase.kind !== "work") {
      say(cue, 0 < lead ? text("beat-ready") : "");
      mark(beat, "data-part", "none");
    } else {
      const at = beatAt(app.tempoOf(phase), ms);
      say(cue, at.part === "circle" ? text(at.turnIn < 3 ? "beat-turn" : at.clockwise ? "beat-clockwise" : "beat-counter") : phase.exercise < 0 ? "" : text(`beat-${at.part}`));
      mark(beat, "data-part", at.part);
      const share = at.part === "back" ? 1 - at.share : at.part === "hold" ? 1 : at.share;
      bar.style.inlineSize = `${Math.round(share * 100)}%`;
    }
    const exercise = phase && 0 <= phase.exercise ? bag.exercises[phase.exercise] : undefined;
    if (exercise && exercise.id !== figureFor) {
      figureFor = exercise.id;
      const drawn = drawing(exercise.figure);
      figure.replaceChildren(drawn ?? el("p", { class: "deck-movement" }, exercise.movement));
    }
  }
}

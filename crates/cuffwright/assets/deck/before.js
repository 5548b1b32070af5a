// Before: who is here, the three questions, who may start with what, kit by rung, and whether the time is enough.

import { el, mark, say } from "./dom.js";
import { askDialog } from "./ask.js";
import { kitPart } from "./kit.js";
import { phasesOf, secondsOf, wavesNeeded } from "./plan.js";
import { linesOf } from "./state.js";
import { shown } from "./clock.js";
import { text } from "./words.js";

/** @import {PersonState} from "./state.js" */

/** @param {import("./app.js").App} app @param {() => void} onwards */
export function beforeView(app, onwards) {
  const { session, bag } = app;
  const ask = askDialog(app);
  const rows = bag.swimmers.map((swimmer) => row(app, swimmer.id, ask));
  const crew = crewPart(app);
  const kit = kitPart(app);
  const counts = el("p", { class: "deck-counts", role: "status" });
  const start = el("button", { type: "button", class: "deck-primary", id: "to-live" });
  start.addEventListener("click", async () => {
    // A browser may refuse to make a sound; nobody waits for it.
    void app.beat.wake().catch(() => undefined);
    void app.awake.want();
    if (session.state.waves !== crew.waves()) await app.put((t) => session.write(t, [{ k: "crew", adults: session.state.adults, waves: crew.waves() }]));
    onwards();
  });
  const node = el(
    "div", { class: "deck-before" },
    el("p", { class: "deck-caution" }, text("caution")),
    crew.node,
    el("section", { "aria-labelledby": "who-head" }, el("h2", { id: "who-head" }, text("who-head")), el("p", { class: "quiet" }, text("who-hint")), counts, el("ol", { class: "deck-people" }, rows.map((one) => one.node))),
    kit.node,
    el("div", { class: "deck-foot" }, start),
  );
  return {
    node,
    update() {
      rows.forEach((one) => one.update());
      crew.update();
      kit.update();
      const wall = session.wall();
      const ready = wall.filter((person) => session.heldBack(person) === "").length;
      say(counts, text("who-counts", { n: wall.length, of: ready }));
      say(start, session.state.firstGo ? text("back-to-live") : text("to-live", { n: ready }));
      start.disabled = ready === 0 || (crew.blocked() && !session.state.firstGo);
    },
  };
}

/** @param {import("./app.js").App} app @param {string} who @param {ReturnType<typeof askDialog>} ask */
function row(app, who, ask) {
  const { session } = app;
  const person = () => /** @type {PersonState} */ (session.state.people.get(who));
  const swimmer = person().swimmer;
  const here = el("button", { type: "button", class: "deck-here" });
  here.addEventListener("click", () => {
    const one = person();
    const isLater = session.state.firstGo !== undefined;
    void app.put((t) => {
      if (one.present && one.gone === Infinity) return session.write(t, [isLater ? { k: "leave", who } : { k: "attend", who, present: false }]);
      return session.write(t, [{ k: "attend", who, present: true, late: isLater }]);
    });
  });
  const asked = el("button", { type: "button", class: "deck-ask", onclick: () => ask.open(who) });
  const stands = el("p", { class: "deck-may" });
  const about = el("p", { class: "deck-note" }, swimmer.emergency);
  const node = el("li", { class: "deck-person", "data-who": who }, here, el("div", { class: "deck-name" }, el("strong", {}, swimmer.name), stands, swimmer.emergency && about), asked);
  return {
    node,
    update() {
      const one = person();
      const isHere = one.present && one.gone === Infinity;
      const place = session.wall().indexOf(one);
      say(here, isHere ? text("here-yes", { n: place + 1 }) : one.present ? text("here-gone") : text("here-no"));
      mark(here, "aria-pressed", String(isHere));
      mark(here, "aria-label", text(isHere ? "here-yes-label" : "here-no-label", { name: swimmer.name, n: place + 1 }));
      asked.disabled = !isHere;
      say(asked, one.answers ? text("asked") : text("ask"));
      mark(asked, "data-done", one.answers ? "yes" : "no");
      mark(asked, "aria-label", text("ask-label", { name: swimmer.name }));
      const held = isHere ? session.heldBack(one) : "absent";
      mark(node, "data-held", held);
      say(stands, isHere ? mayWords(one, held, app) : swimmer.why_not && text("held-nothing-allowed-beforehand"));
    },
  };
}

/** What somebody may do, or why not, in words. @param {PersonState} person @param {string} held @param {import("./app.js").App} app */
export function mayWords(person, held, app) {
  if (held === "nothing-allowed") return text("held-nothing-allowed", { what: person.swimmer.why_not || text("held-pain", { name: app.bag.practitioner.name }) });
  if (held === "something-new") return text("held-something-new", { name: app.bag.practitioner.name });
  if (held !== "") return text(`held-${held}`);
  const lines = linesOf(person, app.bag);
  const names = new Set(lines.map((line) => app.bag.exercises.find((one) => one.id === line.exercise)?.name ?? line.exercise));
  const fewer = names.size < app.bag.exercises.length ? text("may-some", { what: [...names].join(", ") }) : text("may-all");
  return lines.some((line) => !line.timed) ? `${fewer} ${text("may-learning")}` : fewer;
}

/** Adults on deck, waves, and the time that the plan needs. @param {import("./app.js").App} app */
function crewPart(app) {
  const { session, bag } = app;
  const one = el("button", { type: "button", class: "deck-choice", "data-value": "1" }, text("adults-one"));
  const two = el("button", { type: "button", class: "deck-choice", "data-value": "2" }, text("adults-two"));
  const waves = el("p", { class: "deck-waves", role: "status" });
  const time = el("p", { class: "deck-time", role: "status" });
  const other = el("ul", { class: "deck-others" });
  const name = el("input", { type: "text", id: "ratio-by", autocomplete: "off" });
  const together = el("button", { type: "button", class: "deck-choice" }, text("ratio-together"));
  const override = el("details", { class: "deck-override" }, el("summary", {}, text("ratio-override")), el("label", { for: "ratio-by" }, text("ratio-by")), name, together);
  for (const [button, adults] of /** @type {[HTMLButtonElement, number][]} */ ([[one, 1], [two, 2]])) button.addEventListener("click", () => void app.put((t) => session.write(t, [{ k: "crew", adults }])));
  together.addEventListener("click", () => {
    const by = name.value.trim();
    if (by) void app.put((t) => session.write(t, [{ k: "crew", adults: session.state.adults, waves: 1, by }]));
    else name.focus();
  });

  /** Waves that the ratio asks for; a named person may have decided otherwise. */
  const need = () => {
    const ready = session.wall().filter((person) => session.heldBack(person) === "");
    const young = ready.filter((person) => person.swimmer.under_13 || person.swimmer.teaching).length;
    return { ready, waves: wavesNeeded({ young, all: ready.length }, bag.ratio, session.state.adults) };
  };
  const count = () => (session.state.firstGo || session.state.ratioBy ? Math.max(1, session.state.waves) : need().waves);
  return {
    node: el("section", { class: "deck-crew", "aria-labelledby": "crew-head" }, el("h2", { id: "crew-head" }, text("crew-head")), el("div", { class: "deck-row", role: "group", "aria-label": text("adults") }, one, two), waves, time, other, override),
    waves: count,
    blocked: () => false,
    update() {
      for (const [button, adults] of /** @type {[HTMLButtonElement, number][]} */ ([[one, 1], [two, 2]])) mark(button, "aria-pressed", String(session.state.adults === adults));
      const { ready, waves: needed } = need();
      const used = count();
      override.hidden = needed < 2 && !session.state.ratioBy;
      say(waves, session.state.ratioBy && used < needed ? text("waves-overridden", { name: session.state.ratioBy.by ?? "", n: needed }) : 1 < used ? text("waves-many", { n: used, of: ready.length }) : text("waves-one", { n: ready.length }));
      const shape = { pattern: bag.session.pattern, waves: used, exercises: bag.exercises, timing: bag.timing };
      const seconds = secondsOf(phasesOf(shape));
      const have = bag.session.minutes * 60;
      const values = { need: shown(seconds * 1000), have: bag.session.minutes };
      say(time, seconds <= have ? text("time-fits", values) : text("time-over", values));
      mark(time, "data-fits", seconds <= have ? "yes" : "no");
      const words = seconds <= have ? [] : ways(shape, have);
      if (other.childElementCount !== words.length) other.replaceChildren(...words.map((one) => el("li", {}, one)));
    },
  };
}

/** What would fit instead. The plan itself is changed on the page where it was prepared. @param {import("./plan.js").Shape} shape @param {number} have */
function ways(shape, have) {
  const short = shape.exercises.map((one) => ({ ...one, cap_s: Math.min(60, one.cap_s) }));
  const fullest = shape.exercises.findIndex((one) => 60 < one.cap_s);
  /** @type {[string, typeof shape.exercises][]} */
  const tries = [
    ["way-rotating", short.map((one, place) => (place === fullest ? shape.exercises[place] : one))],
    ["way-short", short],
    ["way-two-arm", shape.exercises.map((one) => ({ ...one, arms: one.arms === "one" ? /** @type {const} */ ("both") : one.arms }))],
    ["way-split", shape.exercises.slice(0, Math.ceil(shape.exercises.length / 2))],
  ];
  return tries
    .map(([says, exercises]) => [says, secondsOf(phasesOf({ ...shape, exercises }))])
    .filter(([, seconds]) => Number(seconds) <= have)
    .map(([says, seconds]) => text(String(says), { need: shown(Number(seconds) * 1000) }));
}

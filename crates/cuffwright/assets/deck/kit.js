// Kit laid out by rung for those who are here, latex beside allergies, and every band looked at before use.

import { el, mark, say } from "./dom.js";
import { linesOf } from "./state.js";
import { text } from "./words.js";

/** @param {import("./app.js").App} app */
export function kitPart(app) {
  const { session, bag } = app;
  const layout = el("ul", { class: "deck-layout" });
  const latex = el("p", { class: "deck-latex", role: "alert", hidden: true });
  const pieces = bag.kit.map((piece) => {
    const sound = el("button", { type: "button", class: "deck-choice" }, text("kit-sound"));
    const out = el("button", { type: "button", class: "deck-choice deck-danger" }, text("kit-out"));
    const about = el("span", { class: "quiet" });
    sound.addEventListener("click", () => void app.put((t) => session.write(t, [{ k: "kit", mark: piece.mark, sound: true, by: bag.session.by }])));
    out.addEventListener("click", () => void app.put((t) => session.write(t, [{ k: "kit", mark: piece.mark, sound: false, by: bag.session.by }])));
    const node = el("li", { class: "deck-piece" }, el("strong", {}, piece.mark), about, sound, out);
    return {
      node,
      update() {
        const seen = session.state.kit.get(piece.mark);
        mark(sound, "aria-pressed", String(seen?.sound === true));
        mark(out, "aria-pressed", String(seen?.sound === false));
        const words = seen ? (seen.sound ? text("kit-seen") : text("kit-taken")) : piece.due ? text("kit-due", { date: piece.inspected || "–" }) : text("kit-last", { date: piece.inspected || "–" });
        say(about, ` ${words}${piece.latex === "" ? "" : ` ${text("kit-latex")}`}`);
      },
    };
  });
  let shownFor = "";
  return {
    node: el("section", { "aria-labelledby": "kit-head" }, el("h2", { id: "kit-head" }, text("kit-head")), latex, layout, el("details", { class: "deck-inspect" }, el("summary", {}, text("kit-inspect")), el("p", { class: "quiet" }, text("kit-how")), el("ul", {}, pieces.map((one) => one.node)))),
    update() {
      for (const one of pieces) one.update();
      const wall = session.wall().filter((person) => session.heldBack(person) === "");
      const key = wall.map((person) => `${person.swimmer.id}${person.answers?.id}`).join();
      if (key === shownFor) return;
      shownFor = key;
      layout.replaceChildren(...laidOut(app).map((words) => el("li", {}, words)));
      const allergic = wall.filter((person) => person.swimmer.latex === "yes");
      const bands = bag.exercises.some((exercise) => exercise.uses_band);
      const marks = bag.kit.filter((piece) => piece.what === "band" && piece.latex !== "").map((piece) => piece.mark);
      latex.hidden = allergic.length === 0 || !bands || marks.length === 0;
      say(latex, text("latex", { who: allergic.map((person) => person.swimmer.name).join(", "), what: marks.join(", ") }));
    },
  };
}

/** @param {import("./app.js").App} app */
function laidOut({ session, bag }) {
  /** @type {Map<string, Map<string, number>>} */
  const needs = new Map();
  for (const person of session.wall()) {
    if (session.heldBack(person) !== "") continue;
    const mine = new Set(linesOf(person, bag).map((line) => `${line.exercise}|${line.rung_name}`));
    for (const one of mine) {
      const [exercise, rung] = one.split("|");
      const rungs = needs.get(exercise) ?? new Map();
      needs.set(exercise, rungs.set(rung, (rungs.get(rung) ?? 0) + 1));
    }
  }
  return bag.exercises.flatMap((exercise) => {
    const rungs = needs.get(exercise.id);
    return rungs ? [`${exercise.name}: ${[...rungs].map(([rung, n]) => `${n} × ${rung}`).join(", ")}`] : [];
  });
}

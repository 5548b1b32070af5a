// One place on the wall line: who, which side works, the rope, and the two touches. The targets stand apart and never
// change places; undo has one of its own.

import { el, mark, say, touched } from "./dom.js";
import { Rope } from "./rope.js";
import { standing } from "./state.js";
import { text } from "./words.js";

/** How long a finger rests before it opens the sheet instead, milliseconds. */
const LONG_MS = 600;

/** @param {import("./app.js").App} app @param {string} who @param {{open:(who:string) => void}} sheet */
export function placeRow(app, who, sheet) {
  const { session, bag } = app;
  const person = () => /** @type {import("./state.js").PersonState} */ (session.state.people.get(who));
  const { name } = person().swimmer;
  const rope = new Rope();
  const side = el("span", { class: "deck-side" });
  const rung = el("span", { class: "deck-rung" });
  const stands = el("span", { class: "deck-stands", role: "status", "aria-live": "off" });
  const open = el("button", { type: "button", class: "deck-who", "aria-label": text("sheet-of", { name }), onclick: () => sheet.open(who) }, el("span", { class: "deck-who-name" }, name));
  const cue = el("button", { type: "button", class: "deck-touch deck-cue-touch", "aria-label": text("cue-of", { name }) }, text("cue"));
  const lost = el("button", { type: "button", class: "deck-touch deck-lost-touch", "aria-label": text("lost-of", { name }) }, text("lost"));
  const undo = el("button", { type: "button", class: "deck-touch deck-undo-touch", "aria-label": text("undo-of", { name }), hidden: true }, text("undo"));
  touched(cue, (event) => void app.put((t) => session.touch(who, "cue", t), event));
  touched(lost, (event) => void app.put((t) => session.touch(who, "form", t), event));
  undo.addEventListener("click", () => void app.put((t) => session.undo(who, t)));
  held(lost, () => sheet.open(who));
  const node = el("li", { class: "deck-place", "data-who": who }, open, el("div", { class: "deck-line" }, rope.node, el("span", { class: "deck-under" }, side, stands, rung)), cue, lost, undo);

  const row = {
    who, node,
    /** How the running set stands. @type {ReturnType<typeof standing>|"none"} */
    stands: "none",
    /** Milliseconds to this swimmer's own cap. */
    left: Infinity,
    /** @param {number} t @param {import("./clock.js").Now} now @param {boolean} isMarked */
    update(t, now, isMarked) {
      const one = session.current(who, t);
      const set = one ? session.setOf(one) : undefined;
      row.stands = one?.line.timed ? standing(set) : "none";
      row.left = one ? one.cap_ms - (t - one.began) : Infinity;
      mark(node, "data-look", isMarked ? "yes" : undefined);
      const isOpen = row.stands === "open" && 0 < row.left;
      cue.disabled = lost.disabled = !isOpen;
      const ended = set?.end;
      undo.hidden = !ended;
      cue.hidden = Boolean(ended);
      const cued = set?.cues.at(-1);
      const grace = cued ? bag.timing.cue_grace_s * 1000 - (t - cued.t) : 0;
      say(cue, isOpen && 0 < grace ? text("cued", { s: Math.ceil(grace / 1000) }) : text("cue"));
      mark(node, "data-cued", isOpen && cued ? (0 < grace ? "grace" : "over") : undefined);
      if (one) {
        say(side, text(`side-${one.line.side}`));
        say(rung, rungWords(one));
        const seconds = (ended?.ms ?? (set?.cap ? one.cap_ms : Math.min(one.cap_ms, t - one.began))) / 1000;
        rope.show(one.cap_ms / 1000, seconds, one.line.timed ? row.stands : "learning");
        say(stands, one.line.timed ? standWords(row.stands, seconds, set?.fault ?? "", set?.held ?? false) : text("learning"));
      } else {
        const held = session.heldBack(person());
        const last = now.kind === "run" && now.phase?.kind !== "work" ? session.latest(who, t) : undefined;
        say(side, held ? text(`place-${held}`) : "");
        say(rung, "");
        if (last) {
          const seconds = (last.end?.ms ?? last.slot.cap_s * 1000) / 1000;
          rope.show(last.slot.cap_s, seconds, standing(last));
          say(stands, standWords(standing(last), seconds, last.fault, last.held));
        } else {
          rope.show(bag.exercises[0]?.cap_s ?? 60, 0, "none");
          say(stands, held || now.kind === "idle" ? "" : text("no-turn"));
        }
      }
      mark(node, "data-stands", row.stands);
    },
  };
  return row;

  /** @param {import("./session.js").Started} one */
  function rungWords(one) {
    const used = one.person.used.get(`${one.line.exercise}|${one.line.side}`);
    const easier = used && one.line.easier.find((step) => step.rung === used);
    return easier ? easier.name : one.line.rung_name;
  }

  /** @param {string} stood @param {number} seconds @param {string} fault @param {boolean} looked */
  function standWords(stood, seconds, fault, looked) {
    const named = bag.exercises.flatMap((one) => one.faults).find((one) => one.code === fault)?.name;
    const s = Math.floor(seconds);
    if (stood === "open") return looked ? text("stands-held", { s }) : `${s} s`;
    const words = text(`stands-${stood}`, { s });
    return stood === "form" ? `${words}: ${named ?? text("fault-unnamed")}` : words;
  }
}

/** A finger that stays opens the notes; the touch itself is already stored. @param {HTMLElement} node @param {() => void} act */
function held(node, act) {
  /** @type {ReturnType<typeof setTimeout>|undefined} */
  let timer;
  node.addEventListener("pointerdown", () => (timer = setTimeout(act, LONG_MS)));
  for (const end of ["pointerup", "pointercancel", "pointerleave"]) node.addEventListener(end, () => clearTimeout(timer));
  node.addEventListener("contextmenu", (event) => event.preventDefault());
}

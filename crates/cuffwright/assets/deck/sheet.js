// One swimmer's sheet: pain first, then the other ends of a set, the fault by name, an easier rung, and whom to ring.

import { el } from "./dom.js";
import { choice, dialog, scale } from "./numbers.js";
import { stopFor } from "./pain.js";
import { text } from "./words.js";

/** @import {Entry, Reason} from "./types.js" */

/** @param {import("./app.js").App} app */
export function personSheet(app) {
  const { session, bag } = app;
  const box = dialog("", text("close"), "deck-sheet");
  /** @param {string} who @param {Reason} what */
  const end = (who, what) => (/** @type {Event} */ event) => {
    void app.put((t) => session.touch(who, what, t), event);
    box.close();
  };

  /** @param {string} who */
  function open(who) {
    const person = session.state.people.get(who);
    if (!person) return;
    const t = app.now();
    const one = session.current(who, t);
    const set = session.latest(who, t);
    const { swimmer } = person;
    box.heading.textContent = swimmer.full_name;
    const exercise = bag.exercises.find((known) => known.id === (one?.line.exercise ?? set?.slot.exercise));
    const line = one?.line;
    box.open(
      el("button", { type: "button", class: "deck-primary deck-pain", id: "pain", onclick: (/** @type {Event} */ event) => pain(who, event) }, text("pain")),
      el("div", { class: "deck-row" },
        el("button", { type: "button", class: "deck-choice", disabled: !one, onclick: end(who, "chose-to-stop") }, text("end-chose")),
        el("button", { type: "button", class: "deck-choice", disabled: !one, onclick: end(who, "kit") }, text("end-kit")),
        el("button", { type: "button", class: "deck-choice", disabled: !one, onclick: end(who, "left") }, text("end-left"))),
      set && exercise && (set.end?.reason === "form" || set.cues.length)
        ? choice(text("fault-which"), exercise.faults.filter((fault) => fault.code !== "F20").map((fault) => /** @type {[string, string]} */ ([fault.code, fault.name])), (fault) => { void app.put((at) => session.note(who, fault, at)); box.close(); }, set.fault)
        : undefined,
      line && 0 < line.easier.length
        ? choice(text("rung-easier"), [[line.planned, line.rung_name], ...line.easier.map((step) => /** @type {[string, string]} */ ([step.rung, step.name]))], (rung) => { void app.put((at) => session.write(at, [{ k: "rung", who, exercise: line.exercise, side: line.side, rung }])); box.close(); }, person.used.get(`${line.exercise}|${line.side}`) ?? line.planned)
        : undefined,
      el("p", { class: "deck-note" }, swimmer.emergency || text("no-note")),
      el("ul", { class: "deck-contacts" }, swimmer.contacts.map((contact) => el("li", {}, el("a", { href: `tel:${contact.phone.replace(/[^+0-9]/g, "")}` }, `${contact.name} (${contact.relation}) ${contact.phone}`)))),
      el("button", { type: "button", class: "deck-choice", onclick: () => { void app.put((at) => session.write(at, [{ k: "leave", who }])); box.close(); } }, text("leaves")),
    );
  }

  /** The set ends with the touch; the number is asked after it. @param {string} who @param {Event} event */
  async function pain(who, event) {
    const at = session.current(who, app.at(event));
    await app.put((t) => session.touch(who, "pain", t), event);
    askPain(who, at ? "during" : "other", at?.line.exercise);
  }

  /** @param {string} who @param {"during"|"other"|"after"} when @param {string} [exercise] */
  function askPain(who, when, exercise) {
    /** @type {Partial<Entry>} */
    const said = { k: "pain", who, when, how: "spoken", exercise };
    /** @type {Set<string>} */
    const signs = new Set();
    const rows = bag.signs.map(({ sign, words }) => {
      const button = el("button", { type: "button", class: "deck-choice deck-danger", "data-sign": sign, "aria-pressed": "false" }, words);
      button.addEventListener("click", () => {
        signs.has(sign) ? signs.delete(sign) : signs.add(sign);
        button.setAttribute("aria-pressed", String(signs.has(sign)));
      });
      return button;
    });
    const done = el("button", { type: "button", class: "deck-primary", id: "pain-done" }, text("pain-done"));
    done.addEventListener("click", async () => {
      if (0 < signs.size) said.signs = [...signs];
      await app.put((t) => session.write(t, [said]));
      told(who, said);
    });
    box.open(
      el("p", { class: "deck-large", role: "alert" }, text("pain-stop-now")),
      scale(text("ask-left"), (value) => (said.left = value)),
      scale(text("ask-right"), (value) => (said.right = value)),
      choice(text("ask-kind"), [["joint", text("kind-joint")], ["ache", text("kind-ache")]], (value) => (said.kind = value)),
      el("details", { class: "deck-signs" }, el("summary", {}, text("signs")), el("div", { class: "deck-stack" }, rows)),
      done,
    );
  }

  /** What to do, at once and in words. @param {string} who @param {Partial<Entry>} said */
  function told(who, said) {
    const name = session.state.people.get(who)?.swimmer.name ?? "";
    const stop = stopFor(said, bag.pain);
    box.open(
      el("p", { class: "deck-large", role: "alert", id: "pain-told" }, text(`pain-${stop}`, { name })),
      said.signs ? el("p", { class: "deck-large" }, text("ring", { n: bag.place.number || "112" })) : undefined,
      el("p", {}, text("pain-then", { name: bag.practitioner.name })),
      el("p", {}, text("pain-coach")),
      el("button", { type: "button", class: "deck-primary", onclick: () => box.close() }, text("close")),
    );
  }

  return { open, askPain };
}

// The three questions. On a handed-over screen nothing is seen but the questions and one's own name; how it was asked
// is written down with the answer. Who does not answer does not start.

import { el } from "./dom.js";
import { choice, dialog, scale } from "./numbers.js";
import { heldBack } from "./state.js";
import { mayWords } from "./before.js";
import { text } from "./words.js";

/** @import {Entry} from "./types.js" */

/** @param {import("./app.js").App} app */
export function askDialog(app) {
  const { session } = app;
  const box = dialog(text("ask-title"), text("close"), "deck-asking");

  /** @param {string} who */
  function open(who) {
    const person = session.state.people.get(who);
    if (!person) return;
    box.heading.textContent = text("ask-title-of", { name: person.swimmer.name });
    box.open(
      el("p", { class: "quiet" }, text("ask-how")),
      el("div", { class: "deck-stack" },
        el("button", { type: "button", class: "deck-primary", id: "ask-self", onclick: () => questions(who, "self") }, text("how-self")),
        el("button", { type: "button", class: "deck-choice", id: "ask-fingers", onclick: () => questions(who, "fingers") }, text("how-fingers")),
        el("button", { type: "button", class: "deck-choice", id: "ask-spoken", onclick: () => questions(who, "spoken") }, text("how-spoken"))),
    );
  }

  /** @param {string} who @param {"self"|"fingers"|"spoken"} how */
  function questions(who, how) {
    /** @type {Partial<Entry>} */
    const said = { k: "answers", who, how };
    const kind = el("div", {});
    const wrong = el("p", { class: "deck-missing", role: "alert" });
    const askKind = () => {
      const both = 0 < (said.left ?? 0) && 0 < (said.right ?? 0);
      if (!both) { kind.replaceChildren(); delete said.kind; return; }
      if (kind.childElementCount === 0) kind.append(choice(text("ask-kind"), [["ache", text("kind-ache")], ["joint", text("kind-joint")]], (value) => (said.kind = value)));
    };
    const done = el("button", { type: "button", class: "deck-primary", id: "ask-done" }, text("ask-done"));
    done.addEventListener("click", async () => {
      if (said.left === undefined || said.right === undefined || said.fresh === undefined) {
        wrong.textContent = text("ask-missing");
        return;
      }
      await app.put((t) => session.write(t, [{ kind: "unstated", ...said }]));
      how === "self" ? thanks() : result(who);
    });
    // One touch for the commonest spoken answer; it stands for what was said, never for silence.
    const none = how === "self" ? undefined : el("button", { type: "button", class: "deck-primary", id: "ask-none", onclick: async () => {
      const mine = box.shown();
      await app.put((t) => session.write(t, [{ ...said, left: 0, right: 0, kind: "unstated", fresh: false }]));
      // Somebody quick may have opened the next one meanwhile.
      if (box.shown() === mine) box.close();
    } }, text("ask-none"));
    box.node.dataset.shielded = how === "self" ? "yes" : "no";
    box.open(
      none,
      how === "self" ? el("p", { class: "deck-shield" }, text("ask-shield")) : undefined,
      scale(text("ask-left"), (value) => { said.left = value; askKind(); }),
      scale(text("ask-right"), (value) => { said.right = value; askKind(); }),
      kind,
      choice(text("ask-fresh"), [["no", text("fresh-no")], ["yes", text("fresh-yes")]], (value) => (said.fresh = value === "yes")),
      scale(text("ask-effort"), (value) => (said.effort = value)),
      wrong,
      done,
    );
  }

  function thanks() {
    box.open(el("p", { class: "deck-large" }, text("ask-thanks")), el("button", { type: "button", class: "deck-primary", onclick: () => box.close() }, text("ask-back")));
  }

  /** @param {string} who */
  function result(who) {
    const person = session.state.people.get(who);
    if (!person || heldBack(person, app.bag) === "") return box.close();
    box.open(el("p", { class: "deck-large", role: "alert" }, mayWords(person, heldBack(person, app.bag), app)), el("p", {}, text("pain-coach")), el("button", { type: "button", class: "deck-primary", onclick: () => box.close() }, text("close")));
  }

  return { open };
}

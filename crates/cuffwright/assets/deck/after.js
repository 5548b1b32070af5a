// After: pain now, effort, what the sets came to; what is still on this device; and the way to the proposals.

import { el, mark, say } from "./dom.js";
import { dialog, scale } from "./numbers.js";
import { Rope } from "./rope.js";
import { standing } from "./state.js";
import { text } from "./words.js";

/** @import {Entry} from "./types.js" */

/** @param {import("./app.js").App} app */
export function afterView(app) {
  const { session, bag, outbox } = app;
  const box = dialog("", text("close"), "deck-asking");
  const people = el("ul", { class: "deck-people" });
  const refused = el("section", { id: "refused", hidden: true }, el("h2", {}, text("refused-head")), el("p", {}, text("refused-what")));
  const refusedList = el("ul", {});
  refused.append(refusedList);
  const state = el("p", { class: "deck-large", role: "status" });
  const review = el("a", { class: "deck-primary", id: "to-review", href: "/review" }, text("to-review"));
  const record = el("a", { class: "deck-choice", href: `/deck/session/${bag.session.id}/record` }, text("to-record"));
  const save = el("button", { type: "button", class: "deck-choice", id: "export" }, text("export"));
  save.addEventListener("click", () => {
    const url = URL.createObjectURL(new Blob([outbox.export()], { type: "application/json" }));
    el("a", { href: url, download: `outbox-${bag.session.date}.json` }).click();
    setTimeout(() => URL.revokeObjectURL(url), 10_000);
  });
  let drawn = "";

  /** @param {string} who */
  function ask(who) {
    /** @type {Partial<Entry>} */
    const said = { k: "pain", who, when: "after", how: "spoken" };
    /** @type {number|undefined} */
    let effort;
    box.heading.textContent = text("after-of", { name: session.state.people.get(who)?.swimmer.name ?? "" });
    const keep = async (/** @type {Partial<Entry>} */ pain) => {
      const entries = [pain.left === undefined && pain.right === undefined ? undefined : pain, effort === undefined ? undefined : { k: "effort", who, effort }].filter((one) => one !== undefined);
      await app.put((t) => session.write(t, entries));
      box.close();
    };
    box.open(
      scale(text("after-effort"), (value) => (effort = value)),
      el("button", { type: "button", class: "deck-primary", id: "after-none", onclick: () => keep({ ...said, left: 0, right: 0 }) }, text("after-none")),
      scale(text("ask-left"), (value) => (said.left = value)),
      scale(text("ask-right"), (value) => (said.right = value)),
      el("button", { type: "button", class: "deck-choice", onclick: () => keep(said) }, text("ask-done")),
    );
  }

  /** @param {import("./state.js").PersonState} person */
  function row(person) {
    const done = person.effort || person.pains.some((pain) => pain.when === "after");
    const sets = [...person.sets.values()].map((set) => {
      const rope = new Rope();
      rope.show(set.slot.cap_s, (set.end?.ms ?? set.slot.cap_s * 1000) / 1000, standing(set));
      const name = bag.exercises.find((one) => one.id === set.slot.exercise)?.name ?? set.slot.exercise;
      const side = set.slot.side === "both" || set.slot.side === "midline" ? "" : `, ${text(`side-${set.slot.side}`)}`;
      return el("li", {}, el("span", {}, `${name}${side} ${set.slot.set}`), rope.node, el("span", {}, text(`stands-${standing(set)}`, { s: Math.floor((set.end?.ms ?? set.slot.cap_s * 1000) / 1000) })));
    });
    return el("li", { class: "deck-person", "data-who": person.swimmer.id }, el("div", { class: "deck-name" }, el("strong", {}, person.swimmer.name), sets.length ? el("details", {}, el("summary", {}, text("after-sets", { n: sets.length })), el("ul", { class: "deck-sets" }, sets)) : el("p", { class: "quiet" }, text("after-no-sets"))), el("button", { type: "button", class: "deck-ask", "data-done": done ? "yes" : "no", onclick: () => ask(person.swimmer.id) }, done ? text("asked") : text("after-ask")));
  }

  return {
    node: el("div", { class: "deck-after" }, state, el("div", { class: "deck-row" }, bag.may_decide && review, record, save), refused, el("section", { "aria-labelledby": "after-head" }, el("h2", { id: "after-head" }, text("after-head")), people)),
    update() {
      const key = `${session.state.seq}|${outbox.refused.length}`;
      say(state, outbox.waiting === 0 ? text("after-all-sent") : text("after-waiting", { n: outbox.waiting }));
      mark(review, "data-ready", outbox.waiting === 0 ? "yes" : "no");
      if (key === drawn || box.node.open) return;
      drawn = key;
      people.replaceChildren(...session.wall().map(row));
      refused.hidden = outbox.refused.length === 0;
      refusedList.replaceChildren(...outbox.refused.map((kept) => el("li", {}, `${kept.entry.k} ${session.state.people.get(kept.entry.who ?? "")?.swimmer.name ?? ""} ${kept.entry.wall}: ${kept.says}`)));
    },
  };
}

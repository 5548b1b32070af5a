// All-stop, and the card that needs no network: number, address, entrance, defibrillator, whom to ring, who has what.

import { el } from "./dom.js";
import { choice, dialog } from "./numbers.js";
import { text } from "./words.js";

const KINDS = ["band", "slip", "collision", "faint", "worry", "other"];

/** @param {import("./app.js").App} app */
export function emergencyCard(app) {
  const { session, bag } = app;
  const box = dialog(text("card"), text("close"), "deck-card");

  function open() {
    void app.put((t) => (session.now(t).kind === "idle" && session.state.halt ? [] : session.state.go ? session.stopAll(t, "stop") : []));
    app.beat.stop();
    const { place } = bag;
    const number = place.number || "112";
    const notes = session.wall().length ? session.wall() : [...session.state.people.values()];
    const line = (/** @type {string} */ name, /** @type {string} */ value) => el("p", {}, el("strong", {}, `${text(name)} `), value || text("card-unknown"));
    box.open(
      el("p", { class: "deck-large", role: "alert" }, text("card-stopped")),
      el("a", { class: "deck-primary deck-ring", href: `tel:${number.replace(/[^+0-9]/g, "")}` }, text("ring", { n: number })),
      line("card-address", place.address), line("card-entrance", place.entrance), line("card-defibrillator", place.defibrillator),
      line("card-practitioner", `${bag.practitioner.name} ${bag.practitioner.phone}`.trim()),
      el("h3", {}, text("card-people")),
      el("ul", { class: "deck-contacts" }, notes.map(({ swimmer }) => el("li", {}, el("strong", {}, swimmer.full_name), swimmer.emergency ? ` – ${swimmer.emergency}` : "", ...swimmer.contacts.map((contact) => el("a", { href: `tel:${contact.phone.replace(/[^+0-9]/g, "")}` }, ` ${contact.name} ${contact.phone}`))))),
      incident(),
    );
  }

  function incident() {
    let what = "";
    let piece = "";
    const words = el("textarea", { id: "incident-words", rows: 3 });
    const wrong = el("p", { class: "deck-missing", role: "alert" });
    const keep = el("button", { type: "button", class: "deck-primary", id: "incident-keep" }, text("incident-keep"));
    keep.addEventListener("click", async () => {
      if (!what) { wrong.textContent = text("incident-missing"); return; }
      await app.put((t) => session.write(t, [{ k: "incident", what, words: words.value.trim(), by: bag.session.by, ...(piece ? { mark: piece } : {}) }]));
      box.close();
    });
    const marks = bag.kit.map((one) => /** @type {[string, string]} */ ([one.mark, one.mark]));
    return el("section", { class: "deck-incident" }, el("h3", {}, text("incident")), el("p", { class: "quiet" }, text("incident-hint")),
      choice(text("incident-what"), KINDS.map((kind) => /** @type {[string, string]} */ ([kind, text(`incident-${kind}`)])), (value) => (what = value)),
      marks.length ? choice(text("incident-kit"), marks, (value) => (piece = value)) : undefined,
      el("label", { for: "incident-words" }, text("incident-words")), words, wrong, keep);
  }

  return { node: box.node, open };
}

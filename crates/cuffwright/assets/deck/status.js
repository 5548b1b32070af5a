// One line that is always there: what is not yet handed over, whether the network is reached, whether the screen stays on.

import { el, mark, say } from "./dom.js";
import { text } from "./words.js";

/** @param {import("./app.js").App} app */
export function statusLine(app) {
  const waiting = el("span", { class: "deck-waiting", role: "status" });
  const refused = el("a", { class: "deck-refused", href: "#refused", hidden: true });
  const awake = el("span", { class: "deck-awake" });
  const failure = el("strong", { class: "deck-failure", role: "alert", hidden: true });
  const node = el("div", { class: "deck-status" }, waiting, refused, awake, failure);
  return {
    node,
    update() {
      const { outbox } = app;
      const n = outbox.waiting;
      mark(node, "data-reach", outbox.reach);
      const where = outbox.reach === "closed" ? text("reach-closed") : outbox.reach === "away" ? text("reach-away") : "";
      say(waiting, (n === 0 ? text("outbox-empty") : text("outbox-waiting", { n })) + (where && ` ${where}`));
      refused.hidden = outbox.refused.length === 0;
      say(refused, text("outbox-refused", { n: outbox.refused.length }));
      say(awake, app.awake.can ? (app.awake.wanted && !app.awake.holds ? text("awake-lost") : "") : text("awake-cannot"));
      failure.hidden = app.failure === "";
      say(failure, text("disk-failed"));
    },
  };
}

// Zero to ten as a row of large buttons: no small lists, no typing with wet fingers.

import { el, mark } from "./dom.js";

/**
 * @param {string} legend @param {(value: number) => void} chosen @param {number} [given]
 * @returns {HTMLFieldSetElement}
 */
export function scale(legend, chosen, given) {
  const buttons = Array.from({ length: 11 }, (_, value) => {
    const button = el("button", { type: "button", class: "deck-number", "aria-pressed": String(value === given) }, value);
    button.addEventListener("click", () => {
      for (const other of buttons) mark(other, "aria-pressed", String(other === button));
      chosen(value);
    });
    return button;
  });
  return el("fieldset", { class: "deck-scale" }, el("legend", {}, legend), el("div", { class: "deck-numbers" }, buttons));
}

/**
 * A few words to choose from, one of them pressed. @template {string} T
 * @param {string} legend @param {[T, string][]} choices @param {(value: T) => void} chosen @param {T} [given]
 */
export function choice(legend, choices, chosen, given) {
  const buttons = choices.map(([value, words]) => {
    const button = el("button", { type: "button", class: "deck-choice", "data-value": value, "aria-pressed": String(value === given) }, words);
    button.addEventListener("click", () => {
      for (const other of buttons) mark(other, "aria-pressed", String(other === button));
      chosen(value);
    });
    return button;
  });
  return el("fieldset", { class: "deck-choices" }, el("legend", {}, legend), el("div", { class: "deck-row" }, buttons));
}

/** A dialog that closes by its own button, by Escape and by `close()`. @param {string} title @param {string} close @param {string} [name] */
export function dialog(title, close, name = "") {
  const body = el("div", { class: "deck-dialog-body" });
  const heading = el("h2", {}, title);
  const node = el("dialog", { class: `deck-dialog ${name}`, "aria-label": title }, el("div", { class: "deck-dialog-head" }, heading, el("button", { type: "button", class: "deck-close", onclick: () => node.close() }, close)), body);
  let shown = 0;
  return {
    node, body, heading,
    /** Which opening this is. */
    shown: () => shown,
    /** @param {...(Node|undefined)} inside */
    open(...inside) {
      shown += 1;
      body.replaceChildren(.../** @type {Node[]} */ (inside.filter(Boolean)));
      if (!node.isConnected) document.body.append(node);
      if (!node.open) node.showModal();
      body.scrollTop = 0;
    },
    close: () => node.close(),
  };
}

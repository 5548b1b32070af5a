// A set as a lane rope: one float for every ten seconds of cap, filled sideways as far as form held.

import { mark, svg } from "./dom.js";

const FLOAT = 10;

export class Rope {
  #key = "";
  #shown = -1;
  /** @type {Element[]} */
  #floats = [];

  constructor() {
    this.node = svg("svg", { class: "deck-rope", "aria-hidden": "true", preserveAspectRatio: "xMinYMid meet" });
  }

  /** @param {number} cap_s @param {number} seconds @param {string} stands */
  show(cap_s, seconds, stands) {
    const count = Math.max(1, Math.ceil(cap_s / FLOAT));
    if (this.#key !== String(count)) this.#string(count);
    const halves = Math.round((Math.max(0, Math.min(cap_s, seconds)) / FLOAT) * 2);
    mark(this.node, "data-stands", stands);
    if (halves === this.#shown) return;
    this.#shown = halves;
    this.#floats.forEach((float, place) => {
      const filled = halves - place * 2;
      mark(float, "class", 2 <= filled ? "on" : filled === 1 ? "part" : "");
      mark(float, "data-last", place * 2 < halves && halves <= place * 2 + 2 ? "yes" : undefined);
    });
  }

  /** @param {number} count */
  #string(count) {
    this.#key = String(count);
    this.#shown = -1;
    mark(this.node, "viewBox", `0 0 ${count * 12 + 2} 14`);
    this.#floats = Array.from({ length: count }, (_, place) => svg("rect", { x: place * 12 + 2, y: 2, width: 9, height: 10, rx: 3 }));
    this.node.replaceChildren(svg("rect", { class: "cable", x: 0, y: 6.4, width: count * 12 + 2, height: 1.4 }), ...this.#floats);
  }
}

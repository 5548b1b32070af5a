// The console's sentences: they come in the bag, from the one text catalogue.

/** @type {Record<string, string>} */
let words = {};

/** @param {Record<string, string>} given */
export function speak(given) {
  words = given;
}

/** @param {string} name @param {Record<string, string|number>} [values] */
export function text(name, values = {}) {
  const said = words[name] ?? `[${name}]`;
  return said.replace(/\{(\w+)\}/g, (whole, key) => (key in values ? String(values[key]) : whole));
}

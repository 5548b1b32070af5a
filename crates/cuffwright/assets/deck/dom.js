// Building the page without ever reading text as markup.

/** @typedef {Node|string|number|undefined|false|null} Child */

/**
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag @param {Record<string, unknown>} [about]  attributes; `on…` are listeners; `class` a class list
 * @param {...(Child|Child[])} children
 * @returns {HTMLElementTagNameMap[K]}
 */
export function el(tag, about = {}, ...children) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(about)) set(made, name, value);
  made.append(...flat(children));
  return made;
}

const SVG = "http://www.w3.org/2000/svg";

/** @param {string} tag @param {Record<string, unknown>} [about] @param {...(Child|Child[])} children */
export function svg(tag, about = {}, ...children) {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(about)) set(made, name, value);
  made.append(...flat(children));
  return made;
}

/** @param {(Child|Child[])[]} children @returns {(Node|string)[]} */
function flat(children) {
  return children.flat().filter((child) => child !== undefined && child !== false && child !== null).map((child) => (child instanceof Node ? child : String(child)));
}

/** @param {Element} made @param {string} name @param {unknown} value */
function set(made, name, value) {
  if (value === undefined || value === false || value === null) return;
  if (name.startsWith("on") && typeof value === "function") made.addEventListener(name.slice(2), /** @type {EventListener} */ (value));
  else made.setAttribute(name, value === true ? "" : String(value));
}

/** Changes the text only where it is another one, so that a reader of the screen is not disturbed. @param {Element} node @param {string} words */
export function say(node, words) {
  if (node.textContent !== words) node.textContent = words;
}

/** @param {Element} node @param {string} name @param {string|undefined} value */
export function mark(node, name, value) {
  if (value === undefined) node.removeAttribute(name);
  else if (node.getAttribute(name) !== value) node.setAttribute(name, value);
}

/**
 * Acts on the first contact, not on the release: with wet fingers the two may lie apart. A key acts as well.
 * @param {HTMLElement} node @param {(event: Event) => void} act
 */
export function touched(node, act) {
  let last = -Infinity;
  node.addEventListener("pointerdown", (event) => {
    if (event.button !== 0) return;
    last = event.timeStamp;
    act(event);
  });
  // A click without a contact before it comes from a key or from a reader's own device.
  node.addEventListener("click", (event) => {
    if (2000 < event.timeStamp - last) act(event);
    last = -Infinity;
  });
  return node;
}

/** A drawing that came in the bag, read as a drawing and nothing else. @param {string} text @returns {Element|undefined} */
export function drawing(text) {
  if (!text) return undefined;
  const read = new DOMParser().parseFromString(text, "text/html").querySelector("svg");
  if (!read) return undefined;
  for (const node of [read, ...read.querySelectorAll("*")]) {
    if (node.nodeName === "script" || node.nodeName === "foreignObject") node.remove();
    for (const { name } of [...node.attributes]) if (name.startsWith("on") || name === "href" || name === "style") node.removeAttribute(name);
  }
  return document.importNode(read, true);
}

// The console's page: three views, one status line, and a stop that is always in reach.

import { openApp } from "./app.js";
import { afterView } from "./after.js";
import { beforeView } from "./before.js";
import { el } from "./dom.js";
import { emergencyCard } from "./emergency.js";
import { liveView } from "./live.js";
import { statusLine } from "./status.js";
import { text } from "./words.js";

const root = /** @type {HTMLElement} */ (document.querySelector("#deck"));
const app = await openApp(root.dataset.session ?? "");

if (app) start(app);
else root.replaceChildren(el("p", { class: "deck-alone", role: "alert" }, root.dataset.nobag ?? ""));

/** @param {import("./app.js").App} app */
function start(app) {
  /** @type {{name:"before"|"live"|"after", view:{node:HTMLElement, update:() => void}, tab:HTMLButtonElement}[]} */
  const views = [
    { name: "before", view: beforeView(app, () => show("live")), tab: el("button", { type: "button" }) },
    { name: "live", view: liveView(app, () => show("after")), tab: el("button", { type: "button" }) },
    { name: "after", view: afterView(app), tab: el("button", { type: "button" }) },
  ];
  const place = el("main", { id: "main", class: "deck-main", tabindex: "-1" });
  const card = emergencyCard(app);
  const status = statusLine(app);
  const stop = el("button", { type: "button", class: "deck-stop", onclick: () => card.open() }, text("stop"));
  let current = views[0];

  /** @param {string} name */
  function show(name) {
    current = views.find((one) => one.name === name) ?? views[0];
    for (const one of views) one.tab.setAttribute("aria-current", one === current ? "page" : "false");
    document.body.dataset.view = current.name;
    place.replaceChildren(current.view.node);
    current.view.update();
    place.focus({ preventScroll: true });
  }

  for (const one of views) {
    one.tab.textContent = text(`tab-${one.name}`);
    one.tab.id = `tab-${one.name}`;
    one.tab.addEventListener("click", () => show(one.name));
  }
  root.replaceChildren(
    el("header", { class: "deck-head" }, el("h1", { class: "unseen" }, text("title", { date: app.bag.session.title })), el("nav", { class: "deck-tabs", "aria-label": text("tabs") }, views.map((one) => one.tab)), stop),
    status.node,
    place,
    card.node,
  );
  app.listen(() => {
    status.update();
    current.view.update();
  });
  app.run();
  show(app.session.state.firstGo ? "live" : "before");
  root.dataset.ready = "yes";
  // For tests and for whoever looks into a fault; nothing on the page needs it.
  Object.assign(globalThis, { deck: app });
}

if (app && "serviceWorker" in navigator) {
  navigator.serviceWorker
    .register("/deck/worker.js")
    .then(() => navigator.serviceWorker.ready)
    .then(() => (app.worker = "active"))
    .catch(() => (app.worker = "none"));
}

// Keeps the shell of the console, so that the page opens without a network. The list of files and their version are put
// in by the server. A new version waits until no console is open: it is never swapped in the middle of a set.
// What is said and sent never passes through here.

const SHELL = self.__SHELL;
const CACHE = `deck-${SHELL.version}`;

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(SHELL.files)));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(caches.keys().then((names) => Promise.all(names.filter((name) => name.startsWith("deck-") && name !== CACHE && name !== "deck-pages").map((name) => caches.delete(name)))));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET") return;
  const { pathname } = new URL(request.url);
  if (SHELL.files.includes(pathname)) event.respondWith(caches.match(request).then((found) => found ?? fetch(request)));
  else if (request.mode === "navigate" && /^\/deck\/session\/[^/]+(\/wall)?$/.test(pathname)) event.respondWith(page(request));
});

/** The newest page from the server; without a network the one that was kept. */
async function page(request) {
  const kept = await caches.open("deck-pages");
  try {
    const answer = await fetch(request);
    if (answer.ok) await kept.put(request, answer.clone());
    return answer;
  } catch (error) {
    const found = await kept.match(request);
    if (found) return found;
    throw error;
  }
}

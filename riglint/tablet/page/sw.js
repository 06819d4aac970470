// Keeps an exact list of files under a name made from their content, and answers from there first.
// A new form of the page waits until the old one is shut, or until the crew says to change over.

const STORE = "@STORE@";
const FILES = {/*@FILES@*/};

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches.open(STORE).then((store) =>
      Promise.all(
        Object.entries(FILES).map(async ([file, integrity]) => {
          const answer = await fetch(new Request(file, { integrity, cache: "no-cache" }));
          if (!answer.ok) throw new Error(`${file}: ${answer.status}`);
          await store.put(file, answer);
        }),
      ),
    ),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((n) => n.startsWith("riglint-") && n !== STORE).map((n) => caches.delete(n))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("message", (event) => {
  if (event.data === "change over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== location.origin) return;
  const wanted = event.request.mode === "navigate" ? "index.html" : event.request.url;
  event.respondWith(
    caches
      .open(STORE)
      .then((store) => store.match(wanted, { ignoreSearch: true }))
      .then((kept) => kept ?? fetch(event.request)),
  );
});

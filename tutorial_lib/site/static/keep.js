// Keeps every file of this version of the page on the device, so that it works without a net from the second visit on.

const VERSION = "@VERSION@";
const FILES = "@FILES@"; // all that the page needs before a PDF

const KEEP = `page ${VERSION}`;

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(KEEP).then((kept) => kept.addAll(FILES)));
});

self.addEventListener("activate", (event) => {
  const old = (name) => name.startsWith("page ") && name !== KEEP;
  event.waitUntil(
    caches.keys().then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name)))).then(() => self.clients.claim()),
  );
});

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET" || new URL(event.request.url).origin !== location.origin) return;
  event.respondWith(answer(event.request));
});

async function answer(request) {
  const kept = await caches.open(KEEP);
  const found = await kept.match(request, { ignoreSearch: true });
  if (found) return found;
  const fetched = await fetch(request);
  if (fetched.ok && fetched.status === 200) await kept.put(request, fetched.clone());
  return fetched;
}

// Keeps the whole app on the phone. tools/finish.mjs fills in the two lines below; nobody edits them by hand.
const VERSION = "unfinished";
const ASSETS = [];

// Caches belong to the origin, and one origin may hold several apps: ours carry our address.
const SCOPE = self.registration.scope;
const OURS = `coatwalk ${SCOPE} `;
const CACHE = OURS + VERSION;
const KEPT = new Set(ASSETS.map((asset) => new URL(asset, SCOPE).href));

// The new cache is filled whole or not at all, before the old one goes. "no-cache" asks the server whether a file the
// browser holds is still the same, so a half-updated mix cannot come in.
self.addEventListener("install", (event) => {
  const requests = [...KEPT].map((url) => new Request(url, { cache: "no-cache" }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(requests)));
});

self.addEventListener("activate", (event) => {
  const old = (name) => name.startsWith(OURS) && name !== CACHE;
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

// A newer version waits until the user agrees.
self.addEventListener("message", (event) => {
  if (event.data === "take-over") self.skipWaiting();
});

// The page, by whatever query or name it was opened; then the assets; nothing else is our business.
function kept(request) {
  const url = new URL(request.url);
  url.hash = "";
  if (request.mode === "navigate") {
    url.search = "";
    return url.href === SCOPE || url.href === SCOPE + "index.html" ? SCOPE : null;
  }
  return KEPT.has(url.href) ? url.href : null;
}

self.addEventListener("fetch", (event) => {
  const url = event.request.method === "GET" && kept(event.request);
  if (!url) return;
  event.respondWith(
    caches
      .open(CACHE)
      .then((cache) => cache.match(url))
      .then((found) => found ?? fetch(event.request)),
  );
});

self.addEventListener("notificationclick", (event) => {
  event.notification.close();
  const target = new URL(event.notification.data?.url ?? "./", SCOPE).href;
  event.waitUntil(
    self.clients.matchAll({ type: "window", includeUncontrolled: true }).then((windows) => {
      const open = windows.find((client) => client.url.startsWith(SCOPE));
      if (!open) return self.clients.openWindow(target);
      open.postMessage({ open: target, action: event.action });
      // A button on the notification does its work without the app coming up.
      return event.action ? undefined : open.focus();
    }),
  );
});

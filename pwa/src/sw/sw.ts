// The service worker: it keeps the app's own files and serves them, and does nothing else. A newer
// version is fetched beside the old one and waits until a page tells it to take over.
import { dropOldFiles, laterFile } from "../core/later-files";
import { cleanupOutdatedCaches, matchPrecache, precacheAndRoute } from "workbox-precaching";

declare const self: ServiceWorkerGlobalScope;
/** Every file of the app, put in by the build. */
declare const __PRECACHE__: { url: string; revision: string | null }[];
/** Files of the app that it does not need at first: the library of reckonings, further letters. */
declare const __LATER__: string[];

// Any page of the app is index.html; what comes after # is the page's own affair.
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { pathname, origin } = new URL(request.url);
  if (request.mode !== "navigate" || origin !== self.location.origin || pathname !== "/") return;
  event.respondWith(matchPrecache("/index.html").then((page) => page ?? fetch(request)));
});

// The library's own worker looks after its file itself.
self.addEventListener("fetch", (event) => {
  const { pathname, origin } = new URL(event.request.url);
  if (origin !== self.location.origin || pathname === __LIBRARY_URL__ || !__LATER__.includes(pathname)) return;
  event.respondWith(laterFile(pathname));
});

const keepLater = () => Promise.allSettled(__LATER__.map(laterFile));

// A device that has the library of reckonings gets that of a newer version together with it, before
// the newer version takes over: offline the two must fit.
self.addEventListener("install", (event) => {
  if (self.registration.active) event.waitUntil(keepLater());
});

precacheAndRoute(__PRECACHE__);
cleanupOutdatedCaches();

self.addEventListener("message", (event) => {
  if (event.data === "take over") void self.skipWaiting();
  if (event.data === "keep the rest") event.waitUntil(keepLater());
});

self.addEventListener("activate", (event) =>
  event.waitUntil(Promise.all([self.clients.claim(), dropOldFiles(__LATER__)])),
);

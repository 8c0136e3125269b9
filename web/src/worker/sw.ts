import { type Build, wanted } from "./choosing";
import { download, dropOthers, file, page, take } from "./keeping";

/** `BUILD` is written in front of this file when it is built: another build is another worker. */
declare const self: ServiceWorkerGlobalScope & { readonly BUILD: Build };

const own = self.BUILD;

self.addEventListener("install", (event) => {
  event.waitUntil(download(own));
});

// Nobody hurries this one in: a browser ends the old worker for that and may start it again meanwhile. It follows
// when the last page of the old one is closed; until then the old one shows the build that was taken.
self.addEventListener("activate", (event) => {
  event.waitUntil(dropOthers(own).then(() => self.clients.claim()));
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== self.location.origin) return;
  const what = wanted(pathname, request.mode === "navigate", own);
  if (what === null) return;
  const found = what === "page" ? page(own) : file(own, pathname);
  event.respondWith(found.then((kept) => kept ?? fetch(request)));
});

self.addEventListener("message", (event) => {
  const [port] = event.ports;
  const answer = event.data === "take" ? take(own).then(() => own.name) : Promise.resolve(own.name);
  event.waitUntil(answer.then((name) => port?.postMessage(name)));
});

// The kill switch. If a published version ever holds its makers fast (a worker that serves a
// broken app and does not let go), put this file on the host in the place of sw.js, under that
// name, take away what lies packed beside it (sw.js.br, sw.js.gz), or publish what `cargo xtask build --worker-off` lays out. Browsers ask for sw.js at the
// next visit, and this one takes over at once, drops the stored copies of the app and then itself;
// from the next load on, the page comes from the host. The record is in IndexedDB and is not
// touched, nor is a shared file that the app has not read yet. No window is reloaded.
"use strict";

self.addEventListener("install", (event) => event.waitUntil(self.skipWaiting()));
self.addEventListener("activate", (event) => event.waitUntil(switchOff()));

async function switchOff() {
  const ours = `stillwood ${new URL(self.registration.scope).pathname} `;
  const names = (await caches.keys()).filter((name) => name.startsWith(ours));
  await Promise.all(names.map((name) => caches.delete(name)));
  await self.registration.unregister();
}

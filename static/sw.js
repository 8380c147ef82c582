// Keeps one whole version of the app on the device, so that it opens without a network.
// The build puts in the version and the list of files with their digests, so these bytes change
// whenever anything does. It never touches the record, which is in IndexedDB.
"use strict";

const VERSION = "{{version}}";
const FILES = "{{files}}"; // [[path under the scope, integrity], ...]; "./" is the page itself

const SCOPE = new URL(self.registration.scope);
const OURS = `stillwood ${SCOPE.pathname} `; // other copies may live on the same host
const CACHE = OURS + VERSION;
const TURN = new URL("turn-of-this-version", SCOPE); // in a version's cache once it was in charge
const SHARED = "stillwood-shared";
const PATHS = new Set(FILES.map(([path]) => path));

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => {
  if (event.data?.type === "take-over") event.waitUntil(self.skipWaiting());
});
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (url.origin !== SCOPE.origin || !url.pathname.startsWith(SCOPE.pathname)) return;
  const path = url.pathname.slice(SCOPE.pathname.length);
  if (request.method === "POST" && path === "share") event.respondWith(receive(request));
  if (request.method !== "GET") return;
  event.respondWith(request.mode === "navigate" ? page(request, path, url.search) : file(request, path));
});

// All files or none: what is missing or not the very file that was built fails the installation,
// and the version in charge stays. Only a maker's "take over" or the last window's closing ends it.
async function install() {
  const answers = await Promise.all(FILES.map(fetched));
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(FILES.map(([path], i) => cache.put(new URL(path, SCOPE), answers[i])));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

async function fetched([path, integrity]) {
  const url = new URL(path, SCOPE);
  // Asks the host whether what the page has just loaded still holds, rather than load it twice;
  // a spoilt copy on the way is passed by.
  let response;
  try {
    response = await fetch(url, { integrity, cache: "no-cache" });
  } catch {
    response = await fetch(url, { integrity, cache: "reload" });
  }
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  // A new answer: one that was redirected may not be given to a navigation.
  const { status, statusText, headers } = response;
  return new Response(await response.arrayBuffer(), { status, statusText, headers });
}

// The version before this one stays while a window may still be running it; older ones go.
async function activate() {
  const before = [];
  const never = []; // installed, but never in charge
  for (const name of await caches.keys()) {
    if (!name.startsWith(OURS) || name === CACHE) continue;
    const turn = await (await caches.open(name)).match(TURN);
    if (turn) before.push({ name, turn: Number(await turn.text()) });
    else never.push(name);
  }
  before.sort((a, b) => b.turn - a.turn);
  const turn = (before[0]?.turn ?? 0) + 1;
  await (await caches.open(CACHE)).put(TURN, new Response(String(turn)));

  const windows = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  const gone = before.slice(windows.length ? 1 : 0).map(({ name }) => name);
  const { installing, waiting } = self.registration;
  if (!installing && !waiting) gone.push(...never);
  await Promise.all(gone.map((name) => caches.delete(name)));

  // The very first time the page that is open comes under this worker at once; never on an update.
  if (before.length === 0) await self.clients.claim();
}

async function page(request, path, search) {
  if (!PATHS.has(path) && path.includes("/")) return Response.redirect(SCOPE.href + search, 302);
  return file(request, PATHS.has(path) ? path : "./");
}

// This version's file, else (for a window of the version before) any version's, else the network.
async function file(request, path) {
  const url = new URL(path, SCOPE);
  const how = { ignoreVary: true };
  const own = await (await caches.open(CACHE)).match(url, how);
  return own ?? (await caches.match(url, how)) ?? fetch(request);
}

// A notebook shared from another app waits in a cache of its own until the app has read it.
async function receive(request) {
  try {
    const form = await request.formData();
    const files = [...form.values()].filter((value) => value instanceof File);
    if (files.length === 0) throw new Error("no file");
    const cache = await caches.open(SHARED);
    await Promise.all(files.map((file, i) => {
      const headers = { "content-type": file.type || "application/json", "x-file-name": encodeURIComponent(file.name) };
      return cache.put(new URL(`shared/${Date.now()}-${i}`, SCOPE), new Response(file, { headers }));
    }));
    return Response.redirect(new URL("./?shared", SCOPE), 303);
  } catch {
    return Response.redirect(new URL("./?shared=failed", SCOPE), 303);
  }
}

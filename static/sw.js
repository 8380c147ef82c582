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
const INTEGRITY = new Map(FILES);
const HOW = { ignoreVary: true };

// What a page can't do without. The module is the one file that is given unseen: boot.js looks at its
// bytes while it is compiled, and runs nothing of it before.
const BOOT = "{{boot.js}}".slice(2);
const MODULE = "{{stillwood-web_bg.wasm}}".slice(2);
const PAGE = "index.html"; // another name of "./"
const RESCUE = "rescue.html";
const ON_THE_HOST_ONLY = new Set("{{on-the-host-only}}");
const NEVER_SPOILT = /\.(html|js|wasm)$/; // better none of these than a damaged one

const FETCHING_LIMIT = 20 * 1000; // a yard's network may never answer
const SHARED_FILES = 20; // waiting at one time
const SHARED_BYTES = 500 * 1024 * 1024;

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => {
  if (event.data?.type === "take-over") event.waitUntil(self.skipWaiting());
  if (event.data?.type === "mend") event.waitUntil(mendAll().then((found) => event.ports[0]?.postMessage(found)));
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
  const answers = await Promise.all(FILES.map((file) => fetched(file)));
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(FILES.map(([path], i) => cache.put(new URL(path, SCOPE), answers[i])));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

async function fetched([path, integrity], signal) {
  // Asks the host whether what the page has just loaded still holds, rather than load it twice;
  // a spoilt copy on the way is passed by.
  return again([path, integrity], "no-cache", signal).catch(() => again([path, integrity], "reload", signal));
}

async function again([path, integrity], cache, signal) {
  const response = await fetch(new URL(path, SCOPE), { integrity, signal, cache });
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  // A new answer: one that was redirected may not be given to a navigation. Its bytes are unpacked.
  const { status, statusText } = response;
  const headers = new Headers(response.headers);
  for (const name of ["content-encoding", "content-length"]) headers.delete(name);
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
  if (ON_THE_HOST_ONLY.has(path)) return fetch(request);
  if (INTEGRITY.has(path) && path !== "./") return file(request, path);
  if (path !== "" && path !== PAGE) {
    // Another page of the same host, where it has one.
    const other = await fetch(request).catch(() => null);
    if (other && other.status !== 404) return other;
    if (path.includes("/")) return Response.redirect(SCOPE.href + search, 302);
  }
  const [own, boot] = await Promise.all([whole("./"), whole(BOOT)]);
  if (own && boot) return own;
  // This version is broken here and its host does not have it any more: the host's own page, if any.
  const answer = await fetch(SCOPE.href, { signal: limit() }).catch(() => null);
  if (answer?.ok && !answer.redirected) return answer;
  return (await whole(RESCUE)) ?? lastWord();
}

// This version's file, else (for a window of the version before) any version's, else the network.
async function file(request, path) {
  const url = new URL(path, SCOPE);
  if (!INTEGRITY.has(path)) return (await caches.match(url, HOW)) ?? fetch(request);
  if (path === MODULE) {
    const kept = await (await caches.open(CACHE)).match(url, HOW);
    if (kept) return kept;
  }
  const found = await whole(path);
  if (found) return found;
  const spoilt = NEVER_SPOILT.test(path) ? undefined : await caches.match(url, HOW);
  return spoilt ?? Response.error();
}

// A file of this version whose bytes are those that were built, fetched anew where they were not.
async function whole(path) {
  return (await kept(path)) ?? (await mend(path).catch(() => undefined));
}

// The same, only as it is kept here.
async function kept(path) {
  const found = await (await caches.open(CACHE)).match(new URL(path, SCOPE), HOW);
  if (!found) return undefined;
  const bytes = await found.arrayBuffer();
  const wanted = INTEGRITY.get(path);
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-384", bytes));
  if (wanted !== "sha384-" + btoa(String.fromCharCode(...digest))) return undefined;
  const { status, statusText, headers } = found;
  return new Response(bytes, { status, statusText, headers });
}

async function mend(path) {
  const file = [path, INTEGRITY.get(path)];
  // Without a network the browser's own store may still have it.
  const answer = await fetched(file, limit()).catch(() => again(file, "force-cache", limit()));
  const copy = answer.clone();
  // A full device is no reason to keep back what has just come.
  await (await caches.open(CACHE)).put(new URL(path, SCOPE), copy).catch((error) => console.warn(path, error));
  return answer;
}

// Looks at every file that is kept; tells what was damaged or gone, and what of it was fetched anew.
async function mendAll() {
  const damaged = [];
  for (const [path] of FILES) {
    if (!(await kept(path).catch(() => undefined))) damaged.push(path);
  }
  await Promise.allSettled(damaged.map(mend));
  const mended = [];
  for (const path of damaged) {
    if (await kept(path).catch(() => undefined)) mended.push(path);
  }
  return { version: VERSION, damaged, mended };
}

function limit() {
  return AbortSignal.timeout?.(FETCHING_LIMIT);
}

// Where not even the page that saves the record is whole.
function lastWord() {
  const text = "<!doctype html><html lang=en><meta charset=utf-8><title>Stillwood</title>" +
    "<h1>Stillwood could not open</h1><p>Its own files on this device are damaged or gone, and there is no network to " +
    "fetch them anew. Your record is not touched. Open this page again where there is a network; do not clear the " +
    "browser's data for this site.</p></html>";
  const headers = { "content-type": "text/html; charset=utf-8", "content-security-policy": "default-src 'none'" };
  return new Response(text, { status: 503, headers });
}

// A record shared from another app waits in a cache of its own until the app has read it, and the app
// only shows what is in it: nothing is added before the maker presses for it. What another website sends
// is refused where the browser tells that it does.
async function receive(request) {
  const back = (how) => Response.redirect(new URL(`./?shared${how}`, SCOPE), 303);
  const from = sender(request);
  if (from === "refused") return back("=refused");
  try {
    const form = await request.formData();
    const files = [...form.values()].filter((value) => value instanceof File);
    if (files.length === 0) throw new Error("no file");
    const cache = await caches.open(SHARED);
    const waiting = await cache.keys();
    const bytes = files.reduce((sum, file) => sum + file.size, await waitingBytes(cache, waiting));
    if (waiting.length + files.length > SHARED_FILES || bytes > SHARED_BYTES) return back("=too-much");
    await Promise.all(files.map((file, i) => {
      const headers = {
        "content-type": file.type || "application/json",
        "x-file-name": encodeURIComponent(file.name),
        "x-file-size": String(file.size),
        "x-shared-from": from,
      };
      return cache.put(new URL(`shared/${Date.now()}-${i}`, SCOPE), new Response(file, { headers }));
    }));
    return back("");
  } catch {
    return back("=failed");
  }
}

async function waitingBytes(cache, requests) {
  const sizes = requests.map(async (request) => Number((await cache.match(request))?.headers.get("x-file-size")) || 0);
  return (await Promise.all(sizes)).reduce((sum, size) => sum + size, 0);
}

// Who sends: the system, for another app, is no site at all, or its origin is "null", which a website
// can bring about as well; so that is taken, shown as what it is, and waits like the rest.
function sender(request) {
  const site = request.headers.get("sec-fetch-site");
  const origin = request.headers.get("origin") ?? (request.referrer.startsWith("http") ? new URL(request.referrer).origin : null);
  if (site === "cross-site" || site === "same-site") return "refused";
  if (origin !== null && origin !== "null" && origin !== SCOPE.origin) return "refused";
  if (request.destination === "iframe" || request.destination === "frame") return "refused";
  if (origin === SCOPE.origin) return "here";
  return site === "none" ? "app" : "unknown";
}

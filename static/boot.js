// Starts the app, says so plainly when that fails, has damaged files fetched anew, and keeps the
// service worker up to date. It must stay free of anything the app could do itself: when the app is
// broken, this still runs.

const MODULE = new URL("{{stillwood-web_bg.wasm}}", import.meta.url);
const MODULE_DIGEST = "{{integrity:stillwood-web_bg.wasm}}";
const WORKER = new URL("./sw.js", import.meta.url);
const RESCUE = new URL("./rescue.html", import.meta.url);
const BETWEEN_CHECKS = 15 * 60 * 1000;
const SLOW = 15 * 1000; // by then the first screen stands, or the maker is told what can be done
const ANSWER = 30 * 1000; // for the worker to look at all files
const ONCE_IN = 60 * 1000; // a page that was loaded anew and fails again is not loaded anew again

const SENTENCES = {
  en: {
    damagedFile: (name) => `a file of the app is damaged: ${name}`,
    wasMended: (names) => `A file of Stillwood on this device was damaged (${names}). It was fetched anew and counts from the next start on. Your record is not touched.`,
    notMended: (names) => `A file of Stillwood on this device is damaged (${names}), and it could not be fetched anew: is there a network? Your record is not touched. Save it as a file, then open Stillwood once with a network.`,
    putAway: "Put this away",
    looking: "Looking whether a file of Stillwood is damaged…",
    notLookedAt: (why) => `Its files could not be looked at: ${why}`,
    openingAgain: "A damaged file was fetched anew. Opening again…",
    openingNewer: "A newer version is there. Opening it…",
    damagedOrGone: (names) => `A file of Stillwood on this device is damaged or gone (${names}), and it could not be fetched anew. Open Stillwood again where there is a network: it mends itself then.`,
    filesWhole: "The files of Stillwood on this device are whole.",
    needsNetwork: "Open Stillwood again where there is a network.",
    couldNotOpen: "Stillwood could not open",
    nothingLost: "Nothing you have stored is lost: it stays on this device.",
    whatToDo: "Reload the page. If that does not help, save the record as a file first; then close every window of Stillwood and open it again, or bring the browser up to date.",
    reload: "Reload",
    wentWrong: (why) => `What went wrong: ${why}`,
    slow: "This takes longer than it should. A long record may need a while; nothing you have stored is lost.",
    saveRecord: "Save the record as a file",
  },
  de: {
    damagedFile: (name) => `eine Datei der App ist beschädigt: ${name}`,
    wasMended: (names) => `Eine Datei von Stillwood auf diesem Gerät war beschädigt (${names}). Sie wurde neu geholt und gilt ab dem nächsten Start. Deine Aufzeichnung ist unberührt.`,
    notMended: (names) => `Eine Datei von Stillwood auf diesem Gerät ist beschädigt (${names}) und konnte nicht neu geholt werden: Ist ein Netz da? Deine Aufzeichnung ist unberührt. Sichere sie als Datei, dann öffne Stillwood einmal mit Netz.`,
    putAway: "Ausblenden",
    looking: "Wird geprüft, ob eine Datei von Stillwood beschädigt ist …",
    notLookedAt: (why) => `Die Dateien konnten nicht geprüft werden: ${why}`,
    openingAgain: "Eine beschädigte Datei wurde neu geholt. Wird wieder geöffnet …",
    openingNewer: "Eine neuere Version ist da. Sie wird geöffnet …",
    damagedOrGone: (names) => `Eine Datei von Stillwood auf diesem Gerät ist beschädigt oder fehlt (${names}) und konnte nicht neu geholt werden. Öffne Stillwood wieder, wo ein Netz ist: Dann repariert es sich selbst.`,
    filesWhole: "Die Dateien von Stillwood auf diesem Gerät sind unbeschädigt.",
    needsNetwork: "Öffne Stillwood wieder, wo ein Netz ist.",
    couldNotOpen: "Stillwood ließ sich nicht öffnen",
    nothingLost: "Nichts Gesichertes ist verloren: Es bleibt auf diesem Gerät.",
    whatToDo: "Lade die Seite neu. Hilft das nicht, sichere zuerst die Aufzeichnung als Datei; dann schließe alle Fenster von Stillwood und öffne es wieder, oder bring den Browser auf den neuesten Stand.",
    reload: "Neu laden",
    wentWrong: (why) => `Was schiefging: ${why}`,
    slow: "Das dauert länger, als es sollte. Eine lange Aufzeichnung braucht vielleicht eine Weile; nichts Gesichertes ist verloren.",
    saveRecord: "Die Aufzeichnung als Datei sichern",
  },
};
const say = SENTENCES[document.documentElement.lang] ?? SENTENCES.en; // as language.js found it

const app = document.getElementById("app") ?? document.body;
let failed = false;
const shown = showTheStart();

const slow = setTimeout(sayItIsSlow, SLOW);
addEventListener("unhandledrejection", ({ reason }) => {
  // A fault of the app itself while it starts; later ones it tells by itself.
  if (reason instanceof WebAssembly.RuntimeError && isOpening()) fail(reason);
});

try {
  if (!navigator.serviceWorker?.controller) await shown.then(painted);
  const [glue, module] = await Promise.all([import("{{stillwood-web.js}}"), compiled()]);
  await glue.default({ module_or_path: module });
} catch (error) {
  fail(error);
}

// After the start, so that storing the files for later does not slow down the first screen.
if ("serviceWorker" in navigator) {
  keepUpToDate().catch((error) => console.warn("no offline copy:", error));
  if (!failed) setTimeout(() => lookAtAll().catch(console.warn), 3000);
}

// The module, compiled while its bytes are looked at; not one instruction of it runs before they are known to be those
// that were built.
async function compiled() {
  const kept = await globalThis.keptModule; // language.js has asked for it
  delete globalThis.keptModule;
  if (kept) {
    const [whole, module] = await Promise.allSettled([isWhole(kept), WebAssembly.compile(kept)]);
    if (whole.value && module.value) return module.value;
  }
  let response = await fetch(MODULE);
  if (!response.ok) throw new Error(`${MODULE.pathname}: ${response.status}`);
  const copy = response.clone().arrayBuffer();
  const streamed = WebAssembly.compileStreaming?.(response) ?? Promise.reject(new Error("not streamed"));
  streamed.catch(() => {}); // judged below
  let bytes = await copy;
  if (await isWhole(bytes)) {
    // A host that gives it another type is no reason to stop.
    return streamed.catch(() => WebAssembly.compile(bytes));
  }
  if (!navigator.serviceWorker?.controller) {
    // A spoilt copy on the way, or in the browser's own store.
    response = await fetch(MODULE, { cache: "reload" });
    bytes = await response.arrayBuffer();
    if (await isWhole(bytes)) return WebAssembly.compile(bytes);
  }
  const damaged = new Error(say.damagedFile(MODULE.pathname.split("/").pop()));
  throw Object.assign(damaged, { isDamage: true });
}

async function isWhole(bytes) {
  if (!crypto.subtle) return true; // an address without HTTPS: nothing is stored there anyway
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return MODULE_DIGEST === "sha256-" + btoa(String.fromCharCode(...digest));
}

// What stands there until the app draws its first screen.
function opening() {
  return app.querySelector(".opening");
}

function isOpening() {
  return opening() !== null;
}

// The page comes with a neutral frame. Where nothing is recorded yet, the start's own text takes its place before the
// app has come. It is no more than a picture: what can't be known is taken for a record.
async function showTheStart() {
  const isStart = location.hash.length <= 2 && (await nothingIsRecorded());
  if (!isStart || !isOpening()) return;
  app.className = "bare";
  app.replaceChildren(document.getElementById("first-start").content.cloneNode(true));
}

// Comes back when what stands in the page is painted, or would be if the page were seen.
async function painted() {
  await new Promise((go) => {
    setTimeout(go, 300);
    requestAnimationFrame(() => setTimeout(go));
  });
}

// As the app noted when it was last open, or there is no database of it. The record is not opened for that.
async function nothingIsRecorded() {
  try {
    if (localStorage.getItem("demo")) return false;
    if (localStorage.getItem("nothing-recorded")) return true;
    const all = await indexedDB.databases();
    return !all.some(({ name }) => name === "stillwood");
  } catch {
    return false;
  }
}

async function keepUpToDate() {
  const registration = await navigator.serviceWorker.register(WORKER, { updateViaCache: "none" });
  let last = Date.now();
  const check = () => {
    const now = Date.now();
    if (document.visibilityState !== "visible" || Math.abs(now - last) < BETWEEN_CHECKS) return;
    last = now;
    registration.update().catch(() => {}); // no network: next time
  };
  for (const when of ["focus", "pageshow", "online"]) addEventListener(when, check);
  document.addEventListener("visibilitychange", check);
}

// Has the worker look at every file that it keeps, and fetch anew what is damaged or gone. Null where
// there is no worker of this page's version.
async function mend() {
  const worker = (await navigator.serviceWorker?.getRegistration())?.active;
  if (!worker) return null;
  const answer = await new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => resolve(data);
    worker.postMessage({ type: "mend" }, [port2]);
    setTimeout(() => resolve(null), ANSWER);
  });
  const version = document.querySelector("meta[name=build]")?.content;
  return answer?.version === version ? answer : null;
}

// What the page did not need for its start is looked at when the first screen stands.
async function lookAtAll() {
  const found = await mend();
  if (!found || found.damaged.length === 0) return;
  const names = found.damaged.join(", ");
  if (found.damaged.length === found.mended.length) {
    tell(say.wasMended(names));
  } else {
    tell(say.notMended(names), saveLink());
    addEventListener("online", () => lookAtAll().catch(console.warn), { once: true });
  }
}

// A word above the first screen, which can be put away.
function tell(text, ...more) {
  document.getElementById("shell-note")?.remove();
  const note = line("div", "");
  note.id = "shell-note";
  note.className = "note doubt";
  note.setAttribute("role", "status");
  const away = button(say.putAway, () => note.remove());
  note.append(line("p", text), ...more, away);
  document.body.prepend(note);
}

// The start failed: says so at once, then looks for what can be mended.
function fail(error) {
  if (failed) return;
  failed = true;
  clearTimeout(slow);
  console.error(error);
  const state = line("p", say.looking);
  sayItFailed(error, state);
  mendAndReload(error?.isDamage).then(
    (said) => { state.textContent = said; },
    (why) => { state.textContent = say.notLookedAt(why?.message ?? why); },
  );
}

// What was mended, or a newer version, is tried at once, but only once. A damaged file that is whole by now was mended
// for another window, or for the page before this one.
async function mendAndReload(isDamage) {
  const found = await mend();
  const damaged = (found?.damaged ?? []).filter((path) => !found.mended.includes(path));
  const isMended = found?.mended.length > 0 || (isDamage && found && damaged.length === 0);
  if (isMended && mayReload()) {
    location.reload();
    return say.openingAgain;
  }
  if ((await newerVersion()) && mayReload()) {
    await reload();
    return say.openingNewer;
  }
  if (damaged.length > 0) return say.damagedOrGone(damaged.join(", "));
  return found ? say.filesWhole : say.needsNetwork;
}

function mayReload() {
  try {
    const last = Number(sessionStorage.getItem("loaded-anew"));
    const now = Date.now();
    if (last && Math.abs(now - last) < ONCE_IN) return false;
    sessionStorage.setItem("loaded-anew", String(now));
    return true;
  } catch {
    return false; // without a memory it might never end
  }
}

async function newerVersion() {
  const registration = await navigator.serviceWorker?.getRegistration();
  if (!registration) return false;
  await registration.update().catch(() => {}); // no network
  const coming = registration.installing;
  if (coming) await new Promise((end) => coming.addEventListener("statechange", end, { once: true }));
  return Boolean(registration.waiting);
}

// On reload a version that is waiting takes over: it may be the one that mends what failed here.
async function reload() {
  const waiting = (await navigator.serviceWorker?.getRegistration())?.waiting;
  if (!waiting) return location.reload();
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting.postMessage({ type: "take-over" });
  setTimeout(() => location.reload(), 3000);
}

function sayItFailed(error, state) {
  const box = document.createElement("main");
  box.setAttribute("role", "alert");
  box.append(
    line("h1", say.couldNotOpen),
    line("p", say.nothingLost),
    line("p", say.whatToDo),
    button(say.reload, () => reload().catch(() => location.reload())),
    line("p", ""),
    saveLink(),
    line("p", say.wentWrong(error?.message ?? error)),
    state, // last: it grows when the files were looked at, and nothing above may move under a thumb
  );
  app.replaceChildren(box);
}

// The start neither ends nor fails. What is said goes when the first screen comes after all.
function sayItIsSlow() {
  if (!isOpening()) return;
  opening().querySelector(".late")?.remove(); // said by what follows
  const box = line("div", "");
  box.setAttribute("role", "alert");
  box.append(
    line("p", say.slow),
    button(say.reload, () => reload().catch(() => location.reload())),
    line("p", ""),
    saveLink(),
  );
  opening().append(box);
}

function line(tag, text) {
  return Object.assign(document.createElement(tag), { textContent: text });
}

function button(name, press) {
  const made = line("button", name);
  made.type = "button";
  made.addEventListener("click", press);
  return made;
}

// The page that reads the record without the app.
function saveLink() {
  const link = line("a", say.saveRecord);
  link.href = RESCUE.href;
  link.className = "button";
  return link;
}

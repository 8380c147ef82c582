// Starts the app, says so plainly when that fails, and keeps the service worker up to date.
// It must stay free of anything the app could do itself: when the app is broken, this still runs.

const MODULE = new URL("{{stillwood-web_bg.wasm}}", import.meta.url);
const WORKER = new URL("./sw.js", import.meta.url);
const BETWEEN_CHECKS = 15 * 60 * 1000;

try {
  const glue = await import("{{stillwood-web.js}}");
  await glue.default({ module_or_path: MODULE });
} catch (error) {
  console.error(error);
  sayItFailed(error);
}

// After the start, so that storing the files for later does not slow down the first screen.
if ("serviceWorker" in navigator) {
  keepUpToDate().catch((error) => console.warn("no offline copy:", error));
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

// On reload a version that is waiting takes over: it may be the one that mends what failed here.
async function reload() {
  const waiting = (await navigator.serviceWorker?.getRegistration())?.waiting;
  if (!waiting) return location.reload();
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  waiting.postMessage({ type: "take-over" });
  setTimeout(() => location.reload(), 3000);
}

function sayItFailed(error) {
  const line = (tag, text) => Object.assign(document.createElement(tag), { textContent: text });
  const button = line("button", "Reload");
  button.type = "button";
  button.addEventListener("click", () => reload().catch(() => location.reload()));
  const box = document.createElement("main");
  box.setAttribute("role", "alert");
  box.append(
    line("h1", "Stillwood could not open"),
    line("p", "Nothing you have stored is lost: it stays on this device."),
    line("p", "Reload the page. If that does not help, close every window of Stillwood and open it again, or bring the browser up to date."),
    button,
    line("p", "What went wrong: " + (error?.message ?? error)),
  );
  const app = document.getElementById("app") ?? document.body;
  app.replaceChildren(box);
}

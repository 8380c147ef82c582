// What has to be known before anything is painted. First, in which language the pages outside the app speak: the one
// that the maker chose, as the app noted it, else the first of the browser's that there is, else English. What stands in
// a page in the other one is not shown (app.css).
{
  const THERE_ARE = ["en", "de"];
  let chosen = null;
  try {
    chosen = localStorage.getItem("language");
  } catch {} // no notes: as the browser has it
  const wanted = [chosen, ...(navigator.languages ?? [])].map((tag) => String(tag).toLowerCase().split(/[-_]/)[0]);
  document.documentElement.lang = wanted.find((tag) => THERE_ARE.includes(tag)) ?? "en";
}

// The module that is kept on the device is read at once, past the worker, which would take longer to hand it over. boot.js
// looks whether it is the one that was built. Over a line what is painted first comes first.
{
  const { module } = document.currentScript.dataset;
  if (module && navigator.serviceWorker?.controller) {
    const kept = caches.match(module, { ignoreVary: true }).then((answer) => answer?.arrayBuffer());
    globalThis.keptModule = kept.catch(() => undefined); // then the worker is asked
  }
}

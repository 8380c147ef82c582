// Notes when the first screen is drawn, in milliseconds from the start of the navigation: the app's own screen stands
// in the page in place of the frame that the page came with, and is painted.
new MutationObserver((_, watching) => {
  if (!document.querySelector("#app #body, #app #title") || document.querySelector("#app .opening")) return;
  watching.disconnect();
  requestAnimationFrame(() => {
    const painted = new MessageChannel();
    painted.port1.onmessage = () => { window.__drawn = performance.now(); };
    painted.port2.postMessage(0);
  });
}).observe(document, { childList: true, subtree: true });
// Notes how long a file takes: from its choice until it has been looked at and what is new in it is shown, and from
// the key that brings it in until that is done and said.
window.__import = {};
const noted = (css, name) => {
  const watching = new MutationObserver(() => {
    if (!document.querySelector(css)) return;
    watching.disconnect();
    window.__import[name] = performance.now() - window.__import.from;
  });
  watching.observe(document, { childList: true, subtree: true });
};
addEventListener("change", (event) => {
  if (event.target.id !== "chosen-file") return;
  window.__file = event.target.files[0];
  window.__import.from = performance.now();
  noted("#body .incoming .decide .key.main", "looked");
}, true);
addEventListener("click", (event) => {
  if (!event.target.closest?.("#body .incoming .decide .key.main")) return;
  window.__import.from = performance.now();
  noted("#brought-in p", "added");
}, true);

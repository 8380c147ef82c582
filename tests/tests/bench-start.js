// Notes when the first screen with the record's visits is drawn, in milliseconds from the start of
// the navigation: the list is in the page, the frame that holds it is painted.
new MutationObserver((_, watching) => {
  if (!document.querySelector("#visits a")) return;
  watching.disconnect();
  requestAnimationFrame(() => {
    const painted = new MessageChannel();
    painted.port1.onmessage = () => { window.__drawn = performance.now(); };
    painted.port2.postMessage(0);
  });
}).observe(document, { childList: true, subtree: true });
// Notes how long a file takes: from its choice until it has been looked at and what is new in it is
// shown, and from "Add what is whole" until it is kept and said so.
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
  if (event.target.id !== "import-file") return;
  window.__file = event.target.files[0];
  window.__import.from = performance.now();
  noted("#merge", "looked");
}, true);
addEventListener("click", (event) => {
  if (!event.target.closest?.("#merge")) return;
  window.__import.from = performance.now();
  noted("#merged p", "added");
}, true);

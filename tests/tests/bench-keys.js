// Measures what one keystroke costs the page. "Handling": from the event's first listener until its last one, after
// which all that it set off at once is done (a listener's microtasks run before the next listener). "Drawing": from
// the start of the next animation frame until a message posted in it arrives, which is after style, layout and paint.
// And all of it, with the wait for the frame in between, as the maker sees it.
window.__costs = [];
window.__followed = [];
window.__measured?.abort();
window.__measured = new AbortController();
const { signal } = window.__measured;
const kind = arguments[0];
const inside = arguments[1];
let began = 0;
window.addEventListener(kind, () => { began = performance.now(); }, { capture: true, signal });
window.addEventListener(
  kind,
  (event) => {
    if (!event.target.closest?.(inside)) return;
    const [start, handling] = [began, performance.now() - began];
    requestAnimationFrame(() => {
      const frame = performance.now();
      const painted = new MessageChannel();
      painted.port1.onmessage = () => {
        const now = performance.now();
        window.__costs.push([handling, now - frame, now - start]);
        window.__noted?.();
      };
      painted.port2.postMessage(0);
    });
  },
  { signal },
);
// From the key until the drawing that follows it is painted: the drawing changes in a frame of its own, and a message
// posted there arrives after it.
const drawing = document.querySelector('#drawing');
if (drawing) {
  let follows = 0;
  const seen = new MutationObserver(() => {
    if (follows === began) return;
    const start = (follows = began);
    const painted = new MessageChannel();
    painted.port1.onmessage = () => {
      window.__followed.push(performance.now() - start);
    };
    painted.port2.postMessage(0);
  });
  seen.observe(drawing, { subtree: true, childList: true, characterData: true, attributes: true });
  signal.addEventListener('abort', () => seen.disconnect());
}

// Measures what one keystroke costs the page. "Handling": from the event's first listener until all
// that it set off at once is done (a message posted in that listener comes after the handlers and the
// microtasks). "Drawing": from the start of the next animation frame until a message posted in it
// arrives, which is after style, layout and paint. The wait for the frame in between is no work and is
// left out.
window.__costs = [];
window.__measured?.abort();
window.__measured = new AbortController();
const kind = arguments[0];
const inside = arguments[1];
window.addEventListener(
  kind,
  (event) => {
    if (!event.target.closest?.(inside)) return;
    const began = performance.now();
    let handled = 0;
    const after = new MessageChannel();
    after.port1.onmessage = () => { handled ||= performance.now(); };
    after.port2.postMessage(0);
    requestAnimationFrame(() => {
      const frame = performance.now();
      handled ||= frame;
      const painted = new MessageChannel();
      painted.port1.onmessage = () => {
        window.__costs.push([handled - began, performance.now() - frame]);
        window.__noted?.();
      };
      painted.port2.postMessage(0);
    });
  },
  { capture: true, signal: window.__measured.signal },
);

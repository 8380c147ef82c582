// Goes to another screen and notes how long it takes until a part of it is painted.
const [hash, css] = arguments;
const from = performance.now();
const watching = new MutationObserver(() => {
  if (!document.querySelector(css)) return;
  watching.disconnect();
  requestAnimationFrame(() => {
    const painted = new MessageChannel();
    painted.port1.onmessage = () => done(performance.now() - from);
    painted.port2.postMessage(0);
  });
});
watching.observe(document, { childList: true, subtree: true });
location.hash = hash;

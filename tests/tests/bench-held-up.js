// Begins something by `go`, and notes until `there` holds how long it took and for how long the page was held up in one
// go: between two messages that it posts to itself one after the other, nothing of the page can be pressed or painted.
const [go, there] = arguments;
const holds = new Function(`return (${there})`);
let last = performance.now();
let longest = 0;
let ended = 0;
const turn = new MessageChannel();
turn.port1.onmessage = () => {
  const now = performance.now();
  longest = Math.max(longest, now - last);
  last = now;
  if (ended && now > ended + 50) return done([ended - from, longest]);
  if (!ended && holds()) {
    requestAnimationFrame(() => {
      const painted = new MessageChannel();
      painted.port1.onmessage = () => { ended ||= performance.now(); };
      painted.port2.postMessage(0);
    });
  }
  // Between frames the browser has its own work: it is let in.
  setTimeout(() => turn.port2.postMessage(0), 0);
};
const from = performance.now();
new Function(go)();
turn.port2.postMessage(0);

// Judges all planks under every spec that there is to choose, three times round. Of each choice: how long
// the judging took, which is done when the event is, and how long until the table with it is painted.
const select = document.querySelector("#judged-by");
const options = [...select.options].map((option) => option.value);
const costs = [];
const painted = () => new Promise((done) => {
  requestAnimationFrame(() => {
    const after = new MessageChannel();
    after.port1.onmessage = done;
    after.port2.postMessage(0);
  });
});
(async () => {
  for (let turn = 0; turn < 3; turn += 1) {
    for (const value of options) {
      select.value = value;
      const from = performance.now();
      select.dispatchEvent(new Event("change", { bubbles: true }));
      const judged = performance.now() - from;
      await painted();
      costs.push([judged, performance.now() - from]);
    }
  }
  done(costs);
})();

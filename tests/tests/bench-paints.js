// Notes when something is first painted, and the largest of what is painted: its time and its text.
window.__paints = { first: 0, largest: 0, what: "" };
new PerformanceObserver((list) => {
  for (const entry of list.getEntries()) {
    if (entry.name === "first-contentful-paint") window.__paints.first = entry.startTime;
  }
}).observe({ type: "paint", buffered: true });
new PerformanceObserver((list) => {
  for (const entry of list.getEntries()) {
    window.__paints.largest = entry.startTime;
    window.__paints.what = (entry.element?.textContent ?? entry.url).trim().slice(0, 60);
  }
}).observe({ type: "largest-contentful-paint", buffered: true });

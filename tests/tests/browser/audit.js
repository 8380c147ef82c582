// What a thumb and an eye need of the screen that is open: targets of 48 px, nothing wider than the
// window, no text that is cut off, no number that is broken. Returns a list of breaches.
//
// A figure that opens how it was worked out stands in its line of text and is as high as that; the dense list of a
// laptop has rows of 40 px.
const IN_A_LINE = ".figure, .plank-table *";
const shown = (e) => e.checkVisibility({ opacityProperty: true, visibilityProperty: true });
const name = (e) =>
  `${e.tagName.toLowerCase()}${e.id ? "#" + e.id : ""} “${(e.innerText || e.getAttribute("aria-label") || e.value || "").trim().slice(0, 40)}”`;
const breaches = [];
const LEAST = 48;
// The window grows with what is too wide on a phone; this does not.
const width = document.documentElement.clientWidth;
for (const e of document.querySelectorAll("button, a[href], input, select, textarea, summary")) {
  if (!shown(e) || e.matches(IN_A_LINE)) continue;
  const r = e.getBoundingClientRect();
  if (r.width === 0 && r.height === 0) continue;
  // Half a pixel for what the browser rounds.
  if (r.width < LEAST - 0.5 || r.height < LEAST - 0.5) {
    breaches.push(`${name(e)} is ${Math.round(r.width)} × ${Math.round(r.height)} px`);
  }
}
if (document.documentElement.scrollWidth > width + 1) {
  const wide = [...document.querySelectorAll("#app *")]
    .filter((e) => shown(e) && !e.closest("svg")?.contains(e.parentElement) && e.getBoundingClientRect().right > width + 1 && !e.closest(".scroll"))
    .slice(0, 3)
    .map(name);
  breaches.push(`the page is ${document.documentElement.scrollWidth} px wide in ${width}: ${wide.join("; ")}`);
}
for (const e of document.querySelectorAll("button, a.key, a.item, h1, label, .field .name, dt, dd")) {
  if (!shown(e)) continue;
  // What is written, not the larger area in which a figure may be touched.
  const written = document.createRange();
  written.selectNodeContents(e);
  const [words, box] = [written.getBoundingClientRect(), e.getBoundingClientRect()];
  if (e.scrollWidth > e.clientWidth + 1 && (words.right > box.right + 1 || words.left < box.left - 1)) {
    breaches.push(`${name(e)} has its words cut off`);
  }
}
// A number is read at one glance: it is never broken into two lines.
for (const e of document.querySelectorAll("#app *")) {
  const text = e.firstChild;
  if (text?.nodeType !== Node.TEXT_NODE || !/^\d+([.,]\d+)?$/.test(text.data.trim()) || !shown(e)) continue;
  const digits = document.createRange();
  digits.selectNodeContents(text);
  if (new Set([...digits.getClientRects()].map((r) => Math.round(r.top))).size > 1) {
    breaches.push(`${name(e)} is broken into lines`);
  }
}
return breaches;

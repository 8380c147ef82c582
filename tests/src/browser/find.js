// Finds the one visible element that is meant, brings it into view as a thumb would, and says where
// to touch it and whether anything lies over that place.
const [css, text, how] = arguments;
const norm = (s) => (s ?? "").replace(/\s+/g, " ").trim();
const shown = (e) =>
  e.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && e.getClientRects().length > 0;
const named = (e) => {
  if (text === null) return true;
  const names = [norm(e.textContent), norm(e.getAttribute("aria-label"))];
  return names.some((name) => (how === "exact" ? name === text : name.includes(text)));
};
const found = [...document.querySelectorAll(css)].filter(shown).filter(named);
if (found.length === 0) return { why: "nothing of that name is on the screen" };
if (found.length > 1 && text !== null) return { why: `${found.length} of that name are on the screen` };
const e = found[0];
if (e.disabled) return { why: "it is disabled" };
const place = () => {
  const r = e.getBoundingClientRect();
  const [x, y] = [r.x + r.width / 2, r.y + r.height / 2];
  const hit = document.elementFromPoint(x, y);
  const free = hit !== null && (e === hit || e.contains(hit) || hit.contains(e) && hit.tagName === "LABEL");
  return { x, y, free, over: hit ? `${hit.tagName} ${hit.className}` : "outside the window" };
};
let at = place();
for (const block of ["nearest", "center", "start", "end"]) {
  if (at.free) break;
  e.scrollIntoView({ block, inline: "nearest", behavior: "instant" });
  at = place();
}
if (!at.free) {
  // Under the bar on top or the keys below: a little further up or down.
  for (const by of [-150, 300, -450]) {
    window.scrollBy({ top: by, behavior: "instant" });
    at = place();
    if (at.free) break;
  }
}
return at.free ? { x: at.x, y: at.y } : { why: `covered by ${at.over}` };

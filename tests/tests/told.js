// What the open screen shows that it does not tell: numbers with a unit that are neither a figure to press
// nor given by the maker, and figures whose telling lacks a formula or sentence, a source or numbers.
//
// A number with a unit may stand untold only where it is
// - given: typed or set by the maker (`.given`), or read back beside a field;
// - part of a link or a button, which lead to the place where it is told;
// - in a drawing or its caption, which stand beside the figures that they draw;
// - in the range and source of an answer;
// - in a name: a label, a heading, the name of a fact or of a criterion (“density at 12 %”).
// A bare number without a unit is a mark, a day or a count of what stands in the list: it tells itself.
const UNTOLD =
  "button, a, .given, label, input, select, textarea, .field, .measure, .basis, svg, figcaption, dialog, .toast, h1, h2, h3, dt, caption, th";
const UNIT = /(^|[^\w-])[−+±≥≤≈]?\d[\d.,]*(\s\d+\/\d+|\/\d+)?\s?(mm|cm|m³|kg\/m³|kg|g|lb|in|ft|bf|%|°|GPa|N m²|days|EUR)(?![\w³])/;
// Figures are pressed in portions, from the one that is asked for on: a slow machine has its time.
const from = arguments[0];
const PORTION = 12;
// What looks like a number with a unit and is a name.
const NAMES = /density at 12 %|1 in n/gi;
const shown = (e) => e.checkVisibility({ opacityProperty: true, visibilityProperty: true });
const frame = () => new Promise((next) => requestAnimationFrame(next));
const until = async (holds) => {
  for (let at = 0; at < 600 && !holds(); at += 1) await frame();
  return holds();
};
const look = async () => {
  const missing = [];
  const walker = document.createTreeWalker(document.querySelector("#app"), NodeFilter.SHOW_TEXT);
  const seen = new Set();
  while (walker.nextNode()) {
    const within = walker.currentNode.parentElement;
    if (!within || within.closest(UNTOLD) || !shown(within) || seen.has(within)) continue;
    seen.add(within);
    // A number and its unit may be two texts of one line.
    const own = [...within.childNodes].filter((n) => n.nodeType === 3).map((n) => n.data).join("");
    if (UNIT.test(own.replace(NAMES, ""))) missing.push(`not told: “${own.trim().slice(0, 90)}”`);
  }
  const dialog = document.querySelector("dialog.told");
  const figures = [...document.querySelectorAll("button.figure")].filter(shown);
  for (const figure of figures.slice(from, from + PORTION)) {
    const name = figure.getAttribute("aria-label");
    figure.click();
    if (!(await until(() => dialog.open && dialog.querySelector("#told-name")))) {
      missing.push(`nothing opens: “${name}”`);
      continue;
    }
    const says = dialog.innerText;
    const told = dialog.querySelector(".formula, p:not(.big-figure):not(.small)");
    const numbers = [...dialog.querySelectorAll(".formula, p:not(.big-figure):not(.small)")].some((e) => /\d/.test(e.innerText));
    if (!told) missing.push(`neither formula nor sentence: “${name}”`);
    if (!numbers) missing.push(`no numbers: “${name}”`);
    if (!says.includes("Source: ")) missing.push(`no source: “${name}”`);
    if (/NaN|undefined|¤/.test(says)) missing.push(`nonsense: “${name}”: ${says.slice(0, 200)}`);
    dialog.querySelector("#told-close").click();
    if (!(await until(() => !dialog.open))) missing.push(`stays open: “${name}”`);
  }
  return { figures: figures.length, pressed: from + PORTION, missing: [...new Set(missing)] };
};
look().then(done, (why) => done({ figures: 0, missing: [String(why)] }));

// Several forms may be half typed on one screen: opens one after the other until the texts stand in fields.
const [texts] = arguments;
const pause = (ms) => new Promise((go) => setTimeout(go, ms));
const stand = () => {
  const held = [...document.querySelectorAll("main input, main textarea")].map((e) => e.value);
  return texts.every((text) => held.includes(text));
};
const comes = async (ms) => {
  for (const end = performance.now() + ms; performance.now() < end; await pause(20)) if (stand()) return true;
  return stand();
};
const closed = () =>
  [...document.querySelectorAll("main button[aria-expanded='false'], #doings button, #to-check button.moved")]
    .filter((e) => e.checkVisibility() && e.id !== "something-else");
(async () => {
  if (await comes(700)) return;
  document.querySelectorAll("main details").forEach((e) => (e.open = true));
  if (await comes(300)) return;
  const tried = new Set();
  const name = (button) => `${button.closest("li")?.innerText.slice(0, 20)} ${button.innerText}`;
  for (let turn = 0; turn < 120; turn += 1) {
    const fresh = closed().find((button) => !tried.has(name(button)));
    // All that is left may stand behind the one that shows more.
    const button = fresh ?? document.querySelector("#something-else");
    if (!button) break;
    if (button.id !== "something-else") tried.add(name(button));
    button.click();
    if (await comes(150)) return;
  }
})().then(done, done);

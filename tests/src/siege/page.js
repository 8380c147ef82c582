// What a round does inside the page: it presses what is on the screen and reads what is in the browser's
// database. It never writes to the database but to delete it, where a round is about that.
const pause = (ms) => new Promise((go) => setTimeout(go, ms));
const words = (of) => {
  const e = typeof of === "string" ? document.querySelector(of) : of;
  return (e?.innerText ?? "").replace(/\s+/g, " ").trim();
};
const onScreen = () => `${location.hash}: ${words(document.body).slice(0, 400)}`;
const until = async (what, ask, ms = 30000) => {
  const end = performance.now() + ms;
  for (;;) {
    const found = ask();
    if (found) return found;
    if (performance.now() > end) throw new Error(`waited for ${what}; on the screen: ${onScreen()}`);
    await pause(4);
  }
};
const sign = () => words("#saving");
const saved = () => /^saved/i.test(sign());
const failed = () => /not saved/i.test(sign());
const settled = () => saved() || failed();
const press = (e, what) => {
  if (!e) throw new Error(`nothing to press for ${what}; on the screen: ${onScreen()}`);
  e.click();
};
const called = (pattern, among = "button, a.button") =>
  [...document.querySelectorAll(among)].find((e) => e.checkVisibility() && pattern.test(words(e)));
const put = (css, text) => {
  const field = document.querySelector(css);
  if (!field) throw new Error(`no field ${css}; on the screen: ${onScreen()}`);
  field.focus();
  field.value = text;
  field.dispatchEvent(new InputEvent("input", { bubbles: true, data: text.slice(-1), inputType: "insertText" }));
};

// ---- the database

const textsIn = (value) => {
  if (typeof value === "string") return [value];
  if (value instanceof ArrayBuffer || ArrayBuffer.isView(value)) return [new TextDecoder().decode(value)];
  if (value && typeof value === "object") return Object.values(value).flatMap(textsIn);
  return [];
};

// Everything in the database, or null where there is none: it is not made by looking.
const stored = () =>
  new Promise((done, fail) => {
    const opening = indexedDB.open("stillwood");
    opening.onupgradeneeded = () => opening.transaction.abort();
    opening.onerror = (event) => {
      event.preventDefault();
      done(null);
    };
    opening.onsuccess = () => {
      const database = opening.result;
      const names = [...database.objectStoreNames];
      const found = {};
      const reading = database.transaction(names);
      for (const name of names) {
        const store = reading.objectStore(name);
        const [keys, values] = [store.getAllKeys(), store.getAll()];
        values.onsuccess = () => (found[name] = keys.result.map((key, i) => [key, values.result[i]]));
      }
      reading.oncomplete = () => {
        database.close();
        done(found);
      };
      reading.onabort = () => {
        database.close();
        fail(new Error(`the database can't be read: ${reading.error}`));
      };
    };
  });

// What a round is held to: the entries by their ids, the marks of planks, how many were passed over in
// this pile, and what is half typed.
const record = async ({ pile }) => {
  const found = await stored();
  const answer = { there: found !== null, ids: [], marks: [], passed: 0, damaged: 0, drafts: [] };
  const ids = new Set();
  for (const [name, rows] of Object.entries(found ?? {})) {
    if (name === "settings") continue;
    if (name === "drafts") {
      answer.drafts.push(...rows.map(([key, value]) => [String(key), textsIn(value).join("\n")]));
      continue;
    }
    for (const line of rows.flatMap(([, value]) => textsIn(value)).join("\n").split("\n")) {
      if (!line) continue;
      let entry;
      try {
        entry = JSON.parse(line);
      } catch {
        answer.damaged += 1;
        continue;
      }
      if (typeof entry?.id !== "string" || ids.has(entry.id)) continue;
      ids.add(entry.id);
      if (entry.happening === "marked") answer.marks.push(entry.body.mark);
      if (entry.happening === "passed_over" && entry.about === pile) answer.passed += entry.body.count ?? 1;
    }
  }
  answer.ids = [...ids];
  return answer;
};

const wipe = () =>
  new Promise((done) => {
    const going = indexedDB.deleteDatabase("stillwood");
    going.onsuccess = () => done("deleted");
    going.onerror = () => done("refused");
    setTimeout(() => done("blocked"), 5000);
  });

// ---- the screens

const stands = async () => {
  await until("the first screen", () => {
    if (/could not open/i.test(words("#app h1"))) throw new Error(`it did not open: ${onScreen()}`);
    return document.querySelector("#app header.top h1");
  });
  if (!window.__broken) {
    window.__broken = [];
    const say = console.error;
    console.error = (...of) => (window.__broken.push(of.map(String).join(" ").slice(0, 500)), say(...of));
    addEventListener("error", (event) => window.__broken.push(`uncaught: ${event.message}`));
    addEventListener("unhandledrejection", (event) => window.__broken.push(`uncaught: ${event.reason}`));
  }
};
const goTo = async (hash) => {
  if (location.hash !== hash) location.hash = hash;
  await until(hash, () => location.hash === hash);
};
const counts = () => {
  const numbers = words("#pile-counts").match(/\d+/g);
  return numbers?.length >= 3 ? { looked: +numbers[0], no: +numbers[1], maybe: +numbers[2] } : null;
};
const marks = () => [...document.querySelectorAll("main .mark")].map(words);
const toPile = async (pile) => {
  await goTo(`#/pile/${pile}`);
  return await until("the pile", counts);
};

// One thing done and acknowledged, or told not to be kept. `kept` is what the app said.
const deeds = {
  async no(pile) {
    const before = await toPile(pile);
    const chips = [...document.querySelectorAll("main .chips button")];
    if (chips.length && before.no % 3) chips[before.no % chips.length].click();
    press(document.querySelector("#no"), "No");
    await until("a No to be kept", () => counts()?.no > before.no && settled());
    return { no: 1 };
  },
  async maybe(pile) {
    await toPile(pile);
    const had = new Set(marks());
    press(document.querySelector("#maybe"), "Maybe");
    const mark = await until("a Maybe to be kept", () => settled() && marks().find((mark) => !had.has(mark)));
    return { mark };
  },
  async plank(pile) {
    await toPile(pile);
    press(document.querySelector("#measure-new"), "a plank");
    await until("the plank's fields", () => document.querySelector("#f-Length"));
    const mark = words("header.top h1");
    put("#f-Length", String(2000 + (performance.now() | 0) % 900));
    put("#f-WidthNear", "205");
    await pause(0);
    press(document.querySelector("#take") ?? called(/^(take|buy)\b/i), "taking it");
    await until("a plank to be kept", () => settled() && words("header.top h1") !== mark);
    await toPile(pile);
    return { mark };
  },
};

const doAll = async ({ pile, kinds }) => {
  const done = [];
  for (const kind of kinds) {
    const one = await deeds[kind](pile);
    done.push({ ...one, kept: saved() && !failed(), broken: window.__broken });
  }
  return done;
};

// Pressed and not waited for: what the app has said by then is what counts.
const burst = async ({ pile, times, ms }) => {
  const before = await toPile(pile);
  for (let n = 0; n < times; n += 1) press(document.querySelector("#no"), "No");
  await pause(ms);
  const sure = saved() ? counts().no - before.no : 0;
  return { sure, pressed: times };
};

// Types into a field, key by key; `sure` of it is waited for in the store.
const typing = async ({ at, pile, sure, rest, gap }) => {
  let css = "#in-yard";
  if (at === "plank") {
    await toPile(pile);
    press(document.querySelector("#measure-new"), "a plank");
    css = "#f-Length";
  } else {
    await goTo("#/visit/new");
  }
  await until("the field", () => document.querySelector(css));
  for (let n = 1; n <= sure.length; n += 1) put(css, sure.slice(0, n));
  const end = performance.now() + 30000;
  while (!((await stored())?.drafts ?? []).some(([, value]) => textsIn(value).join().includes(`"${sure}"`))) {
    if (performance.now() > end) throw new Error(`what is half typed is never kept; on the screen: ${onScreen()}`);
    await pause(4);
  }
  for (let n = 1; n <= rest.length; n += 1) {
    put(css, sure + rest.slice(0, n));
    if (gap) await pause(gap);
  }
  return document.querySelector(css).value;
};

// Hands over a file and adds it. `wait` is false where the round kills in the midst of it.
const bringIn = async ({ name, base64, wait }) => {
  await goTo("#/carry");
  const input = await until("the field for files", () => document.querySelector("#import-file"));
  const bytes = Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
  const files = new DataTransfer();
  files.items.add(new File([bytes], name, { type: "application/json" }));
  input.files = files.files;
  input.dispatchEvent(new Event("change", { bubbles: true }));
  const card = await until("the file to be looked at", () => document.querySelector(".incoming"));
  const add = () => document.querySelector("#merge") ?? called(/^(add|bring)/i, ".incoming button");
  await until("what can be done with the file", () => add() || card.querySelector(".bad"));
  if (!add() || add().disabled) {
    const away = document.querySelector("#leave-file") ?? card.querySelector("button");
    press(away, "putting the file away");
    return "refused";
  }
  add().click();
  if (!wait) return "on its way";
  await until("the file to be added", () => words("#merged") && settled());
  return saved() ? "added" : "not kept";
};
const broughtIn = async () => (words("#merged") && saved() ? "added" : "on its way");

// A newer version, asked for by an address of its own: to look by the plain one is put off by the browser
// for minutes after its start.
const newerComes = async ({ number, version }) => {
  const registered = await navigator.serviceWorker.ready;
  const from = registered.active.scriptURL.split("?")[0];
  navigator.serviceWorker.register(`${from}?${number}`, { updateViaCache: "none" }).catch(() => {});
  return version;
};
const newerWaits = async () => {
  const registered = await navigator.serviceWorker.ready;
  await until("the newer version to wait", () => registered.waiting && !registered.installing);
  const button = await until("the newer version to be offered", () =>
    document.querySelector("#new-version button.primary") ?? called(/^update now/i));
  button.click();
  return true;
};

// Every screen, with the ids that the record has; what is not a screen is told.
const walk = async ({ screens }) => {
  const poor = [];
  for (const hash of screens) {
    location.hash = hash;
    await pause(0);
    await new Promise((drawn) => requestAnimationFrame(() => setTimeout(drawn, 0)));
    const title = words("#app header.top h1");
    const body = words("#app main");
    if (!title || !body || /could not open/i.test(title)) poor.push(`${hash}: ${onScreen()}`);
    if (window.__broken?.length) poor.push(`${hash}: ${window.__broken.splice(0).join(" | ")}`);
  }
  return poor;
};
const idsOf = async () => {
  const found = await stored();
  const about = new Map();
  for (const [name, rows] of Object.entries(found ?? {})) {
    if (name === "settings" || name === "drafts") continue;
    for (const line of rows.flatMap(([, value]) => textsIn(value)).join("\n").split("\n")) {
      try {
        const entry = JSON.parse(line);
        if (!about.has(entry.happening)) about.set(entry.happening, new Set());
        about.get(entry.happening).add(entry.about);
      } catch {
        // Damage is the app's to show.
      }
    }
  }
  return Object.fromEntries([...about].map(([kind, ids]) => [kind, [...ids]]));
};

const tryAgain = async () => {
  const end = performance.now() + 20000;
  while (!saved() && performance.now() < end) {
    called(/^try again/i)?.click();
    await pause(150);
  }
  return saved();
};

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
// What the app shows is recorded, unless it says that it is not saved: so long nothing counts as acknowledged.
const unsaved = () => [...document.querySelectorAll("#notices .notice.bad")].some((e) => /not saved/i.test(words(e)));
const kept = () => !unsaved();
const press = (e, what) => {
  if (!e) throw new Error(`nothing to press for ${what}; on the screen: ${onScreen()}`);
  e.click();
};
const called = (pattern, among = "[data-press]") =>
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
    return document.querySelector("#app #title");
  });
  if (!window.__broken) {
    window.__broken = [];
    const say = console.error;
    console.error = (...of) => (window.__broken.push(of.map(String).join(" ").slice(0, 500)), say(...of));
    addEventListener("error", (event) => window.__broken.push(`uncaught: ${event.message}`));
    addEventListener("unhandledrejection", (event) => window.__broken.push(`uncaught: ${event.reason}`));
  }
};
// A press that repeats in one place within 300 ms is not meant, and passed over. The siege presses faster: before each
// of its presses the page's clock goes on by more than that, however it is set.
const aMomentLater = () => {
  if (window.__later === undefined) {
    window.__later = 0;
    const Before = Date;
    window.Date = class extends Before {
      constructor(...of) {
        of.length ? super(...of) : super(Before.now() + window.__later);
      }
      static now() {
        return Before.now() + window.__later;
      }
    };
  }
  window.__later += 400;
};
// The app hears of another address before this does, and has its screen drawn.
// Chromium drops steps of its history above 200 in ten seconds, and the app notes each that it makes: then it is asked again.
const goTo = async (hash) => {
  if (location.hash === hash) return;
  let there = false;
  const heard = new Promise((go) => addEventListener("hashchange", go, { once: true })).then(() => { there = true; });
  while (!there) {
    location.hash = hash;
    await Promise.race([heard, pause(1000)]);
  }
};
const counts = () => {
  const [looked, no, maybe] = ["#body .count strong", "#body .below span", "#body .below span + span"]
    .map((css) => words(css).match(/^\d+/)?.[0]);
  return maybe === undefined ? null : { looked: +looked, no: +no, maybe: +maybe };
};
const toPile = async (pile) => {
  await goTo(`#/pile/${pile}`);
  return await until("the pile", () => {
    if (document.querySelector("#body .chalk")) {
      aMomentLater();
      press(called(/^chalked/i), "a mark that is chalked");
    }
    return counts();
  });
};
// A store that was found emptied is told of in place of what was decided.
const decided = (mark, word) =>
  until(`${mark} to be ${word}`, () =>
    words("#title") !== mark &&
    (document.querySelector("#notices .notice.bad") || words(".toast").startsWith(`${mark} ${word}.`)));
const digits = (text) => {
  for (const sign of text) press([...document.querySelectorAll("#keypad .digit")].find((e) => words(e) === sign), sign);
};
const measureNew = async (pile) => {
  await toPile(pile);
  press(called(/^measure it now/i), "a plank");
  await until("the plank's fields", () => document.querySelector("#active-field .typed"));
  return words("#title");
};
// A plank of two sizes, on its way to the decision.
const measured = async (pile) => {
  const mark = await measureNew(pile);
  digits(String(2000 + (performance.now() | 0) % 900));
  press(called(/^next/i, "#keypad [data-press]"), "the next field");
  digits("205");
  press(document.querySelector("#standing .standing"), "the verdict");
  await until("the verdict", () => document.querySelector("#body .verdict"));
  return mark;
};

// One thing done and acknowledged, or told not to be kept.
const deeds = {
  async no(pile) {
    const before = await toPile(pile);
    const chips = [...document.querySelectorAll("#body .chips .chip[aria-pressed]")];
    if (chips.length && before.no % 3) chips[before.no % chips.length].click();
    aMomentLater();
    press(document.querySelector("#foot .no"), "No");
    await until("a No to be recorded", () => counts()?.no > before.no);
    return { no: 1 };
  },
  async maybe(pile) {
    const before = await toPile(pile);
    aMomentLater();
    press(document.querySelector("#foot .main"), "Maybe");
    const mark = await until("a mark to be chalked", () => words("#body .chalk"));
    const sure = kept();
    const after = await toPile(pile);
    if (after.maybe <= before.maybe) throw new Error(`${mark} is to be chalked and not in the pile; ${onScreen()}`);
    return { mark, sure };
  },
  async plank(pile) {
    const mark = await measured(pile);
    press(called(/^hold/i, "#foot [data-press]"), "Hold");
    await decided(mark, "held");
    return { mark };
  },
  async reject(pile) {
    const mark = await measured(pile);
    press(called(/^reject/i, "#foot [data-press]"), "Reject");
    const reason = await until("the reasons", () => document.querySelector("#body .chips .chip[aria-pressed=false]"));
    reason.click();
    press(called(/^reject/i, "#foot [data-press]"), "Reject, for a reason");
    await decided(mark, "rejected");
    return { mark };
  },
};

const doAll = async ({ pile, kinds }) => {
  const done = [];
  for (const kind of kinds) {
    const { sure = true, ...one } = await deeds[kind](pile);
    done.push({ ...one, kept: sure && kept(), broken: window.__broken });
  }
  return done;
};

// Pressed and not waited for: what the app has said by then is what counts.
const burst = async ({ pile, times, ms }) => {
  const before = await toPile(pile);
  for (let n = 0; n < times; n += 1) {
    aMomentLater();
    press(document.querySelector("#foot .no"), "No");
  }
  await pause(ms);
  const sure = kept() ? counts().no - before.no : 0;
  return { sure, pressed: times };
};

// Types into a field, key by key; `sure` of it is waited for in the store. In a plank that is its length, or its note.
const typing = async ({ at, pile, sure, rest, gap }) => {
  const css = { form: "#field-Yard", note: "#note" }[at];
  let typed = "";
  const type = (sign) => {
    typed += sign;
    if (css) put(css, typed);
    else digits(sign);
  };
  if (at === "form") await goTo("#/visit/new");
  else await measureNew(pile);
  if (css) await until("the field", () => document.querySelector(css));
  for (const sign of sure) type(sign);
  const end = performance.now() + 30000;
  while (!((await stored())?.drafts ?? []).some(([, value]) => textsIn(value).join().includes(`"${sure}"`))) {
    if (performance.now() > end) throw new Error(`what is half typed is never kept; on the screen: ${onScreen()}`);
    await pause(4);
  }
  for (const sign of rest) {
    type(sign);
    if (gap) await pause(gap);
  }
  const stands = css ? document.querySelector(css).value : words("#active-field .typed");
  if (stands !== sure + rest) throw new Error(`${sure + rest} was typed, and ${stands} stands there`);
  return stands;
};

// Hands over a file, by the field that stands for the system's own dialog, and brings it in. `wait` is false where the
// round kills in the midst of it.
const saidOfFiles = () => document.querySelectorAll("#brought-in .notice").length;
const bringIn = async ({ name, base64, wait }) => {
  await goTo("#/carry");
  const open = await until("the key to open a file", () => called(/^open a file/i));
  let field;
  const click = HTMLInputElement.prototype.click;
  HTMLInputElement.prototype.click = function () {
    field = this;
  };
  open.click();
  HTMLInputElement.prototype.click = click;
  if (!field) throw new Error(`no file is asked for; on the screen: ${onScreen()}`);
  const bytes = Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
  const files = new DataTransfer();
  files.items.add(new File([bytes], name, { type: "application/json" }));
  field.files = files.files;
  field.dispatchEvent(new Event("change", { bubbles: true }));
  const card = () => document.querySelector("#body .incoming");
  const add = () => card()?.querySelector(".decide .main");
  await until("what can be done with the file", () => add() || card()?.querySelector(":scope > .bad"));
  if (!add() || add().disabled) {
    const away = card().querySelector(".decide .key") ?? card().querySelector(".keys .key");
    press(away, "putting the file away");
    await until("the file to be put away", () => !card());
    return "refused";
  }
  window.__saidBefore = saidOfFiles();
  add().click();
  if (!wait) return "on its way";
  await until("the file to be brought in", () => !card() && saidOfFiles() > window.__saidBefore);
  return kept() ? "added" : "not kept";
};
const broughtIn = async () => (saidOfFiles() > window.__saidBefore && kept() ? "added" : "on its way");

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
  const button = await until("the newer version to be offered", () => called(/^update now/i));
  button.click();
  return true;
};

// Every screen, with the ids that the record has; what is not a screen is told.
const walk = async ({ screens }) => {
  const poor = [];
  for (const hash of screens) {
    await goTo(hash);
    await new Promise((drawn) => requestAnimationFrame(() => setTimeout(drawn, 0)));
    const title = words("#app #title");
    const body = [...document.querySelectorAll("#app > :not(header, nav)")].map(words).join(" ").trim();
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
  while (unsaved() && performance.now() < end) {
    called(/^try again/i)?.click();
    await pause(150);
  }
  return kept();
};

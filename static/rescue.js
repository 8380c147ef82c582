// Saves the record as a file without the app: for a device on which the app itself does not start.
// It only reads. It knows that the record is entries, one a line, in pages; what an entry says is the
// business of whoever opens the file.

// A file of no entries, as the app writes it: its header is ours but for the count and the clock.
const EMPTY_FILE = "{{empty-file}}";
const SENTENCES = {
  en: {
    title: "Save the record – Stillwood",
    record: "Your record",
    sample: "The sample workshop",
    secondCopy: "The second copy of your record, kept after the disk was full",
    unread: (title, why) => `${title} could not be read: ${why}. Close every other window of Stillwood and load this page again.`,
    none: "There is no record on this device at this address.",
    noAnswer: "the browser does not answer",
    brokenOff: "broken off",
    page: (key, why) => `page ${key}: ${why}`,
    noBytes: "holds no bytes",
    entries: (n) => `${n} ${n === 1 ? "entry" : "entries"}.`,
    save: "Save the record",
    damaged: (n) => `${n} ${n === 1 ? "line is" : "lines are"} damaged. What is damaged is kept as it is in a file of its own.`,
    saveDamaged: "Save the damaged lines",
    notRead: (what) => `Could not be read: ${what}.`,
    halfTyped: (n) => `Half-typed forms and settings: ${n}.`,
    saveHalfTyped: "Save what is half typed, and the settings",
    handed: (name) => `${name} was handed to the browser. Look for it among the downloads before you delete anything.`,
    share: "Share it",
    shared: (name) => `${name} was handed to another app.`,
    cancelled: "Not shared.",
    notShared: (why) => `It could not be shared: ${why}.`,
  },
  de: {
    title: "Die Aufzeichnung sichern – Stillwood",
    record: "Deine Aufzeichnung",
    sample: "Die Beispielwerkstatt",
    secondCopy: "Die zweite Kopie deiner Aufzeichnung, gesichert nach einem vollen Speicher",
    unread: (title, why) => `${title} konnte nicht gelesen werden: ${why}. Schließe alle anderen Fenster von Stillwood und lade diese Seite neu.`,
    none: "Auf diesem Gerät gibt es unter dieser Adresse keine Aufzeichnung.",
    noAnswer: "der Browser antwortet nicht",
    brokenOff: "abgebrochen",
    page: (key, why) => `Seite ${key}: ${why}`,
    noBytes: "enthält keine Bytes",
    entries: (n) => `${n} ${n === 1 ? "Eintrag" : "Einträge"}.`,
    save: "Die Aufzeichnung sichern",
    damaged: (n) => `Beschädigte Zeilen: ${n}. Sie bleiben, wie sie sind, in einer eigenen Datei.`,
    saveDamaged: "Die beschädigten Zeilen sichern",
    notRead: (what) => `Konnte nicht gelesen werden: ${what}.`,
    halfTyped: (n) => `Halb eingetippte Formulare und Einstellungen: ${n}.`,
    saveHalfTyped: "Halb Eingetipptes und die Einstellungen sichern",
    handed: (name) => `${name} wurde dem Browser übergeben. Sieh in den Downloads nach, bevor du etwas löschst.`,
    share: "Teilen",
    shared: (name) => `${name} wurde einer anderen App übergeben.`,
    cancelled: "Nicht geteilt.",
    notShared: (why) => `Es konnte nicht geteilt werden: ${why}.`,
  },
};
const say = SENTENCES[document.documentElement.lang] ?? SENTENCES.en; // as language.js found it

const DATABASES = [
  { name: "stillwood", title: say.record, stem: "stillwood-rescued" },
  { name: "stillwood-demo", title: say.sample, stem: "stillwood-sample-rescued" },
];
const SECOND_COPY = "stillwood-second-copy"; // among the cached files, as second_copy.rs keeps it
const PAGES = "pages";
const OPENING_LIMIT = 15 * 1000;

const place = document.getElementById("found");
document.title = say.title;

// The worker gives this page in the place of the app where that is damaged.
if (!location.pathname.endsWith("/rescue.html")) document.getElementById("why").hidden = false;

const cards = [];
const places = DATABASES.map((database) => [database.title, () => look(database)]);
places.push([say.secondCopy, secondCopy]);
for (const [title, look] of places) {
  try {
    const card = await look();
    if (card) cards.push(card);
  } catch (error) {
    cards.push(line("p", say.unread(title, said(error)), "note bad"));
  }
}
if (cards.length === 0) cards.push(line("p", say.none));
place.replaceChildren(...cards);

async function look({ name, title, stem }) {
  const database = await opened(name);
  if (!database) return null;
  try {
    const stores = [...database.objectStoreNames];
    const pages = stores.includes(PAGES) ? await everything(database, PAGES) : { found: [], lost: [] };
    const texts = {};
    for (const store of stores.filter((store) => store !== PAGES)) texts[store] = await everything(database, store);
    return card(title, stem, sorted(pages), texts);
  } finally {
    database.close();
  }
}

// The second copy, or null where there is none: what is named here must not come into being by being looked for.
async function secondCopy() {
  if (!globalThis.caches || !(await caches.has(SECOND_COPY))) return null;
  const copy = await (await caches.open(SECOND_COPY)).match("./second-copy-of-record");
  if (!copy) return null;
  const page = new Uint8Array(await copy.arrayBuffer());
  return card(say.secondCopy, "stillwood-second-copy", sorted({ found: [[SECOND_COPY, page]], lost: [] }), {});
}

// The database, or null where there is none: it must not come into being by being looked for.
function opened(name) {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name);
    let absent = false;
    request.onupgradeneeded = () => {
      absent = true;
      request.transaction.abort();
    };
    request.onsuccess = () => {
      const database = request.result;
      database.onversionchange = () => database.close();
      resolve(database);
    };
    request.onerror = (event) => {
      event.preventDefault();
      if (absent) resolve(null);
      else reject(request.error);
    };
    setTimeout(() => reject(new Error(say.noAnswer)), OPENING_LIMIT);
  });
}

// Every value of a store with its key. One that can't be read costs no other: each is asked for by
// itself, and its key is told.
async function everything(database, store) {
  const keys = await answer(database, store, (objects) => objects.getAllKeys());
  const found = [];
  const lost = [];
  for (const key of keys) {
    try {
      found.push([key, await answer(database, store, (objects) => objects.get(key))]);
    } catch (error) {
      lost.push([key, said(error)]);
    }
  }
  return { found, lost };
}

function answer(database, store, ask) {
  return new Promise((resolve, reject) => {
    const transaction = database.transaction(store, "readonly");
    const request = ask(transaction.objectStore(store));
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    transaction.onabort = () => reject(transaction.error ?? new Error(say.brokenOff));
  });
}

// The lines of all pages: entries in the order of a file, each once; and what is no entry.
function sorted({ found, lost }) {
  const decoder = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
  const entries = new Map(); // line -> its place in the order
  const damaged = []; // pieces of the second file
  const notBytes = lost.map(([key, why]) => say.page(key, why));
  for (const [key, page] of found) {
    if (!(page instanceof Uint8Array)) {
      notBytes.push(say.page(key, say.noBytes));
      continue;
    }
    for (const bytes of lines(page)) {
      const entry = read(decoder, bytes);
      if (entry) entries.set(entry.line, entry);
      else damaged.push(bytes, "\n");
    }
  }
  const compare = (a, b) => a.step - b.step || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0) || (a.line < b.line ? -1 : 1);
  return { entries: [...entries.values()].sort(compare), damaged, notBytes };
}

function* lines(page) {
  let from = 0;
  while (from < page.length) {
    const end = page.indexOf(10, from);
    const to = end < 0 ? page.length : end;
    if (to > from) yield page.subarray(from, to);
    from = to + 1;
  }
}

function read(decoder, bytes) {
  try {
    const line = decoder.decode(bytes);
    const entry = JSON.parse(line);
    if (typeof entry?.id !== "string") return null;
    return { line, id: entry.id, step: typeof entry.step === "number" ? entry.step : 0 };
  } catch {
    return null;
  }
}

function card(title, stem, record, texts) {
  const written = new Date();
  const day = written.toISOString().slice(0, 10);
  const box = line("section", "", "card");
  box.append(line("h2", title));
  const { entries, damaged, notBytes } = record;
  box.append(line("p", say.entries(entries.length)));
  if (entries.length > 0) {
    box.append(saver(say.save, `${stem}-${day}.json`, recordFile(entries, written)));
  }
  if (damaged.length > 0) {
    box.append(
      line("p", say.damaged(damaged.length / 2), "note doubt"),
      saver(say.saveDamaged, `${stem}-damaged-${day}.txt`, damaged),
    );
  }
  for (const text of notBytes) box.append(line("p", say.notRead(text), "note bad"));
  const held = Object.values(texts).reduce((sum, { found, lost }) => sum + found.length + lost.length, 0);
  if (held > 0) {
    box.append(
      line("p", say.halfTyped(held)),
      saver(say.saveHalfTyped, `${stem}-half-typed-${day}.json`, [textsFile(texts, written)]),
    );
  }
  return box;
}

// As the app writes a file; the header's keys are in their order already.
function recordFile(entries, written) {
  const header = { ...EMPTY_FILE.header, count: entries.length, written: written.toISOString() };
  const parts = [`{"header":${JSON.stringify(header)},"entries":[`];
  entries.forEach(({ line }, i) => parts.push(i === 0 ? "\n" : ",\n", line));
  parts.push("\n]}\n");
  return parts;
}

function textsFile(texts, written) {
  const out = { "rescued": written.toISOString() };
  for (const [store, { found, lost }] of Object.entries(texts)) {
    out[store] = Object.fromEntries(found.map(([key, value]) => [String(key), plain(value)]));
    if (lost.length > 0) out[`${store}, not read`] = Object.fromEntries(lost.map(([key, why]) => [String(key), why]));
  }
  return JSON.stringify(out, null, 1) + "\n";
}

// Bytes as text where they are text, else as numbers.
function plain(value) {
  if (!(value instanceof Uint8Array)) return value;
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(value);
  } catch {
    return [...value];
  }
}

// A button that hands the file to the browser's downloads, and one that shares it where that can be.
function saver(name, fileName, parts) {
  const type = fileName.endsWith(".json") ? "application/json" : "text/plain";
  const file = new File(parts, fileName, { type });
  const row = line("div", "", "row stretch");
  const state = line("p", "");
  row.append(button(name, () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(file);
    link.download = fileName;
    document.body.append(link);
    link.click();
    link.remove();
    state.textContent = say.handed(fileName);
  }));
  // Browsers share text, few share JSON; the app reads a file whatever its name.
  const shareable = new File([file], fileName.replace(/\.json$/, ".txt"), { type: "text/plain" });
  if (navigator.canShare?.({ files: [shareable] })) {
    row.append(button(say.share, () => navigator.share({ files: [shareable] }).then(
      () => { state.textContent = say.shared(shareable.name); },
      (error) => { state.textContent = error?.name === "AbortError" ? say.cancelled : say.notShared(said(error)); },
    )));
  }
  const box = document.createElement("div");
  box.append(row, state);
  return box;
}

function button(name, press) {
  const made = line("button", name);
  made.type = "button";
  made.addEventListener("click", press);
  return made;
}

function line(tag, text, className = "") {
  return Object.assign(document.createElement(tag), { textContent: text, className });
}

function said(error) {
  return error?.message || error?.name || String(error);
}

// Puts a dump into the browser's databases as the old version had them, the next running number included.
const dump = arguments[0];
const value = (of) => (typeof of === "object" ? new TextEncoder().encode(of.bytes) : of);
const restore = (name, { version, stores }) =>
  new Promise((done, fail) => {
    const open = indexedDB.open(name, version);
    open.onerror = () => fail(open.error);
    open.onblocked = () => fail(new Error("blocked"));
    open.onupgradeneeded = () => {
      for (const [store, { autoIncrement }] of Object.entries(stores)) {
        open.result.createObjectStore(store, autoIncrement ? { autoIncrement } : undefined);
      }
    };
    open.onsuccess = () => {
      const writing = open.result.transaction(Object.keys(stores), "readwrite");
      for (const [store, { autoIncrement, next, rows }] of Object.entries(stores)) {
        const to = writing.objectStore(store);
        for (const [key, of] of rows) to.put(value(of), key);
        if (autoIncrement && next > 1) {
          const last = rows.some(([key]) => key === next - 1);
          if (!last) {
            to.put(new Uint8Array(), next - 1);
            to.delete(next - 1);
          }
        }
      }
      writing.oncomplete = () => {
        open.result.close();
        done();
      };
      writing.onabort = () => fail(writing.error);
    };
  });
(async () => {
  const databases = Object.entries(dump.databases);
  for (const [name, database] of databases) await restore(name, database);
  for (const [key, of] of Object.entries(dump.localStorage)) localStorage.setItem(key, of);
  return "restored";
})().then(done, (why) => done(String(why)));

// The record's sure place: IndexedDB. Lines are texts under keys; what they say is for wasm to know.

const STORES = ["lines", "witness"];
/** A browser that has not opened the store by then will not. */
const PATIENCE = 10_000;

let opening = null;
let changed = () => {};
const tabs = globalThis.BroadcastChannel && new BroadcastChannel("pegline");
if (tabs) tabs.onmessage = () => changed();

/** Calls back whenever another tab has written, or the store was taken away. */
export function onChange(call) {
  changed = call;
}

function open() {
  opening ??= new Promise((resolve, reject) => {
    const asked = indexedDB.open("pegline", 1);
    asked.onupgradeneeded = () => STORES.forEach((name) => asked.result.createObjectStore(name));
    asked.onerror = () => reject(asked.error);
    asked.onsuccess = () => {
      const store = asked.result;
      store.onversionchange = () => { store.close(); opening = null; };
      store.onclose = () => { opening = null; changed(); };
      resolve(store);
    };
    setTimeout(reject, PATIENCE, new Error("The store does not open"));
  });
  opening.catch(() => { opening = null; });
  return opening;
}

/** Works in one transaction, and gives what `work` has to say once it is done with. */
async function within(mode, work) {
  const store = await open();
  return new Promise((resolve, reject) => {
    let whole;
    try {
      whole = store.transaction(STORES, mode, { durability: "strict" });
    } catch (error) {
      // This connection is of no use any more; the next try makes another.
      opening = null;
      throw error;
    }
    const said = work(...STORES.map((name) => whole.objectStore(name)), whole);
    whole.oncomplete = () => resolve(said?.());
    whole.onabort = () => reject(whole.error);
  });
}

/** One line that fails does not undo the others. */
function alone(event) {
  event.preventDefault();
  event.stopPropagation();
}

/** The keys of all lines unless there are as many as are known, and what is remembered beside them. */
export const look = (known) => within("readonly", (lines, witness) => {
  let keys = null;
  const count = lines.count();
  count.onsuccess = () => { if (count.result !== known) keys = lines.getAllKeys(); };
  const seen = witness.get("record");
  return () => ({ keys: keys && keys.result, witness: seen.result ?? null });
});

/** The lines under these keys, as far as they can be read. */
export const read = (keys) => within("readonly", (lines) => {
  const found = [];
  for (const key of keys) {
    const asked = lines.get(key);
    asked.onerror = alone;
    asked.onsuccess = () => { if (typeof asked.result === "string") found.push([key, asked.result]); };
  }
  return () => found;
});

/** Keeps these lines, all or none, and what is to be remembered. Fails unless each is read back. */
export async function keep(fresh, seen) {
  await within("readwrite", (lines, witness, whole) => {
    for (const [key, line] of fresh) {
      // Written once: what lies there already stays.
      lines.add(line, key).onerror = alone;
      const back = lines.get(key);
      back.onsuccess = () => { if (back.result !== line) whole.abort(); };
    }
    witness.put(seen, "record");
  });
  if (fresh.length) tabs?.postMessage("written");
}

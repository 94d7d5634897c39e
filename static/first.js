// Stands outside the app's own scripts: tells how much of them has come; where they don't come whole, says so
// and tries again.
{
  const TRIES = "pegline/tries";
  const page = document.documentElement;
  const isKept = Boolean(navigator.serviceWorker?.controller);
  // What the app shows first on a phone that keeps it may stand elsewhere than on a first visit, so that
  // nothing is shown there until then.
  page.dataset.opening = isKept ? "kept" : "first";
  const isOpening = () => "opening" in page.dataset;
  let isBroken = false;
  let timer = 0;

  addEventListener("pegline-open", () => {
    delete page.dataset.opening;
    remember(null);
  });
  addEventListener("error", fail, true);
  addEventListener("unhandledrejection", fail);
  addEventListener("online", () => { if (isBroken) again(); });
  addEventListener("click", ({ target }) => {
    if (target.id === "again") again();
    // A question tapped by now is opened as soon as there is an app: its address is.
    const asked = isOpening() && target.closest?.("#app a[href]");
    if (asked) say(`Opening: ${asked.textContent}`);
  });

  if (!isKept) document.addEventListener("readystatechange", fetchApp, { once: true });

  /** Fetches the wasm in place of the app's script, to count what has come. */
  function fetchApp() {
    const link = document.querySelector("link[data-bytes]");
    window.pegline = fetch(link.href).then((response) => {
      if (!response.ok) throw new Error(`${link.href}: ${response.status}`);
      count(response.clone().body.getReader(), Number(link.dataset.bytes));
      return response;
    });
  }

  async function count(reader, all) {
    let come = 0;
    for (let piece; !(piece = await reader.read()).done;) {
      come += piece.value.length;
      say(`Opening: ${Math.floor((100 * come) / all)} %`);
    }
  }

  function say(words) {
    const place = document.querySelector("#app header span");
    if (place && isOpening() && !isBroken) place.textContent = words;
  }

  function fail() {
    if (!isOpening() || isBroken) return;
    isBroken = true;
    later();
  }

  /** Says what is wrong, and tries again after a pause that grows. */
  function later() {
    const tries = Number(remembered());
    const pause = Math.min(5 * 2 ** tries, 300);
    remember(tries + 1);
    document.getElementById("broken").hidden = false;
    document.getElementById("pause").textContent = pause < 120 ? `${pause} seconds` : `${Math.round(pause / 60)} minutes`;
    document.getElementById("too-old").hidden = tries < 3;
    clearTimeout(timer);
    timer = setTimeout(again, 1000 * pause);
  }

  async function again() {
    clearTimeout(timer);
    try {
      await takeNewer();
      await Promise.all(files().map(fetchWhole));
    } catch {
      return later();
    }
    location.reload();
  }

  /** Of a version that the phone no longer has whole, the host may have a newer one. */
  async function takeNewer() {
    const registration = await navigator.serviceWorker?.getRegistration();
    await registration?.update().catch(() => {});
    for (let wait = 0; registration?.installing && wait < 300; wait += 1) await sleep(200);
    if (!registration?.waiting) return;
    const taken = new Promise((resolve) => {
      navigator.serviceWorker.addEventListener("controllerchange", resolve, { once: true });
    });
    registration.waiting.postMessage({ type: "take-over" });
    await Promise.race([taken, sleep(5000)]);
  }

  function sleep(pause) {
    return new Promise((resolve) => setTimeout(resolve, pause));
  }

  function files() {
    const links = "link[rel=stylesheet], link[rel=preload], link[rel=modulepreload]";
    return [...document.querySelectorAll(`${links}, script[src]`)].map((file) => file.href ?? file.src);
  }

  /** Past the browser's own cache, which may hold half of it. */
  async function fetchWhole(url) {
    const response = await fetch(url, { cache: "reload" });
    if (!response.ok) throw new Error(`${url}: ${response.status}`);
    await response.arrayBuffer();
  }

  function remember(tries) {
    try {
      if (tries === null) sessionStorage.removeItem(TRIES);
      else sessionStorage.setItem(TRIES, tries);
    } catch {
      // Where storage is refused, each try is the first.
    }
  }

  function remembered() {
    try {
      return sessionStorage.getItem(TRIES) ?? 0;
    } catch {
      return 0;
    }
  }
}

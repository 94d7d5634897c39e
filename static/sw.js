// Keeps one whole version of the app on the phone and answers from it alone.

// The version, and its files with their digests. Filled in when the app is built,
// so that any changed file makes this script another one, which browsers notice.
const SEAL = { version: "unsealed", files: [] };

const PREFIX = "pegline-";
const KEPT = PREFIX + SEAL.version;
const PAGE = "./";

self.addEventListener("install", (event) => {
  // No skipWaiting here: a page of the old version must not get files of the new one.
  event.waitUntil(fetchMissing());
});

self.addEventListener("activate", (event) => {
  event.waitUntil(Promise.all([forgetOtherVersions(), self.clients.claim()]));
});

self.addEventListener("message", (event) => {
  if (event.data?.type === "take-over") {
    self.skipWaiting();
  }
  if (event.data?.type === "is-whole") {
    const tell = (isWhole) => event.ports[0].postMessage(isWhole);
    event.waitUntil(fetchMissing().then(() => tell(true), () => tell(false)));
  }
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const here = new URL(request.url).origin === self.location.origin;
  if (here && request.method === "GET") {
    event.respondWith(answer(request));
  }
});

const urlOf = (address) => new URL(address, self.location).href;

// If one file is missing, or is of another version than its digest says, the install fails and the
// version already here stays. What has come stays, too, so that weak signal gets there in the end.
async function fetchMissing() {
  const cache = await caches.open(KEPT);
  const here = new Set((await cache.keys()).map((request) => request.url));
  const missing = SEAL.files.filter(([address]) => !here.has(urlOf(address)));
  await Promise.all(missing.map((file) => fetchOne(cache, file)));
}

async function fetchOne(cache, [address, integrity]) {
  // The browser's own cache might hold a file of an older version.
  const response = await fetch(new Request(address, { cache: "no-cache", integrity }));
  if (!response.ok) {
    throw new Error(`${address}: ${response.status}`);
  }
  await cache.put(address, response.clone());
  return response;
}

async function forgetOtherVersions() {
  const names = await caches.keys();
  const others = names.filter((name) => name.startsWith(PREFIX) && name !== KEPT);
  await Promise.all(others.map((name) => caches.delete(name)));
}

async function answer(request) {
  const cache = await caches.open(KEPT);
  const lookUp = (wanted) => cache.match(wanted, { ignoreVary: true });
  const isPage = request.mode === "navigate";
  const found = (await lookUp(request)) ?? (isPage ? await lookUp(PAGE) : undefined);
  if (found) {
    return found;
  }
  const url = isPage ? urlOf(PAGE) : request.url;
  const file = SEAL.files.find(([address]) => urlOf(address) === url);
  if (!file) {
    return new Response(null, { status: 404 });
  }
  // The browser has thrown it away, but not this script.
  try {
    return await fetchOne(cache, file);
  } catch (error) {
    // The host may have another version by now: all of that one, or nothing of it.
    if (await lookUp(PAGE)) {
      throw error;
    }
    return fetch(request);
  }
}

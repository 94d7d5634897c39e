// Keeps one whole version of the app on the phone and answers from it alone.

// The version, and its files with their digests. Filled in when the app is built,
// so that any changed file makes this script another one, which browsers notice.
const SEAL = { version: "unsealed", files: [] };

const PREFIX = "pegline-";
const KEPT = PREFIX + SEAL.version;
const PAGE = "./";

self.addEventListener("install", (event) => {
  // No skipWaiting here: a page of the old version must not get files of the new one.
  event.waitUntil(fetchAll());
});

self.addEventListener("activate", (event) => {
  event.waitUntil(Promise.all([forgetOtherVersions(), self.clients.claim()]));
});

self.addEventListener("message", (event) => {
  if (event.data?.type === "take-over") {
    self.skipWaiting();
  }
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const here = new URL(request.url).origin === self.location.origin;
  if (here && request.method === "GET") {
    event.respondWith(answer(request));
  }
});

// All or nothing: if one file is missing, or is of another version than its digest
// says, the install fails and the version already here stays.
async function fetchAll() {
  const cache = await caches.open(KEPT);
  await cache.addAll(
    SEAL.files.map(([address, integrity]) =>
      // The browser's own cache might hold a file of an older version.
      new Request(address, { cache: "no-cache", integrity })
    ),
  );
}

async function forgetOtherVersions() {
  const names = await caches.keys();
  const others = names.filter((name) => name.startsWith(PREFIX) && name !== KEPT);
  await Promise.all(others.map((name) => caches.delete(name)));
}

async function answer(request) {
  const wanted = request.mode === "navigate" ? PAGE : request;
  const found = await lookUp(wanted);
  if (found) {
    return found;
  }
  if (await lookUp(PAGE)) {
    return new Response(null, { status: 404 });
  }
  // The browser has thrown the files away, but not this script. Any host has the page.
  await fetchAll().catch(() => {});
  return (await lookUp(wanted)) ?? fetch(request);
}

async function lookUp(wanted) {
  const cache = await caches.open(KEPT);
  return cache.match(wanted, { ignoreVary: true });
}

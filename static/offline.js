// Keeps the app on the phone, and says when a newer version has come.

/**
 * Registers the service worker.
 *
 * @param {(apply: (() => void) | null) => void} onNewer Called with a function when a newer
 *   version is ready and waits: one that waited already, or one found later. Calling `apply`
 *   changes this tab to it by loading the tab anew, once. Called with null when another tab has
 *   put a newer version to use: this tab goes on as it is, and has it after any reload. It may be
 *   called several times; the last call tells how things stand.
 * @returns {Promise<boolean>} Whether the app will open without a network from now on. False
 *   where the browser has no service worker (an insecure address, a private window of some
 *   browsers) or where fetching all files failed; the next visit tries again.
 */
export async function keepOffline(onNewer) {
  const workers = navigator.serviceWorker;
  if (!workers) {
    return false;
  }

  let registration;
  let asked = false;
  let hadVersion = Boolean(workers.controller);

  const apply = () => {
    if (asked) {
      return;
    }
    asked = true;
    if (registration.waiting) {
      registration.waiting.postMessage({ type: "take-over" });
    } else {
      // Another tab was quicker: the newer version answers already.
      location.reload();
    }
  };

  workers.addEventListener("controllerchange", () => {
    if (asked) {
      location.reload();
    } else if (hadVersion) {
      onNewer(null);
    }
    hadVersion = true;
  });

  try {
    registration = await workers.register("sw.js");
  } catch {
    return false;
  }

  const offer = (worker) => {
    // News of a worker may come late; one that answers already does not wait.
    if (worker !== workers.controller) {
      onNewer(apply);
    }
  };
  if (registration.waiting) {
    offer(registration.waiting);
  }
  const watch = () => {
    const worker = registration.installing;
    const older = registration.active;
    worker?.addEventListener("statechange", () => {
      if (worker.state === "installed" && older) {
        offer(worker);
      }
    });
  };
  // The browser looks for a newer version as the page loads, and may have begun already.
  watch();
  registration.addEventListener("updatefound", watch);

  return Boolean(registration.active) || settled(registration.installing ?? registration.waiting);
}

/** Whether a worker that is being installed for the first time comes into use. */
function settled(worker) {
  return new Promise((resolve) => {
    const look = () => {
      if (!worker || worker.state === "redundant") {
        resolve(false);
      } else if (worker.state === "activated") {
        resolve(true);
      }
    };
    worker?.addEventListener("statechange", look);
    look();
  });
}

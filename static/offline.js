// Keeps the app on the phone, and says when a newer version has come.

/** So long a worker may take to look whether all files are there, and to fetch those that are not. */
const PATIENCE = 60_000;

/**
 * Registers the service worker, and tries again where that fails: when the network is back, and now and
 * then.
 *
 * @param {(apply: (() => void) | null) => void} onNewer Called with a function when a newer
 *   version is ready and waits: one that waited already, or one found later. Calling `apply`
 *   changes this tab to it by loading the tab anew, once. Called with null when another tab has
 *   put a newer version to use: this tab goes on as it is, and has it after any reload. It may be
 *   called several times; the last call tells how things stand.
 * @param {(how: "yes" | "not-yet" | "never") => void} onKept Called when it is known whether the app
 *   opens without a network from now on. Never where the browser has no service worker (an insecure
 *   address, a private window of some browsers).
 */
export async function keepOffline(onNewer, onKept) {
  const workers = navigator.serviceWorker;
  if (!workers) {
    return onKept("never");
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

  const offer = (worker) => {
    // News of a worker may come late; one that answers already does not wait.
    if (worker !== workers.controller) {
      onNewer(apply);
    }
  };
  const watch = () => {
    const worker = registration.installing;
    const older = registration.active;
    worker?.addEventListener("statechange", () => {
      if (worker.state === "installed" && older) {
        offer(worker);
      }
    });
  };

  /** Whether all files are on the phone. */
  const keep = async () => {
    try {
      const now = await workers.register("sw.js");
      if (now !== registration) {
        registration = now;
        if (registration.waiting) {
          offer(registration.waiting);
        }
        // The browser looks for a newer version as the page loads, and may have begun already.
        watch();
        registration.addEventListener("updatefound", watch);
      }
      const worker = registration.active ?? (registration.installing ?? registration.waiting);
      return (await settled(worker)) && (await isWhole(registration.active));
    } catch {
      return false;
    }
  };

  for (let pause = 30_000; !(await keep()); pause = Math.min(2 * pause, 600_000)) {
    onKept("not-yet");
    await signal(pause);
  }
  onKept("yes");
}

/** Waits until the browser says that the network is back, or so many milliseconds. */
function signal(pause) {
  return new Promise((resolve) => {
    addEventListener("online", resolve, { once: true });
    setTimeout(resolve, pause);
  });
}

/** Whether a worker comes into use, or is in use. */
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

/** Whether a worker has all files, after it has fetched those that were thrown away. */
function isWhole(worker) {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }) => resolve(data);
    setTimeout(resolve, PATIENCE, false);
    worker.postMessage({ type: "is-whole" }, [port2]);
  });
}

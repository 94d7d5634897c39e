// Hands the page's events to wasm and morphs the markup that comes back into the page.
// Everything that needs a promise (sharing, files, offline keeping) is here; nothing of the garden is.

import init, { App } from "./pegline.js";
import * as store from "./keep.js";
import { keepOffline } from "./offline.js";

// Chromium 156 kills the page when a list of suggestions is moved this way, as it is from one question
// to the next; without it the morphing library moves nodes as it does in every other browser.
delete Element.prototype.moveBefore;

const root = document.getElementById("app");
let app = null;
let morphing = false;
let applyNewer = null;
/** What is to follow the next markup, while an answer is being worked out. */
let next = { focus: false, top: false };
let waits = false;

/** A form's texts by the names of their fields: { "plants.0.crop": "cabbage" }. */
const texts = (form) => Object.fromEntries(new FormData(form));

function show(markup, mayFocus) {
  morphing = true;
  try {
    // What is being typed stays; a link that was tapped must not keep its words on the next screen.
    const typing = document.activeElement?.matches("input, select, textarea") ?? false;
    Idiomorph.morph(root, markup, {
      morphStyle: "innerHTML",
      ignoreActiveValue: typing,
      // What was unfolded stays so while one types in it.
      callbacks: {
        beforeAttributeUpdated: (name, node) => name !== "open" || node.tagName !== "DETAILS",
        // Hundreds of names that never change need not be looked through one by one.
        beforeNodeMorphed: (old, fresh) => old.tagName !== "DATALIST" || !old.isEqualNode(fresh),
      },
    });
  } finally {
    morphing = false;
  }
  document.title = `${root.querySelector("h1")?.textContent.trim() ?? "Pegline"} · Pegline`;
  // The list of faults, else the verdict, takes the focus when the answer was asked for, never while one types.
  if (!mayFocus) return;
  const found = root.querySelector("[data-focus='faults']") ?? root.querySelector("[data-focus]");
  found?.focus({ preventScroll: found.dataset.focus === "verdict" });
  if (found?.dataset.focus === "verdict") scrollTo(0, 0);
}

/** Shows what the app gave; nothing where the page is to stay as it is. */
function take(markup) {
  if (markup !== undefined) {
    show(markup, next.focus);
    if (next.top) scrollTo(0, 0);
    next = { focus: false, top: false };
  }
  // An answer that takes longer comes turn by turn, and the page can be used in between.
  if (!app.works() || waits) return;
  waits = true;
  setTimeout(() => {
    waits = false;
    safely(() => take(app.turn()));
  });
}

function safely(work) {
  if (app) trapped(work);
}

function trapped(work) {
  try {
    work();
  } catch (error) {
    app = null;
    root.hidden = true;
    document.getElementById("trap").hidden = false;
    dispatchEvent(new Event("pegline-open"));
    throw error;
  }
}

function send(name, action, fields = {}) {
  // A control that morphing removes may still raise events; they are not the gardener's.
  if (morphing) return;
  let effects = [];
  safely(() => {
    next = { focus: name === "submit", top: next.top || name === "route" };
    take(app.event(name, action, fields));
    effects = app.effects();
  });
  for (const effect of effects) carryOut(effect);
}

function carryOut(effect) {
  if (effect.go !== undefined) location.hash = effect.go;
  if (effect.persist) askToPersist();
  if (effect.update && applyNewer) applyNewer();
  if (effect.print) print();
  if (effect.look) tell(store.look(effect.known), "found", "not-found");
  if (effect.fetch) tell(store.read(effect.fetch).then((lines) => ({ lines })), "late", "late");
  if (effect.keep) {
    const keys = effect.keep.map(([key]) => key);
    const refused = (error) => ({ keys, full: error?.name === "QuotaExceededError" });
    tell(store.keep(effect.keep, effect.witness).then(() => ({ keys })), "kept", "not-kept", refused);
  }
  if (effect.file) handOver(effect.file, effect.text, effect.type);
}

/** Says what came of work in the store. */
function tell(work, done, failed, fields = () => ({})) {
  work.then((found) => send(done, "", found), (error) => send(failed, "", fields(error)));
}

async function askToPersist() {
  const kept = navigator.storage?.persist ? await navigator.storage.persist() : null;
  send("persisted", kept === null ? "unknown" : kept ? "yes" : "no");
}

// The share sheet first (that is where a phone's other apps are), then a download, then text to copy.
async function handOver(name, text, type) {
  const file = new File([text], name, { type });
  if (navigator.canShare?.({ files: [file] }) && matchMedia("(pointer: coarse)").matches) {
    try {
      await navigator.share({ files: [file] });
      return send("handed-over", "shared");
    } catch (error) {
      if (error.name === "AbortError") return send("handed-over", "not");
    }
  }
  try {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(file);
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    send("handed-over", "downloaded");
  } catch {
    send("handed-over", "copy");
  }
}

// A field that is left may get a fault below it, and that moves the page: never while a finger is
// down, or the button under it would be missed.
let left = null;
let pressed = false;
let seeking = 0;

function soon() {
  setTimeout(() => {
    if (pressed || !left) return;
    const { name, form } = left;
    left = null;
    send("change", name, texts(form));
  }, 120);
}

// What another tab writes comes line by line, thousands of them when it takes a copy in: they are told of
// together, once it pauses.
let heard = [];
let since = 0;
let pause = 0;

function hear(line) {
  since ||= performance.now();
  if (line?.newValue) heard.push([line.key, line.newValue]);
  clearTimeout(pause);
  pause = setTimeout(() => {
    const lines = heard;
    [heard, since] = [[], 0];
    send("storage", "", { lines });
  }, performance.now() - since < 2000 ? 200 : 0);
}

const control = (event) => event.target.closest?.("[data-action]");
const formOf = (element) => element.closest("form");

function listen() {
  for (const name of ["resize", "scroll"]) visualViewport?.addEventListener(name, liftFoot);
  addEventListener("hashchange", () => {
    // A field of the last screen must not keep its text as one of the next.
    document.activeElement?.blur();
    left = null;
    send("route", location.hash);
  });
  addEventListener("storage", hear);
  store.onChange(() => hear());
  document.addEventListener("visibilitychange", () => {
    if (!document.hidden) send("looked", "");
  });
  root.addEventListener("submit", (event) => {
    event.preventDefault();
    left = null;
    const action = event.submitter?.dataset.action ?? event.target.dataset.action;
    send("submit", action, texts(event.target));
  });
  root.addEventListener("input", (event) => {
    const form = formOf(event.target);
    if (!form) return;
    const { name } = event.target;
    // What looks through the whole record waits until one pauses.
    clearTimeout(seeking);
    if (form.dataset.live === "paused") return void (seeking = setTimeout(() => send("input", name, texts(form)), 200));
    // A form that answers nothing yet is told of too: what the app does not know, any redrawing takes away.
    send(form.dataset.live ? "input" : "typed", name, texts(form));
  });
  root.addEventListener("change", (event) => {
    if (event.target.type === "file") return takeIn(event.target);
    const form = formOf(event.target);
    if (!form) return;
    // Some browsers tell of a choice only here.
    if (!form.dataset.live) return send("typed", event.target.name, texts(form));
    left = { name: event.target.name, form };
    soon();
  });
  for (const [name, down] of [["pointerdown", true], ["pointerup", false], ["pointercancel", false]]) {
    addEventListener(name, () => { pressed = down; soon(); }, true);
  }
  root.addEventListener("click", (event) => {
    const button = control(event);
    if (!button || button.type === "submit" || button.tagName === "FORM" || button.type === "file") return;
    event.preventDefault();
    let action = button.dataset.action;
    if (button.tagName === "svg") {
      // A picture is one target: where it was touched, in its own units.
      const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(button.getScreenCTM().inverse());
      action += `:${Math.round(at.x)},${Math.round(at.y)}`;
    }
    left = null;
    if (action.startsWith("field:")) return document.getElementById(action.slice(6))?.focus();
    const form = formOf(button);
    send("click", action, form ? texts(form) : {});
  });
}

// Where the keyboard lies over the page instead of making it shorter, what stands at the foot is lifted.
function liftFoot() {
  const seen = visualViewport;
  const hidden = Math.max(0, Math.round(innerHeight - seen.height - seen.offsetTop));
  document.documentElement.style.setProperty("--keyboard", `${hidden}px`);
}

// What is typed outlives a reload in this tab, once: a newer version is taken by one, and phones drop
// pages whose room they need.
const TYPED = "pegline/typed";

function leaveTyped() {
  const typed = app?.typed();
  try {
    if (typed) sessionStorage.setItem(TYPED, typed);
  } catch {
    // Where storage is refused, it goes with the page.
  }
}

function takeUpTyped() {
  let typed = null;
  try {
    typed = sessionStorage.getItem(TYPED);
    sessionStorage.removeItem(TYPED);
  } catch {
    // Nothing was left where storage is refused.
  }
  if (typed) app.event("typed-before", typed, {});
}

async function takeIn(input) {
  const file = input.files[0];
  if (!file) return;
  // Read at most a little over what is taken in; wasm says what is too large.
  const text = await file.slice(0, 21_000_000).text();
  input.value = "";
  send("file", input.dataset.action, { text });
}

async function start() {
  if (!globalThis.Idiomorph) throw new Error("idiomorph has not come");
  // On a first visit it is on its way already.
  await init(window.pegline && { module_or_path: window.pegline });
  trapped(() => { app = new App(); });
  listen();
  safely(takeUpTyped);
  addEventListener("pagehide", leaveTyped);
  send("route", location.hash);
  document.getElementById("slow").remove();
  performance.mark("open");
  dispatchEvent(new Event("pegline-open"));
  await keepOffline((apply) => {
    applyNewer = apply;
    send("newer", apply ? "ready" : "elsewhere");
  }, (how) => send("offline", how));
}

start();

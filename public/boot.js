// Starts the app. A file of its own because the Content-Security-Policy allows no inline script.
//
// What the app may count on:
//   html[data-offline]   "just-ready": the first install finished during this visit; "ready": it was there before
//   html[data-update]    "waiting": a newer version is stored and waits to be taken over
//   window events        "coatwalk-ready-offline", "coatwalk-update-waiting" (each set the attribute first)
//   window.coatwalkTakeUpdate()   takes the waiting version over, then loads the page once more
//   window.coatwalkPart(name)     a promise of a further part of the app, fetched when first asked for
//   window.coatwalkPhone          sound, voice and screen of the phone: each does nothing where the phone can't
//   html[data-awake]              "yes" while the screen is kept on
//   window event "coatwalk-action" detail: the word of a button on a notification, "rinsed/<id>" or "later/<title>"
//   window.coatwalkStopped(text)  shows the "Coatwalk stopped" card; also shown by itself after a panic

const page = document.documentElement;
const tag = document.querySelector("script[data-js]");

// Leptos puts the fixed parts of its views in by innerHTML, so a default policy has to let HTML through. It is a weak
// filter, a second line only: what a user types goes in as text nodes and never comes through here.
if (window.trustedTypes?.createPolicy) {
  const active = /<\s*(script|iframe|object|embed|base|meta|link|form)\b|[\s"'/]on[a-z]+\s*=|javascript:/i;
  window.trustedTypes.createPolicy("default", {
    createHTML(html) {
      if (active.test(html)) throw new TypeError("Coatwalk refuses active HTML");
      return html;
    },
    createScriptURL(address) {
      const url = new URL(address, document.baseURI);
      if (url.href !== new URL("sw.js", document.baseURI).href) throw new TypeError("Coatwalk refuses this script");
      return url.href;
    },
  });
}

// ---- When the app cannot run: a plain card, and the log as a file --------------------------------------------------

/** Every kept entry, read without the app. Empty when nothing was ever kept on this phone. */
async function rawEntries() {
  // Opening what is not there would make it.
  const names = (await indexedDB.databases?.())?.map((database) => database.name);
  if (names && !names.includes("coatwalk")) return [];
  return new Promise((done, fail) => {
    const open = indexedDB.open("coatwalk");
    // The same for a browser that cannot list them.
    open.onupgradeneeded = () => open.transaction.abort();
    open.onerror = () => (open.error?.name === "AbortError" ? done([]) : fail(open.error));
    open.onblocked = () => fail(new Error("another tab holds the log; close it"));
    open.onsuccess = () => {
      const db = open.result;
      if (!db.objectStoreNames.contains("entries")) return db.close(), done([]);
      const all = db.transaction("entries").objectStore("entries").getAll();
      all.onsuccess = () => (db.close(), done(all.result));
      all.onerror = () => (db.close(), fail(all.error));
    };
  });
}

/** One entry a line. Bytes (photos) are named by their length only: they stay in the phone's store. */
function asLine(entry) {
  if (typeof entry === "string") return entry;
  const bytes = (value) => value instanceof ArrayBuffer || ArrayBuffer.isView(value);
  return JSON.stringify(entry, (_, value) => (bytes(value) ? `${value.byteLength} bytes` : value));
}

async function saveLog() {
  const lines = (await rawEntries()).map(asLine);
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob(lines.map((line) => line + "\n"), { type: "text/plain" }));
  link.download = "coatwalk-log.txt";
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  return lines.length;
}

function part(name, text, attributes = {}) {
  const element = document.createElement(name);
  element.textContent = text;
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
}

/** The screen behind stays as it is, so that words typed there can still be read or copied. */
function stopped(why) {
  if (document.getElementById("stopped")) return;
  const card = part("aside", "", { id: "stopped", role: "alert" });
  const answer = part("p", "", { "data-id": "stopped-answer" });
  const save = part("button", "Save the log as a file", { type: "button", "data-id": "stopped-save" });
  const again = part("button", "Open Coatwalk again", { type: "button", "data-id": "stopped-again" });
  save.onclick = () =>
    saveLog().then(
      (count) => (answer.textContent = count ? `${count} entries written to coatwalk-log.txt.` : "The log on this phone is empty."),
      (error) => (answer.textContent = `The log could not be read: ${error?.message ?? error}`),
    );
  again.onclick = () => location.reload();
  card.append(
    part("h2", "Coatwalk stopped"),
    part("p", "What was logged before this is still on this phone. Open Coatwalk again. If it stops again, save the log as a file first."),
    again,
    save,
    answer,
    part("p", String(why)),
  );
  document.body.append(card);
}
window.coatwalkStopped = stopped;

// A Rust panic ends in a WebAssembly trap; after one the app's state is not to be trusted.
const isTrap = (error) => typeof WebAssembly === "object" && error instanceof WebAssembly.RuntimeError;
addEventListener("error", (event) => isTrap(event.error) && stopped(event.error.message));
addEventListener("unhandledrejection", (event) => isTrap(event.reason) && stopped(event.reason.message));

// ---- No signal: the service worker ---------------------------------------------------------------------------------

function tell(name, attribute, value) {
  page.dataset[attribute] = value;
  dispatchEvent(new Event(name));
}

async function keepOffline(worker) {
  if (!navigator.serviceWorker) return;
  const had = Boolean(navigator.serviceWorker.controller);
  const registration = await navigator.serviceWorker.register(new URL(worker, document.baseURI).href);

  const waiting = () => tell("coatwalk-update-waiting", "update", "waiting");
  const follow = (incoming) =>
    incoming.addEventListener("statechange", () => {
      if (incoming.state === "installed" && registration.active) waiting();
    });
  if (registration.waiting && registration.active) waiting();
  if (registration.installing) follow(registration.installing);
  registration.addEventListener("updatefound", () => follow(registration.installing));

  let asked = false;
  window.coatwalkTakeUpdate = () => {
    asked = true;
    registration.waiting?.postMessage("take-over");
  };
  navigator.serviceWorker.addEventListener("controllerchange", () => asked && location.reload());
  // A tap on a notification, while the app is open.
  navigator.serviceWorker.addEventListener("message", (event) => {
    if (typeof event.data?.open === "string") location.hash = new URL(event.data.open, document.baseURI).hash;
    if (event.data?.action) dispatchEvent(new CustomEvent("coatwalk-action", { detail: event.data.action }));
  });

  await navigator.serviceWorker.ready;
  if (had) page.dataset.offline = "ready";
  else tell("coatwalk-ready-offline", "offline", "just-ready");
}

// ---- Sound, voice, screen ------------------------------------------------------------------------------------------

let sound;
// A page may only sound after a tap; the first one unlocks it for good.
const unlock = () => {
  const Sound = window.AudioContext ?? window.webkitAudioContext;
  if (Sound) sound ??= new Sound();
  if (sound?.state === "suspended") sound.resume().catch(() => {});
};
addEventListener("pointerup", unlock);
addEventListener("keyup", unlock);

let awake = null;
let wantsAwake = false;
async function keepAwake() {
  if (!wantsAwake || awake || document.hidden || !navigator.wakeLock) return;
  awake = await navigator.wakeLock.request("screen").catch(() => null);
  page.dataset.awake = awake ? "yes" : "no";
  awake?.addEventListener("release", () => {
    awake = null;
    page.dataset.awake = "no";
  });
  // Not wanted any more while the phone thought about it.
  if (!wantsAwake) awake?.release();
}
// The phone takes it away whenever the page is out of sight.
document.addEventListener("visibilitychange", keepAwake);

window.coatwalkPhone = {
  beep() {
    if (sound?.state !== "running") return;
    for (const [at, pitch] of [[0, 880], [0.3, 660], [0.6, 880]]) {
      const tone = sound.createOscillator();
      const loud = sound.createGain();
      tone.type = "square";
      tone.frequency.value = pitch;
      loud.gain.setValueAtTime(0.3, sound.currentTime + at);
      loud.gain.setValueAtTime(0, sound.currentTime + at + 0.22);
      tone.connect(loud).connect(sound.destination);
      tone.start(sound.currentTime + at);
      tone.stop(sound.currentTime + at + 0.25);
    }
  },
  buzz: (...pattern) => navigator.vibrate?.(pattern),
  say(words) {
    if (!window.speechSynthesis) return false;
    speechSynthesis.cancel();
    const said = new SpeechSynthesisUtterance(words);
    said.lang = page.lang;
    speechSynthesis.speak(said);
    return true;
  },
  badge: (count) => (count ? navigator.setAppBadge?.(count) : navigator.clearAppBadge?.())?.catch(() => {}),
  /** True when this phone can keep its screen on. */
  awake(on) {
    wantsAwake = on;
    if (on) keepAwake();
    else awake?.release();
    return Boolean(navigator.wakeLock);
  },
};

// ---- Parts that are fetched when they are first opened ---------------------------------------------------------------

const parts = new Map();

/** A further WebAssembly of the app, started; asked for again, it is the same one. */
window.coatwalkPart = (name) => {
  if (!parts.has(name)) {
    const part = import(new URL(`${name}.js`, document.baseURI).href).then(async (module) => {
      await module.default({ module_or_path: new URL(`${name}_bg.wasm`, document.baseURI).href });
      return module;
    });
    // A failed fetch may go better the next time.
    part.catch(() => parts.delete(name));
    parts.set(name, part);
  }
  return parts.get(name);
};

// ---- Start ---------------------------------------------------------------------------------------------------------

try {
  const app = await import(new URL(tag.dataset.js, document.baseURI).href);
  await app.default({ module_or_path: new URL(tag.dataset.wasm, document.baseURI).href });
} catch (error) {
  console.error(error);
  stopped(error?.message ?? error);
}
// tools/finish.mjs writes data-worker into a finished build; a build in the workshop has none and caches nothing.
if (tag.dataset.worker) keepOffline(tag.dataset.worker).catch((error) => console.warn("no service worker:", error));

// Run inside the page: how long a tap takes until its entry stands painted, against the same line put into an object store
// of its own with the same durability, in turns. Milliseconds. arguments: rounds; `done` takes the answer.
const rounds = arguments[0];
const painted = () => new Promise((then) => requestAnimationFrame(() => setTimeout(then)));
const field = () => document.querySelector('[data-id="note-text"]');
const shown = () => document.querySelectorAll("[data-entry]").length;

(async () => {
const bare = await new Promise((then) => {
  const open = indexedDB.open("bare", 1);
  open.onupgradeneeded = () => open.result.createObjectStore("lines");
  open.onsuccess = () => then(open.result);
});
const put = (n) =>
  new Promise((then) => {
    const transaction = bare.transaction(["lines"], "readwrite", { durability: "strict" });
    transaction.objectStore("lines").add("x".repeat(400), n);
    transaction.oncomplete = then;
  });

async function tap(n) {
  field().value = `note ${n}`;
  field().dispatchEvent(new Event("input", { bubbles: true }));
  await painted();
  const before = shown();
  const start = performance.now();
  const there = new Promise((then) => {
    const watch = new MutationObserver(() => shown() > before && (watch.disconnect(), then()));
    watch.observe(document.body, { childList: true, subtree: true });
  });
  document.querySelector('[data-id="note-save"]').click();
  // How long the tap held the page up, before anything else can run.
  const held = performance.now() - start;
  await there;
  await painted();
  return [performance.now() - start, held];
}

async function floor(n) {
  await painted();
  const start = performance.now();
  await put(n);
  await painted();
  return performance.now() - start;
}

const [taps, floors, helds] = [[], [], []];
for (let n = 0; n < rounds; n++) {
  const [whole, held] = await tap(n);
  taps.push(whole);
  helds.push(held);
  floors.push(await floor(n));
}
bare.close();
indexedDB.deleteDatabase("bare");
done({ taps, floors, helds });
})();

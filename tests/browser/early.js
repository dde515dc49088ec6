// Test only: makes the app acknowledge too early. "complete" of a writing transaction is told as soon as the last request
// has been issued, and the store is made slow: the real end comes HOLD milliseconds later. Whoever waits for the real
// end loses nothing by that; whoever was told early does when he is killed in between. The kill test must notice.
{
  const HOLD = 250;
  const state = new WeakMap();
  const of = (transaction) => {
    if (!state.has(transaction)) state.set(transaction, { listeners: [], told: false, timer: 0, until: null });
    return state.get(transaction);
  };
  const tell = (transaction) => {
    const own = of(transaction);
    if (own.told) return;
    own.told = true;
    const event = new Event("complete");
    Object.defineProperty(event, "target", { value: transaction });
    Object.defineProperty(event, "currentTarget", { value: transaction });
    for (const listener of own.listeners) {
      if (typeof listener === "function") listener.call(transaction, event);
      else listener?.handleEvent?.(event);
    }
  };
  // After every request the wait starts anew, so that it ends behind the last one.
  const soon = (transaction) => {
    clearTimeout(of(transaction).timer);
    of(transaction).timer = setTimeout(tell, 0, transaction);
  };
  // Someone who starts to listen later is told too.
  const again = (transaction) => {
    of(transaction).told = false;
    soon(transaction);
  };
  const writing = (transaction) => transaction.mode === "readwrite";

  const addListener = EventTarget.prototype.addEventListener;
  IDBTransaction.prototype.addEventListener = function (type, listener, ...rest) {
    if (type !== "complete" || !writing(this)) return addListener.call(this, type, listener, ...rest);
    of(this).listeners.push(listener);
    again(this);
  };
  const plain = Object.getOwnPropertyDescriptor(IDBTransaction.prototype, "oncomplete");
  Object.defineProperty(IDBTransaction.prototype, "oncomplete", {
    configurable: true,
    get() {
      return writing(this) ? (of(this).handler ?? null) : plain.get.call(this);
    },
    set(listener) {
      if (!writing(this)) return plain.set.call(this, listener);
      const own = of(this);
      own.listeners = own.listeners.filter((other) => other !== own.handler);
      own.handler = listener;
      if (listener) own.listeners.push(listener);
      again(this);
    },
  });
  // A transaction lives as long as it is asked something.
  const keepOpen = (store) => {
    const own = of(store.transaction);
    own.until ??= performance.now() + HOLD;
    if (performance.now() > own.until) return;
    addListener.call(store.get("nothing has this key"), "success", () => keepOpen(store));
  };
  for (const name of ["put", "add"]) {
    const request = IDBObjectStore.prototype[name];
    IDBObjectStore.prototype[name] = function (...all) {
      const made = request.apply(this, all);
      if (writing(this.transaction)) {
        soon(this.transaction);
        addListener.call(made, "success", () => keepOpen(this));
      }
      return made;
    };
  }
  const commit = IDBTransaction.prototype.commit;
  IDBTransaction.prototype.commit = function () {
    if (writing(this)) soon(this);
    else commit.call(this);
  };
}

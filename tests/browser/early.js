// Test only: makes the app acknowledge too early. "complete" of a writing transaction is told as soon as the last request
// has been issued, while its bytes are still on their way. The kill test must notice.
{
  const state = new WeakMap();
  const of = (transaction) => {
    if (!state.has(transaction)) state.set(transaction, { listeners: [], told: false, timer: 0 });
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
  for (const name of ["put", "add", "delete"]) {
    const request = IDBObjectStore.prototype[name];
    IDBObjectStore.prototype[name] = function (...all) {
      const made = request.apply(this, all);
      soon(this.transaction);
      return made;
    };
  }
  const commit = IDBTransaction.prototype.commit;
  IDBTransaction.prototype.commit = function () {
    commit.call(this);
    if (writing(this)) soon(this);
  };
}

// Test only: notes the durability every writing transaction really has, as the browser reads it back.
window.durabilities = [];
const plainTransaction = IDBDatabase.prototype.transaction;
IDBDatabase.prototype.transaction = function (...all) {
  const transaction = plainTransaction.apply(this, all);
  if (transaction.mode === "readwrite") window.durabilities.push(transaction.durability);
  return transaction;
};

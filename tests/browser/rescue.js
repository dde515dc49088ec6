// Test only: catches the file a download link hands to the browser, and can trap as a Rust panic does.
window.savedFile = new Promise((done) => {
  const make = URL.createObjectURL;
  URL.createObjectURL = (blob) => {
    blob.text().then(done);
    return make.call(URL, blob);
  };
});

// A module whose start function is `unreachable`.
const trap = [0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 8, 1, 0, 10, 5, 1, 3, 0, 0, 11];
document.addEventListener("test-only-trap", () => {
  setTimeout(() => new WebAssembly.Instance(new WebAssembly.Module(Uint8Array.from(trap))), 0);
});

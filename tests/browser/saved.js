// Test only: keeps the ZIP files that download links hand to the browser, and texts as they are.
window.savedFiles = [];
const make = URL.createObjectURL;
URL.createObjectURL = (blob) => {
  if (!blob.type.startsWith("image/")) window.savedFiles.push(blob);
  return make.call(URL, blob);
};

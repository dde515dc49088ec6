// Test only: a phone with a share sheet. What it answers is set by the test: "yes", "AbortError" or "NotAllowedError".
window.sheetSays = "yes";
window.sharedNames = [];
navigator.canShare = (data) => data.files?.length === 1;
navigator.share = async (data) => {
  if (window.sheetSays !== "yes") throw new SheetError(window.sheetSays);
  window.sharedNames.push(data.files[0].name, data.files[0].type, String(data.files[0].size));
};
class SheetError extends Error {
  constructor(name) {
    super(name);
    this.name = name;
  }
}

// Test only, run inside the page: photo-sized writes and notes, faster than they can be stored.
// arguments: how many different pictures to make, milliseconds between two taps, and the driver's answer function.
const [pictures, pause, ready] = arguments;

// Noise cannot be compressed: a JPEG of it is as big as a real photo.
const noise = () =>
  new Promise((done) => {
    const canvas = Object.assign(document.createElement("canvas"), { width: 1600, height: 1200 });
    const context = canvas.getContext("2d");
    const image = context.createImageData(canvas.width, canvas.height);
    const pixels = new Uint32Array(image.data.buffer);
    for (let i = 0; i < pixels.length; i++) pixels[i] = 0xff000000 | (Math.random() * 0x1000000);
    context.putImageData(image, 0, 0);
    canvas.toBlob(done, "image/jpeg", 0.8);
  });

const element = (id) => document.querySelector(`[data-id="${id}"]`);

function tapPhoto(blob, number) {
  const files = new DataTransfer();
  files.items.add(new File([blob], `noise-${number}.jpg`, { type: "image/jpeg" }));
  const input = element("photo-input");
  input.files = files.files;
  input.dispatchEvent(new Event("change", { bubbles: true }));
}

function tapNote(number) {
  const field = element("note-text");
  field.value = `note ${number} of the burst`;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  element("note-save").click();
}

(async () => {
  const blobs = [];
  for (let i = 0; i < pictures; i++) blobs.push(await noise());
  let taps = 0;
  window.burst = setInterval(() => {
    taps += 1;
    if (taps % 3 === 0) tapNote(taps);
    else tapPhoto(blobs[taps % blobs.length], taps);
  }, pause);
  ready(blobs.map((blob) => blob.size));
})();

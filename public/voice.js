// Records a voice note. A part of its own, fetched when one first speaks: window.coatwalkPart("voice").
//
//   record(button)  a promise of { bytes, mime, seconds }; it fails with words for the screen. The same button once more
//                   ends the note; that second promise fails with no words. The note ends by itself after LONGEST_S, and
//                   when its screen is left or goes dark: what was said until then is kept.

const LONGEST_S = 300;
// What a backup may hold (share/backup/media.rs), the smallest first. 32 kbit/s is plenty for speech.
const KINDS = ["audio/webm;codecs=opus", "audio/ogg;codecs=opus", "audio/mp4"];
const BITS = 32_000;

const WHY = {
  NotAllowedError: "The microphone is not allowed. Allow it for this page in the browser's settings, or type a note.",
  NotFoundError: "This phone has no microphone the browser can use. Type a note instead.",
  NotReadableError: "Another app holds the microphone. Close it, then try again.",
};
WHY.SecurityError = WHY.NotAllowedError;
WHY.OverconstrainedError = WHY.NotFoundError;
WHY.AbortError = WHY.NotReadableError;

let running = null;

// Asked for by boot.js of every part; there is nothing to start.
export default () => {};

export async function record(button) {
  if (running) {
    const mine = running.button === button;
    running.stop();
    if (mine) throw "";
  }
  const word = button.querySelector("span");
  const before = word.textContent;
  const mimeType = window.MediaRecorder && KINDS.find((kind) => MediaRecorder.isTypeSupported(kind));
  if (!mimeType || !navigator.mediaDevices?.getUserMedia) throw "This browser records no sound. Type a note instead.";
  let ended = false;
  const me = { button, stop: () => (ended = true) };
  running = me;
  let stream;
  let watch;
  const dark = () => document.hidden && me.stop();
  try {
    word.textContent = "Allow the microphone";
    stream = await navigator.mediaDevices.getUserMedia({ audio: true });
    if (ended) throw "";
    const recorder = new MediaRecorder(stream, { mimeType, audioBitsPerSecond: BITS });
    const parts = [];
    const start = performance.now();
    const seconds = () => Math.round((performance.now() - start) / 1000);
    await new Promise((done) => {
      recorder.ondataavailable = (event) => event.data.size && parts.push(event.data);
      // Also comes after an error, such as a microphone taken away.
      recorder.onstop = done;
      me.stop = () => recorder.state === "inactive" || recorder.stop();
      recorder.start(1000);
      document.addEventListener("visibilitychange", dark);
      const show = () => {
        word.textContent = `Stop, keep (${seconds()} s)`;
        if (!button.isConnected || seconds() >= LONGEST_S) me.stop();
      };
      show();
      watch = setInterval(show, 500);
    });
    const bytes = await new Blob(parts).arrayBuffer();
    if (!bytes.byteLength) throw "No sound came from the microphone. Try again, or type a note.";
    return { bytes, mime: mimeType.split(";")[0], seconds: Math.max(1, seconds()) };
  } catch (why) {
    throw typeof why === "string" ? why : (WHY[why?.name] ?? "The microphone does not start. Type a note instead.");
  } finally {
    clearInterval(watch);
    document.removeEventListener("visibilitychange", dark);
    stream?.getTracks().forEach((track) => track.stop());
    word.textContent = before;
    if (running === me) running = null;
  }
}

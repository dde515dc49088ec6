// Test only, run inside the page: what is wrong with the things one can tap, and with the words, on the screen in view.
// Gives back a list of sentences; empty when nothing is wrong. Sizes are CSS pixels.
const LEAST = 48;
const WORK = 80;
const CONTRAST = 4.5; // WCAG 2.2, 1.4.3; large text 3:1.

const shown = (e) => {
  const box = e.getBoundingClientRect();
  return box.width > 1 && box.height > 1 && e.checkVisibility({ opacityProperty: true, visibilityProperty: true });
};
const name = (e) =>
  (
    e.getAttribute("aria-label") ||
    [...(e.labels ?? [])].map((l) => l.textContent).join(" ") ||
    e.textContent ||
    e.title ||
    ""
  ).trim();
const word = (e) => `<${e.tagName.toLowerCase()} data-id=${e.dataset.id ?? "-"} class=${e.className}> "${name(e).slice(0, 40)}"`;

const wrong = [];
const tappable = [...document.querySelectorAll("a[href], button, input, select, textarea, summary, [role=button], [role=checkbox], [role=slider], label:has(input[type=file])")].filter(shown);
for (const e of tappable) {
  const { width, height } = e.getBoundingClientRect();
  const least = e.matches(".work, .main") ? WORK : LEAST;
  if (height < least - 0.5 || width < LEAST - 0.5) wrong.push(`small, ${width.toFixed(0)} x ${height.toFixed(0)}: ${word(e)}`);
  if (!name(e)) wrong.push(`without a name: ${word(e)}`);
}

// Two that cover each other: the middle of each must belong to it. What lies under a bar that stays in view is scrolled out first.
for (const e of tappable) {
  e.scrollIntoView({ block: "center", behavior: "instant" });
  const box = e.getBoundingClientRect();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  if (x < 0 || x > innerWidth || y < 0 || y > innerHeight) continue;
  const top = document.elementFromPoint(x, y);
  if (top && !e.contains(top) && !top.contains(e) && !top.closest("label")?.contains(e)) wrong.push(`covered by ${word(top)}: ${word(e)}`);
}
if (document.documentElement.scrollWidth > innerWidth) wrong.push(`wider than the screen: ${document.documentElement.scrollWidth}`);

// Contrast of every piece of text with what lies under it.
const canvas = Object.assign(document.createElement("canvas"), { width: 1, height: 1 });
const pen = canvas.getContext("2d", { willReadFrequently: true });
const rgba = (css) => {
  pen.clearRect(0, 0, 1, 1);
  pen.fillStyle = css;
  pen.fillRect(0, 0, 1, 1);
  return [...pen.getImageData(0, 0, 1, 1).data];
};
const light = ([r, g, b]) => {
  const part = (c) => ((c /= 255) <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
  return 0.2126 * part(r) + 0.7152 * part(g) + 0.0722 * part(b);
};
const under = (e) => {
  for (let at = e; at; at = at.parentElement) {
    // A ticket's ground, with its cut corner, is painted by what stands behind its words.
    for (const of of ["::after", "::before", null]) {
      const style = getComputedStyle(at, of);
      if (of && (style.content === "none" || style.position !== "absolute" || style.zIndex !== "-1")) continue;
      const [r, g, b, a] = rgba(style.backgroundColor);
      if (a > 250) return [r, g, b];
    }
  }
  return rgba(getComputedStyle(document.documentElement).backgroundColor);
};
const seen = new Set();
for (const ground of ["light", "dark"]) {
  document.documentElement.dataset.ground = ground;
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const e = walker.currentNode.parentElement;
    const text = walker.currentNode.textContent.trim();
    if (!text || !shown(e) || e.closest("svg, script, style, noscript")) continue;
    const style = getComputedStyle(e);
    const size = parseFloat(style.fontSize);
    const [a, b] = [light(rgba(style.color)), light(under(e))];
    const ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    const least = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700) ? 3 : CONTRAST;
    const said = `${ground}: contrast ${ratio.toFixed(1)} of ${least}: "${text.slice(0, 40)}"`;
    if (ratio < least && !seen.has(said)) {
      seen.add(said);
      wrong.push(said);
    }
    // The report is shown as it stands on paper.
    if (size < 15 && !e.closest("article.report")) wrong.push(`tiny, ${size} px: "${text.slice(0, 40)}"`);
  }
}
document.documentElement.dataset.ground = "";
return [wrong, tappable.length];

// Finishes what Trunk built: writes the asset list and its hash into the service worker, puts .br and .gz beside the
// files, and holds the first load against size-budget.json. Exit code 1 beyond the budget.
//   node tools/finish.mjs [--dir dist] [--print-only]
import { createHash } from "node:crypto";
import { readFileSync, readdirSync, writeFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { join, relative, resolve, sep } from "node:path";
import { parseArgs } from "node:util";
import { brotliCompressSync, brotliDecompressSync, constants, gzipSync } from "node:zlib";

const { values: option } = parseArgs({
  options: { dir: { type: "string", default: "dist" }, "print-only": { type: "boolean", default: false } },
});
const dir = option.dir;
const packed = /\.(br|gz)$/;
// Small or already compressed files gain nothing; _headers is for the host, not for the phone.
const compressible = /\.(html|js|css|wasm|svg|webmanifest|json|txt)$/;
const notForPhone = new Set(["_headers", "sw.js"]);

const read = (name) => readFileSync(join(dir, name));
const files = readdirSync(dir, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile())
  .map((entry) => relative(dir, join(entry.parentPath ?? entry.path, entry.name)).split(sep).join("/"))
  .sort();

function brotli(bytes) {
  return brotliCompressSync(bytes, {
    params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length },
  });
}

/** The one place of `text` in a file, replaced; anything else means the build and this script no longer fit. */
function replaceOnce(source, text, by, where) {
  const parts = source.split(text);
  if (parts.length !== 2) throw new Error(`${where}: expected "${text}" once, found it ${parts.length - 1} times`);
  return parts.join(by);
}

function checkPolicies() {
  const inPage = /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(read("index.html").toString())?.[1];
  const inHeader = /Content-Security-Policy: (.+)/.exec(read("_headers").toString())?.[1].trim();
  if (`${inPage}; frame-ancestors 'none'` !== inHeader) {
    throw new Error("the Content-Security-Policy in index.html and the one in _headers differ");
  }
}

/** All stylesheets of the page in one file: fewer requests, and what they share is packed once. */
function oneStylesheet(page) {
  const links = [...page.matchAll(/<link rel="stylesheet" href="(?:\.\/)?([^"]+)"([^>]*)>/g)];
  if (links.length < 2) return page;
  const sheets = links.map(([, name, more]) => {
    const media = /media="([^"]+)"/.exec(more)?.[1];
    return media ? `@media ${media} {${read(name)}}` : read(name).toString();
  });
  const name = `style-${createHash("sha256").update(sheets.join("\n")).digest("hex").slice(0, 16)}.css`;
  writeFileSync(join(dir, name), sheets.join("\n"));
  for (const [, old] of links) {
    rmSync(join(dir, old));
    files.splice(files.indexOf(old), 1);
  }
  files.push(name);
  files.sort();
  return links.reduce((html, [link], i) => html.replace(link, i ? "" : `<link rel="stylesheet" href="./${name}">`), page);
}

function finish() {
  for (const name of files.filter((name) => packed.test(name))) rmSync(join(dir, name));
  checkPolicies();

  // Only a finished build registers the service worker.
  const page = oneStylesheet(read("index.html").toString());
  const marked = page.includes("data-worker=") ? page : replaceOnce(page, "data-js=", 'data-worker="sw.js" data-js=', "index.html");
  writeFileSync(join(dir, "index.html"), marked);

  // Comments and long names stay in the workshop.
  const { transformSync } = createRequire(resolve(".tools/package.json"))("esbuild");
  for (const name of files.filter((name) => /\.(js|css)$/.test(name) && name !== "sw.js")) {
    const loader = name.endsWith(".css") ? "css" : "js";
    writeFileSync(join(dir, name), transformSync(read(name).toString(), { loader, minify: true, charset: "utf8" }).code);
  }

  const kept = files.filter((name) => !packed.test(name) && !notForPhone.has(name));
  const hash = createHash("sha256");
  for (const name of kept) hash.update(name).update("\0").update(read(name)).update("\0");
  // The page goes by its folder: hosts that send index.html on to "./" would hand the cache a redirect.
  const assets = kept.map((name) => (name === "index.html" ? "./" : name));
  const template = readFileSync("public/sw.js", "utf8");
  const worker = replaceOnce(template, 'const VERSION = "unfinished";', `const VERSION = "${hash.digest("hex").slice(0, 16)}";`, "sw.js");
  const whole = replaceOnce(worker, "const ASSETS = [];", `const ASSETS = ${JSON.stringify(assets)};`, "sw.js");
  writeFileSync(join(dir, "sw.js"), transformSync(whole, { minify: true, charset: "utf8" }).code);

  for (const name of [...kept, "sw.js"].filter((name) => compressible.test(name))) {
    writeFileSync(join(dir, name + ".br"), brotli(read(name)));
    writeFileSync(join(dir, name + ".gz"), gzipSync(read(name), { level: 9 }));
  }
}

/** What has to arrive before the first screen stands: all but the icons that wait for "add to home screen". */
function firstLoad() {
  const page = read("index.html").toString();
  const named = new Set([...page.matchAll(/(?:href|src|data-js|data-wasm)="(?:\.\/)?([^"]+)"/g)].map((match) => match[1]));
  return files
    .filter((name) => !packed.test(name) && name !== "_headers")
    .filter((name) => name === "index.html" || name === "sw.js" || (named.has(name) && !name.includes("apple-touch")))
    .map((name) => {
      const bytes = read(name);
      const small = compressible.test(name) ? brotliSize(name, bytes) : bytes.length;
      return { name, raw: bytes.length, small };
    })
    .sort((a, b) => b.small - a.small);
}

function brotliSize(name, bytes) {
  const stored = readFileSync(join(dir, name + ".br"));
  if (!brotliDecompressSync(stored).equals(bytes)) throw new Error(`${name}.br is not ${name}: run make dist`);
  return stored.length;
}

function report() {
  const budget = JSON.parse(readFileSync("size-budget.json", "utf8")).first_load_bytes;
  const rows = firstLoad();
  const total = rows.reduce((sum, row) => sum + row.small, 0);
  const line = (name, raw, small) => console.log(`${name.padEnd(44)}${String(raw).padStart(10)}${String(small).padStart(10)}`);
  line("first load", "bytes", "brotli");
  for (const row of rows) line(row.name, row.raw, row.small);
  line("total", rows.reduce((sum, row) => sum + row.raw, 0), total);
  console.log(`budget ${budget} bytes: ${total <= budget ? `${budget - total} to spare` : `${total - budget} too much`}`);
  return total <= budget;
}

if (!option["print-only"]) finish();
process.exitCode = report() ? 0 : 1;

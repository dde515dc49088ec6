// A small static server for the finished app, with the headers of dist/_headers and the packed files beside it.
//   node tools/serve.mjs [--dir dist] [--port 8080] [--host 127.0.0.1] [--prefix /some/path] [--inject FILE ...]
// --port 0 takes a free one. --prefix serves the app under a path, as a static host may. --inject is for tests only: it
// puts a script of the app's own origin before boot.js.
import { createServer } from "node:http";
import { existsSync, readFileSync, statSync } from "node:fs";
import { basename, extname, join, resolve, sep } from "node:path";
import { parseArgs } from "node:util";

const { values: option } = parseArgs({
  options: {
    dir: { type: "string", default: "dist" },
    port: { type: "string", default: "8080" },
    host: { type: "string", default: "127.0.0.1" },
    prefix: { type: "string", default: "" },
    inject: { type: "string", multiple: true, default: [] },
  },
});

const root = resolve(option.dir);
const prefix = "/" + option.prefix.split("/").filter(Boolean).join("/");
const base = prefix === "/" ? "/" : prefix + "/";
const injected = new Map(option.inject.map((file) => [`test-only-${basename(file)}`, file]));

const types = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".wasm": "application/wasm",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".webmanifest": "application/manifest+json",
};

/** The headers under "/*" in _headers, so that this server and a real host give the same ones. */
function securityHeaders() {
  const lines = readFileSync(join(root, "_headers"), "utf8").split("\n");
  const pairs = lines.filter((line) => /^\s+\S/.test(line)).map((line) => line.trim().split(/:\s*(.*)/s));
  return Object.fromEntries(pairs.map(([name, value]) => [name, value]));
}

function withScripts(html) {
  const scripts = [...injected.keys()].map((name) => `<script src="${name}"></script>`).join("");
  return html.replace('<script type="module"', scripts + '<script type="module"');
}

function answer(request, response) {
  const path = decodeURIComponent(new URL(request.url, "http://localhost").pathname);
  const send = (status, headers, body = "") => {
    response.writeHead(status, { ...securityHeaders(), ...headers });
    response.end(request.method === "HEAD" ? undefined : body);
  };
  if (!["GET", "HEAD"].includes(request.method)) return send(405, { Allow: "GET, HEAD" });
  if (path + "/" === base) return send(308, { Location: base });
  if (!path.startsWith(base)) return send(404, { "Content-Type": "text/plain" }, "Nothing here.\n");

  const name = path.slice(base.length) || "index.html";
  if (injected.has(name)) return send(200, { "Content-Type": types[".js"] }, readFileSync(injected.get(name)));
  const file = resolve(root, name);
  const inside = file.startsWith(root + sep) && existsSync(file) && statSync(file).isFile();
  if (!inside) return send(404, { "Content-Type": "text/plain" }, "Nothing here.\n");

  const headers = { "Content-Type": types[extname(file)] ?? "application/octet-stream", Vary: "Accept-Encoding" };
  if (name === "index.html" && injected.size) return send(200, headers, withScripts(readFileSync(file, "utf8")));
  const accepted = (request.headers["accept-encoding"] ?? "").split(",").map((part) => part.trim().split(";")[0]);
  for (const [encoding, ending] of [["br", ".br"], ["gzip", ".gz"]]) {
    if (accepted.includes(encoding) && existsSync(file + ending)) {
      return send(200, { ...headers, "Content-Encoding": encoding }, readFileSync(file + ending));
    }
  }
  send(200, headers, readFileSync(file));
}

const server = createServer((request, response) => {
  try {
    answer(request, response);
  } catch (error) {
    response.writeHead(error instanceof URIError ? 400 : 500).end();
    if (!(error instanceof URIError)) console.error(error);
  }
});
server.on("error", (error) => {
  console.error(error.code === "EADDRINUSE" ? `Port ${option.port} is taken. Another one: make serve PORT=8081` : error.message);
  process.exit(1);
});
server.listen(Number(option.port), option.host, () => {
  console.log(`Coatwalk is at http://localhost:${server.address().port}${base}`);
});

#!/usr/bin/env bash
# Installs what is missing, and says so. What is there in the right version is left alone.
#   tools/setup.sh build     what the app is built with
#   tools/setup.sh test      the same, and what the browser tests need
#   tools/setup.sh doctor    installs nothing, lists what is there and what is not
set -euo pipefail
cd "$(dirname "$0")/.."
what=${1:-build}
cargo_bin=${CARGO_HOME:-$HOME/.cargo}/bin
export PATH="$PWD/.tools/bin:$PWD/.tools/node_modules/.bin:$cargo_bin:$PATH"

trunk_version=0.21.14
binaryen_version=132.0.0
esbuild_version=0.25.12
geckodriver_version=0.37.1
debian_packages="chromium chromium-driver firefox-esr webkit2gtk-driver xvfb python3-gi gir1.2-webkit2-4.1 poppler-utils"
missing=0

say() { echo "setup: $*"; }
lack() { # name, command that would install it
  say "$1 is missing. It would come with: $2"
  missing=1
}

# The version a tool reports, or nothing.
version_of() { "$1" --version 2>/dev/null | grep -oE '[0-9]+\.[0-9]+\.[0-9]+' | head -n 1 || true; }

locked_version() { # crate name
  awk -v name="$1" '$1 == "name" { found = ($3 == "\"" name "\"") } $1 == "version" && found { gsub(/"/, "", $3); print $3; exit }' Cargo.lock
}

# A cargo tool in one exact version. Goes to the usual place; if another version lives there, to .tools, so that other
# projects keep theirs.
cargo_tool() { # binary, crate, version, further flags
  local binary=$1 crate=$2 version=$3
  shift 3
  local have
  have=$(version_of "$binary")
  if [ "$have" = "$version" ]; then say "$binary $version is there"; return; fi
  local root=()
  if [ -x "$cargo_bin/$binary" ]; then root=(--root .tools); fi
  local command=(cargo install "$crate" --version "$version" "$@" ${root[@]+"${root[@]}"})
  if [ "$what" = doctor ]; then lack "$binary $version" "${command[*]}"; return; fi
  say "installing $crate $version with cargo (it is compiled here: some minutes)"
  "${command[@]}" --quiet || lack "$binary $version" "${command[*]}"
}

wasm_target() {
  command -v rustup >/dev/null || { lack rustup "the installer at https://rustup.rs"; return; }
  if rustup target list --installed 2>/dev/null | grep -qx wasm32-unknown-unknown; then say "the wasm target is there"; return; fi
  if [ "$what" = doctor ]; then lack "the wasm target" "rustup target add wasm32-unknown-unknown"; return; fi
  say "installing the pinned Rust toolchain and its wasm target with rustup"
  rustup target add wasm32-unknown-unknown || lack "the wasm target" "rustup target add wasm32-unknown-unknown"
}

npm_tool() { # what it is, npm package, version
  local name="$1 ($2 $3)"
  local command="npm install --prefix .tools --no-audit --no-fund --save-exact $2@$3"
  if grep -qs "\"version\": \"$3\"" ".tools/node_modules/$2/package.json"; then say "$name is there"; return; fi
  if [ "$what" = doctor ] || ! command -v npm >/dev/null; then lack "$name" "$command"; return; fi
  say "installing $name with npm into .tools"
  mkdir -p .tools
  $command --silent || lack "$name" "$command"
}

debian() {
  local want=""
  for package in $debian_packages; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || want="$want $package"
  done
  if [ -z "$want" ]; then say "the browsers and their drivers are there"; return; fi
  local sudo=""
  if [ "$(id -u)" != 0 ]; then sudo=sudo; fi
  local command="$sudo apt-get install --yes --no-install-recommends$want"
  if [ "$what" = doctor ] || ! command -v apt-get >/dev/null; then lack "the packages$want" "$command"; return; fi
  say "installing Debian packages:$want"
  { $sudo apt-get update -qq && DEBIAN_FRONTEND=noninteractive $command -qq >/dev/null; } || lack "the packages$want" "$command"
}

wasm_target
cargo_tool trunk trunk "$trunk_version" --locked
cargo_tool wasm-bindgen wasm-bindgen-cli "$(locked_version wasm-bindgen)"
npm_tool wasm-opt binaryen "$binaryen_version"
npm_tool "the minifier for script and styles" esbuild "$esbuild_version"
if [ "$what" != build ]; then
  debian
  cargo_tool geckodriver geckodriver "$geckodriver_version"
fi
if [ $missing = 1 ]; then
  say "not everything is there; the lines above say what is missing and how to get it"
  exit 1
fi

#!/usr/bin/env bash
# Draws the PNG icons from one drawing. `any` has rounded corners; `maskable` and the touch icon fill the square, because
# the phone cuts their shape; the drawing keeps inside the circle of 80 % that no phone cuts into.
set -euo pipefail
cd "$(dirname "$0")/.."
out=public/icons
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
sed 's/ rx="96"//' "$out/icon.svg" > "$work/full.svg"
rsvg-convert -w 192 -h 192 "$out/icon.svg" -o "$out/icon-192.png"
rsvg-convert -w 512 -h 512 "$out/icon.svg" -o "$out/icon-512.png"
rsvg-convert -w 512 -h 512 "$work/full.svg" -o "$out/maskable-512.png"
rsvg-convert -w 180 -h 180 "$work/full.svg" -o "$out/apple-touch-180.png"
ls -l "$out"

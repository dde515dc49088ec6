#!/usr/bin/env bash
# Runs one step under a name and says how long it took:  tools/step.sh "name" command ...
set -uo pipefail
name=$1
shift
echo "==> $name"
start=$(date +%s)
"$@"
code=$?
took=$(($(date +%s) - start))
if [ $code -eq 0 ]; then echo "==> $name: done in ${took} s"; else echo "==> $name: FAILED after ${took} s (exit code $code)" >&2; fi
exit $code

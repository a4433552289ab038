#!/bin/bash
# SPDX-License-Identifier: MIT
# Grades some of the sample inbox with the program $1 and opens what came out in a browser.
set -eu
program=$1
here=$(cd "$(dirname "$0")" && pwd)
samples="$here/../../samples"
for need in node chromium; do
  command -v "$need" >/dev/null || { echo "skipped: no $need (tests/run.sh installs it)"; exit 77; }
done
[ -d "$here/node_modules" ] || { echo "skipped: no node_modules (tests/run.sh fetches them)"; exit 77; }

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
mkdir "$scratch/inbox"
# An address and the same student later, no grade, a left-hander's whole swing, one set aside.
for id in s-0402-7-iron s-0402-7-iron-again s-0408-7-iron s-0421-7-iron s-0416-7-iron; do
  cp -r "$samples/inbox/$id" "$scratch/inbox/"
done
cd "$here"
for language in en de; do
  "$program" grade "$scratch/inbox" --profiles "$here/../../profiles" --language "$language" \
    --roster "$samples/roster.csv" --out "$scratch/$language" || [ $? = 1 ]
  RANGECHECK_PAGES="$scratch/$language" node --test pages.test.mjs
done

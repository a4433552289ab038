#!/bin/bash
# SPDX-License-Identifier: MIT
# Builds rangecheck with its tests and runs them all. Debian packages that are missing are installed.
set -eu
cd "$(dirname "$0")/.."
. samples/prepare.sh

install_missing python3-jsonschema python3-openpyxl python3-yaml clang-format chromium zsh fish mandoc pkg-config debootstrap dpkg-dev
command -v npm >/dev/null || install_missing nodejs npm
(cd tests/browser && npm ci --no-audit --no-fund >/dev/null) ||
  echo "the packages of the browser tests can't be had: these tests will say so"
build
echo "== run the tests =="
ctest --test-dir build -j"$(nproc)" --output-on-failure

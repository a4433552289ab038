#!/bin/bash
# SPDX-License-Identifier: MIT
# What samples/grade.sh and tests/run.sh share. Sourced, from the top of the source tree.

build_packages="build-essential cmake ninja-build libcli11-dev nlohmann-json3-dev libfmt-dev
  libyaml-cpp-dev doctest-dev libeigen3-dev libceres-dev zlib1g-dev libsimdjson-dev libsqlite3-dev
  libxlsxwriter-dev libminizip-dev libxxhash-dev libboost-dev python3
  python3-numpy python3-scipy"

# Installs those of the build's packages and of "$@" that are missing.
install_missing() {
  local package missing=""
  for package in $build_packages "$@"; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'install ok installed' ||
      missing="$missing $package"
  done
  echo "== packages =="
  if [ -z "$missing" ]; then
    echo "all there"
    return
  fi
  echo "installing:$missing"
  if [ "$(id -u)" != 0 ]; then
    echo "this needs root: run  apt-get install$missing  and then this script again" >&2
    exit 1
  fi
  export DEBIAN_FRONTEND=noninteractive
  apt-get update -qq
  # shellcheck disable=SC2086  # a list of words on purpose
  apt-get install -y -qq --no-install-recommends $missing >/dev/null
}

# Configures and builds Release in ./build: all of it, or the targets "$@".
build() {
  echo "== build (Release, $(nproc) at a time) =="
  cmake -S . -B build -G Ninja -DCMAKE_BUILD_TYPE=Release
  cmake --build build -j"$(nproc)" ${1:+--target "$@"}
}

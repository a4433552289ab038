#!/bin/bash
# SPDX-License-Identifier: MIT
# Fuzzes for SECONDS each (60 unless told), or the NAMEs alone: run.sh [SECONDS [NAME…]].
# Needs clang (Debian: apt-get install clang libclang-rt-dev) and the seeds of an ordinary build in build/.
# What it learns stays in build-fuzz/learnt. An input that breaks a reader is in build-fuzz/found:
# mend the reader, make the input small with
# `build-fuzz/tests/fuzz/fuzz_NAME -minimize_crash=1 FILE`, put it into tests/fuzz/corpus/NAME and
# add a test that says what was wrong.
set -euo pipefail
cd "$(dirname "$0")/../.."
seconds=${1:-60}
shift || true
names=("$@")
if [ ${#names[@]} -eq 0 ]; then
  mapfile -t names < <(sed -n 's/^rangecheck_fuzzer(\([a-z]*\) .*/\1/p' tests/fuzz/CMakeLists.txt)
fi

cmake --build build -j"$(nproc)" --target fuzz_seed_files
cmake -S . -B build-fuzz -G Ninja -DCMAKE_BUILD_TYPE=None -DCMAKE_CXX_COMPILER=clang++ \
  -DCMAKE_CXX_FLAGS="-O1 -g1" -DRANGECHECK_FUZZ=ON >/dev/null
cmake --build build-fuzz -j"$(nproc)" --target "${names[@]/#/fuzz_}"

# Most fuzzers write files, and the history waits for the disk: in memory it is seven times as fast.
[ -w /dev/shm ] && export TMPDIR=/dev/shm
mkdir -p build-fuzz/found
failed=0
for name in "${names[@]}"; do
  echo "== $name =="
  learnt=build-fuzz/learnt/$name
  mkdir -p "$learnt"
  "build-fuzz/tests/fuzz/fuzz_$name" \
    -dict=tests/fuzz/words.dict -max_total_time="$seconds" -timeout=20 -rss_limit_mb=3000 \
    -print_final_stats=1 -print_funcs=0 -artifact_prefix="build-fuzz/found/$name-" \
    "$learnt" "tests/fuzz/corpus/$name" "build/tests/fuzz/seeds/$name" 2>&1 |
    grep -v -e '^#[0-9]*.*\(NEW\|REDUCE\|RELOAD\)' -e '# Uses: ' || failed=1
done
exit $failed

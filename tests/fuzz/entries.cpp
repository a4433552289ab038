// SPDX-License-Identifier: MIT
// What is kept of submissions for the tables. Fuzzing would hardly pass its checksum, so that is
// put right for it.
#include "base/compress.hpp"
#include "fuzz.hpp"
#include "report/entry.hpp"

using namespace rangecheck;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes = fuzz::text_of(data, size);
  fuzz::hold(*decompressed(compressed(bytes), size) == bytes, "bytes come back");
  static_cast<void>(decompressed(bytes, std::size_t{1} << 20));
  if (const auto summary = report::unpacked_summary(compressed(bytes)))
    fuzz::hold(bool(report::unpacked_summary(report::packed(*summary))), "a line comes back");
  if (const auto checks = report::unpacked_checks(compressed(bytes)))
    fuzz::hold(report::unpacked_checks(report::packed(*checks))->size() == checks->size(),
               "checks come back");
  return 0;
}

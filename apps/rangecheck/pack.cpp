// SPDX-License-Identifier: MIT
#include "inbox/pack.hpp"

#include <memory>

#include "commands.hpp"
#include "telling.hpp"

namespace rangecheck::app {
namespace {

int pack(const std::string& inbox) {
  Telling telling(Loudness::normal, ErrorForm::text);
  std::size_t lines = 0;
  int code = all_graded;
  std::optional<Error> unwritten;
  const auto done = inbox::pack(inbox, [&](const inbox::Packed& packed) {
    telling.progress(
        {.done = ++lines, .submission = packed.submission, .set_aside = packed.set_aside});
    if (packed.set_aside) code = some_set_aside;
    unwritten = print_line(packed.line);
    return !unwritten;
  });
  if (!done) return report_fault(done.error());
  return unwritten ? report_fault(*unwritten) : code;
}

}  // namespace

Command add_pack(CLI::App& app) {
  auto inbox = std::make_shared<std::string>();
  CLI::App* parser =
      app.add_subcommand("pack", "Print each submission of an inbox as a record, for grade -");
  parser->add_option("inbox", *inbox, "Folder with the submissions")
      ->required()
      ->option_text("INBOX");
  return {parser, [inbox] { return pack(*inbox); }};
}

}  // namespace rangecheck::app

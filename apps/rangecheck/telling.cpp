// SPDX-License-Identifier: MIT
#include "telling.hpp"

#include <fmt/format.h>

#include "base/text.hpp"
#include "commands.hpp"
#include "report/for_scripts.hpp"

namespace rangecheck::app {
namespace {

// Select Graphic Rendition and Erase in Line: ECMA-48, 8.3.117 and 8.3.41.
constexpr std::string_view red = "31", yellow = "33";
constexpr std::string_view clear_line = "\r\x1b[K";

constexpr std::size_t bar_columns = 24;

std::string bar_of(std::size_t done, std::size_t of) {
  const std::size_t full = of == 0 ? 0 : done * bar_columns / of;
  return '[' + std::string(full, '#') + std::string(bar_columns - full, '-') + ']';
}

}  // namespace

int report_fault(const Error& error, ErrorForm form) {
  if (form == ErrorForm::json)
    fmt::print(stderr, "{}", report::error_json(error, std::nullopt));
  else
    fmt::print(stderr, "rangecheck: {}\n", to_string(error));
  return error.fault == Fault::io ? could_not_run : bad_usage;
}

std::string Telling::marked(std::string_view text, std::string_view colour) const {
  return terminal_.colours ? fmt::format("\x1b[{}m{}\x1b[0m", colour, text) : std::string(text);
}

void Telling::end_of_bar() {
  if (bar_shown_) fmt::print(stderr, "{}", clear_line);
  bar_shown_ = false;
}

void Telling::line(std::string_view text) {
  end_of_bar();
  fmt::print(stderr, "rangecheck: {}\n", text);
}

void Telling::progress(const inbox::Progress& progress) {
  const report::SetAside* why = progress.set_aside;
  const bool is_set_aside = why && !why->waits;
  if (is_set_aside) ++set_aside_;
  if (form_ == ErrorForm::json) {
    if (is_set_aside)
      fmt::print(stderr, "{}", report::error_json(why->error, std::string(progress.submission)));
    return;
  }
  const std::string of = progress.of > 0 ? fmt::format("/{}", progress.of) : "";
  const std::string which =
      fmt::format("{}{} {}", progress.done, of, printable(progress.submission));
  if (why)
    line(fmt::format("{}: {}: {}", which, marked(is_set_aside ? "set aside" : "waits", yellow),
                     printable(to_string(why->error))));
  else if (loudness_ == Loudness::verbose)
    line(which + (progress.unchanged ? ": unchanged"
                                     : fmt::format(": graded in {:.1f} s", progress.took_s)));
  if (progress.of == 0 || !terminal_.redraws || loudness_ == Loudness::quiet) return;
  fmt::print(stderr, "{}{} {}/{}, {} set aside", clear_line, bar_of(progress.done, progress.of),
             progress.done, progress.of, set_aside_);
  bar_shown_ = true;
}

void Telling::below(const report::Summary& graded, double percent) {
  if (form_ == ErrorForm::json) return;
  line(fmt::format("{}: {}", printable(graded.submission),
                   marked(report::below_text(graded, percent), red)));
}

void Telling::say(std::string_view text) {
  if (form_ != ErrorForm::json && loudness_ != Loudness::quiet) line(text);
}

void Telling::count(const inbox::Night& night) {
  std::string text =
      fmt::format("{} graded, {} set aside", night.graded.size(), night.set_aside.size());
  if (!night.waiting.empty()) text += fmt::format(", {} waiting", night.waiting.size());
  if (night.unchanged > 0) text += fmt::format("; {} of them unchanged", night.unchanged);
  say(text);
}

}  // namespace rangecheck::app

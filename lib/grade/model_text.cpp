// SPDX-License-Identifier: MIT
// Fitted bands as a profile for people to read, change and keep.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "grade/model.hpp"
#include "grade/profile_text.hpp"

namespace rangecheck::grade {
namespace {

/// A number of the check's unit, as short as it is the same to six digits.
std::string number(double si, const Check& check) {
  const double shown = si / find_unit(check.unit)->si_per_unit;
  return fmt::format("{:.6g}", shown == 0 ? 0.0 : shown);
}

std::string with_unit(std::string text, const Check& check) {
  if (!check.unit.empty()) text += " " + check.unit;
  return text;
}

/// As parse_target reads it.
std::string target_text(const Band& band, const Check& check) {
  if (band.lower_si && band.upper_si)
    return with_unit(number(*band.lower_si, check) + ".." + number(*band.upper_si, check), check);
  if (band.lower_si) return with_unit("at-least " + number(*band.lower_si, check), check);
  return with_unit("at-most " + number(*band.upper_si, check), check);
}

std::string rounded(double si, const Check& check) {
  return fmt::format("{:.3g}", si / find_unit(check.unit)->si_per_unit);
}

/// What a band rests on, in a line of comment each.
std::vector<std::string> grounds(const Check& check, const ModelBand& fit) {
  std::vector<std::string> out = {
      fmt::format("{} golfers: middle {}, spread {}, k {:.2f}", fit.golfers,
                  rounded(fit.robust.middle, check),
                  with_unit(rounded(fit.robust.spread, check), check), fit.factor),
      fmt::format("by mean and standard deviation (k {:.2f}): {}; in the base: {}",
                  fit.plain_factor, target_text(*fit.plain_band, check),
                  target_text(check.band, check))};
  if (fit.u_si >= fit.robust.spread)
    out.push_back(
        fmt::format("u of the films is {}: what they can't tell may be all of the spread, and the "
                    "band too wide",
                    with_unit(rounded(fit.u_si, check), check)));
  else
    out.push_back(fmt::format("u of the films: {}", with_unit(rounded(fit.u_si, check), check)));
  return out;
}

std::string_view section_of(const Check& check) {
  if (check.subject == Subject::reading) return "readings";
  if (!check.position) return "tempo";
  return *check.position == Position::address ? "checks" : "positions";
}

/// The checks that have a band, under the sections of a profile.
class Sections {
 public:
  void add(const Check& check, const ModelBand& fit) {
    const auto section = section_of(check);
    const bool placed = section == "positions";
    if (section != section_) text_ += fmt::format("{}:\n", section);
    if (placed && (section != section_ || check.position != position_))
      text_ += fmt::format("  {}:\n", id_of(*check.position));
    section_ = section;
    position_ = check.position;
    const std::string indent(placed ? 4 : 2, ' ');
    for (const auto& line : grounds(check, fit)) text_ += indent + "# " + line + "\n";
    text_ +=
        fmt::format("{}{}: {{ target: {} }}\n", indent, check.rule, target_text(*fit.band, check));
  }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
  std::string_view section_;
  std::optional<Position> position_;
};

std::string why_no_band(const Check& check, const ModelBand& fit) {
  if (check.subject == Subject::observed) return "is judged by words";
  if (fit.golfers < fewest_golfers)
    return fmt::format("seen of {}: {} more {} needed", fit.golfers, fewest_golfers - fit.golfers,
                       fewest_golfers - fit.golfers == 1 ? "is" : "are");
  return fmt::format("of {} golfers so many are alike that there is no spread", fit.golfers);
}

std::string head_of(const Profile& base, const ModelProfile& wanted, std::size_t golfers,
                    std::size_t values) {
  const Holding& holding = wanted.holding;
  return fmt::format(
      "# yaml-language-server: $schema=../schemas/profile.schema.json\n"
      "# Bands fitted to {} golfers ({} values) by rangecheck profile fit. Each is meant to hold "
      "{:g} % of\n"
      "# such golfers with {:g} % confidence, check by check: middle ± k · spread, the middle by "
      "Huber's\n"
      "# estimate and the spread a standard deviation that wild values hardly move; normal "
      "populations\n"
      "# are assumed. Several films of one golfer count once, by their median. The spread holds "
      "what the\n"
      "# films can't tell (u), so bands are rather too wide than too narrow. Rounded outward.\n"
      "version: 1\n"
      "id: {}\n"
      "title: {}\n"
      "{}extends: {}\n"
      "style: {}\n",
      golfers, values, 100 * holding.cover, 100 * holding.confidence, yaml_scalar(wanted.id),
      yaml_scalar(base.title.text + " (" + wanted.style + ")"),
      base.title.language == Written().language ? "" : "language: " + base.title.language + "\n",
      yaml_scalar(base.id), yaml_scalar(wanted.style));
}

Error too_few(std::size_t golfers) {
  Error error;
  error.fault = Fault::bad_value;
  error.what =
      fmt::format("no check was seen of {} golfers or more; there are {}", fewest_golfers, golfers);
  error.remedy = "send films of more golfers";
  return error;
}

}  // namespace

Result<std::string> model_profile(const Profile& base, std::span<const ModelValue> values,
                                  const ModelProfile& wanted) {
  std::set<std::string> golfers;
  for (const auto& value : values) golfers.insert(value.student);
  Factors factors(wanted.holding);
  Sections fitted;
  std::string without;
  for (const auto& check : base.checks) {
    const ModelBand fit = fit_band(check, values, factors);
    if (fit.band)
      fitted.add(check, fit);
    else
      without += fmt::format("#   {}: {}\n", check.id, why_no_band(check, fit));
  }
  if (fitted.text().empty()) return too_few(golfers.size());
  return head_of(base, wanted, golfers.size(), values.size()) + fitted.text() +
         (without.empty() ? "" : "# No band, so that of the base counts:\n" + without);
}

}  // namespace rangecheck::grade

// SPDX-License-Identifier: MIT
#include "base/instant.hpp"

#include <algorithm>

namespace rangecheck {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// All of `text` as a number of at most `most`; nothing when there is anything but digits in it.
std::optional<int> number(std::string_view text, int most) {
  if (text.empty() || !std::all_of(text.begin(), text.end(), is_digit)) return std::nullopt;
  int value = 0;
  for (const char c : text) {
    value = 10 * value + (c - '0');
    if (value > most) return std::nullopt;
  }
  return value;
}

/// "Z", "+01:00", "-0330" or "+01". Offsets in use end at 14 hours.
std::optional<minutes> offset_of(std::string_view text) {
  if (text == "Z") return minutes{0};
  const int sign = text.front() == '-' ? -1 : 1;
  text.remove_prefix(1);
  const auto hour = number(text.substr(0, 2), 14);
  auto rest = text.substr(std::min<std::size_t>(2, text.size()));
  if (rest.starts_with(':')) rest.remove_prefix(1);
  const auto minute = rest.empty() && text.size() == 2 ? std::optional(0) : number(rest, 59);
  if (!hour || !minute || (!rest.empty() && rest.size() != 2)) return std::nullopt;
  return sign * (hours{*hour} + minutes{*minute});
}

/// "18:22", "18:22:00" or "18:22:00.250", with or without an offset, as seconds of the day in UTC.
std::optional<seconds> time_of_day(std::string_view text) {
  minutes offset{0};
  if (const auto at = text.find_first_of("Z+-"); at != std::string_view::npos) {
    const auto given = offset_of(text.substr(at));
    if (!given) return std::nullopt;
    offset = *given;
    text = text.substr(0, at);
  }
  if (const auto point = text.find('.'); point != std::string_view::npos) {
    const auto decimals = text.substr(point + 1);
    if (point != 8 || decimals.empty() || !std::all_of(decimals.begin(), decimals.end(), is_digit))
      return std::nullopt;
    text = text.substr(0, point);
  }
  const bool with_seconds = text.size() == 8 && text[5] == ':';
  if ((text.size() != 5 && !with_seconds) || text[2] != ':') return std::nullopt;
  const auto hour = number(text.substr(0, 2), 23), minute = number(text.substr(3, 2), 59),
             second = with_seconds ? number(text.substr(6), 60) : std::optional(0);
  if (!hour || !minute || !second) return std::nullopt;
  return hours{*hour} + minutes{*minute} + seconds{*second} - offset;
}

}  // namespace

std::optional<std::chrono::sys_seconds> parse_instant(std::string_view text) {
  if (text.size() < 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto year = number(text.substr(0, 4), 9999), month = number(text.substr(5, 2), 12),
             day = number(text.substr(8, 2), 31);
  if (!year || !month || !day) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year(*year),
                                         std::chrono::month(static_cast<unsigned>(*month)),
                                         std::chrono::day(static_cast<unsigned>(*day))};
  if (!date.ok()) return std::nullopt;
  const std::chrono::sys_seconds midnight = std::chrono::sys_days(date);
  if (text.size() == 10) return midnight;
  if (text[10] != 'T' && text[10] != ' ') return std::nullopt;
  const auto time = time_of_day(text.substr(11));
  if (!time) return std::nullopt;
  return midnight + *time;
}

}  // namespace rangecheck

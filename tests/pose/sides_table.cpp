// SPDX-License-Identifier: MIT
// For people: what becomes of films in which an estimator exchanged left and right.
//   sides_table [COUNT [FIRST-SEED [each]]]    `each`: a line for each film that went wrong
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <string>

#include "pose/sides_cases.hpp"

namespace rangecheck::test {
namespace {

struct Row {
  std::size_t films = 0, put_right = 0, left_out = 0, flagged = 0, refused = 0, wrong = 0;
  std::size_t points = 0, points_right = 0, points_out = 0, points_wrong = 0;
  std::size_t right = 0, right_lost = 0;

  void add(const SidesOutcome& one) {
    ++films;
    refused += !one.refused.empty();
    wrong += one.wrong > 0 && !one.flagged();
    flagged += one.refused.empty() && one.flagged();
    left_out += one.wrong == 0 && one.left_out > 0;
    put_right += one.refused.empty() && one.wrong == 0 && one.left_out == 0;
    points += one.exchanged;
    points_right += one.put_right;
    points_out += one.left_out;
    points_wrong += one.wrong;
    right += one.right;
    right_lost += one.right_lost;
  }
};

double percent(std::size_t part, std::size_t of) {
  return of == 0 ? 0 : 100.0 * static_cast<double>(part) / static_cast<double>(of);
}

void print(const std::string& name, const Row& row) {
  fmt::print(
      "{:<32} {:>6} {:>6} {:>6} {:>8} {:>8} {:>6} | {:>8} {:>7.2f} {:>7.2f} {:>7.3f} | {:>7.3f}\n",
      name, row.films, row.put_right, row.left_out, row.flagged, row.refused, row.wrong, row.points,
      percent(row.points_right, row.points), percent(row.points_out, row.points),
      percent(row.points_wrong, row.points + row.right), percent(row.right_lost, row.right));
}

int run(std::size_t count, std::uint64_t first_seed, bool each_one) {
  std::map<std::string, Row> by_kind, by_view;
  double most_moved = 0;
  for (const SidesCase& each : sides_cases(count, first_seed)) {
    const SidesOutcome one = outcome_of(each);
    const std::string part{each.part ? samples::name_of(*each.part) : "none"};
    const std::string when{each.part ? samples::name_of(each.when) : ""};
    by_kind[part + " " + when].add(one);
    constexpr std::string_view sets[] = {"all", "17 points", "25 points", "33 points"};
    by_view[fmt::format("{} {} {}{}", samples::name_of(each.view),
                        sets[static_cast<std::size_t>(each.skeleton)],
                        each.swing ? "swing" : "address", each.part ? "" : ", right")]
        .add(one);
    if (!each.part) most_moved = std::max(most_moved, one.most_moved);
    if (each_one && (one.wrong > 0 || !one.refused.empty() ||
                     (!each.part && (one.right_lost > 0 || one.most_moved > 0.03)))) {
      fmt::print("{}: {} wrong, {} of {} right ones left out, moved {:.3f} {}\n", each.name(),
                 one.wrong, one.right_lost, one.right, one.most_moved, one.refused);
      for (const auto& note : one.notes) fmt::print("    {}\n", note);
      for (std::size_t i = 0; i < std::min<std::size_t>(8, one.where.size()); ++i) {
        fmt::print("    frame {}: {}\n", one.where[i].first, name_of(one.where[i].second));
      }
    }
  }
  for (const auto* table : {&by_kind, &by_view}) {
    fmt::print("\n{:<32} {:>6} {:>6} {:>6} {:>8} {:>8} {:>6} | {:>8} {:>7} {:>7} {:>7} | {:>7}\n",
               "", "films", "right", "partly", "flagged", "refused", "WRONG", "points", "right %",
               "out %", "wrong %", "lost %");
    Row all;
    for (const auto& [name, row] : *table) print(name, row);
  }
  fmt::print("\nfarthest that a point of a right film was moved: {:.3f} of the height\n",
             most_moved);
  return 0;
}

}  // namespace
}  // namespace rangecheck::test

int main(int argc, char** argv) {
  const std::size_t count = argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 300;
  const std::uint64_t first_seed = argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1;
  return rangecheck::test::run(count, first_seed, argc > 3);
}

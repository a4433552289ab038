// SPDX-License-Identifier: MIT
#include "base/position.hpp"

namespace rangecheck {
namespace {

struct Names {
  std::string_view id, title, alias;
};

constexpr std::array<Names, position_count> names{{
    {"address", "Address", "p1"},
    {"shaft-parallel-back", "Shaft parallel back", "p2"},
    {"lead-arm-parallel-back", "Lead arm parallel back", "p3"},
    {"top", "Top", "p4"},
    {"lead-arm-parallel-down", "Lead arm parallel down", "p5"},
    {"shaft-parallel-down", "Shaft parallel down", "p6"},
    {"impact", "Impact", "p7"},
    {"shaft-parallel-through", "Shaft parallel through", "p8"},
    {"trail-arm-parallel-through", "Trail arm parallel through", "p9"},
    {"finish", "Finish", "p10"},
}};

}  // namespace

std::string_view id_of(Position position) { return names[index_of(position)].id; }
std::string_view title_of(Position position) { return names[index_of(position)].title; }
std::string_view alias_of(Position position) { return names[index_of(position)].alias; }

std::optional<Position> find_position(std::string_view id_or_alias) {
  for (const Position position : all_positions) {
    const Names& each = names[index_of(position)];
    if (each.id == id_or_alias || each.alias == id_or_alias) return position;
  }
  return std::nullopt;
}

}  // namespace rangecheck

// SPDX-License-Identifier: MIT
// Files that were damaged in the middle: each gives a film or an error with its file, never a crash
// or an exception.
#include <nlohmann/json.hpp>
#include <random>

#include "fixture.hpp"
#include "generator/dialects/dialects.hpp"

using namespace rangecheck;
using namespace rangecheck::intake;
using Json = nlohmann::ordered_json;

namespace {

/// Walks down at random and puts something else where it ends.
void damage(Json& value, std::mt19937& random) {
  Json* at = &value;
  while ((at->is_object() || at->is_array()) && !at->empty() && random() % 8 != 0) {
    auto child = at->begin();
    std::advance(child, static_cast<std::ptrdiff_t>(random() % at->size()));
    at = &*child;
  }
  const Json others[] = {nullptr,
                         7,
                         -1e300,
                         "text",
                         true,
                         Json::array(),
                         Json::object(),
                         {1, 2},
                         {{"x", 1}, {"y", 2}},
                         {{"keypoints", {1}}},
                         {{{"0", 1}}}};
  *at = others[random() % std::size(others)];
}

}  // namespace

TEST_CASE("dialects: damaged files give a film or an error") {
  std::mt19937 random(17);
  std::size_t films = 0, errors = 0;
  for (const auto& dialect : samples::all_dialects()) {
    CAPTURE(dialect.title);
    const auto files = dialect.write(samples::made_up_scene());
    if (files.front().name.find(".jsonl") != std::string::npos) continue;
    if (files.front().name.find(".json") == std::string::npos) continue;
    for (int attempt = 0; attempt < 40; ++attempt) {
      Json document = Json::parse(files.front().text);
      for (int times = 1 + attempt % 3; times > 0; --times) damage(document, random);
      ReadOptions options;
      options.image = portrait;
      options.layout = dialect.layout;
      const auto film = read_landmarks({{"film.json", document.dump()}}, options);
      if (film) {
        ++films;
        continue;
      }
      ++errors;
      CHECK(film.error().where.file == "film.json");
      CHECK(to_string(film.error()).find("can't be read") == std::string::npos);
    }
  }
  CHECK(films > 100);
  CHECK(errors > 100);
}

// SPDX-License-Identifier: MIT
#include <doctest/doctest.h>

#include "said.hpp"

namespace rangecheck {

const Words& german() { return shipped_words("de"); }

TEST_CASE("messages: one sentence, each language in its own words") {
  const Message practice{"swing.practice", {{"at", Number{2.25, 1}}}};
  CHECK(practice == "a practice swing at 2.2 s is left alone");
  CHECK(say(german(), practice) == "ein Probeschwung bei 2,2 s bleibt unbeachtet");
}

TEST_CASE("messages: the count chooses the form, and another count does not") {
  const auto lost = [](std::size_t count) { return Message{"clock.lost", {{"count", count}}}; };
  CHECK(lost(1) == "1 frame is missing from the film");
  CHECK(lost(3) == "3 frames are missing from the film");
  CHECK(say(german(), lost(1)) == "im Film fehlt ein Bild");
  CHECK(say(german(), lost(3)) == "im Film fehlen 3 Bilder");
  const Message clicks{"reading.clicks",
                       {said("points", {"reading.points-marked", {{"count", std::size_t{1}}}}),
                        {"count", std::size_t{2}}}};
  CHECK(clicks == "1 point of club and ball in 2 frames marked by a person");
}

TEST_CASE("messages: sentences within sentences, listed as the language does") {
  const Message heels{"reason.nothing-shows",
                      {{"points", std::vector{name_as_message(lead(Joint::heel)),
                                              name_as_message(trail(Joint::heel)),
                                              name_as_message(centre(Joint::ball))}}}};
  CHECK(heels == "nothing shows the lead heel, trail heel and ball");
  CHECK(say(german(), heels) == "nichts zeigt: Ferse vorn, Ferse hinten und Ball");
}

TEST_CASE("messages: what somebody wrote stays as it is, and nothing says nothing") {
  const Message note = as_written("{count} of <b>mine</b>");
  CHECK_FALSE(note.empty());
  CHECK(say(german(), note) == "{count} of <b>mine</b>");
  CHECK(as_written("").empty());
  CHECK(Message{}.empty());
  CHECK(say(german(), Message{}).empty());
  const Message of_film{"notes.of-film",
                        {said("film", {"evidence.face-on-film"}), said("note", note)}};
  CHECK(say(german(), of_film) == "Film von vorn: {count} of <b>mine</b>");
}

TEST_CASE("messages: a landmark has the name that documents give it") {
  for (std::size_t i = 0; i < landmark_count; ++i) {
    const LandmarkId id = landmark_at(i);
    CHECK(name_as_message(id) == name_of(id));
  }
}

TEST_CASE("messages: equal means the same sentence filled alike") {
  const Message one{"clock.lost", {{"count", std::size_t{1}}}};
  CHECK(one == Message{"clock.lost", {{"count", std::size_t{1}}}});
  CHECK_FALSE(one == Message{"clock.lost", {{"count", std::size_t{2}}}});
  CHECK_FALSE(one == Message{"clock.repeats", {{"count", std::size_t{1}}}});
}

}  // namespace rangecheck

// SPDX-License-Identifier: MIT
// The history of grades, as somebody may have damaged it.
#include "base/text.hpp"
#include "fuzz.hpp"
#include "history/store.hpp"

using namespace rangecheck;

namespace {

template <class T>
std::optional<Error> errors_of(const Result<T>& read) {
  return read ? std::nullopt : std::optional(read.error());
}

void hold_read(const history::Store& store) {
  for (const auto& error : {errors_of(store.all_worked()), errors_of(store.last_gradings()),
                            errors_of(store.checks_of("x-1")), errors_of(store.note("tables"))})
    if (error) fuzz::hold_error(*error, "");
  const auto students = store.students();
  if (!students) return fuzz::hold_error(students.error(), "");
  for (const auto& student : *students) {
    const auto read = store.of_student(student);
    if (!read) fuzz::hold_error(read.error(), "");
    const auto count = store.count_of(student);
    if (!count) fuzz::hold_error(count.error(), "");
    const auto submissions = store.submissions_of(student);
    if (!submissions) fuzz::hold_error(submissions.error(), "");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const fuzz::Folder folder;
  for (const auto* beside : {"history.sqlite-wal", "history.sqlite-shm"})
    std::filesystem::remove(folder.path() / beside);
  const auto file = folder.write("history.sqlite", fuzz::text_of(data, size));
  const auto store = history::Store::open_existing(file);
  if (store)
    hold_read(*store);
  else
    fuzz::hold(!store.error().what.empty(), "an error says what is wrong");
  return 0;
}

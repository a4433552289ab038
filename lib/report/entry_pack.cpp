// SPDX-License-Identifier: MIT
// Entries as bytes. Each struct lists its fields once, for both ways: a change of any of them goes
// together with a change of `form`. They are compressed: reasons and remedies are alike from check
// to check, and a tenth is left.
#include <concepts>
#include <cstdint>
#include <cstring>
#include <type_traits>

#include "base/compress.hpp"
#include "report/entry.hpp"

namespace rangecheck::report {
namespace {

constexpr std::uint8_t form = 1;
/// More than any entry has; keeps damaged bytes from asking for all memory.
constexpr std::size_t largest = std::size_t{64} << 20;

/// The last of each kind: what comes after it is damaged, and names nothing.
constexpr Position last_of(Position) { return Position::finish; }
constexpr Dimension last_of(Dimension) { return Dimension::time; }
constexpr grade::Verdict last_of(grade::Verdict) { return grade::Verdict::switched_off; }
constexpr grade::FilmVerdict last_of(grade::FilmVerdict) { return grade::FilmVerdict::not_known; }

class Packer {
 public:
  void operator()(const std::string& text) {
    (*this)(static_cast<std::uint32_t>(text.size()));
    bytes_ += text;
  }
  template <class T>
  requires std::is_arithmetic_v<T> || std::is_enum_v<T>
  void operator()(const T& value) {
    bytes_.append(reinterpret_cast<const char*>(&value), sizeof value);
  }
  template <class T>
  void operator()(const std::optional<T>& value) {
    (*this)(value.has_value());
    if (value) (*this)(*value);
  }
  template <class T>
  void operator()(const std::vector<T>& values) {
    (*this)(static_cast<std::uint32_t>(values.size()));
    for (const auto& value : values) (*this)(value);
  }
  template <class T>
  requires std::is_class_v<T>
  void operator()(const T& value) { fields(*this, value); }
  const std::string& bytes() const { return bytes_; }

 private:
  std::string bytes_;
};

class Unpacker {
 public:
  explicit Unpacker(std::string_view bytes) : bytes_(bytes) {}

  void operator()(std::string& text) {
    const auto size = read<std::uint32_t>();
    if (size > bytes_.size()) return fail();
    text = bytes_.substr(0, size);
    bytes_.remove_prefix(size);
  }
  template <class T>
  requires std::is_arithmetic_v<T>
  void operator()(T& value) { value = read<T>(); }
  template <class T>
  requires std::is_enum_v<T>
  void operator()(T& value) {
    const auto number = read<std::underlying_type_t<T>>();
    if (number < 0 || number > static_cast<std::underlying_type_t<T>>(last_of(T{}))) return fail();
    value = static_cast<T>(number);
  }
  template <class T>
  void operator()(std::optional<T>& value) {
    if (!read<bool>()) return;
    (*this)(value.emplace());
  }
  template <class T>
  void operator()(std::vector<T>& values) {
    const auto count = read<std::uint32_t>();
    for (std::uint32_t i = 0; i < count && whole_; ++i) (*this)(values.emplace_back());
  }
  template <class T>
  requires std::is_class_v<T>
  void operator()(T& value) { fields(*this, value); }
  bool ended_whole() const { return whole_ && bytes_.empty(); }

 private:
  template <class T>
  T read() {
    T value{};
    if (bytes_.size() < sizeof value) {
      fail();
      return value;
    }
    if constexpr (std::same_as<T, bool>) {
      value = bytes_.front() != 0;
    } else {
      std::memcpy(&value, bytes_.data(), sizeof value);
    }
    bytes_.remove_prefix(sizeof value);
    return value;
  }
  void fail() {
    whole_ = false;
    bytes_ = {};
  }

  std::string_view bytes_;
  bool whole_ = true;
};

template <class T, class U>
concept Is = std::same_as<std::remove_const_t<T>, U>;

void fields(auto& each, Is<grade::Band> auto& band) {
  each(band.lower_si);
  each(band.upper_si);
}

void fields(auto& each, Is<PositionCount> auto& count) {
  each(count.found);
  each(count.judged);
}

void fields(auto& each, Is<NamedCheck> auto& check) {
  each(check.id);
  each(check.rule);
  each(check.title);
  each(check.is_registered);
  each(check.position);
}

void fields(auto& each, Is<Summary> auto& summary) {
  for (auto* text : {&summary.submission, &summary.student, &summary.name, &summary.received,
                     &summary.club, &summary.swing, &summary.profile})
    each(*text);
  each(summary.percent);
  each(summary.percent_uncertainty);
  each(summary.seen_share);
  each(summary.positions);
  each(summary.films);
  each(summary.work_on);
}

void fields(auto& each, Is<CheckEntry> auto& entry) {
  each(entry.check);
  each(entry.region);
  each(entry.dimension);
  each(entry.unit);
  each(entry.band);
  each(entry.accept);
  each(entry.weight);
  each(entry.verdict);
  each(entry.value_si);
  each(entry.standard_uncertainty_si);
  each(entry.word);
  each(entry.probability_inside);
  each(entry.score);
  each(entry.reason);
  each(entry.remedy);
}

Error damaged() {
  return {Fault::io,
          "what is kept of a submission for the tables is damaged",
          {.file = "history.sqlite", .line = {}, .frame = {}, .key = {}},
          "grade once with --redo all"};
}

template <class T>
Result<T> unpacked(std::string_view bytes) {
  const auto plain = decompressed(bytes, largest);
  if (!plain) return damaged();
  Unpacker unpacker(*plain);
  std::uint8_t its_form = 0;
  T out;
  unpacker(its_form);
  if (its_form != form) return damaged();
  unpacker(out);
  if (!unpacker.ended_whole()) return damaged();
  return out;
}

}  // namespace

std::string packed(const Summary& summary) {
  Packer packer;
  packer(form);
  packer(summary);
  return compressed(packer.bytes());
}

std::string packed(std::span<const CheckEntry> checks) {
  Packer packer;
  packer(form);
  packer(static_cast<std::uint32_t>(checks.size()));
  for (const auto& check : checks) packer(check);
  return compressed(packer.bytes());
}

Result<Summary> unpacked_summary(std::string_view bytes) { return unpacked<Summary>(bytes); }

Result<std::vector<CheckEntry>> unpacked_checks(std::string_view bytes) {
  return unpacked<std::vector<CheckEntry>>(bytes);
}

}  // namespace rangecheck::report

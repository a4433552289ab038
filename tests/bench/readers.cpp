// SPDX-License-Identifier: MIT
#include "readers.hpp"

#include <simdjson.h>

#include <cstdint>
#include <nlohmann/json.hpp>

namespace rangecheck::bench {
namespace {

using nlohmann::json;

double walked(simdjson::ondemand::value value) {
  double sum = 0;
  switch (value.type()) {
    case simdjson::ondemand::json_type::array:
      for (auto each : value.get_array()) sum += walked(each.value());
      break;
    case simdjson::ondemand::json_type::object:
      for (auto field : value.get_object()) {
        sum += static_cast<double>(field.unescaped_key().value().size());
        sum += walked(field.value());
      }
      break;
    case simdjson::ondemand::json_type::number:
      return value.get_double();
    default:
      break;
  }
  return sum;
}

double walked(simdjson::dom::element element) {
  double sum = 0;
  if (!element.get(sum)) return sum;
  simdjson::dom::array list;
  simdjson::dom::object object;
  if (!element.get(list)) {
    for (const auto each : list) sum += walked(each);
  } else if (!element.get(object)) {
    for (const auto field : object)
      sum += static_cast<double>(field.key.size()) + walked(field.value);
  }
  return sum;
}

/// The same sum by nlohmann's events.
class SumOfEvents : public nlohmann::json_sax<json> {
 public:
  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(number_integer_t value) override { return add(static_cast<double>(value)); }
  bool number_unsigned(number_unsigned_t value) override { return add(static_cast<double>(value)); }
  bool number_float(number_float_t value, const string_t&) override { return add(value); }
  bool string(string_t&) override { return true; }
  bool binary(binary_t&) override { return true; }
  bool start_object(std::size_t) override { return true; }
  bool key(string_t& key) override { return add(static_cast<double>(key.size())); }
  bool end_object() override { return true; }
  bool start_array(std::size_t) override { return true; }
  bool end_array() override { return true; }
  bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception&) override {
    return false;
  }
  double sum = 0;

 private:
  bool add(double value) {
    sum += value;
    return true;
  }
};

}  // namespace

double by_walk(const std::string& text) {
  static simdjson::ondemand::parser parser;
  auto document = parser.iterate(simdjson::padded_string_view(text));
  return walked(document.get_value());
}

double by_tape(const std::string& text) {
  static simdjson::dom::parser parser;
  return walked(parser.parse(text.data(), text.size(), false).value());
}

double by_events(const std::string& text) {
  SumOfEvents events;
  json::sax_parse(text, &events);
  return events.sum;
}

namespace {

double sum_of(const json& value) {
  if (value.is_number()) return value.get<double>();
  double sum = 0;
  if (value.is_object()) {
    for (const auto& [key, each] : value.items())
      sum += static_cast<double>(key.size()) + sum_of(each);
  } else if (value.is_array()) {
    for (const auto& each : value) sum += sum_of(each);
  }
  return sum;
}

}  // namespace

double by_document(const std::string& text) { return sum_of(json::parse(text)); }

}  // namespace rangecheck::bench

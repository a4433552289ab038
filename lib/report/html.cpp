// SPDX-License-Identifier: MIT
#include "report/html.hpp"

#include <algorithm>
#include <utility>

#include "base/text.hpp"

namespace rangecheck::report::html {

struct Writer {
  static Markup start(std::string_view name, const Attributes& attributes) {
    Markup out;
    out.code_ = '<' + std::string(name);
    for (const auto& [key, value] : attributes)
      out.code_ += ' ' + std::string(key) + "=\"" + escaped(value) + '"';
    out.code_ += '>';
    return out;
  }
  static Markup element(std::string_view name, const Attributes& attributes, Markup inside) {
    inside.code_.insert(0, start(name, attributes).code_);
    inside.code_ += "</" + std::string(name) + ">";
    return inside;
  }
  static std::string document(Markup root) {
    root.code_.insert(0, "<!DOCTYPE html>\n");
    root.code_ += "\n";
    return std::move(root.code_);
  }
};

std::string escaped(std::string_view anyones) {
  // Profiles fold long sentences over lines; those breaks mean nothing here.
  std::string flat(anyones);
  std::ranges::replace(flat, '\n', ' ');
  std::string out;
  for (const char c : printable(flat)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

Markup& Markup::operator+=(const Markup& other) {
  code_ += other.code_;
  return *this;
}

Markup operator+(Markup one, Markup other) {
  if (one.code_.size() >= other.code_.size()) return one += other;
  other.code_.insert(0, one.code_);
  return other;
}

Markup text(std::string_view anyones) {
  Markup out;
  out.code_ = escaped(anyones);
  return out;
}

Markup element(std::string_view name, const Attributes& attributes, Markup inside) {
  return Writer::element(name, attributes, std::move(inside));
}

Markup element(std::string_view name, const Attributes& attributes, std::string_view inside) {
  return element(name, attributes, text(inside));
}

Markup lone(std::string_view name, const Attributes& attributes) {
  return Writer::start(name, attributes);
}

Markup style(std::string_view rules) {
  Markup out;
  out.code_ = "<style>\n" + std::string(rules) + "</style>\n";
  return out;
}

Markup script(std::string_view code) {
  Markup out;
  out.code_ = "<script>" + std::string(code) + "</script>\n";
  return out;
}

Markup section(std::string_view id, std::string_view heading, Markup inside) {
  return element("section", {{"aria-labelledby", std::string(id)}},
                 element("h2", {{"id", std::string(id)}}, heading) + std::move(inside));
}

Markup head(std::string_view title, std::string_view policy, std::string_view rules) {
  return lone("meta", {{"charset", "utf-8"}}) +
         lone("meta",
              {{"http-equiv", "Content-Security-Policy"}, {"content", std::string(policy)}}) +
         lone("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}}) +
         lone("meta", {{"name", "color-scheme"}, {"content", "light dark"}}) +
         element("title", {}, title) + style(rules);
}

std::string document(std::string_view language, Markup head, Markup body) {
  return Writer::document(
      element("html", {{"lang", std::string(language)}},
              element("head", {}, std::move(head)) + element("body", {}, std::move(body))));
}

}  // namespace rangecheck::report::html

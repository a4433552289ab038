// SPDX-License-Identifier: MIT
// Pieces of HTML and SVG. Whatever text goes in comes out as text: there is no way round `escaped`.
// Not for other rooms.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rangecheck::report::html {

/// `anyones` as text for an element or an attribute in quotation marks: & < > " ' as references,
/// line breaks as spaces, other control and direction characters made visible.
std::string escaped(std::string_view anyones);

/// A piece of a page. It comes only from the functions below, so that a plain string can't be
/// taken for one. Pieces that are moved into others are not copied: a page may be long.
class Markup {
 public:
  Markup() = default;
  Markup& operator+=(const Markup& other);
  friend Markup operator+(Markup one, Markup other);
  bool empty() const { return code_.empty(); }
  const std::string& code() const { return code_; }

 private:
  friend Markup text(std::string_view);
  friend Markup style(std::string_view);
  friend Markup script(std::string_view);
  friend struct Writer;
  std::string code_;
};

/// Names of attributes and elements are the program's own; values and texts may be anyone's.
struct Attribute {
  std::string_view name;
  std::string value;
};
using Attributes = std::vector<Attribute>;

Markup text(std::string_view anyones);
Markup element(std::string_view name, const Attributes& attributes, Markup inside);
/// `inside` is text.
Markup element(std::string_view name, const Attributes& attributes, std::string_view inside);
/// One that has no end tag: meta, br.
Markup lone(std::string_view name, const Attributes& attributes);
/// A style element with the program's own rules.
Markup style(std::string_view rules);

/// A script element with the program's own code.
Markup script(std::string_view code);

/// A section under a heading of its own, which names it.
Markup section(std::string_view id, std::string_view heading, Markup inside);
/// What stands in a file's head. `policy` says what the file may load and run (Content Security
/// Policy); `rules` are the program's own.
Markup head(std::string_view title, std::string_view policy, std::string_view rules);

/// A whole file.
std::string document(std::string_view language, Markup head, Markup body);

}  // namespace rangecheck::report::html

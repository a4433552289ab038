// SPDX-License-Identifier: MIT
#include <memory>

#include "base/text.hpp"
#include "commands.hpp"
#include "inbox/inbox.hpp"

namespace rangecheck::app {
namespace {

/// What the parser collects.
struct Options {
  std::string file;
  std::string image;
};

/// `1080x1920`, or nothing when it isn't that.
std::optional<intake::ImageSize> image_size(const std::string& text) {
  const auto parts = split(text, 'x');
  if (parts.size() != 2) return std::nullopt;
  const auto width = parse_number(parts[0]);
  const auto height = parse_number(parts[1]);
  if (!width || !height || *width <= 0 || *height <= 0) return std::nullopt;
  return intake::ImageSize{*width, *height};
}

Error no_image_size(const std::string& text) {
  return {Fault::bad_value,
          "--image is " + rangecheck::quoted(text),
          {},
          "give the picture's size in pixels: --image 1080x1920"};
}

int inspect(const Options& options) {
  const auto image = image_size(options.image);
  if (!image && !options.image.empty()) return report_fault(no_image_size(options.image));
  const auto text = inbox::inspect(options.file, image);
  return text ? print(*text, all_graded) : report_fault(text.error());
}

}  // namespace

Command add_inspect(CLI::App& app) {
  auto options = std::make_shared<Options>();
  CLI::App* parser =
      app.add_subcommand("inspect", "Say what a landmark file is, how good, and what it can show");
  parser->add_option("file", options->file, "Landmark file, or folder with one file a frame")
      ->required()
      ->option_text("FILE");
  parser
      ->add_option("--image", options->image, "Size of the picture where the file does not say it")
      ->option_text("WIDTHxHEIGHT");
  return {parser, [options] { return inspect(*options); }};
}

}  // namespace rangecheck::app

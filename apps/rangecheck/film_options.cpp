// SPDX-License-Identifier: MIT
#include "film_options.hpp"

#include <filesystem>

#include "base/text.hpp"

namespace rangecheck::app {
namespace {

/// `1080x1920`, or nothing when it isn't that.
std::optional<intake::ImageSize> image_size(const std::string& text) {
  const auto parts = split(text, 'x');
  if (parts.size() != 2) return std::nullopt;
  const auto width = parse_number(parts[0]);
  const auto height = parse_number(parts[1]);
  if (!width || !height || *width <= 0 || *height <= 0) return std::nullopt;
  return intake::ImageSize{*width, *height};
}

Error wrong_option(std::string what, std::string remedy) {
  return {Fault::bad_value, std::move(what), {}, std::move(remedy)};
}

Error unknown_layout(const std::string& name, const intake::LayoutSet& layouts) {
  std::vector<std::string_view> names;
  for (const auto& layout : layouts.all()) names.push_back(layout.name);
  const std::string near = nearest(name, names);
  return wrong_option(
      "there is no point set " + rangecheck::quoted(name),
      near.empty() ? "rangecheck layouts lists them all" : "did you mean " + near + "?");
}

}  // namespace

void add_film_options(CLI::App& parser, FilmOptions& options) {
  parser.add_option("file", options.file, "Landmark file, or folder with one file a frame")
      ->required()
      ->option_text("FILE");
  parser.add_option("--image", options.image, "Size of the picture where the file does not say it")
      ->option_text("WIDTHxHEIGHT");
  parser.add_option("--layout", options.layout, "Point set of the file where it does not tell it")
      ->option_text("NAME");
  parser
      .add_option("--profiles", options.profiles,
                  "Your profiles folder: point sets (layouts/), filming.yaml")
      ->option_text("DIR");
}

Result<intake::LayoutSet> layouts_of(const std::string& profiles) {
  if (profiles.empty()) return intake::shipped_layouts();
  std::error_code failed;
  if (!std::filesystem::is_directory(profiles, failed))
    return wrong_option("--profiles is " + rangecheck::quoted(profiles) + ", which is no folder",
                        "name the folder with what you teach");
  return intake::load_layouts(std::filesystem::path(profiles) / "layouts");
}

Result<intake::ReadOptions> read_options(const FilmOptions& options,
                                         const intake::LayoutSet& layouts) {
  intake::ReadOptions read;
  read.layouts = &layouts;
  read.layout = options.layout;
  if (!options.image.empty()) {
    read.image = image_size(options.image);
    if (!read.image)
      return wrong_option("--image is " + rangecheck::quoted(options.image),
                          "give the picture's size in pixels: --image 1080x1920");
  }
  if (!options.layout.empty() && !layouts.find(options.layout))
    return unknown_layout(options.layout, layouts);
  return read;
}

Error with_options(Error error) {
  constexpr std::string_view image = "add image: ", layout = "add layout: ";
  std::string& remedy = error.remedy;
  if (remedy.starts_with(image)) remedy = "give it: --image 1080x1920";
  if (remedy.starts_with(layout)) {
    const auto name = remedy.substr(layout.size(), remedy.find(',') - layout.size());
    remedy = "give --layout " + name + ", or the one that is right";
  }
  return error;
}

}  // namespace rangecheck::app

// SPDX-License-Identifier: MIT
#include "intake/layout.hpp"

#include <algorithm>
#include <cassert>
#include <system_error>

#include "base/read_file.hpp"
#include "base/text.hpp"
#include "intake/shipped.hpp"

namespace rangecheck::intake {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t largest_file = std::size_t{64} << 10;

/// The layout files of a folder, in order of name. None for a folder that is not there.
Result<std::vector<fs::path>> layout_files(const fs::path& folder) {
  std::vector<fs::path> files;
  std::error_code failed;
  if (!fs::exists(folder, failed)) return files;
  fs::directory_iterator entries(folder, failed);
  for (; !failed && entries != fs::directory_iterator(); entries.increment(failed)) {
    const fs::path& path = entries->path();
    const std::string name = path.filename().string();
    // names.yaml is no layout; what it says is built in.
    if (path.extension() == ".yaml" && !name.starts_with('.') && name != "names.yaml") {
      files.push_back(path);
    }
  }
  if (failed) {
    return Error{Fault::bad_profile, "can't be read: " + failed.message(),
                 Place{.file = "layouts", .line = {}, .frame = {}, .key = ""}, ""};
  }
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace

const Layout* LayoutSet::find(std::string_view name) const {
  const auto found = std::find_if(layouts_.begin(), layouts_.end(),
                                  [&](const Layout& layout) { return layout.name == name; });
  return found == layouts_.end() ? nullptr : &*found;
}

std::vector<const Layout*> LayoutSet::of_size(std::size_t points) const {
  std::vector<const Layout*> found;
  for (const Layout& layout : layouts_) {
    if (layout.size() == points) found.push_back(&layout);
  }
  return found;
}

void LayoutSet::add(Layout layout) {
  const auto place =
      std::lower_bound(layouts_.begin(), layouts_.end(), layout,
                       [](const Layout& a, const Layout& b) { return a.name < b.name; });
  if (place != layouts_.end() && place->name == layout.name) {
    *place = std::move(layout);
  } else {
    layouts_.insert(place, std::move(layout));
  }
}

const LayoutSet& shipped_layouts() {
  static const LayoutSet set = [] {
    LayoutSet all;
    for (const ShippedFile& file : shipped_layout_files()) {
      auto layout = read_layout(std::string(file.text), std::string(file.name));
      assert(layout);  // a test reads them all
      if (!layout) continue;
      layout->origin = "built in";
      all.add(std::move(*layout));
    }
    return all;
  }();
  return set;
}

Result<LayoutSet> load_layouts(const fs::path& folder) {
  LayoutSet set = shipped_layouts();
  const auto files = layout_files(folder);
  if (!files) return files.error();
  for (const fs::path& path : *files) {
    const std::string name = "layouts/" + printable(path.filename().string());
    const auto text = read_file(path, name, largest_file);
    if (!text) return text.error();
    auto layout = read_layout(*text, name);
    if (!layout) return layout.error();
    set.add(std::move(*layout));
  }
  return set;
}

}  // namespace rangecheck::intake

// SPDX-License-Identifier: MIT
// A program with commands in commands and texts of all that means something to troff or to a shell.
// "nested manual" and "nested completion SHELL" print what would be written of it.
#include <cstdio>

#include "described/described.hpp"

namespace rangecheck::app {
namespace {

constexpr auto hard_text =
    R"(It's "quoted" [in brackets]: a\b, $HOME, `date`, 100 % {x} ^~ -- |&;)";

void add_profile(CLI::App& app) {
  CLI::App* profile = app.add_subcommand("profile", hard_text);
  profile->require_subcommand(1);
  CLI::App* lint = profile->add_subcommand("lint", ".dot at the beginning");
  lint->add_flag("--strict,-s")->description("'apostrophe at the beginning");
  lint->add_option("folder")->description(hard_text)->option_text("DIR");
  CLI::App* fit = profile->add_subcommand("fit", "-hyphen at the beginning");
  fit->add_option("--to", hard_text)
      ->check(CLI::IsMember({"low", "high", "face-on"}))
      ->option_text("WHERE");
  fit->add_option("--name", "lint")->option_text("NAME");
  fit->add_flag("--secret")->description("of no one's business")->group("");
  fit->add_option("kind", "A word of a closed set")
      ->check(CLI::IsMember({"wedge", "putter"}))
      ->required()
      ->option_text("KIND");
  fit->add_option("files")->description("Any number")->expected(-1)->option_text("FILE...");
  profile->add_subcommand("hidden", "of no one's business")->group("");
  CLI::App* deeper = profile->add_subcommand("deeper", "One more");
  deeper->require_subcommand(1);
  deeper->add_subcommand("still", "And one more")->add_flag("--calm");
}

int run(int argc, char** argv) {
  CLI::App app("Nests commands.", "nested");
  app.require_subcommand(1);
  add_profile(app);
  CLI::App* manual = app.add_subcommand("manual", "Print the manual");
  std::string shell;
  CLI::App* completion = app.add_subcommand("completion", "Print the completion");
  completion->add_option("shell", shell, "Which")
      ->check(CLI::IsMember({"bash", "zsh", "fish"}))
      ->option_text("SHELL");
  CLI11_PARSE(app, argc, argv);
  const auto program = described(app);
  if (manual->parsed())
    std::puts(manual_page(program, {"1.0", "2000-01-01", {}, {}, {}, hard_text}).c_str());
  if (shell == "bash") std::puts(bash_completion(program).c_str());
  if (shell == "zsh") std::puts(zsh_completion(program).c_str());
  if (shell == "fish") std::puts(fish_completion(program).c_str());
  return 0;
}

}  // namespace
}  // namespace rangecheck::app

int main(int argc, char** argv) { return rangecheck::app::run(argc, argv); }

// SPDX-License-Identifier: MIT
#include <memory>

#include "commands.hpp"
#include "described/described.hpp"

namespace rangecheck::app {
namespace {

std::string script_for(const std::string& shell, const DescribedCommand& program) {
  if (shell == "bash") return bash_completion(program);
  if (shell == "zsh") return zsh_completion(program);
  return fish_completion(program);
}

}  // namespace

Command add_completion(CLI::App& app) {
  auto shell = std::make_shared<std::string>();
  CLI::App* parser = app.add_subcommand(
      "completion", "Print a script that completes this program's commands in a shell");
  parser->add_option("shell", *shell, "bash, zsh or fish")
      ->required()
      ->check(CLI::IsMember({"bash", "zsh", "fish"}))
      ->option_text("SHELL");
  return {parser, [shell, &app] { return print(script_for(*shell, described(app)), all_graded); }};
}

}  // namespace rangecheck::app

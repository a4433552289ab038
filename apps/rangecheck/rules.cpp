// SPDX-License-Identifier: MIT
#include <memory>

#include "base/text.hpp"
#include "commands.hpp"
#include "measure/measurement.hpp"
#include "report/report.hpp"

namespace rangecheck::app {
namespace {

Error unknown_rule(const std::string& id) {
  std::vector<std::string_view> ids;
  for (const measure::Rule* rule : measure::catalogue()) ids.push_back(rule->id);
  const std::string near = nearest(id, ids);
  return {Fault::bad_value,
          "there is no measure " + rangecheck::quoted(id),
          {},
          near.empty() ? "rangecheck rules lists them all" : "did you mean " + near + "?"};
}

int rules(const std::string& id) {
  if (id.empty()) return print(report::rules_table(), all_graded);
  const measure::Rule* rule = measure::find_rule(id);
  if (!rule) return report_fault(unknown_rule(id));
  return print(report::rule_page(*rule), all_graded);
}

}  // namespace

Command add_rules(CLI::App& app) {
  auto id = std::make_shared<std::string>();
  CLI::App* parser =
      app.add_subcommand("rules", "List what can be measured, or explain one measure");
  parser->add_option("id", *id, "Measure to explain")->option_text("ID");
  return {parser, [id] { return rules(*id); }};
}

}  // namespace rangecheck::app

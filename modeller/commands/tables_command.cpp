// halfhard keys, checks, limits: the tables that the program itself reads, printed for a person.
#include <cstdio>
#include <string>

#include "geometry/plan/rules.h"
#include "geometry/words/shown.h"
#include "modeller/checks/check_table.h"
#include "modeller/commands/command.h"
#include "modeller/job/job_keys.h"

namespace halfhard {
namespace {

template <typename Check>
std::string check_row(const Check& check) {
  std::string ids;
  for (const std::string& id : check.ids) ids += (ids.empty() ? "" : ", ") + id;
  return ids + "\n    " + check.tells + "\n    Source: " + check.source + "\n";
}

std::string limit_row(const Limit& limit) {
  return std::string(limit.name) + ": " + shown_number(limit.value, 3) + " " + limit.unit + "\n    " + limit.meaning +
         "\n    Source: " + limit.source + "\n";
}

int print(const std::string& text) {
  std::fputs(text.c_str(), stdout);
  return kAllWell;
}

}  // namespace

int run_keys(const CommandLine&) { return print(job_keys_page()); }

int run_checks_table(const CommandLine&) {
  std::string text =
      "What is checked. A finding's id stands in brackets behind it in `halfhard check`.\n\nOf each pipe:\n\n";
  for (const RunCheck& check : run_checks()) text += check_row(check);
  text += "\nOf the whole job:\n\n";
  for (const PlanCheck& check : plan_checks()) text += check_row(check);
  return print(text);
}

int run_limits_table(const CommandLine&) {
  std::string text =
      "The limits of the checks. A job sets its own, with the reason:\n"
      "\"limits\": { \"NAME\": { \"value\": 5, \"reason\": \"why\" } }. OD: the tube's outside diameter.\n\n";
  for (const Limit& limit : limits()) text += limit_row(limit);
  return print(text);
}

}  // namespace halfhard

// halfhard check JOB...: the findings, for a person to read.
#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

#include "geometry/words/alike_findings.h"
#include "modeller/commands/command.h"
#include "modeller/loading/load_job.h"

namespace halfhard {
namespace {

std::string heading(Severity severity) {
  switch (severity) {
    case Severity::fail:
      return "NOT TO BE MADE until these are put right:";
    case Severity::warn:
      return "Mind:";
    case Severity::note:
      return "Notes:";
  }
  return {};
}

std::string line_of(const std::vector<const Finding*>& group, const LoadedJob& loaded) {
  const Finding& finding = *group.front();
  std::string line = "  " + told(group) + "  [" + finding.id;
  if (!finding.source.empty()) line += "; " + finding.source;
  if (const int number = loaded.line_of(finding.pointer)) line += "; line " + std::to_string(number);
  return line + "]\n";
}

void print_findings(const LoadedJob& loaded) {
  const Plan& plan = *loaded.plan;
  std::string text = loaded.file + (plan.title.empty() ? "" : ": " + plan.title) + "\n";
  for (const Severity severity : {Severity::fail, Severity::warn, Severity::note}) {
    const auto groups = alike_findings(plan.findings, severity);
    if (!groups.empty()) text += heading(severity) + "\n";
    for (const auto& group : groups) text += line_of(group, loaded);
  }
  if (!plan.fails()) text += "Nothing fails.\n";
  std::fputs(text.c_str(), stdout);
}

}  // namespace

int run_check(const CommandLine& line) {
  int status = kAllWell;
  for (const std::string& file : line.files) {
    const LoadedJob loaded = load_job(file, line);
    if (loaded.plan) {
      print_findings(loaded);
    } else {
      loaded.print_problems();
    }
    status = std::max(status, loaded.status());
  }
  return status;
}

}  // namespace halfhard

// halfhard check JOB...: the findings, for a person to read.
#include <algorithm>
#include <cstdio>
#include <map>
#include <string>
#include <vector>

#include "modeller/commands/command.h"
#include "modeller/commands/load_job.h"

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

// The sentence without the run's own name in it: alike for the pieces of a bank.
std::string anonymous(const Finding& finding) {
  const std::string name = "'" + finding.where + "'";
  std::string text = finding.id + finding.message;
  for (std::size_t at = text.find(name); at != std::string::npos; at = text.find(name)) text.erase(at, name.size());
  return text;
}

// Findings that say the same of several pipes, in the order found.
std::vector<std::vector<const Finding*>> alike(const Plan& plan, Severity severity) {
  std::vector<std::vector<const Finding*>> groups;
  std::map<std::string, std::size_t> place;
  for (const Finding& finding : plan.findings) {
    if (finding.severity != severity) continue;
    const auto [known, fresh] = place.try_emplace(anonymous(finding), groups.size());
    if (fresh) groups.emplace_back();
    groups[known->second].push_back(&finding);
  }
  return groups;
}

std::string line_of(const std::vector<const Finding*>& group, const LoadedJob& loaded) {
  const Finding& finding = *group.front();
  std::string line = "  ";
  if (group.size() > 1) {
    line += std::to_string(group.size()) + " pipes, " + finding.where + " to " + group.back()->where + ": ";
  } else if (!finding.where.empty() && finding.message.find(finding.where) == std::string::npos) {
    line += finding.where + ": ";
  }
  line += finding.message + "  [" + finding.id;
  if (!finding.source.empty()) line += "; " + finding.source;
  if (const int number = loaded.line_of(finding.pointer)) line += "; line " + std::to_string(number);
  return line + "]\n";
}

void print_findings(const LoadedJob& loaded) {
  const Plan& plan = *loaded.plan;
  std::string text = loaded.file + (plan.title.empty() ? "" : ": " + plan.title) + "\n";
  for (const Severity severity : {Severity::fail, Severity::warn, Severity::note}) {
    const auto groups = alike(plan, severity);
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

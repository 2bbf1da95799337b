#include "geometry/alike_findings.h"

#include <map>

namespace halfhard {
namespace {

// The sentence without the pipe's own name in it.
std::string anonymous(const Finding& finding) {
  const std::string name = "'" + finding.where + "'";
  std::string text = finding.id + finding.message;
  for (std::size_t at = text.find(name); at != std::string::npos; at = text.find(name)) text.erase(at, name.size());
  return text;
}

}  // namespace

std::vector<std::vector<const Finding*>> alike_findings(const std::vector<Finding>& findings, Severity severity) {
  std::vector<std::vector<const Finding*>> groups;
  std::map<std::string, std::size_t> place;
  for (const Finding& finding : findings) {
    if (finding.severity != severity) continue;
    const auto [known, fresh] = place.try_emplace(anonymous(finding), groups.size());
    if (fresh) groups.emplace_back();
    groups[known->second].push_back(&finding);
  }
  return groups;
}

std::string spoken_of(const std::vector<const Finding*>& group) {
  const Finding& first = *group.front();
  if (group.size() > 1) {
    return std::to_string(group.size()) + " pipes, " + first.where + " to " + group.back()->where;
  }
  return first.message.find(first.where) == std::string::npos ? first.where : "";
}

}  // namespace halfhard

#include "geometry/words/alike_findings.h"

#include <map>

namespace halfhard {
namespace {

// The sentence with another word for the pipe's own name.
std::string with_word(const Finding& finding, const std::string& word) {
  const std::string name = "'" + finding.where + "'";
  std::string text = finding.message;
  for (std::size_t at = text.find(name); at != std::string::npos; at = text.find(name, at + word.size()))
    text.replace(at, name.size(), word);
  return text;
}

}  // namespace

std::vector<std::vector<const Finding*>> alike_findings(const std::vector<Finding>& findings, Severity severity) {
  std::vector<std::vector<const Finding*>> groups;
  std::map<std::string, std::size_t> place;
  for (const Finding& finding : findings) {
    if (finding.severity != severity) continue;
    const auto [known, fresh] = place.try_emplace(finding.id + with_word(finding, ""), groups.size());
    if (fresh) groups.emplace_back();
    groups[known->second].push_back(&finding);
  }
  return groups;
}

std::string told(const std::vector<const Finding*>& group) {
  const Finding& first = *group.front();
  if (group.size() > 1) {
    std::string text = with_word(first, "each");
    if (text.starts_with("each: ")) text.erase(0, 6);
    return first.where + " to " + group.back()->where + " (" + std::to_string(group.size()) + " alike): " + text;
  }
  const bool named = first.message.find(first.where) != std::string::npos;
  return named ? first.message : first.where + ": " + first.message;
}

const char* severity_word(Severity severity) {
  return severity == Severity::fail ? "fail" : severity == Severity::warn ? "warn" : "note";
}

const char* spoken_severity(Severity severity) {
  switch (severity) {
    case Severity::fail:
      return "fails";
    case Severity::warn:
      return "mind";
    case Severity::note:
      break;
  }
  return "note";
}

}  // namespace halfhard

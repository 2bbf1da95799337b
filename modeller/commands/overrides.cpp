#include "modeller/commands/command.h"
#include "modeller/job/read_job.h"

namespace halfhard {

std::optional<std::string> take_overrides(const std::vector<std::string>& written, CommandLine& line) {
  for (const std::string& each : written) {
    const auto set = split_set(each);
    if (!set) return "--set " + in_quotes(each) + ", allowed NAME=VALUE";
    line.set.insert_or_assign(set->first, set->second);
  }
  return std::nullopt;
}

}  // namespace halfhard

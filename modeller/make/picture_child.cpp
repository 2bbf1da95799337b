#include "modeller/make/picture_child.h"

#include <filesystem>
#include <vector>

#include "modeller/system/child.h"
#include "modeller/system/neighbour.h"

namespace halfhard {
namespace {

constexpr int kMostSeconds = 120;

std::vector<std::string> picture_command(const std::string& job_file, const LoadOptions& options) {
  std::vector<std::string> words = {
      neighbour_program("halfhard-window").string(), "picture", job_file, "--out", "-", "--text-from-input"};
  for (const auto& [name, value] : options.set) words.insert(words.end(), {"--set", name + "=" + value});
  for (const std::string& folder : options.allow) words.insert(words.end(), {"--allow", folder});
  return words;
}

}  // namespace

ChildPicture draw_picture(const std::string& job_file, const std::string& job_text, const LoadOptions& options) {
  if (!std::filesystem::exists(neighbour_program("halfhard-window"))) return {"", "halfhard-window is not built"};
  ChildResult child = run_limited(picture_command(job_file, options), {kMostSeconds, 0}, job_text);
  // 1: a finding fails, and the picture shows where.
  const bool well = child.ending == ChildResult::Ending::exited &&
                    (child.code == kAllWell || child.code == kFindingFails) && !child.output.empty();
  if (well) return {std::move(child.output), ""};
  if (child.ending == ChildResult::Ending::out_of_time) return {"", "drawing it took too long"};
  const std::string why = child.error.substr(0, child.error.find('\n'));
  return {"", why.empty() ? "halfhard-window broke off" : why};
}

}  // namespace halfhard

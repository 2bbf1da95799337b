#include "modeller/checks/clips.h"

#include "geometry/rules/clip_places.h"
#include "geometry/words/shown.h"
#include "modeller/checks/saying.h"

namespace halfhard {
namespace {

std::string listed(const std::vector<Clip>& clips, const Job& job) {
  std::string text;
  for (std::size_t i = 0; i < clips.size(); ++i) {
    if (i > 0) text += i + 1 == clips.size() ? " and " : ", ";
    text += shown_length_bare(clips[i].along_mm, job.unit);
  }
  return text + (job.unit == LengthUnit::mm ? " mm" : " in");
}

}  // namespace

void check_clips(const RunContext& context, std::vector<Finding>& findings) {
  const Run& run = context.run;
  const Job& job = context.job;
  const ClipSpacing spacing = clip_spacing(*run.tube, job.rules);
  const std::vector<Clip> clips = clip_places(run, spacing);
  const Figure allowed{0, spacing.level_mm, "mm", spacing.source};
  const std::string apart =
      length(spacing.level_mm, job) + " apart level and " + length(spacing.upright_mm, job) + " upright";
  if (clips.empty()) {
    findings.push_back(say("clips", Severity::note, run,
                           in_quotes(run.name) + " has no straight long enough for a clip: hold it by its fittings.",
                           allowed));
    return;
  }
  if (const auto unheld = unheld_stretch(run, spacing, clips)) {
    findings.push_back(say("clip-spacing", Severity::warn, run,
                           in_quotes(run.name) + " goes " + length_beside(unheld->length_mm, unheld->limit_mm, job) +
                               " with no straight to clip where " + length(unheld->limit_mm, job) +
                               " is the most: hold it by a bracket at a bend" + spacing.remark + ".",
                           {unheld->length_mm, unheld->limit_mm, "mm", spacing.source}));
  }
  const std::string where = clips.size() <= 6 ? "at " + listed(clips, job) + " along it from the mouth at its start end"
                                              : "in " + std::to_string(clips.size()) + " places";
  findings.push_back(
      say("clips", Severity::note, run,
          "Clip " + in_quotes(run.name) + " " + where + " (at most " + apart + ")" + spacing.remark + ".",
          {static_cast<double>(clips.size()), 0, "clips", spacing.source}));
}

}  // namespace halfhard

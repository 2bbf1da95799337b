// What is wrong, doubtful or worth knowing about a plan. A bad design is data, not an error.
#pragma once

#include <optional>
#include <string>

#include "geometry/base/vec.h"

namespace halfhard {

enum class Severity { fail, warn, note };

struct Finding {
  std::string id;  // stable; once shipped never renamed
  Severity severity = Severity::note;
  std::string where;                      // a run's or fixture's name, or empty for the whole job
  std::string message;                    // one sentence for a plumber
  double value = 0;                       // what was found, in `unit`
  double limit = 0;                       // what is allowed, in `unit`
  std::string unit;                       // "mm", "deg", "%", ... ; empty where there is no figure
  std::string source;                     // where the limit comes from
  std::string pointer;                    // JSON pointer into the job
  std::optional<Vec3> at = std::nullopt;  // where in the site frame, mm; nothing where it is about all of it
  std::string also = {};                  // the other run that it is about, where it is about two

  bool concerns(const std::string& run) const { return where.empty() || where == run || also == run; }

  friend bool operator==(const Finding&, const Finding&) = default;
};

}  // namespace halfhard

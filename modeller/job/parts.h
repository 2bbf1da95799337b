// The parts of a job file, one reader each. Every reader reports all that is wrong and puts what is good into `job`.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <memory>

#include "modeller/job/reading.h"

namespace halfhard {

// A `solid` fixture whose file is to be read once everything else is known to be good.
struct SolidToRead {
  std::size_t fixture = 0;  // place in Job::fixtures
  std::filesystem::path file;
  JsonValue file_at;  // for messages
  Vec3 at = Vec3::Zero();
  std::vector<Eigen::Affine3d> turns;  // in order
};

struct FilePlaces {
  std::filesystem::path job_folder;
  std::vector<std::filesystem::path> allowed;
};

// Names that other parts refer to, as far as they can be made out.
KnownNames names_in(JsonValue root);

void read_settings(Reading& reading, const Fields& top, Job& job);
void read_tubes(Reading& reading, JsonValue at, Job& job);
void read_benders(Reading& reading, JsonValue at, Job& job);
void read_fixtures(Reading& reading, JsonValue at, const FilePlaces& places, Job& job,
                   std::vector<SolidToRead>& solids);
void read_connections(Reading& reading, JsonValue at, Job& job);
void read_site_checks(Reading& reading, JsonValue at, Job& job);
void read_runs(Reading& reading, JsonValue at, Job& job);
void read_banks(Reading& reading, JsonValue at, Job& job);

// Run names, fixture names and the names of banked pieces, each once. After the parts above.
void check_names_are_unique(Reading& reading, JsonValue root, const Job& job);

// Shared by runs, connections and path steps.
std::optional<JobConnection> read_connection(Reading& reading, JsonValue at, const std::string& name);
std::vector<PathStep> read_path(Reading& reading, JsonValue at, bool has_to);
std::optional<double> read_drill_clearance(Reading& reading, JsonValue at);

// Where a `solid`'s file is, or nothing and a problem: outside the allowed folders (exit status 2), missing (3).
std::optional<std::filesystem::path> allowed_file(Reading& reading, JsonValue at, const FilePlaces& places);

// Right-handed turn about an axis through `at`.
Eigen::Affine3d turn_about(const Vec3& at, const Vec3& axis, Angle by);
Shape turned(const Shape& shape, const Eigen::Affine3d& turn);

}  // namespace halfhard

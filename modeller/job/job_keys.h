// Every key that a job file may hold, in one table: read by the reader (which keys a group may have), by the help, by
// `halfhard keys` and by the reference page beside this file (job_keys.md), which a test holds to it.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace halfhard {

// The groups { } of a job file.
enum class JobPart {
  job,
  tolerance,
  stock,
  limit,
  sheet,
  tube,
  bender,
  stands,
  spring_back,
  fixture,
  box,
  cylinder,
  plane,
  joist,
  solid,
  turn,
  connection,
  taped,
  two_points,
  site_check,
  run,
  spare,
  go,
  leg_measured,
  to,
  bend,
  offset,
  passover,
  bank
};

struct JobPartRow {
  JobPart part;
  std::string_view title;  // as the page heads it
  std::string_view where;  // where it stands in the file
};

struct JobKey {
  JobPart part;
  std::string_view key;
  std::string_view kind;  // length, angle, whole number, number, text, word, yes or no, point, direction, group, list
  std::string_view allowed;   // its range in words; empty: any
  std::string_view left_out;  // what counts then; empty: it must be there
  std::string_view tells;     // for a person
  std::string_view example;   // JSON, good in a job in mm
};

std::span<const JobPartRow> job_parts();
// In the order of job_parts(), within a part in the order that people read them.
std::span<const JobKey> job_keys();
// The keys of one part, in the table's order.
std::span<const std::string_view> keys_of(JobPart part);

// The whole table to be read: Markdown, which reads well on a screen, too.
std::string job_keys_page();

}  // namespace halfhard

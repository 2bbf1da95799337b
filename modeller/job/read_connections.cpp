// Connections, named or written in a run's `from` or `to`, and the site checks between them.
#include "modeller/job/parts.h"

namespace halfhard {

std::optional<JobConnection> read_connection(Reading& reading, JsonValue at, const std::string& name) {
  Fields fields(reading, at, keys_of(JobPart::connection));
  if (!fields.ok()) return std::nullopt;
  JobConnection connection;
  Connection& base = connection.base;
  base.name = name;
  base.pointer = at.pointer();
  const JsonValue place_at = fields.needed("at"), towards_at = fields.needed("towards");
  if (place_at) {
    if (auto place = reading.job_point(place_at)) connection.at = *std::move(place);
    if (const Vec3* point = std::get_if<Vec3>(&connection.at)) base.at = *point;
  }
  if (towards_at) base.towards = reading.direction(towards_at).value_or(Vec3::UnitZ());
  fields.length("insertion", base.insertion_mm, kLength0);
  fields.length("joins_for", base.joins_for_mm, kLength0);
  fields.length("straight_needed", base.straight_needed_mm, kLength0);
  fields.length("loose", base.loose_mm, kLength0);
  for (const JsonValue joined : members_of_list(reading, fields["joins"], "a list of fixture names")) {
    if (auto fixture = reading.known_name(joined, reading.known.fixtures, "a fixture")) {
      base.joins.push_back(*std::move(fixture));
    }
  }
  return connection;
}

void read_connections(Reading& reading, JsonValue at, Job& job) {
  for (const JsonValue member : members_of_group(reading, at, "a group of connections by name")) {
    if (auto connection = read_connection(reading, member, std::string(member.key()))) {
      job.connections.push_back(*std::move(connection));
    }
  }
}

void read_site_checks(Reading& reading, JsonValue at, Job& job) {
  for (const JsonValue member : members_of_list(reading, at, "a list of site checks")) {
    Fields fields(reading, member, keys_of(JobPart::site_check));
    if (!fields.ok()) continue;
    JobSiteCheck check;
    check.pointer = member.pointer();
    const auto read_end = [&](std::string_view key, std::variant<Vec3, std::string>& end) {
      const JsonValue end_at = fields.needed(key);
      if (!end_at) return;
      if (end_at.kind() == JsonKind::text) {
        if (auto name = reading.known_name(end_at, reading.known.connections, "a connection")) end = *std::move(name);
      } else if (const auto point = reading.point(end_at)) {
        end = *point;
      }
    };
    read_end("from", check.from);
    read_end("to", check.to);
    fields.needed("measured");
    fields.length("measured", check.measured_mm, kLength0);
    fields.length("within", check.within_mm, kLength0);
    job.site_checks.push_back(std::move(check));
  }
}

}  // namespace halfhard

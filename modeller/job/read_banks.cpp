// Banks of pieces, and the names of everything that a report names.
#include <algorithm>
#include <array>
#include <unordered_map>

#include "modeller/job/parts.h"

namespace halfhard {
namespace {

constexpr int kMostPieces = 10000;

void read_services(Reading& reading, JsonValue at, JobBank& bank) {
  const std::size_t before = reading.problem_count();
  for (const JsonValue member : members_of_list(reading, at, "a list of services, one a piece"))
    bank.services.push_back(reading.service(member).value_or(Service::none));
  if (reading.problem_count() != before || bank.services.size() == static_cast<std::size_t>(bank.count)) return;
  reading.problem(at,
                  std::to_string(bank.services.size()) +
                      (bank.services.size() == 1 ? " service for " : " services for ") + std::to_string(bank.count) +
                      " pieces",
                  "one a piece, or \"service\" of the pipe for all");
}

JobBank read_bank(Reading& reading, JsonValue at) {
  static constexpr std::array<std::string_view, 3> kWords = {"pieces", "gaps", "mirror"};
  JobBank bank;
  bank.pointer = at.pointer();
  Fields fields(reading, at, keys_of(JobPart::bank));
  if (!fields.ok()) return bank;
  if (const JsonValue of = fields.needed("of")) {
    bank.of = reading.known_name(of, reading.known.runs, "a run").value_or("");
  }
  if (const JsonValue count = fields.needed("count")) bank.count = reading.whole(count, 1, kMostPieces).value_or(1);
  if (const JsonValue step = fields.needed("step")) {
    if (const auto shift = reading.shift(step, 1, 3)) {
      bank.step = sum_of(*shift);
      if (bank.count > 1 && bank.step.isZero(0)) reading.problem(step, "a step of 0", "a step that is not 0");
    }
  }
  if (const JsonValue match = fields["match"]) {
    const auto place = reading.word(match, kWords);
    bank.equal_gaps = place == 1;
    bank.mirror = place == 2;
  }
  if (const JsonValue services = fields["services"]) read_services(reading, services, bank);
  return bank;
}

class NameBook {
 public:
  explicit NameBook(Reading& reading) : reading_(reading) {}

  void add(const std::string& name, JsonValue at, const std::string& what) {
    if (name.empty()) return;
    const auto [known, fresh] = taken_.emplace(name, what);
    if (!fresh) {
      reading_.problem(at, "the name " + in_quotes(name) + " of " + what + ", already that of " + known->second,
                       "run and fixture names that differ, those of banked pieces included");
    }
  }

 private:
  Reading& reading_;
  std::unordered_map<std::string, std::string> taken_;
};

std::string name_of(JsonValue member, JsonValue& at) {
  at = member.kind() == JsonKind::group ? member.find("name") : JsonValue();
  return at && at.kind() == JsonKind::text ? std::string(at.text()) : std::string();
}

}  // namespace

void read_banks(Reading& reading, JsonValue at, Job& job) {
  for (const JsonValue member : members_of_list(reading, at, "a list of banks")) {
    job.banks.push_back(read_bank(reading, member));
  }
}

void check_names_are_unique(Reading& reading, JsonValue root, const Job& job) {
  NameBook book(reading);
  for (const char* part : {"fixtures", "runs"}) {
    const JsonValue list = root.find(part);
    if (!list || list.kind() != JsonKind::list) continue;
    for (JsonValue member = list.first(); member; member = member.next()) {
      JsonValue at;
      const std::string name = name_of(member, at);
      if (at) book.add(name, at, std::string(part) == "runs" ? "a run" : "a fixture");
    }
  }
  const JsonValue banks = root.find("banks");
  if (!banks || banks.kind() != JsonKind::list) return;
  std::size_t place = 0;
  for (JsonValue member = banks.first(); member; member = member.next()) {
    const JobBank& bank = job.banks[place++];
    if (bank.of.empty()) continue;
    const auto earlier = std::ranges::find(job.banks, bank.of, &JobBank::of);
    if (&*earlier != &bank) {
      reading.problem(member.find("of"), "a second bank of " + in_quotes(bank.of), "one bank of a run");
      continue;
    }
    for (int piece = 1; piece <= bank.count; ++piece) {
      book.add(bank.of + " " + std::to_string(piece), member.find("of"), "a banked piece");
    }
  }
}

}  // namespace halfhard

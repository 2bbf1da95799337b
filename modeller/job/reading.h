// What every part of the reader shares: the tree, the values, the list of problems, and how a number, text, word, point
// or direction is read. Each reader reports what is wrong and returns nothing; nothing is also returned, without a
// second report, where a value that it uses is faulty.
#pragma once

#include <array>
#include <initializer_list>
#include <memory>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "geometry/base/tolerances.h"
#include "geometry/base/vec.h"
#include "modeller/job/job.h"
#include "modeller/job/job_keys.h"
#include "modeller/job/json_tree.h"
#include "modeller/job/read_job.h"
#include "modeller/job/values.h"

namespace halfhard {

// What a number may be; `allowed` says it in words.
struct NumberRange {
  double least, most;
  bool least_itself, most_itself;
  const char* allowed;
};
inline constexpr double kNoEnd = 1e308;
inline constexpr NumberRange kAnyLength{-kNoEnd, kNoEnd, true, true, "a length"};
inline constexpr NumberRange kLength0{0, kNoEnd, true, true, "a length, 0 or more"};
inline constexpr NumberRange kLengthAbove0{0, kNoEnd, false, true, "a length above 0"};
inline constexpr NumberRange kAnyNumber{-kNoEnd, kNoEnd, true, true, "a number"};
inline constexpr NumberRange kAnyAngle{-360000, 360000, true, true, "an angle in degrees"};

// Names that other parts may refer to, gathered before anything is read in full, so that a fault in a tube does not
// make every run's `tube` unknown as well.
struct KnownNames {
  std::vector<std::string> tubes, benders, connections, fixtures, planes, runs;
};

// What stands there, on one line: a number or text as it is written, "a list of 3", "a group { }".
std::string kind_shown(JsonValue at);

class Reading {
 public:
  Reading(const JsonTree& tree, std::string file, Values& values, LengthUnit unit,
          std::unordered_map<std::uint32_t, Expression>& expressions, std::vector<JobProblem>& problems,
          Figures& figures);

  LengthUnit unit() const { return unit_; }
  const std::string& file() const { return file_; }
  KnownNames known;

  void problem(JsonValue at, std::string found, std::string allowed, std::string nearest = "", int exit_status = 2);
  // The same, placed at the key.
  void problem_at_key(JsonValue at, std::string found, std::string allowed, std::string nearest = "");
  void wrong_kind(JsonValue at, std::string_view allowed);
  std::size_t problem_count() const { return problems_.size(); }

  std::optional<double> length_mm(JsonValue at, const NumberRange& range);
  std::optional<double> number(JsonValue at, const NumberRange& range);  // angles, counts, plain numbers
  std::optional<int> whole(JsonValue at, int least, int most);
  std::optional<bool> flag(JsonValue at);
  std::optional<std::string> text(JsonValue at);
  std::optional<std::string> name(JsonValue at);  // a text that is not empty
  // The place of the word in `words`.
  std::optional<std::size_t> word(JsonValue at, std::span<const std::string_view> words);
  std::optional<Service> service(JsonValue at);
  // A text that must be among `names`; `what` says of what: "a tube".
  std::optional<std::string> known_name(JsonValue at, std::span<const std::string> names, std::string_view what);

  std::optional<Vec3> point(JsonValue at);
  std::optional<Vec3> direction(JsonValue at);  // unit
  std::optional<JobPoint> job_point(JsonValue at);
  // { word: length, ... }: from `least` to `most` of them, no axis twice, not all 0.
  std::optional<std::vector<WordShift>> shift(JsonValue at, std::size_t least, std::size_t most);

  bool is_text(JsonValue at, std::string_view text) const {
    return at && at.kind() == JsonKind::text && at.text() == text;
  }

 private:
  struct Worked {
    double number = 0;
    std::optional<double> literal_mm;
  };
  std::optional<Worked> work_out(JsonValue at, std::string_view allowed);
  bool in_range(JsonValue at, double value, const NumberRange& range, double shown, const char* unit);
  std::optional<Vec3> three(JsonValue at, bool lengths);
  std::optional<TapedOff> taped(JsonValue at);

  const JsonTree& tree_;
  std::string file_;
  Values& values_;
  LengthUnit unit_;
  std::unordered_map<std::uint32_t, Expression>& expressions_;  // by place in the tree; kept between readings
  std::vector<JobProblem>& problems_;
  Figures& figures_;
};

Vec3 sum_of(const std::vector<WordShift>& shift);

// The members of a group: unknown keys are reported at once, and what stands at each key is read from here.
class Fields {
 public:
  Fields(Reading& reading, JsonValue group, std::span<const std::string_view> known);
  Fields(Reading& reading, JsonValue group, std::initializer_list<std::string_view> known)
      : Fields(reading, group, std::span<const std::string_view>(known.begin(), known.size())) {}

  bool ok() const { return ok_; }  // it is a group
  JsonValue group() const { return group_; }
  JsonValue operator[](std::string_view key) const { return ok_ ? group_.find(key) : JsonValue(); }
  JsonValue needed(std::string_view key);  // reported where left out

  // Into `out` where the key is there and good.
  template <typename T>
  void length(std::string_view key, T& out, const NumberRange& range) {
    put(key, out, [&](JsonValue at) { return reading_.length_mm(at, range); });
  }
  template <typename T>
  void number(std::string_view key, T& out, const NumberRange& range) {
    put(key, out, [&](JsonValue at) { return reading_.number(at, range); });
  }
  void text(std::string_view key, std::string& out) {
    put(key, out, [&](JsonValue at) { return reading_.text(at); });
  }
  void flag(std::string_view key, bool& out) {
    put(key, out, [&](JsonValue at) { return reading_.flag(at); });
  }
  template <typename Enum>
  void word(std::string_view key, Enum& out, std::span<const std::string_view> words, std::span<const Enum> meanings) {
    put(key, out, [&](JsonValue at) -> std::optional<Enum> {
      const auto place = reading_.word(at, words);
      if (!place) return std::nullopt;
      return meanings[*place];
    });
  }
  void service(std::string_view key, Service& out);

 private:
  template <typename T, typename Read>
  void put(std::string_view key, T& out, Read read) {
    if (const JsonValue at = (*this)[key]) {
      if (auto value = read(at)) out = *std::move(value);
    }
  }
  Reading& reading_;
  JsonValue group_;
  bool ok_ = false;
};

// Every member of a list; a value that is no list is reported and taken for an empty one.
std::vector<JsonValue> members_of_list(Reading& reading, JsonValue at, std::string_view allowed);
std::vector<JsonValue> members_of_group(Reading& reading, JsonValue at, std::string_view allowed);

}  // namespace halfhard

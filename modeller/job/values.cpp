#include "modeller/job/values.h"

#include <algorithm>

#include "modeller/job/reading.h"

namespace halfhard {
namespace {

JobProblem problem_at_key(JsonValue value, const std::string& file, std::string found, std::string allowed) {
  const TextPlace place = value.key_place();
  return {file, place.line, place.column, value.pointer(), std::move(found), std::move(allowed), "", 2};
}

JobProblem override_problem(const std::string& name, const std::string& text, const ExpressionProblem& problem) {
  return {"--set " + name + "=" + text, 0, 0, "", problem.found, problem.allowed, problem.nearest, 2};
}

}  // namespace

JobProblem expression_problem(JsonValue value, const ExpressionProblem& problem, const std::string& file) {
  TextPlace place = value.place();
  // Columns within the text can be told where no escape moved them.
  if (value.raw().size() == value.text().size() + 2) place.column += static_cast<int>(problem.at) + 1;
  std::string found = problem.found;
  if (found != in_quotes(value.text())) found += " in " + in_quotes(value.text());
  return {file, place.line, place.column, value.pointer(), std::move(found), problem.allowed, problem.nearest, 2};
}

Values::Values(JsonValue group, LengthUnit unit, const std::string& file, std::vector<JobProblem>& problems)
    : unit_(unit) {
  if (!group || group.kind() != JsonKind::group) return;
  std::vector<std::string> names;
  for (JsonValue member = group.first(); member; member = member.next()) names.emplace_back(member.key());
  names_ = NameTable(std::move(names));
  for (JsonValue member = group.first(); member; member = member.next()) {
    Value value{member, std::nullopt, 0, false};
    if (std::ranges::find(reserved_names(), member.key()) != reserved_names().end()) {
      problems.push_back(problem_at_key(member, file, "the reserved name " + in_quotes(member.key()),
                                        "a name that is no unit, function, pi, rule or rest"));
      value.faulty = true;
    } else if (!is_name(member.key())) {
      problems.push_back(problem_at_key(member, file, "the value name " + in_quotes(member.key()),
                                        "letters A-Z a-z, digits and _, no digit first"));
      value.faulty = true;
    }
    if (member.kind() == JsonKind::number) {
      value.number = member.number();
    } else if (member.kind() == JsonKind::text) {
      auto reading = Expression::read(member.text(), names_, unit_);
      if (const auto* problem = std::get_if<ExpressionProblem>(&reading)) {
        problems.push_back(expression_problem(member, *problem, file));
        value.faulty = true;
      } else {
        value.expression = std::move(std::get<Expression>(reading));
      }
    } else {
      const TextPlace place = member.place();
      problems.push_back({file, place.line, place.column, member.pointer(), kind_shown(member),
                          "a number or a text such as \"pitch + 12.5 mm\"", "", 2});
      value.faulty = true;
    }
    values_.push_back(std::move(value));
  }
  numbers_.resize(values_.size());
  good_.resize(values_.size());
}

void Values::work_out(const std::map<std::string, std::string>& overrides, const std::string& file,
                      std::vector<JobProblem>& problems) {
  std::vector<const Expression*> expressions;
  for (const Value& value : values_) expressions.push_back(value.expression ? &*value.expression : nullptr);
  std::map<int, Expression> replaced;
  std::vector<bool> faulty(values_.size());
  for (std::size_t i = 0; i < values_.size(); ++i) faulty[i] = values_[i].faulty;
  for (const auto& [name, text] : overrides) {
    const int place = names_.place_of(name);
    if (place < 0) {
      const std::string allowed =
          names().empty() ? "nothing to set: the job has no values" : "a value of the job: " + names_in_quotes(names());
      problems.push_back(override_problem(
          name, text, {0, "the unknown name " + in_quotes(name), allowed, nearest_name(name, names())}));
      continue;
    }
    auto reading = Expression::read(text, names_, unit_);
    if (const auto* problem = std::get_if<ExpressionProblem>(&reading)) {
      problems.push_back(override_problem(name, text, *problem));
      faulty[static_cast<std::size_t>(place)] = true;
      continue;
    }
    faulty[static_cast<std::size_t>(place)] = false;
    expressions[static_cast<std::size_t>(place)] =
        &replaced.insert_or_assign(place, std::move(std::get<Expression>(reading))).first->second;
  }

  // Depth first without recursion: a chain of values may be as long as the file.
  enum class State : char { unseen, open, done };
  std::vector<State> state(values_.size(), State::unseen);
  std::vector<int> path;
  for (int start = 0; start < static_cast<int>(values_.size()); ++start) {
    if (state[static_cast<std::size_t>(start)] == State::unseen) path.push_back(start);
    while (!path.empty()) {
      const int value = path.back();
      const auto at = static_cast<std::size_t>(value);
      state[at] = State::open;
      int next = -1;
      if (expressions[at] && !faulty[at]) {
        for (const int used : expressions[at]->uses()) {
          const State seen = state[static_cast<std::size_t>(used)];
          if (seen == State::open) {
            const auto from = std::ranges::find(path, used);
            report_ring({from, path.end()}, file, problems);
            for (auto member = from; member != path.end(); ++member) faulty[static_cast<std::size_t>(*member)] = true;
            break;
          }
          if (seen == State::unseen && next < 0) next = used;
        }
      }
      if (next >= 0 && !faulty[at]) {
        path.push_back(next);
        continue;
      }
      good_[at] = !faulty[at];
      if (good_[at]) work_out_one(value, expressions, file, problems);
      state[at] = State::done;
      path.pop_back();
    }
  }
}

void Values::work_out_one(int value, const std::vector<const Expression*>& expressions, const std::string& file,
                          std::vector<JobProblem>& problems) {
  const auto at = static_cast<std::size_t>(value);
  if (!expressions[at]) {
    numbers_[at] = values_[at].number;
    return;
  }
  for (const int used : expressions[at]->uses()) {
    if (!good(used)) good_[at] = false;
  }
  if (!good_[at]) return;
  const auto result = expressions[at]->evaluate(numbers_);
  if (const auto* problem = std::get_if<ExpressionProblem>(&result)) {
    good_[at] = false;
    const bool as_written = values_[at].expression && expressions[at] == &*values_[at].expression;
    problems.push_back(as_written ? expression_problem(values_[at].written, *problem, file)
                                  : override_problem(names()[at], "...", *problem));
    return;
  }
  numbers_[at] = std::get<double>(result);
}

void Values::report_ring(const std::vector<int>& ring, const std::string& file, std::vector<JobProblem>& problems) {
  std::string chain;
  const std::size_t shown = std::min<std::size_t>(ring.size(), 8);
  for (std::size_t i = 0; i < shown; ++i) chain += names()[static_cast<std::size_t>(ring[i])] + " -> ";
  if (shown < ring.size()) chain += "... -> ";
  chain += names()[static_cast<std::size_t>(ring.front())];
  const JsonValue written = values_[static_cast<std::size_t>(ring.front())].written;
  const TextPlace place = written.place();
  problems.push_back({file, place.line, place.column, written.pointer(), "a ring of values: " + chain,
                      "values that do not need themselves", "", 2});
}

}  // namespace halfhard

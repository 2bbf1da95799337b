// What makes a job file unusable: exit status 2 (what it says) or 3 (a file that cannot be read). Not a `Finding`: a
// bad design is data, a file that cannot be understood is a problem.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace halfhard {

struct JobProblem {
  std::string file;     // as the person named it
  int line = 0;         // 1-based; 0 where there is no such place (a --set, a missing file)
  int column = 0;       // 1-based, in characters
  std::string pointer;  // JSON pointer into the job; empty: the whole file
  std::string found;    // what stands there
  std::string allowed;  // what may stand there
  std::string nearest;  // the nearest valid name; empty where none is near
  int exit_status = 2;  // 2: it cannot be used; 3: a file is missing

  // found "tubs", allowed one of ... (did you mean "tubes"?)
  std::string message() const;
  // One line: file:line: /pointer: message.
  std::string shown() const;

  friend bool operator==(const JobProblem&, const JobProblem&) = default;
};

// By line and column; those of one place keep their order.
void in_order_of_the_file(std::vector<JobProblem>& problems);
// The highest exit status among them; 0 for none.
int exit_status_of(const std::vector<JobProblem>& problems);

// The name that `typed` was most likely meant to be: fewest slips (a letter added, dropped, changed, or two swapped),
// at most a third of its length; ties go to the first. Case and spaces count least. Empty where none is near.
std::string nearest_name(std::string_view typed, std::span<const std::string_view> names);
std::string nearest_name(std::string_view typed, std::span<const std::string> names);

// In quotes, control characters made visible, cut to some 60 characters: safe to print whatever it holds.
std::string in_quotes(std::string_view text);
// The same without quotes.
std::string printable(std::string_view text);
// A JSON string literal that reads back as the same text; whole, never cut.
std::string in_quotes_json(std::string_view text);
// "a", "b", "c"; the list is cut after `most` names.
std::string names_in_quotes(std::span<const std::string_view> names, std::size_t most = 20);
std::string names_in_quotes(std::span<const std::string> names, std::size_t most = 20);

// Shortest text that reads back as the same double; independent of the locale.
std::string number_text(double value);

}  // namespace halfhard

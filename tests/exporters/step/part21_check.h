// A small reading of an exchange file's text, written apart from the writer: enough to tell a broken one.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace halfhard {

struct Part21File {
  std::map<int, std::string> entities;  // number to text behind "="
  std::vector<std::string> faults;      // empty: sound
};

// Faults: brackets or quotes that do not balance, a number given twice, a reference to nothing, characters that are not
// plain ASCII, sections missing.
Part21File check_part21(const std::string& text);

int count_of(const Part21File& file, const std::string& type);

}  // namespace halfhard

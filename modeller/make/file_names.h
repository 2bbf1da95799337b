// Names that every file system takes: letters, digits, '-' and '_', all else becomes '_'; unique ignoring case.
#pragma once

#include <set>
#include <string>
#include <string_view>

namespace halfhard {

// Never empty. A character of several bytes becomes one '_'.
std::string safe_name(std::string_view text);

class UniqueNames {
 public:
  // The safe name of `text`, with _2, _3 ... behind it where that is taken already, upper and lower case being one.
  std::string name_for(std::string_view text);

 private:
  std::set<std::string> taken_;  // in lower case
};

}  // namespace halfhard

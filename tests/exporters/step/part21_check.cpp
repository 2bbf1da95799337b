#include "tests/exporters/step/part21_check.h"

#include <cctype>
#include <set>

namespace halfhard {
namespace {

// Without what is inside quotes; says where brackets or quotes do not balance.
std::string bare(const std::string& statement, std::vector<std::string>& faults) {
  std::string result;
  int depth = 0;
  bool quoted = false;
  for (const char c : statement) {
    if (c == '\'') quoted = !quoted;
    if (quoted || c == '\'') continue;
    depth += c == '(' ? 1 : c == ')' ? -1 : 0;
    if (depth < 0) faults.push_back("bracket closed too often: " + statement);
    result += c;
  }
  if (depth != 0 || quoted) faults.push_back("does not balance: " + statement);
  return result;
}

std::vector<std::string> statements_of(const std::string& text) {
  std::vector<std::string> statements(1);
  bool quoted = false;
  for (const char c : text) {
    if (c == '\'') quoted = !quoted;
    if (c == ';' && !quoted) {
      statements.emplace_back();
    } else if (quoted || (c != '\n' && c != '\r')) {
      statements.back() += c;
    }
  }
  return statements;
}

}  // namespace

Part21File check_part21(const std::string& text) {
  Part21File file;
  for (const unsigned char c : text) {
    if (c != '\n' && (c < 0x20 || c > 0x7E)) file.faults.push_back("character " + std::to_string(c));
  }
  const std::vector<std::string> statements = statements_of(text);
  std::set<int> referred;
  std::vector<std::string> sections;
  for (const std::string& statement : statements) {
    const std::string plain = bare(statement, file.faults);
    if (plain.empty()) continue;
    if (plain[0] != '#') {
      sections.push_back(plain.substr(0, plain.find('(')));
      continue;
    }
    const int number = std::stoi(plain.substr(1));
    if (!file.entities.emplace(number, statement.substr(statement.find('=') + 1)).second) {
      file.faults.push_back("given twice: #" + std::to_string(number));
    }
    for (std::size_t at = plain.find('#', 1); at != std::string::npos; at = plain.find('#', at + 1)) {
      referred.insert(std::stoi(plain.substr(at + 1)));
    }
  }
  for (const int number : referred) {
    if (!file.entities.count(number)) file.faults.push_back("refers to nothing: #" + std::to_string(number));
  }
  const std::vector<std::string> expected = {"ISO-10303-21", "HEADER",      "FILE_DESCRIPTION",
                                             "FILE_NAME",    "FILE_SCHEMA", "ENDSEC",
                                             "DATA",         "ENDSEC",      "END-ISO-10303-21"};
  if (sections != expected) file.faults.push_back("sections missing or out of order");
  return file;
}

int count_of(const Part21File& file, const std::string& type) {
  int count = 0;
  for (const auto& [number, text] : file.entities) count += text.rfind(type + "(", 0) == 0;
  return count;
}

}  // namespace halfhard

#include "modeller/make/out_folder.h"

#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <fstream>

#include "geometry/base/require.h"
#include "modeller/make/file_names.h"

namespace halfhard {
namespace {

constexpr char kList[] = "halfhard-files.txt";

// A name of ours, with one ending: nothing in the list may lead out of the folder.
bool is_plain_file_name(const std::string& name) {
  const std::size_t dot = name.rfind('.');
  if (dot == std::string::npos || dot == 0) return false;
  const std::string stem = name.substr(0, dot);
  const std::string ending = name.substr(dot + 1);
  return safe_name(stem) == stem && safe_name(ending) == ending;
}

std::vector<std::string> listed(const std::filesystem::path& list) {
  std::vector<std::string> names;
  std::ifstream file(list);
  for (std::string name; std::getline(file, name);) {
    if (is_plain_file_name(name)) names.push_back(name);
  }
  return names;
}

}  // namespace

OutFolder::OutFolder(const std::filesystem::path& out, const std::string& name) : folder_(out / safe_name(name)) {
  std::error_code error;
  std::filesystem::create_directories(folder_, error);
  if (error) throw FileTrouble(folder_.string() + ": cannot make this folder: " + error.message());
}

void OutFolder::write(const std::string& name, std::string_view bytes) {
  HALFHARD_REQUIRE(is_plain_file_name(name));
  const std::filesystem::path final_name = folder_ / name;
  const std::filesystem::path aside = folder_ / ("." + name + "." + std::to_string(getpid()));
  bool well = false;
  {
    std::ofstream file(aside, std::ios::binary | std::ios::trunc);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    file.close();
    well = file.good();
  }
  std::error_code error;
  if (well) std::filesystem::rename(aside, final_name, error);
  if (!well || error) {
    std::error_code ignored;
    std::filesystem::remove(aside, ignored);
    throw FileTrouble(final_name.string() + ": cannot be written" + (error ? ": " + error.message() : ""));
  }
  written_.push_back(name);
}

void OutFolder::finish() {
  const std::vector<std::string> before = listed(folder_ / kList);
  std::string list;
  std::vector<std::string> names = written_;
  std::sort(names.begin(), names.end());
  for (const std::string& name : names) list += name + "\n";
  for (const std::string& old : before) {
    std::error_code error;
    if (!std::binary_search(names.begin(), names.end(), old)) std::filesystem::remove(folder_ / old, error);
    if (error) throw FileTrouble((folder_ / old).string() + ": cannot be removed: " + error.message());
  }
  write(kList, list);
  written_.pop_back();
}

}  // namespace halfhard

#include "modeller/make/out_folder.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <set>

#include "geometry/base/require.h"
#include "geometry/base/trouble.h"
#include "modeller/make/file_names.h"
#include "modeller/system/files.h"

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

// A list that is no plain file (a pipe, a link) lists nothing.
std::vector<std::string> listed(const std::filesystem::path& list) {
  std::vector<std::string> names;
  std::error_code error;
  if (!std::filesystem::is_regular_file(std::filesystem::symlink_status(list, error))) return names;
  std::ifstream file(list);
  for (std::string name; std::getline(file, name);) {
    if (is_plain_file_name(name)) names.push_back(name);
  }
  return names;
}

int opened_folder(const std::filesystem::path& folder) {
  return open(folder.c_str(), O_DIRECTORY | O_NOFOLLOW | O_RDONLY | O_CLOEXEC);
}

}  // namespace

OutFolder::OutFolder(const std::filesystem::path& out, const std::string& name) : folder_(out / safe_name(name)) {
  std::error_code error;
  std::filesystem::create_directories(out.empty() ? "." : out, error);
  if (error) throw Trouble(out.string() + ": this folder cannot be made: " + error.message());
  if (mkdir(folder_.c_str(), 0777) != 0 && errno != EEXIST)
    throw Trouble(folder_.string() + ": this folder cannot be made: " + std::strerror(errno));
  open_ = opened_folder(folder_);
  if (open_ < 0)
    throw Trouble(folder_.string() + ": nothing can be written here: " +
                  (errno == ELOOP || errno == ENOTDIR ? "it is no folder but a link or a file" : std::strerror(errno)));
  listed_ = listed(folder_ / kList);
}

OutFolder::~OutFolder() {
  if (open_ >= 0) close(open_);
}

void OutFolder::write_list(const std::vector<std::string>& names) {
  std::string list;
  for (const std::string& name : names) list += name + "\n";
  write_whole_in(open_, kList, list, (folder_ / kList).string());
}

void OutFolder::announce(const std::vector<std::string>& names) {
  std::set<std::string> all(listed_.begin(), listed_.end());
  all.insert(names.begin(), names.end());
  listed_.assign(all.begin(), all.end());
  write_list(listed_);
}

void OutFolder::write(const std::string& name, std::string_view bytes) {
  HALFHARD_REQUIRE(is_plain_file_name(name));
  write_whole_in(open_, name, bytes, (folder_ / name).string());
  written_.push_back(name);
}

void OutFolder::finish() {
  std::vector<std::string> names = written_;
  std::sort(names.begin(), names.end());
  for (const std::string& old : listed_) {
    if (std::binary_search(names.begin(), names.end(), old)) continue;
    if (unlinkat(open_, old.c_str(), 0) != 0 && errno != ENOENT)
      throw Trouble((folder_ / old).string() + ": cannot be removed: " + std::strerror(errno));
  }
  write_list(names);
}

}  // namespace halfhard

// The folder that a job's papers go to. A file is written aside and renamed, so nothing half-written ever stands under
// a final name; what an earlier `make` wrote and this one did not is taken away again, lest somebody builds from it.
// Files that `make` did not write are left alone.
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace halfhard {

// A file could not be read or written; the message names it.
struct FileTrouble : std::runtime_error {
  using std::runtime_error::runtime_error;
};

class OutFolder {
 public:
  // Makes the folder. Throws FileTrouble.
  OutFolder(const std::filesystem::path& out, const std::string& name);

  // `name` is one of ours: no path. Throws FileTrouble.
  void write(const std::string& name, std::string_view bytes);
  // Lists what was written and removes what was listed before and is not now. Throws FileTrouble.
  void finish();

  const std::filesystem::path& path() const { return folder_; }
  const std::vector<std::string>& written() const { return written_; }

 private:
  std::filesystem::path folder_;
  std::vector<std::string> written_;
};

}  // namespace halfhard

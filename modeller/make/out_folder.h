// The folder that a job's papers go to. A file is written aside and renamed, so nothing half-written ever stands under
// a final name; what an earlier `make` wrote and this one did not is taken away again, lest somebody builds from it.
// Files that `make` did not write are left alone. Nothing is written through a link in the folder or in its place.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace halfhard {

class OutFolder {
 public:
  // Makes the folder. Throws Trouble.
  OutFolder(const std::filesystem::path& out, const std::string& name);
  ~OutFolder();
  OutFolder(const OutFolder&) = delete;
  OutFolder& operator=(const OutFolder&) = delete;

  // Says what will be written, before the first paper is: so that whatever ends this `make`, the next one knows all that
  // may stand here. Throws Trouble.
  void announce(const std::vector<std::string>& names);
  // `name` is one of ours: no path. Throws Trouble.
  void write(const std::string& name, std::string_view bytes);
  // Removes what was listed before and is not written now. Throws Trouble.
  void finish();

  const std::filesystem::path& path() const { return folder_; }
  const std::vector<std::string>& written() const { return written_; }

 private:
  void write_list(const std::vector<std::string>& names);

  std::filesystem::path folder_;
  int open_ = -1;  // the folder itself
  std::vector<std::string> listed_, written_;
};

}  // namespace halfhard

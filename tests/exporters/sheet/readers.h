// Programs that are not ours, asked what they see in our files.
#pragma once

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

namespace halfhard::support {

inline std::filesystem::path scratch_file(const std::string& name) {
  const auto folder = std::filesystem::temp_directory_path() / "halfhard_sheets_tests";
  std::filesystem::create_directories(folder);
  return folder / name;
}

inline std::filesystem::path write_scratch(const std::string& name, const std::string& bytes) {
  const auto path = scratch_file(name);
  std::ofstream(path, std::ios::binary) << bytes;
  return path;
}

struct Said {
  std::string text;
  int status = -1;
};
inline Said ask(const std::string& command) {
  Said said;
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (!pipe) return said;
  char buffer[4096];
  while (const std::size_t read = fread(buffer, 1, sizeof buffer, pipe)) said.text.append(buffer, read);
  const int status = pclose(pipe);
  said.status = status >= 0 && (status & 0x7f) == 0 ? status >> 8 & 0xff : -1;
  return said;
}

// Debian's own Python: it has ezdxf (python3-ezdxf) whatever else stands first on the path.
inline std::string python(const std::string& script) {
  return "/usr/bin/python3 " + (std::filesystem::path(HALFHARD_TESTS_DIR) / "exporters/sheet" / script).string() + " ";
}

}  // namespace halfhard::support

// Files, digests and --set: see read_job.h.
#include <array>
#include <cstdint>
#include <fstream>
#include <iterator>

#include "modeller/job/read_job.h"

namespace halfhard {
namespace {

// Far beyond any job that a person could read; a hundred thousand pipes fit.
constexpr std::uintmax_t kMostJobBytes = 64u << 20;

}  // namespace

std::string digest_of(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325;  // FNV-1a, 64 bits: offset basis and prime as published by its authors
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3;
  }
  std::string hex;
  for (int shift = 60; shift >= 0; shift -= 4) hex += "0123456789abcdef"[(hash >> shift) & 0xF];
  return hex;
}

std::optional<std::pair<std::string, std::string>> split_set(const std::string& text) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos || equals == 0) return std::nullopt;
  return std::pair(text.substr(0, equals), text.substr(equals + 1));
}

std::optional<std::string> read_text_file(const std::filesystem::path& path, const std::string& allowed,
                                          std::vector<JobProblem>& problems) {
  const auto trouble = [&](const char* what) {
    problems.push_back({path.string(), 0, 0, "", what, allowed, "", 3});
    return std::nullopt;
  };
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (!std::filesystem::exists(status)) return trouble("no such file");
  if (std::filesystem::is_directory(status)) return trouble("a folder");
  // A pipe or a device may give no end.
  if (!std::filesystem::is_regular_file(status)) return trouble("something that is no plain file");
  const std::uintmax_t size = std::filesystem::file_size(path, error);
  if (!error && size > kMostJobBytes) {
    problems.push_back({path.string(), 0, 0, "", "a file of " + std::to_string(size >> 20) + " MB",
                        "at most " + std::to_string(kMostJobBytes >> 20) + " MB", "", 3});
    return std::nullopt;
  }
  std::ifstream file(path, std::ios::binary);
  if (!file) return trouble("a file that may not be read");
  std::string text{std::istreambuf_iterator<char>(file), {}};
  if (file.bad()) return trouble("a file that breaks off while it is read");
  return text;
}

JobReading read_job_file(const std::filesystem::path& path, ReadOptions options) {
  options.file = path.string();
  options.job_folder = path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
  JobReading reading;
  auto text = read_text_file(path, "a job file that can be read", reading.problems);
  return text ? read_job(*std::move(text), options) : reading;
}

}  // namespace halfhard

#include "modeller/window/document/safety_copy.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <utility>

namespace halfhard {
namespace {

constexpr int kMostWindows = 20;  // on one file at once, and left behind together

// A new file that no one else has open, locked; below 0 where there is none to be had.
int created_and_locked(const std::filesystem::path& path) {
  const int file = open(path.c_str(), O_CREAT | O_EXCL | O_NOFOLLOW | O_RDWR | O_CLOEXEC, 0600);
  if (file >= 0) flock(file, LOCK_EX | LOCK_NB);
  return file;
}

bool wrote_all(int file, const std::string& text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const ssize_t wrote = ::write(file, text.data() + at, text.size() - at);
    if (wrote <= 0) return false;
    at += static_cast<std::size_t>(wrote);
  }
  return true;
}

bool in_use(const std::filesystem::path& path) {
  const int file = open(path.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
  if (file < 0) return true;  // nothing that could be read back
  const bool locked = flock(file, LOCK_EX | LOCK_NB) != 0;
  close(file);
  return locked;
}

}  // namespace

SafetyCopy::SafetyCopy(std::filesystem::path file) : file_(std::move(file)) {}

SafetyCopy::SafetyCopy(SafetyCopy&& other) noexcept
    : file_(std::move(other.file_)), path_(std::move(other.path_)), lock_(std::exchange(other.lock_, -1)) {}

SafetyCopy& SafetyCopy::operator=(SafetyCopy&& other) noexcept {
  if (this == &other) return *this;
  let_go();
  file_ = std::move(other.file_);
  path_ = std::move(other.path_);
  lock_ = std::exchange(other.lock_, -1);
  return *this;
}

SafetyCopy::~SafetyCopy() { let_go(); }

void SafetyCopy::let_go() {
  if (lock_ >= 0) close(lock_);
  lock_ = -1;
}

std::filesystem::path SafetyCopy::numbered(int number) const {
  const std::string name = "." + file_.filename().string() + (number > 1 ? "." + std::to_string(number) : "");
  return file_.parent_path() / (name + ".unsaved");
}

// Puts the finished file under the first free name; false where there is none.
bool SafetyCopy::take_a_name(const std::filesystem::path& aside) {
  for (int number = 1; number <= kMostWindows; ++number) {
    path_ = numbered(number);
    if (link(aside.c_str(), path_.c_str()) == 0) return unlink(aside.c_str()) == 0;
    if (errno != EEXIST) return false;
  }
  return false;
}

void SafetyCopy::write(const std::string& text) {
  const std::filesystem::path aside = numbered(1).string() + "." + std::to_string(getpid()) + ".part";
  std::error_code error;
  std::filesystem::remove(aside, error);
  const int fresh = created_and_locked(aside);
  if (fresh < 0) return;
  const bool named =
      wrote_all(fresh, text) && (lock_ >= 0 ? rename(aside.c_str(), path_.c_str()) == 0 : take_a_name(aside));
  if (named) {
    let_go();
    lock_ = fresh;
    return;
  }
  close(fresh);
  std::filesystem::remove(aside, error);
}

void SafetyCopy::drop() {
  if (lock_ < 0) return;
  std::error_code error;
  std::filesystem::remove(path_, error);
  let_go();
}

std::optional<SafetyCopy::Left> SafetyCopy::left_behind() const {
  std::optional<Left> newest;
  std::filesystem::file_time_type when;
  std::error_code error;
  for (int number = 1; number <= kMostWindows; ++number) {
    const std::filesystem::path path = numbered(number);
    if (!std::filesystem::is_regular_file(path, error) || in_use(path)) continue;
    const auto written = std::filesystem::last_write_time(path, error);
    if (newest && written <= when) continue;
    std::ifstream stream(path, std::ios::binary);
    newest = Left{path, {std::istreambuf_iterator<char>(stream), {}}};
    when = written;
  }
  return newest;
}

void SafetyCopy::drop(const Left& left) {
  std::error_code error;
  std::filesystem::remove(left.path, error);
}

}  // namespace halfhard

#include "modeller/system/files.h"

#include <fcntl.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <utility>

#include "geometry/base/trouble.h"

namespace halfhard {
namespace {

class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ >= 0) close(number_);
  }
  int number() const { return number_; }
  // Errors of a late write come here.
  bool closed_well() { return close(std::exchange(number_, -1)) == 0; }

 private:
  int number_;
};

std::string unguessable_name(const std::string& name) {
  unsigned char random[8] = {};
  if (getrandom(random, sizeof random, 0) != sizeof random) throw Trouble("the system gives no random numbers");
  std::string hex;
  for (const unsigned char byte : random) {
    hex += "0123456789abcdef"[byte >> 4];
    hex += "0123456789abcdef"[byte & 15];
  }
  // A long name keeps within what a file system takes.
  return "." + name.substr(0, 200) + "." + hex;
}

bool write_all(int to, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t count = write(to, bytes.data(), bytes.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(count));
  }
  return true;
}

}  // namespace

void write_whole_in(int folder, const std::string& name, std::string_view bytes, const std::string& shown_path) {
  const std::string aside = unguessable_name(name);
  const auto trouble = [&](int why) { return Trouble(shown_path + " cannot be written: " + std::strerror(why)); };
  Descriptor file(openat(folder, aside.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666));
  if (file.number() < 0) throw trouble(errno);
  struct stat before {};
  const bool replaces = fstatat(folder, name.c_str(), &before, AT_SYMLINK_NOFOLLOW) == 0 && S_ISREG(before.st_mode);
  bool well = write_all(file.number(), bytes);
  if (well && replaces) well = fchmod(file.number(), before.st_mode & 07777) == 0;
  int why = errno;
  if (!file.closed_well() && well) well = false, why = errno;
  if (well && renameat(folder, aside.c_str(), folder, name.c_str()) != 0) well = false, why = errno;
  if (well) return;
  unlinkat(folder, aside.c_str(), 0);
  throw trouble(why);
}

void write_whole(const std::filesystem::path& path, std::string_view bytes) {
  const std::filesystem::path parent = path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
  const Descriptor folder(open(parent.c_str(), O_DIRECTORY | O_RDONLY | O_CLOEXEC));
  if (folder.number() < 0) throw Trouble(path.string() + " cannot be written: " + std::strerror(errno));
  write_whole_in(folder.number(), path.filename().string(), bytes, path.string());
}

void secure_standard_streams() {
  for (int stream = 0; stream <= 2; ++stream) {
    if (fcntl(stream, F_GETFD) >= 0) continue;
    // The lowest free number is this one. Reading ends at once; writing is an error that is noticed.
    open("/dev/null", stream == 0 ? O_WRONLY : O_RDONLY);
  }
}

}  // namespace halfhard

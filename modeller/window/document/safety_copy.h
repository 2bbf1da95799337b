// The copy beside a job's file that survives a crash. Each open job has one of its own, locked for as long as its window
// lives, so that no window touches another's; one whose lock is free was left by a window that ended without saving.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

namespace halfhard {

class SafetyCopy {
 public:
  // Beside `file`; nothing is written yet.
  explicit SafetyCopy(std::filesystem::path file);
  SafetyCopy(SafetyCopy&& other) noexcept;
  SafetyCopy& operator=(SafetyCopy&& other) noexcept;
  // What was written stays, and is found as left behind: whoever saved has dropped it.
  ~SafetyCopy();

  // Whole or not at all; where the folder cannot be written nothing more can be done.
  void write(const std::string& text);
  void drop();
  bool written() const { return lock_ >= 0; }

  struct Left {
    std::filesystem::path path;
    std::string text;
  };
  // The newest that an earlier window left.
  std::optional<Left> left_behind() const;
  static void drop(const Left& left);

 private:
  std::filesystem::path numbered(int number) const;
  bool take_a_name(const std::filesystem::path& aside);
  void let_go();

  std::filesystem::path file_, path_;
  int lock_ = -1;
};

}  // namespace halfhard

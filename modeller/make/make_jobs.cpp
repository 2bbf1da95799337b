#include "modeller/make/make_jobs.h"

#include <algorithm>
#include <atomic>
#include <cstdio>
#include <filesystem>
#include <map>
#include <mutex>
#include <thread>

#include "modeller/commands/load_job.h"
#include "modeller/make/file_names.h"
#include "modeller/make/out_folder.h"
#include "modeller/make/papers.h"
#include "modeller/make/picture.h"

namespace halfhard {
namespace {

class Progress {
 public:
  // One line at a time, whoever speaks.
  void say(const std::string& line) {
    const std::lock_guard lock(mutex_);
    std::fprintf(stderr, "%s\n", line.c_str());
  }
  void done(const std::string& line) {
    const std::lock_guard lock(mutex_);
    std::printf("%s\n", line.c_str());
    std::fflush(stdout);
  }
  void problems(const LoadedJob& job) {
    const std::lock_guard lock(mutex_);
    job.print_problems();
  }

 private:
  std::mutex mutex_;
};

std::string count_of(std::size_t count, const char* one, const char* many) {
  return std::to_string(count) + " " + (count == 1 ? one : many);
}

int make_job(const std::string& file, const MakeOptions& options, Progress& progress) {
  const LoadedJob job = load_job(file, options.line);
  if (!job.plan) {
    progress.problems(job);
    return job.status();
  }
  try {
    OutFolder folder(options.out, job.plan->stem);
    const std::vector<Paper> papers = papers_of(*job.plan);
    progress.say(file + ": " + count_of(job.plan->runs.size(), "pipe", "pipes") + ", " +
                 count_of(papers.size(), "file", "files"));
    for (const Paper& paper : papers) folder.write(paper.name, paper.bytes());
    if (options.pictures) {
      if (const std::string trouble = add_picture(file, options.line, folder); !trouble.empty()) {
        progress.say(file + ": no picture: " + trouble);
      }
    }
    folder.finish();
    progress.done(folder.path().string() + ": " + count_of(folder.written().size(), "file", "files") +
                  (job.plan->fails() ? ", NOT TO BE MADE: see `halfhard check " + file + "`" : ""));
  } catch (const FileTrouble& trouble) {
    progress.say(trouble.what());
    return kFileTrouble;
  }
  return job.status();
}

// Two jobs of one name would write over each other.
std::string clashing(const std::vector<std::string>& files) {
  std::map<std::string, std::string> folders;
  for (const std::string& file : files) {
    std::string folder = safe_name(std::filesystem::path(file).stem().string());
    std::transform(folder.begin(), folder.end(), folder.begin(), [](unsigned char c) { return std::tolower(c); });
    const auto [known, fresh] = folders.try_emplace(folder, file);
    if (!fresh) return known->second + " and " + file + " would go to one folder, " + folder;
  }
  return {};
}

}  // namespace

int make_jobs(const MakeOptions& options) {
  const std::vector<std::string>& files = options.line.files;
  if (const std::string clash = clashing(files); !clash.empty()) {
    std::fprintf(stderr, "halfhard: %s: rename one of them or make them apart\n", clash.c_str());
    return kUnusable;
  }
  Progress progress;
  std::atomic<std::size_t> next = 0;
  std::atomic<int> status = kAllWell;
  const auto work = [&] {
    for (std::size_t i = next++; i < files.size(); i = next++) {
      const int of_job = make_job(files[i], options, progress);
      for (int known = status; known < of_job && !status.compare_exchange_weak(known, of_job);) {
      }
    }
  };
  const int workers = std::clamp<int>(options.workers, 1, static_cast<int>(files.size()));
  std::vector<std::jthread> others;
  for (int i = 1; i < workers; ++i) others.emplace_back(work);
  work();
  others.clear();
  return status;
}

}  // namespace halfhard

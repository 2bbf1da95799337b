#include "modeller/make/make_jobs.h"

#include <algorithm>
#include <atomic>
#include <cstdio>
#include <filesystem>
#include <map>
#include <mutex>
#include <new>
#include <thread>

#include "geometry/base/trouble.h"
#include "modeller/loading/load_job.h"
#include "modeller/make/file_names.h"
#include "modeller/make/out_folder.h"
#include "modeller/make/papers.h"
#include "modeller/make/picture_child.h"

namespace halfhard {
namespace {

// The folder of what several jobs share; no job may be called so.
constexpr char kTogether[] = "all-jobs";
constexpr char kPicture[] = "picture.png";

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

// What a job leaves for the papers of all of them.
struct Made {
  int status = kAllWell;
  std::shared_ptr<const Plan> plan;  // null where the job cannot be used
};

std::vector<std::string> names_of(const std::vector<Paper>& papers, bool picture) {
  std::vector<std::string> names;
  for (const Paper& paper : papers) names.push_back(paper.name);
  if (picture) names.push_back(kPicture);
  return names;
}

Made make_job(const std::string& file, const MakeOptions& options, Progress& progress) {
  LoadedJob job;
  // Whatever ends one job, the others are made.
  try {
    job = load_job(file, options.line);
    if (!job.plan) {
      progress.problems(job);
      return {job.status(), nullptr};
    }
    OutFolder folder(options.out, job.plan->stem);
    const std::vector<Paper> papers = papers_of(*job.plan);
    folder.announce(names_of(papers, options.pictures));
    progress.say(file + ": " + count_of(job.plan->runs.size(), "pipe", "pipes") + ", " +
                 count_of(papers.size(), "file", "files"));
    for (const Paper& paper : papers) folder.write(paper.name, paper.bytes());
    int status = job.status();
    if (options.pictures) {
      const ChildPicture picture = draw_picture(file, job.text, options.line);
      if (!picture.png.empty()) folder.write(kPicture, picture.png);
      if (!picture.trouble.empty()) {
        progress.say(file + ": no picture: " + picture.trouble);
        status = kFileTrouble;
      }
    }
    folder.finish();
    progress.done(folder.path().string() + ": " + count_of(folder.written().size(), "file", "files") +
                  (job.plan->fails() ? ", NOT TO BE MADE: see `halfhard check " + file + "`" : ""));
    return {status, job.plan};
  } catch (const Trouble& trouble) {
    progress.say(file + ": " + trouble.what());
  } catch (const std::bad_alloc&) {
    progress.say(file + ": this needs more memory than there is");
  } catch (const std::exception& failure) {
    progress.say(file + ": gave up: " + failure.what());
  }
  return {kFileTrouble, job.plan};
}

// One cut list for all the jobs, in a folder of its own.
int make_together(const std::vector<Made>& made, const MakeOptions& options, Progress& progress) {
  std::vector<const Plan*> plans;
  for (const Made& each : made) {
    if (each.plan && !each.plan->runs.empty()) plans.push_back(each.plan.get());
  }
  if (plans.size() < 2) return kAllWell;
  try {
    OutFolder folder(options.out, kTogether);
    const std::vector<Paper> papers = papers_of_all(plans);
    folder.announce(names_of(papers, false));
    for (const Paper& paper : papers) folder.write(paper.name, paper.bytes());
    folder.finish();
    progress.done(folder.path().string() + ": the cut list of " + std::to_string(plans.size()) + " jobs together");
  } catch (const std::exception& trouble) {
    progress.say(trouble.what());
    return kFileTrouble;
  }
  return kAllWell;
}

// Two jobs of one name would write over each other.
std::string clashing(const std::vector<std::string>& files) {
  std::map<std::string, std::string> folders;
  if (files.size() > 1) folders[kTogether] = "the papers of all jobs together";
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
  std::vector<Made> made(files.size());
  const auto work = [&] {
    for (std::size_t i = next++; i < files.size(); i = next++) made[i] = make_job(files[i], options, progress);
  };
  const int workers = std::clamp<int>(options.workers, 1, static_cast<int>(files.size()));
  std::vector<std::jthread> others;
  for (int i = 1; i < workers; ++i) others.emplace_back(work);
  work();
  others.clear();
  int status = make_together(made, options, progress);
  for (const Made& each : made) status = std::max(status, each.status);
  return status;
}

}  // namespace halfhard

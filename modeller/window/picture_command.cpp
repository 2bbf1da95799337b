#include "modeller/window/picture_command.h"

#include <fcntl.h>
#include <unistd.h>

#include <CLI/CLI.hpp>
#include <cstdio>

#include "geometry/base/trouble.h"
#include "modeller/commands/command.h"
#include "modeller/loading/load_job.h"
#include "modeller/system/files.h"
#include "modeller/window/section_typed.h"
#include "viewer/vtk/display.h"
#include "viewer/vtk/picture.h"

namespace halfhard {
namespace {

constexpr int kLeastSide = 64, kMostSide = 8192;

struct Asked {
  CommandLine line;
  std::string out;
  bool text_from_input = false;
  PictureOptions picture;
  std::string section;  // as typed: it is in the job's own unit
};

int unusable(const std::string& message) {
  std::fprintf(stderr, "halfhard: picture: %s\n", message.c_str());
  return kUnusable;
}

// "1600x1000".
bool read_size(const std::string& text, PictureOptions& options) {
  int width = 0, height = 0;
  char after = 0;
  if (std::sscanf(text.c_str(), "%5dx%5d%c", &width, &height, &after) != 2) return false;
  if (width < kLeastSide || height < kLeastSide || width > kMostSide || height > kMostSide) return false;
  options.width = width;
  options.height = height;
  return true;
}

// 0 where all could be read; the exit status to leave with, plus one, otherwise.
int read_arguments(int argc, char** argv, Asked& asked) {
  CLI::App app("the window's picture with no window", "halfhard picture");
  std::string view = "isometric", size = "1600x1000", theme = "light";
  std::vector<std::string> overrides;
  app.add_option("job", asked.line.files, "JOB: the job file")->required()->expected(1);
  app.add_option("--out", asked.out, "FILE.png: where the picture goes; - is standard output")->required();
  app.add_flag("--text-from-input", asked.text_from_input, "the job's text stands on standard input; JOB is its name");
  app.add_option("--view", view, "plan, elevation, side or isometric (default)");
  app.add_option("--size", size, "WIDTHxHEIGHT in pixels, default 1600x1000");
  app.add_option(
      "--section", asked.section,
      "\"back 300\": shows only what lies 300 (mm, or inches in an inch job) or more to the back of the origin; "
      "any site word; with its own unit, \"back 11-3/4 in\"");
  app.add_option("--run", asked.picture.draw.only_run, "NAME: one pipe alone, or all pieces of its bank");
  app.add_option("--theme", theme, "light (default) or dark");
  app.add_option("--set", overrides, "NAME=VALUE: overrides a value of the job")->allow_extra_args(false);
  app.add_option("--allow", asked.line.allow, "DIR: the job may use files under it")->allow_extra_args(false);
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    std::fputs(app.help().c_str(), stdout);
    return kAllWell + 1;
  } catch (const CLI::ParseError& error) {
    return unusable(error.what()) + 1;
  }
  if (const auto wrong = take_overrides(overrides, asked.line)) return unusable(*wrong) + 1;
  const auto named = view_from_word(view);
  if (!named) return unusable("--view " + in_quotes(view) + ", allowed plan, elevation, side, isometric") + 1;
  asked.picture.view = *named;
  if (!read_size(size, asked.picture))
    return unusable("--size " + in_quotes(size) + ", allowed WIDTHxHEIGHT from 64x64 to 8192x8192") + 1;
  if (theme != "light" && theme != "dark") return unusable("--theme " + in_quotes(theme) + ", allowed light, dark") + 1;
  asked.picture.dark = theme == "dark";
  return 0;
}

bool has_run(const Plan& plan, const std::string& name) {
  for (const auto& run : plan.runs)
    if (run->name == name || run->family == name) return true;
  return false;
}

// All of standard input.
std::string text_from_input() {
  std::string text;
  char buffer[65536];
  for (std::size_t count; (count = std::fread(buffer, 1, sizeof buffer, stdin)) > 0;) text.append(buffer, count);
  return text;
}

// The graphics libraries print as they please: standard output is kept for the picture alone.
FILE* kept_standard_output() {
  std::fflush(stdout);
  FILE* out = fdopen(dup(STDOUT_FILENO), "wb");
  const int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
  dup2(nowhere, STDOUT_FILENO);
  close(nowhere);
  return out;
}

}  // namespace

int run_picture(int argc, char** argv) {
  Asked asked;
  if (const int stop = read_arguments(argc, argv, asked)) return stop - 1;
  const bool to_output = asked.out == "-";
  FILE* output = to_output ? kept_standard_output() : nullptr;
  const std::string& file = asked.line.files[0];
  const LoadedJob loaded =
      asked.text_from_input ? load_job_text(file, text_from_input(), asked.line) : load_job(file, asked.line);
  if (!loaded.plan) {
    loaded.print_problems();
    return loaded.status();
  }
  if (!asked.section.empty()) {
    asked.picture.section = section_typed(asked.section, loaded.plan->unit);
    if (!asked.picture.section)
      return unusable("--section " + in_quotes(asked.section) +
                      ", allowed a site word and a length: \"back 300\", \"back 11-3/4 in\"");
  }
  if (!asked.picture.draw.only_run.empty() && !has_run(*loaded.plan, asked.picture.draw.only_run))
    return unusable("--run " + in_quotes(asked.picture.draw.only_run) + ": the job has no pipe of that name");
  PrivateDisplay display;
  if (!display_reachable() && !display.start()) {
    std::fprintf(stderr, "halfhard: picture: %s\n", display.problem().c_str());
    return kFileTrouble;
  }
  const std::string png = picture_png(*loaded.plan, asked.picture);
  if (!to_output) {
    write_whole(asked.out, png);
  } else if (std::fwrite(png.data(), 1, png.size(), output) != png.size() || std::fclose(output) != 0) {
    throw Trouble("the picture cannot be written whole");
  }
  return loaded.status();
}

}  // namespace halfhard

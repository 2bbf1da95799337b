#include "modeller/window/picture_command.h"

#include <CLI/CLI.hpp>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "modeller/commands/command.h"
#include "modeller/loading/load_job.h"
#include "viewer/vtk/display.h"
#include "viewer/vtk/picture.h"

namespace halfhard {
namespace {

constexpr int kLeastSide = 64, kMostSide = 8192;

struct Asked {
  CommandLine line;
  std::string out;
  PictureOptions picture;
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
  std::string view = "isometric", size = "1600x1000", section, theme = "light";
  std::vector<std::string> overrides;
  app.add_option("job", asked.line.files, "JOB: the job file")->required()->expected(1);
  app.add_option("--out", asked.out, "FILE.png: where the picture goes")->required();
  app.add_option("--view", view, "plan, elevation, side or isometric (default)");
  app.add_option("--size", size, "WIDTHxHEIGHT in pixels, default 1600x1000");
  app.add_option("--section", section, "\"back 300\": shows only what lies 300 mm or more to the back; any site word");
  app.add_option("--run", asked.picture.draw.only_run, "NAME: one run alone, or all pieces of its bank");
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
  if (!section.empty()) {
    asked.picture.section = section_from_text(section);
    if (!asked.picture.section)
      return unusable("--section " + in_quotes(section) + ", allowed a site word and millimetres: \"back 300\"") + 1;
  }
  return 0;
}

bool has_run(const Plan& plan, const std::string& name) {
  for (const auto& run : plan.runs)
    if (run->name == name || run->family == name) return true;
  return false;
}

// Aside first, so that a picture is whole or not there.
bool write_file(const std::string& name, const std::string& bytes) {
  const std::filesystem::path path(name), aside = path.string() + ".part";
  std::error_code error;
  {
    std::ofstream file(aside, std::ios::binary);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    if (!file.flush()) return std::filesystem::remove(aside, error), false;
  }
  std::filesystem::rename(aside, path, error);
  return !error;
}

}  // namespace

int run_picture(int argc, char** argv) {
  Asked asked;
  if (const int stop = read_arguments(argc, argv, asked)) return stop - 1;
  const LoadedJob loaded = load_job(asked.line.files[0], asked.line);
  if (!loaded.plan) {
    loaded.print_problems();
    return loaded.status();
  }
  if (!asked.picture.draw.only_run.empty() && !has_run(*loaded.plan, asked.picture.draw.only_run))
    return unusable("--run " + in_quotes(asked.picture.draw.only_run) + ": the job has no run of that name");
  PrivateDisplay display;
  if (!display_reachable() && !display.start()) {
    std::fprintf(stderr, "halfhard: picture: %s\n", display.problem().c_str());
    return kFileTrouble;
  }
  if (!write_file(asked.out, picture_png(*loaded.plan, asked.picture))) {
    std::fprintf(stderr, "halfhard: picture: %s cannot be written\n", in_quotes(asked.out).c_str());
    return kFileTrouble;
  }
  return loaded.status();
}

}  // namespace halfhard

#include <array>
#include <limits>

#include "modeller/commands/command.h"

namespace halfhard {
namespace {

constexpr std::size_t kMany = std::numeric_limits<std::size_t>::max();

constexpr std::array<Command, 12> kCommands = {{
    {"make", "JOB... --out DIR", "everything for the job: solids, drawings, tables, pictures; one folder a job", 1,
     kMany, nullptr, "halfhard-make"},
    {"check", "JOB...", "the findings, for a person to read", 1, kMany, run_check, nullptr},
    {"report", "JOB", "the report, JSON for programs", 1, 1, run_report, nullptr},
    {"start", "[KIND]", "a starter job file; without KIND, the kinds there are", 0, 1, run_start, nullptr},
    {"view", "[JOB]", "the window: see the job, change it, prove it", 0, 1, nullptr, "halfhard-window"},
    {"picture", "JOB --out FILE.png", "the window's picture with no window", 1, 1, nullptr, "halfhard-window"},
    {"suggest", "JOB", "paths for runs that have none", 1, 1, run_suggest, nullptr, false, true},
    {"correct", "JOB MEASURED", "from measurements of the bent piece to what to bend further", 2, 2, run_correct,
     nullptr, true},
    {"calibrate", "TRIAL", "from a trial bend to the bender's real radius, mark offset and spring-back", 1, 1,
     run_calibrate, nullptr, true},
    {"keys", "", "what a job file may hold: every key, what it takes, what counts where it is left out", 0, 0, run_keys,
     nullptr},
    {"checks", "", "what is checked, and by which rule", 0, 0, run_checks_table, nullptr},
    {"limits", "", "every limit of the checks, with its usual figure and source", 0, 0, run_limits_table, nullptr},
}};

}  // namespace

std::span<const Command> commands() { return kCommands; }

}  // namespace halfhard

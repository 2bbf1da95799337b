// The parts that the table of job keys is put together from.
#pragma once

#include <span>

#include "modeller/job/job_keys.h"

namespace halfhard {

std::span<const JobKey> keys_of_tools();
std::span<const JobKey> keys_of_site();
std::span<const JobKey> keys_of_pipes();

}  // namespace halfhard

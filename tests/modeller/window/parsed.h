#pragma once

#include <gtest/gtest.h>

#include <memory>
#include <string>
#include <vector>

#include "modeller/job/json_tree.h"

namespace halfhard {

// The tree of a text that is JSON.
inline std::shared_ptr<const JsonTree> parsed(const std::string& text) {
  std::vector<JobProblem> problems;
  auto tree = JsonTree::parse(text, "job.json", problems);
  EXPECT_TRUE(problems.empty());
  return tree;
}

}  // namespace halfhard

#include "geometry/words/alike_findings.h"

#include <gtest/gtest.h>

namespace halfhard {
namespace {

Finding finding(const std::string& where, const std::string& message) {
  Finding made;
  made.id = "some-check";
  made.where = where;
  made.message = message;
  return made;
}

std::vector<std::string> all_told(const std::vector<Finding>& findings) {
  std::vector<std::string> lines;
  for (const auto& group : alike_findings(findings, Severity::note)) lines.push_back(told(group));
  return lines;
}

TEST(AlikeFindings, WhatIsSaidOfSeveralIsSaidOnceOfEach) {
  const std::vector<Finding> findings = {finding("tail 1", "'tail 1' lies 4 mm from 'trap'."),
                                         finding("tail 1", "'tail 1': its far end of 'tail 1' is short."),
                                         finding("tail 2", "'tail 2' lies 4 mm from 'trap'."),
                                         finding("tail 2", "'tail 2': its far end of 'tail 2' is short."),
                                         finding("tail 3", "'tail 3' lies 5 mm from 'trap'.")};
  EXPECT_EQ(all_told(findings), (std::vector<std::string>{"tail 1 to tail 2 (2 alike): each lies 4 mm from 'trap'.",
                                                          "tail 1 to tail 2 (2 alike): its far end of each is short.",
                                                          "'tail 3' lies 5 mm from 'trap'."}));
}

TEST(AlikeFindings, ANameIsSaidOnceWhetherOrNotTheMessageHasIt) {
  EXPECT_EQ(all_told({finding("tail", "No radius is published.")}),
            std::vector<std::string>{"tail: No radius is published."});
  EXPECT_EQ(all_told({finding("", "A finding of the job.")}), std::vector<std::string>{"A finding of the job."});
}

}  // namespace
}  // namespace halfhard

#include "modeller/checks/check_table.h"

#include <gtest/gtest.h>

#include <set>

#include "tests/modeller/checks/samples.h"

namespace halfhard {
namespace {

// What every run gets, whatever is wrong with it.
const std::set<std::string> kAlways = {"clips", "free-end"};

std::vector<CheckSample> all_samples() {
  std::vector<CheckSample> samples = run_samples();
  for (CheckSample& sample : plan_samples()) samples.push_back(std::move(sample));
  return samples;
}

std::set<std::string> all_ids() {
  std::set<std::string> ids;
  for (const RunCheck& check : run_checks()) ids.insert(check.ids.begin(), check.ids.end());
  for (const PlanCheck& check : plan_checks()) ids.insert(check.ids.begin(), check.ids.end());
  return ids;
}

bool has(const std::vector<Finding>& findings, const std::string& id, Severity severity) {
  return std::any_of(findings.begin(), findings.end(),
                     [&](const Finding& finding) { return finding.id == id && finding.severity == severity; });
}

TEST(Checks, EveryIdHasASample) {
  std::set<std::string> sampled;
  for (const CheckSample& sample : all_samples()) sampled.insert(sample.id);
  EXPECT_EQ(sampled, all_ids());
}

TEST(Checks, EachSampleFiresItsCheckAndNoOther) {
  for (const CheckSample& sample : all_samples()) {
    const std::vector<Finding> findings = findings_of(sample.fires());
    EXPECT_TRUE(has(findings, sample.id, sample.severity)) << sample.id;
    for (const Finding& finding : findings) {
      const bool expected =
          finding.id == sample.id || kAlways.contains(finding.id) ||
          std::find(sample.comes_with.begin(), sample.comes_with.end(), finding.id) != sample.comes_with.end();
      EXPECT_TRUE(expected) << sample.id << " also fires " << finding.id << ": " << finding.message;
    }
  }
}

TEST(Checks, JustInsideItsLimitEachIsSilent) {
  for (const CheckSample& sample : all_samples()) {
    const std::vector<Finding> findings = findings_of(sample.passes());
    EXPECT_FALSE(has(findings, sample.id, sample.severity)) << sample.id;
  }
}

TEST(Checks, AGoodPlanFailsAndWarnsOfNothing) {
  for (const Finding& finding : findings_of(checked(*good_offset()))) {
    EXPECT_EQ(finding.severity, Severity::note) << finding.message;
  }
}

TEST(Checks, EveryFindingIsASentenceWithItsSourceAndUnit) {
  for (const CheckSample& sample : all_samples()) {
    for (const Finding& finding : findings_of(sample.fires())) {
      EXPECT_TRUE(all_ids().contains(finding.id)) << finding.id;
      ASSERT_FALSE(finding.message.empty()) << finding.id;
      EXPECT_EQ(finding.message.back(), '.') << finding.message;
      EXPECT_EQ(finding.message.find(". "), std::string::npos) << finding.message;
      if (finding.severity == Severity::note) continue;
      EXPECT_FALSE(finding.unit.empty() && finding.value != 0) << finding.id;
      EXPECT_FALSE(finding.source.empty()) << finding.id;
    }
  }
}

TEST(Checks, AnInchJobReadsInInches) {
  Checked made = run_samples()[3].fires();
  ASSERT_EQ(run_samples()[3].id, "end-too-short");
  made.job.unit = LengthUnit::inch;
  const std::vector<Finding> findings = findings_of(made);
  ASSERT_TRUE(has(findings, "end-too-short", Severity::fail));
  for (const Finding& finding : findings) {
    if (finding.id != "end-too-short") continue;
    EXPECT_NE(finding.message.find(" in "), std::string::npos) << finding.message;
    EXPECT_EQ(finding.message.find(" mm "), std::string::npos) << finding.message;
  }
}

TEST(Checks, NoFindingOfARunDependsOnTheOthers) {
  const Checked one = checked(*good_offset());
  auto other = good_offset();
  other->name = "other";
  const Checked two = checked({good_offset(), other});
  EXPECT_EQ(check_run({*one.plan.runs[0], one.job}), check_run({*two.plan.runs[0], two.job}));
}

TEST(Limits, EachIsNamedOnceWithUnitAndSource) {
  std::set<std::string> names;
  for (const Limit& limit : limits()) {
    EXPECT_TRUE(names.insert(limit.name).second) << limit.name;
    EXPECT_GT(std::string(limit.unit).size(), 0u) << limit.name;
    EXPECT_GT(std::string(limit.source).size(), 0u) << limit.name;
    EXPECT_EQ(find_limit(limit.name), &limit);
    EXPECT_EQ((Rules().*limit.rule).value, limit.value) << limit.name;
  }
  EXPECT_EQ(find_limit("no such limit"), nullptr);
}

TEST(Limits, TheJobsOwnIsUsedAndItsReasonIsPrinted) {
  Checked made = checked(*support::run_through("rail", {{0, 0, 0}, {400, 0, 0}, {400, 400, 0}}, [] {
    support::RunOptions options;
    options.bender.former_radius_mm = 50;
    return options;
  }()));
  ASSERT_TRUE(has(findings_of(made), "radius-below-standard", Severity::warn));
  set_limit(made.job.rules, *find_limit("smallest_radius"), 3.3, "this former was tried on ten pieces");
  EXPECT_FALSE(has(findings_of(made), "radius-below-standard", Severity::warn));
  made.job.rules.smallest_radius.value = 3.4;
  for (const Finding& finding : findings_of(made)) {
    if (finding.id != "radius-below-standard") continue;
    EXPECT_NE(finding.message.find("this former was tried on ten pieces"), std::string::npos);
    EXPECT_NEAR(finding.limit, 51, 1e-9);
    return;
  }
  FAIL() << "no finding";
}

}  // namespace
}  // namespace halfhard

#include "exporters/page/job_page.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>

#include "exporters/bench/bend_rows.h"
#include "exporters/page/glb.h"
#include "exporters/page/markup.h"
#include "tests/support/plans.h"

namespace halfhard {
namespace {

constexpr const char* kHostile = "</script><script>window.hurt=1</script><img src=x onerror=hurt()>&\"'";

Plan hostile_plan() {
  const auto run = support::run_through(kHostile, support::multi_plane_points());
  Plan plan = support::plan_of({run});
  plan.title = plan.origin = plan.title_block.owner = plan.title_block.revision = kHostile;
  auto fixture = std::make_shared<Fixture>();
  fixture->name = kHostile;
  fixture->body.shape = Box{{0, 0, 0}, Mat3::Identity(), {10, 20, 30}};
  plan.fixtures.push_back(fixture);
  Finding finding;
  finding.severity = Severity::fail;
  finding.where = finding.message = finding.source = kHostile;
  plan.findings.push_back(finding);
  return plan;
}

PageParts hostile_parts() {
  PageParts parts;
  parts.bench_cards[kHostile] = {{kHostile, "<?xml version=\"1.0\"?><svg id=\"a\"><use href=\"#a\"/></svg>"}};
  return parts;
}

int times(const std::string& text, const std::string& what) {
  int count = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++count;
  return count;
}

TEST(JobPage, EveryNameIsEscaped) {
  const std::string page = job_page(hostile_plan(), hostile_parts());
  EXPECT_EQ(page.find("<script>window.hurt"), std::string::npos);
  EXPECT_EQ(page.find("<img src=x"), std::string::npos);
  EXPECT_EQ(times(page, "<script"), times(page, "</script"));
  EXPECT_EQ(times(page, "</script"), 2);
  EXPECT_NE(page.find("&lt;script&gt;window.hurt=1"), std::string::npos);
}

TEST(JobPage, SameJobGivesTheSameBytes) {
  EXPECT_EQ(job_page(hostile_plan(), hostile_parts()), job_page(hostile_plan(), hostile_parts()));
}

TEST(JobPage, FetchesNothing) {
  const auto run = support::run_through("tail", support::multi_plane_points());
  const std::string page = job_page(support::plan_of({run}), {});
  for (const char* fetches : {"<link", "src=\"http", "href=\"http", "@import", "url(http"}) {
    EXPECT_EQ(page.find(fetches), std::string::npos) << fetches;
  }
}

TEST(JobPage, FailingRunSaysNotToBeMade) {
  const std::string page = job_page(hostile_plan(), {});
  EXPECT_NE(page.find("NOT TO BE MADE: &lt;/script&gt;"), std::string::npos);
}

TEST(JobPage, EachPipeHasItsOwnFindingsAndAPieceLikeAnotherOnlyWhatIsNew) {
  const auto finding = [](const std::string& where, const std::string& message) {
    Finding made;
    made.id = "some-check";
    made.where = where;
    made.message = message;
    return made;
  };
  const auto section = [](const std::string& page, const std::string& id) {
    const std::size_t at = page.find("id=\"" + id + "\"");
    return page.substr(at, page.find("</section>", at) - at);
  };
  auto hot = support::run_through("hot", support::multi_plane_points());
  auto other = support::run_through("other", support::offset_points(300, 70, Angle::degrees(45), 300));
  Plan plan = support::plan_of({hot, other});
  plan.findings = {finding("hot", "'hot' lies near."), finding("other", "'other' lies near.")};
  EXPECT_NE(section(job_page(plan, {}), "run-1").find("lies near"), std::string::npos) << "another pipe";
  plan = support::plan_of({hot, hot});
  auto second = std::make_shared<halfhard::Run>(*plan.runs[0]);
  second->name = "second";
  plan.runs[1] = second;
  plan.findings = {finding("hot", "'hot' lies near."), finding("second", "'second' lies near."),
                   finding("second", "'second' is drilled.")};
  ASSERT_EQ(pieces_alike(plan, *second).size(), 2u);
  const std::string again = section(job_page(plan, {}), "run-1");
  EXPECT_EQ(again.find("lies near"), std::string::npos) << "said with the first";
  EXPECT_NE(again.find("is drilled"), std::string::npos);
}

TEST(JobPage, CarriesTheLicenceOfItsViewer) {
  const std::string page = job_page(support::plan_of({}), {});
  EXPECT_NE(page.find("Permission is hereby granted, free of charge"), std::string::npos);
}

TEST(JobPage, IsSmallWithoutItsDrawings) {
  std::vector<std::shared_ptr<const halfhard::Run>> runs;
  for (int i = 0; i < 8; ++i) {
    runs.push_back(support::run_through("tail " + std::to_string(i), support::multi_plane_points()));
  }
  EXPECT_LT(job_page(support::plan_of(runs), {}).size(), 2'000'000u);
}

TEST(JobPage, DrawingsOfOnePageShareNoIdentifier) {
  const std::string svg = "<?xml?><svg><path id=\"a\"/><use href=\"#a\"/><g clip-path=\"url(#a)\"/></svg>";
  EXPECT_EQ(inline_svg(svg, 3), "<svg><path id=\"s3-a\"/><use href=\"#s3-a\"/><g clip-path=\"url(#s3-a)\"/></svg>");
}

TEST(Markup, Base64IsThatOfTheStandard) {  // RFC 4648, section 10
  EXPECT_EQ(base64(""), "");
  EXPECT_EQ(base64("f"), "Zg==");
  EXPECT_EQ(base64("fo"), "Zm8=");
  EXPECT_EQ(base64("foob"), "Zm9vYg==");
  EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
}

TEST(Glb, LengthsInItsHeadersAreItsOwn) {
  const std::string glb = glb_of_job(hostile_plan());
  const auto number_at = [&](std::size_t at) {
    unsigned value = 0;
    for (int i = 3; i >= 0; --i) value = value << 8 | static_cast<unsigned char>(glb[at + i]);
    return value;
  };
  EXPECT_EQ(glb.substr(0, 4), "glTF");
  EXPECT_EQ(number_at(4), 2u);
  EXPECT_EQ(number_at(8), glb.size());
  const unsigned json = number_at(12);
  EXPECT_EQ(json % 4, 0u);
  EXPECT_EQ(number_at(20 + json) + 28 + json, glb.size());
}

// A browser that is not ours is driven as on a phone: see drive_page.mjs.
TEST(JobPage, AFingerTurnsTheModelACardOpensAndNoNameIsRun) {
  const std::string chromium = "/usr/bin/chromium";
  ASSERT_TRUE(std::filesystem::exists(chromium)) << "no browser: see .ci/test_packages.txt";
  const auto folder = std::filesystem::temp_directory_path() / ("halfhard-page-" + std::to_string(getpid()));
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "job.html", std::ios::binary) << job_page(hostile_plan(), hostile_parts());
  const std::string command = "node " + std::string(HALFHARD_TESTS_DIR) + "/exporters/page/drive_page.mjs " + chromium +
                              " " + (folder / "job.html").string() + " " + (folder / "profile").string();
  FILE* driver = popen(command.c_str(), "r");
  ASSERT_TRUE(driver);
  std::string seen;
  char buffer[4096];
  while (const std::size_t count = std::fread(buffer, 1, sizeof buffer, driver)) seen.append(buffer, count);
  EXPECT_EQ(pclose(driver), 0);
  std::filesystem::remove_all(folder);
  for (const char* fact :
       {R"("ready":"yes")", R"("turnedByAFinger":true)", R"("broughtBackByAButton":true)", R"("fixturesHidden":true)",
        R"("cards":1)", R"("cardOpened":true)", R"("wider":0)", R"("hurt":"undefined")", R"("strangers":0)",
        R"("scripts":2)", R"("complaints":[])", R"("dialogs":[])", R"("fetched":[])"})
    EXPECT_NE(seen.find(fact), std::string::npos) << fact << " is not in " << seen;
}

}  // namespace
}  // namespace halfhard

#include "modeller/job/json_tree.h"

#include <gtest/gtest.h>

namespace halfhard {
namespace {

std::vector<JobProblem> problems_of(const std::string& text) {
  std::vector<JobProblem> problems;
  JsonTree::parse(text, "f", problems);
  return problems;
}

std::shared_ptr<const JsonTree> tree_of(const std::string& text) {
  std::vector<JobProblem> problems;
  auto tree = JsonTree::parse(text, "f", problems);
  for (const JobProblem& problem : problems) ADD_FAILURE() << problem.shown();
  return tree;
}

TEST(JsonTree, EveryValueKnowsItsBytes) {
  const std::string text =
      "{ \"a\" : [1, -2.5e3 ,\"x\\n\u00e9\"],\n\t\"b\\\"c\":{\"d\": null , \"e\":true,\"f\" :[ ],\"g\":{}},\"h\":12}";
  const auto tree = tree_of(text);
  const auto raw = [&](const char* pointer) { return std::string(tree->at(pointer).raw()); };
  EXPECT_EQ(raw(""), text);
  EXPECT_EQ(raw("/a/0"), "1");
  EXPECT_EQ(raw("/a/1"), "-2.5e3");
  EXPECT_EQ(raw("/a/2"), "\"x\\n\u00e9\"");
  EXPECT_EQ(raw("/b\"c/d"), "null");
  EXPECT_EQ(raw("/b\"c/e"), "true");
  EXPECT_EQ(raw("/b\"c/f"), "[ ]");
  EXPECT_EQ(raw("/b\"c/g"), "{}");
  EXPECT_EQ(raw("/h"), "12");
  EXPECT_EQ(tree->at("/a/1").number(), -2500);
  EXPECT_EQ(tree->at("/a/2").text(), "x\n\u00e9");
  EXPECT_EQ(tree->at("/a").size(), 3);
}

TEST(JsonTree, LinesAndColumnsCountCharacters) {
  const auto tree = tree_of("\xEF\xBB\xBF{\"\u00e9\u00e9\": 1,\r\n \"b\": 2}");
  EXPECT_EQ(tree->at("/\u00e9\u00e9").place().line, 1);
  EXPECT_EQ(tree->at("/\u00e9\u00e9").place().column, 8);
  EXPECT_EQ(tree->at("/b").place().line, 2);
  EXPECT_EQ(tree->at("/b").key_place().column, 2);
}

TEST(JsonTree, PointersEscapeAndFindTheirWayBack) {
  const auto tree = tree_of(R"({"a/b": {"~": [0, {"": 5}]}})");
  const JsonValue deep = tree->at("/a~1b/~0/1/");
  ASSERT_TRUE(deep);
  EXPECT_EQ(deep.number(), 5);
  EXPECT_EQ(deep.pointer(), "/a~1b/~0/1/");
  EXPECT_FALSE(tree->at("/a~1b/~0/2"));
  EXPECT_FALSE(tree->at("/x/y"));
  EXPECT_FALSE(tree->at("nonsense"));
}

TEST(JsonTree, EveryDuplicateKeyIsReported) {
  const auto problems = problems_of("{\"a\":1,\n\"a\":2,\n\"b\":{\"c\":1,\"c\":2}}");
  ASSERT_EQ(problems.size(), 2u);
  EXPECT_EQ(problems[0].pointer, "/b/c");
  EXPECT_EQ(problems[1].shown(), "f:2: /a: found the key \"a\" a second time, allowed each key once");
}

TEST(JsonTree, WhatIsNoJsonIsRefusedWithItsLine) {
  const std::vector<std::pair<std::string, int>> texts = {{"", 1},
                                                          {" \n ", 2},
                                                          {"{\n", 2},
                                                          {"{\"a\":1,}", 1},
                                                          {"[1,\n2,]", 2},
                                                          {"{'a':1}", 1},
                                                          {"{\"a\":NaN}", 1},
                                                          {"{\"a\":\n-Infinity}", 2},
                                                          {"[1] 2", 1},
                                                          {"[01]", 1},
                                                          {"[1.]", 1},
                                                          {"[.5]", 1},
                                                          {"[+1]", 1},
                                                          {"\"a\nb\"", 1},
                                                          {"[\"\\x\"]", 1},
                                                          {"[\"\\ud800\"]", 1},
                                                          {"// comment\n{}", 1},
                                                          {"{} /* */", 1},
                                                          {"# c\n{}", 1},
                                                          {"[1e999]", 1},
                                                          {"[tru]", 1},
                                                          {"{\"a\" 1}", 1},
                                                          {"{1:2}", 1},
                                                          {"]", 1},
                                                          {std::string("[\0]", 3), 1},
                                                          {"[\n\"\xC3\x28\"]", 2},
                                                          {"\xFF\xFE{\0}\0", 1},
                                                          {"[\"\xED\xA0\x80\"]", 1},
                                                          {"[\"\xC0\xAF\"]", 1},
                                                          {"[\"\xF5\x80\x80\x80\"]", 1},
                                                          {"[\"\xE2\x82", 1}};
  for (const auto& [text, line] : texts) {
    const auto problems = problems_of(text);
    ASSERT_EQ(problems.size(), 1u) << text;
    EXPECT_EQ(problems[0].line, line) << text << problems[0].shown();
    EXPECT_EQ(problems[0].exit_status, 2);
  }
}

TEST(JsonTree, DepthIsLimitedWithoutACrash) {
  for (const std::size_t depth : {std::size_t{65}, std::size_t{1000}, std::size_t{3000000}}) {
    const auto problems = problems_of(std::string(depth, '['));
    ASSERT_EQ(problems.size(), 1u);
    EXPECT_EQ(problems[0].found, "lists and groups nested deeper than 64");
  }
  tree_of(std::string(64, '[') + std::string(64, ']'));
}

TEST(JsonTree, ABomIsNoFault) { EXPECT_EQ(tree_of("\xEF\xBB\xBF[7]")->at("/0").raw(), "7"); }

}  // namespace
}  // namespace halfhard

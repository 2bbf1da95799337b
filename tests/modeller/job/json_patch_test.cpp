#include "modeller/job/json_patch.h"

#include <gtest/gtest.h>

#include "tests/modeller/window/parsed.h"

namespace halfhard {
namespace {

const char* const kText = "{ \"b\" : 1,\n\n  \"a\":[1 , \"x\" ],\"c\": {} }";

TEST(JsonPatch, OnlyTheValueItselfIsReplaced) {
  EXPECT_EQ(*with_value(*parsed(kText), "/a/0", "\"pitch + 2\""),
            "{ \"b\" : 1,\n\n  \"a\":[\"pitch + 2\" , \"x\" ],\"c\": {} }");
}

TEST(JsonPatch, WhatIsAddedIsLaidOutLikeItsNeighbour) {
  EXPECT_EQ(*with_element(*parsed(kText), "/a", "3"), "{ \"b\" : 1,\n\n  \"a\":[1 , \"x\", 3 ],\"c\": {} }");
  EXPECT_EQ(*with_member(*parsed(kText), "/c", "k", "3"), "{ \"b\" : 1,\n\n  \"a\":[1 , \"x\" ],\"c\": { \"k\": 3 } }");
}

TEST(JsonPatch, TakingOutAMemberTakesItsComma) {
  for (const char* pointer : {"/b", "/a", "/c", "/a/0", "/a/1"}) {
    const auto text = without(*parsed(kText), pointer);
    ASSERT_TRUE(text);
    EXPECT_FALSE(parsed(*text)->at("/b") && std::string(pointer) == "/b");
    EXPECT_EQ(parsed(*text)->root().kind(), JsonKind::group) << *text;
  }
}

TEST(JsonPatch, APlaceThatIsNotThereGivesNothing) {
  EXPECT_FALSE(with_value(*parsed(kText), "/nowhere", "1"));
  EXPECT_FALSE(with_element(*parsed(kText), "/b", "1"));
  EXPECT_FALSE(without(*parsed(kText), ""));
}

TEST(JsonPatch, OnlyWhatJsonCallsANumberIsWrittenAsOne) {
  EXPECT_EQ(number_json(" 12.5 "), "12.5");
  EXPECT_EQ(number_json("-3"), "-3");
  for (const char* text : {"pitch + 2", ".5", "5.", "007", "3/8 in", "nan", "", "1 2"})
    EXPECT_EQ(number_json(text).front(), '"') << text;
}

TEST(JsonPatch, QuotesAndControlCharactersAreEscaped) { EXPECT_EQ(text_json("a\"b\\c\n"), "\"a\\\"b\\\\c\\u000a\""); }

}  // namespace
}  // namespace halfhard

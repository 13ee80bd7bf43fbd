#include "report/wrap.h"

#include <gtest/gtest.h>

namespace ridgetally {
namespace {

TEST(Wrap, CountsCharactersNotBytes) {
    EXPECT_EQ(columns_of("18.0 \u00B1 0.2"), 10U);
    EXPECT_EQ(columns_of(""), 0U);
}

TEST(Wrap, BreaksBetweenWordsOnly) {
    const auto lines = wrapped("one two  three\nfour", 9);
    ASSERT_EQ(lines.size(), 3U);
    EXPECT_EQ(lines[0], "one two");
    EXPECT_EQ(lines[1], "three");
    EXPECT_EQ(lines[2], "four");
    EXPECT_EQ(wrapped("incomprehensibilities", 5).size(), 1U);
    EXPECT_TRUE(wrapped("   ", 5).empty());
}

TEST(Wrap, ParagraphsHangBehindTheirFirstWord) {
    const std::string text = paragraph("  - ", std::string(70, 'a') + " " + std::string(10, 'b'));
    EXPECT_EQ(text, "  - " + std::string(70, 'a') + "\n    " + std::string(10, 'b') + "\n");
}

}  // namespace
}  // namespace ridgetally

#include "report/one_line.h"

#include <gtest/gtest.h>

#include "report/utf8.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

TEST(Utf8, TakesCodePointsAndGivesThemBack) {
    for (const char32_t c :
         {U'a', U'\u007F', U'\u0080', U'\u07FF', U'\u0800', U'\uFFFD', U'\U00010000', U'\U0010FFFF'}) {
        const std::string bytes = utf8(c) + "z";
        std::string_view text = bytes;
        EXPECT_EQ(take_code_point(text), c);
        EXPECT_EQ(text, "z");
    }
    for (const char* bad : {"\x80z", "\xC3z", "\xE2\x82z", "\xFFz", "\xF0\x9F\xA7z"}) {
        std::string_view text = bad;
        EXPECT_EQ(take_code_point(text), U'\uFFFD');
        EXPECT_EQ(text.size(), std::string_view(bad).size() - 1);
    }
}

// Widths as UAX #11, East Asian Width, and the combining marks of Unicode have them.
TEST(Columns, AreThoseOfATerminal) {
    EXPECT_EQ(columns_of("Moss"), 4U);
    EXPECT_EQ(columns_of("Мох"), 3U);
    EXPECT_EQ(columns_of("苔の毛糸"), 8U);
    EXPECT_EQ(columns_of("🧶"), 2U);
    EXPECT_EQ(columns_of("Mosa\u0300"), 4U);
    EXPECT_EQ(columns_of("3\u00BD"), 2U);
}

TEST(OneLine, ShowsControlCharactersAsPictures) {
    EXPECT_EQ(one_line("a\nb\tc\x1B[0m\x7F"), "a\u240Ab\u2409c\u241B[0m\u2421");
    EXPECT_EQ(one_line("a\u202Eb\u2028c\u0085d\xFF"), "a\uFFFDb\uFFFDc\uFFFDd\uFFFD");
    EXPECT_EQ(one_line("苔 🧶"), "苔 🧶");
}

TEST(Shortened, CutsBetweenCharacters) {
    EXPECT_EQ(shortened("Moss", 4), "Moss");
    EXPECT_EQ(shortened("Mosses", 4), "Mos\u2026");
    EXPECT_EQ(shortened("苔の毛糸", 6), "苔の\u2026");
    EXPECT_EQ(shortened("苔の毛糸", 8), "苔の毛糸");
}

}  // namespace
}  // namespace ridgetally

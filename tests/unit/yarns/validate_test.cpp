#include "yarns/validate.h"

#include <limits>

#include "unit/yarns/example_yarns.h"

namespace ridgetally {
namespace {

TEST(Text, IsWellFormedUtf8) {
    for (const auto& name : awkward_names()) EXPECT_TRUE(is_text(name)) << name;
    EXPECT_TRUE(is_text(""));
    // The first and last code points of each length, and around the surrogates (The Unicode Standard, table
    // 3-7).
    for (const char* good : {"\x7F", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
                             "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"})
        EXPECT_TRUE(is_text(good)) << testing::PrintToString(good);
    for (const char* bad :
         {"\x80", "\xC0\x80", "\xC1\xBF", "\xC2", "\xC2\x41", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xE2\x82",
          "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xFF"})
        EXPECT_FALSE(is_text(bad)) << testing::PrintToString(bad);
    EXPECT_FALSE(is_text(std::string_view("a\0b", 3)));
}

TEST(Day, IsOneOfTheCalendar) {
    EXPECT_TRUE(is_day("2026-11-25"));
    EXPECT_TRUE(is_day("2028-02-29"));
    for (const char* bad : {"", "2026-02-29", "2026-13-01", "2026-00-10", "2026-1-1", "25.11.2026",
                            "2026-11-25 ", "2026-11--5", "+026-11-25"})
        EXPECT_FALSE(is_day(bad)) << bad;
}

TEST(Checked, NamesTheFieldAtFault) {
    const auto message = [](auto change) {
        Yarn yarn = moss();
        change(yarn);
        const auto good = checked(yarn);
        return good ? "" : good.refusal().message.substr(0, good.refusal().message.find(':'));
    };
    EXPECT_EQ(message([](Yarn&) {}), "");
    EXPECT_EQ(message([](Yarn& y) { y.name = ""; }), "name");
    EXPECT_EQ(message([](Yarn& y) { y.name = std::string(1001, 'x'); }), "name");
    EXPECT_EQ(message([](Yarn& y) { y.colour = "\xFF"; }), "colour");
    EXPECT_EQ(message([](Yarn& y) { y.notes = std::string(100001, 'x'); }), "notes");
    EXPECT_EQ(message([](Yarn& y) { y.weight_category = 8; }), "weight_category");
    EXPECT_EQ(message([](Yarn& y) { y.ball_g = 0.0; }), "ball_g");
    EXPECT_EQ(message([](Yarn& y) { y.ball_m = std::numeric_limits<double>::infinity(); }), "ball_m");
    EXPECT_EQ(message([](Yarn& y) { y.balls = std::numeric_limits<double>::quiet_NaN(); }), "balls");
    EXPECT_EQ(message([](Yarn& y) { y.balls = 0.0; }), "");
    EXPECT_EQ(message([](Yarn& y) { y.band.craft.reset(); }), "band_stitches");
    EXPECT_EQ(message([](Yarn& y) { y.band = {{}, {}, 16.0, {}, {}}; }), "band_rows");
    EXPECT_EQ(message([](Yarn& y) { y.added = "yesterday"; }), "added");
}

}  // namespace
}  // namespace ridgetally

#include "cli/api/measure_request.h"

#include <gtest/gtest.h>

namespace ridgetally::api {
namespace {

using nlohmann::json;

std::string fault_of(const json& object) {
    const auto arguments = swatch_request(object);
    return arguments ? "" : arguments.refusal().message;
}

TEST(MeasureRequest, SaysWhatTheOptionsOfTheCommandSay) {
    const auto told = swatch_request(json::parse(R"({
        "stitch": "sc", "worked": "flat", "units": "in", "terms": "uk", "unit": "mm", "rows_deg": -10,
        "area_px": [[1, 2], [300.5, 2], [300, 400]], "repeat": "4x2", "thickness": "3mm", "reading": 2})"));
    ASSERT_TRUE(told.ok()) << told.refusal().message;
    const SwatchOptions& options = told->measure;
    EXPECT_EQ(options.stitch, StitchFamily::sc);
    EXPECT_EQ(options.worked, Worked::flat);
    EXPECT_EQ(options.scale.unit, LengthUnit::mm);
    EXPECT_EQ(options.row_direction_deg, -10.0);
    ASSERT_EQ(options.area_px.size(), 3U);
    EXPECT_EQ(options.area_px[1].x, 300.5);
    EXPECT_EQ(options.repeat->stitches, 4);
    EXPECT_EQ(options.fabric_thickness_mm, 3.0);
    EXPECT_EQ(options.reading, 2);
    EXPECT_EQ(told->photos.output.text.units, SizeUnit::inch);
    EXPECT_EQ(told->photos.output.text.terms, Terms::uk);
}

TEST(MeasureRequest, TwoPointsAreToldWithTheirDistance) {
    const auto told = swatch_request(
        json::parse(R"({"scale": {"from_px": [10.25, 20], "to_px": [1010.25, 20], "length": "10cm"}})"));
    ASSERT_TRUE(told.ok()) << told.refusal().message;
    ASSERT_TRUE(told->measure.scale.two_points);
    EXPECT_EQ(told->measure.scale.two_points->from_px.x, 10.25);
    EXPECT_EQ(told->measure.scale.two_points->length_mm, 100.0);
}

TEST(MeasureRequest, EmptyAndNullFieldsAreAsGoodAsAbsent) {
    const auto told = swatch_request(json::parse(
        R"({"stitch": "", "worked": null, "area_px": [], "want": "", "hook": "5.5mm", "save": null})"));
    ASSERT_TRUE(told.ok()) << told.refusal().message;
    EXPECT_FALSE(told->measure.stitch);
    EXPECT_TRUE(told->measure.area_px.empty());
    EXPECT_FALSE(told->photos.save.yarn);
}

TEST(MeasureRequest, WhatIsNotKnownIsRefusedByName) {
    EXPECT_EQ(fault_of({{"stich", "sc"}}), "\"stich\" is not known here");
    for (const char* file_option : {"annotated", "trace", "record", "--record", "config"})
        EXPECT_NE(fault_of({{file_option, "/etc/passwd"}}), "") << file_option;
}

TEST(MeasureRequest, WrongValuesAreRefusedInTheWordsOfTheOption) {
    EXPECT_NE(fault_of({{"stitch", "banana"}}).find("expected sc"), std::string::npos);
    EXPECT_NE(fault_of({{"rows_deg", 1000}}).find("expected degrees"), std::string::npos);
    EXPECT_NE(fault_of({{"reading", 0}}), "");
    EXPECT_NE(fault_of({{"reading", 1.5}}), "");
    EXPECT_NE(fault_of({{"stitch", {"sc"}}}), "");
    EXPECT_NE(fault_of({{"area_px", {{1, 2}, {3, 4}}}}), "");
    EXPECT_NE(fault_of({{"area_px", {{1, 2}, {3, 4}, {5, "6"}}}}), "");
    EXPECT_NE(fault_of({{"area_px", "1,2,3"}}), "");
    EXPECT_NE(fault_of({{"scale", "1,2,3,4,10cm"}}), "");
    EXPECT_NE(fault_of({{"scale", {{"from_px", {1, 2}}, {"to_px", {1, 2}}, {"length", "10cm"}}}}), "");
}

TEST(MeasureRequest, OptionsCannotBeSmuggledInAValue) {
    const auto told = swatch_request({{"repeat", "4x2 --trace=/tmp/x"}});
    EXPECT_FALSE(told.ok());
}

TEST(MeasureRequest, SavingNeedsYarnAndHook) {
    EXPECT_NE(fault_of({{"save", {{"yarn", "Moss"}}}}), "");
    EXPECT_NE(fault_of({{"save", {{"hook", "5mm"}}}}), "");
    EXPECT_NE(fault_of({{"save", {{"yarn", "Moss"}, {"hook", "5mm"}, {"notes", "soft"}}}}), "");
    const auto told = swatch_request(
        {{"save", {{"yarn", "Moss"}, {"hook", "5mm"}, {"state", "washed"}, {"mass", "12g"}, {"notes", ""}}}});
    ASSERT_TRUE(told.ok()) << told.refusal().message;
    EXPECT_EQ(told->photos.save.yarn, "Moss");
    EXPECT_EQ(told->photos.save.told.state, FabricState::washed);
    EXPECT_EQ(told->photos.save.told.mass_g, 12.0);
}

TEST(MeasureRequest, CrownsAndPiecesHaveTheirOwnWords) {
    const auto crown = crown_request(json::parse(R"({"rim_px": [[1, 2], [300, 2], [300, 400]], "stitches": 45,
        "want_diameter": "16cm"})"));
    ASSERT_TRUE(crown.ok()) << crown.refusal().message;
    EXPECT_EQ(crown->measure.rim_px.size(), 3U);
    EXPECT_EQ(crown->wishes.last_round_stitches, 45);
    const auto piece = piece_request({{"want_width", "26..27cm"}});
    ASSERT_TRUE(piece.ok()) << piece.refusal().message;
    EXPECT_EQ(piece->want_width->low_mm, 260.0);
    EXPECT_FALSE(piece_request({{"stitch", "sc"}}).ok());
}

TEST(FileName, IsAWordToShowAndNoPath) {
    EXPECT_EQ(shown_file_name("moss.jpg"), "moss.jpg");
    EXPECT_EQ(shown_file_name("../../etc/passwd"), "passwd");
    EXPECT_EQ(shown_file_name("C:\\photos\\moss.jpg"), "moss.jpg");
    for (const char* nothing : {"", "/", "a/", "..", "."})
        EXPECT_EQ(shown_file_name(nothing), "photo") << nothing;
    EXPECT_EQ(shown_file_name("a\nb").find('\n'), std::string::npos);
    EXPECT_LE(shown_file_name(std::string(5000, 'x')).size(), 120U);
}

}  // namespace
}  // namespace ridgetally::api

#include <gtest/gtest.h>

#include <opencv2/core.hpp>

#include "report/crown_document.h"
#include "report/crown_picture.h"
#include "report/crown_text.h"
#include "report/piece_report.h"

namespace ridgetally {
namespace {

Catalog catalog() { return load_catalog(models_folder()).value(); }

CrownResult crown() {
    CrownResult result;
    result.photo = {"harbour-crown.jpg", std::string(64, 'a'), 800, 600};
    result.scale.reference = "two-points";
    result.scale.px_per_mm = {5.0, 0.01, {}};
    result.stitch.family = StitchFamily::sc_blo;
    result.stitch.worked = Worked::round;
    result.diameter_mm = {158.0, 1.0, {{"camera tilt", 0.006}}};
    result.diameter_min_mm = {157.0, 1.0, {}};
    result.diameter_max_mm = {160.0, 1.0, {}};
    result.rounds = CountedWhole{{7.0, 0.25, {}}, 7, 7, 0.99};
    result.last_round_stitches = CountedWhole{{45.0, 0.76, {}}, 44, 46, 0.6};
    result.round_stitches = {*result.last_round_stitches};
    result.overlay.centre_px = {400, 300};
    result.overlay.outline = {{300, 300}, {400, 200}, {500, 300}, {400, 400}};
    PhotoCurve round{6, {{320, 300}, {400, 220}, {480, 300}, {400, 380}}};
    result.overlay.rounds = {round};
    result.overlay.stitches = {{0, {{500, 300}, {480, 300}}}};
    result.diameters = {{0.0, result.diameter_mm, {300, 300}, {500, 300}}};
    return result;
}

TEST(CrownDocument, HasTheKeysOfTheContract) {
    const Document document = crown_document(crown(), {});
    EXPECT_EQ(document["schema"], "ridgetally.report/1");
    EXPECT_EQ(document["command"], "crown");
    for (const char* key :
         {"diameter_mm", "diameter_min_mm", "diameter_max_mm", "rounds", "last_round_stitches"}) {
        for (const char* part : {"value", "std", "low95", "high95"})
            EXPECT_TRUE(document["crown"][key].contains(part)) << key << " " << part;
    }
    EXPECT_EQ(document["crown"]["last_round_stitches"]["least"], 44);
    EXPECT_EQ(document["crown"]["last_round_stitches"]["most"], 46);
    EXPECT_FALSE(document.contains("checks"));
}

TEST(CrownDocument, WhatWasNotCountedIsAbsent) {
    CrownResult bare = crown();
    bare.rounds.reset();
    bare.last_round_stitches.reset();
    bare.round_stitches.clear();
    const Document document = crown_document(bare, {});
    EXPECT_FALSE(document["crown"].contains("rounds"));
    EXPECT_FALSE(document["crown"].contains("last_round_stitches"));
    EXPECT_FALSE(document["crown"].contains("stitches_per_10cm"));
}

TEST(CrownDocument, ChecksStandInIt) {
    const Document document = crown_document(
        crown(), {{"diameter", CheckVerdict::too_large, 0.01, "17 cm is over 15 cm to 16 cm"}});
    EXPECT_EQ(document["checks"][0]["verdict"], "too-large");
}

TEST(CrownText, SaysWhatWasCountedAndHowSure) {
    const std::string text = crown_text(crown(), {}, catalog(), {});
    EXPECT_NE(text.find("15.8 \u00B1 0.2 cm"), std::string::npos) << text;
    EXPECT_NE(text.find("Rounds     7"), std::string::npos) << text;
    EXPECT_NE(text.find("may be 44 to 46"), std::string::npos) << text;
}

TEST(CrownPicture, DrawsOnThePhotoAndPutsThePanelAbove) {
    const cv::Mat photo(600, 800, CV_8UC3, cv::Scalar(120, 120, 120));
    const cv::Mat picture = crown_picture(photo, crown(), catalog());
    EXPECT_EQ(picture.cols, 800);
    EXPECT_GT(picture.rows, 600);
    const cv::Mat below = picture(cv::Rect(0, picture.rows - 600, 800, 600));
    EXPECT_NE(below.at<cv::Vec3b>(300, 320), cv::Vec3b(120, 120, 120));  // a round
    EXPECT_EQ(below.at<cv::Vec3b>(550, 700), cv::Vec3b(120, 120, 120));  // nothing there
    EXPECT_THROW((void)crown_picture(cv::Mat(), crown(), catalog()), std::invalid_argument);
}

TEST(PieceReport, GivesWidthHeightAndTwiceTheWidth) {
    PieceResult piece;
    piece.photo = {"harbour-hat.jpg", std::string(64, 'b'), 800, 600};
    piece.scale.reference = "two-points";
    piece.scale.px_per_mm = {5.0, 0.01, {}};
    piece.width_mm = {265.0, 2.0, {}};
    piece.height_mm = {210.0, 2.0, {}};
    piece.circumference_flat_mm = {530.0, 4.0, {}};
    const Document document = piece_document(piece, {});
    EXPECT_EQ(document["piece"]["circumference_flat_mm"]["value"], 530.0);
    const std::string text = piece_text(piece, {}, catalog(), {});
    EXPECT_NE(text.find("53.0"), std::string::npos) << text;
    const cv::Mat photo(600, 800, CV_8UC3, cv::Scalar(120, 120, 120));
    EXPECT_EQ(piece_picture(photo, piece).cols, 800);
}

}  // namespace
}  // namespace ridgetally

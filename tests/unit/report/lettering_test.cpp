#include "report/draw/lettering.h"

#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "report/draw/panel.h"

namespace ridgetally {
namespace {

const cv::Scalar white(255, 255, 255);

cv::Rect inked(const cv::Mat& picture) {
    cv::Mat grey;
    cv::cvtColor(picture, grey, cv::COLOR_BGR2GRAY);
    return cv::boundingRect(grey > 100);
}

cv::Mat written(const std::string& text, double cap_height_px) {
    cv::Mat picture(200, 900, CV_8UC3, cv::Scalar::all(0));
    draw_text(picture, text, {20.0, 120.0}, {cap_height_px, white, white});
    return picture;
}

TEST(Lettering, CapitalsHaveTheHeightAskedFor) {
    const cv::Rect box = inked(written("H", 60.0));
    // The strokes' own width comes on top.
    EXPECT_NEAR(box.height, 60.0 * 1.13, 3.0);
    EXPECT_NEAR(box.y + box.height, 120.0 + 0.065 * 60.0, 3.0);
}

TEST(Lettering, TheAdvanceCoversTheInk) {
    for (const std::string text : {"18.2", "\u00B1", "18.2 \u00B1 0.3", "3\u00B0", "\u00D7"}) {
        const cv::Rect box = inked(written(text, 40.0));
        ASSERT_GT(box.width, 0) << text;
        EXPECT_LE(box.x + box.width - 20, text_width_px(text, 40.0) + 6.0) << text;
        EXPECT_GE(box.width, 0.4 * text_width_px(text, 40.0)) << text;
    }
}

TEST(Lettering, PlusMinusHasABarBelowThePlus) {
    const cv::Mat picture = written("\u00B1", 100.0);
    const auto lit = [&](double x, double y) {
        return picture.at<cv::Vec3b>(cvRound(120.0 - y * 100.0), cvRound(20.0 + x * 100.0))[0] > 100;
    };
    EXPECT_TRUE(lit(0.5, 0.8));
    EXPECT_TRUE(lit(0.25, 0.55));
    EXPECT_TRUE(lit(0.3, 0.0));
    EXPECT_FALSE(lit(0.25, 0.3));
}

TEST(Lettering, OtherCharactersBecomeOneQuestionMarkEach) {
    EXPECT_DOUBLE_EQ(text_width_px("\u00E9", 30.0), text_width_px("?", 30.0));
    EXPECT_DOUBLE_EQ(text_width_px("\U0001F9F6\n", 30.0), text_width_px("??", 30.0));
}

TEST(Lettering, TextOutsideThePictureIsLeftOut) {
    cv::Mat picture(20, 20, CV_8UC3, cv::Scalar::all(0));
    EXPECT_NO_THROW(draw_text(picture, "18.2 \u00B1 0.3", {-500.0, 900.0}, {30.0, white, white, 2.0}));
    EXPECT_EQ(cv::sum(picture)[0], 0.0);
}

TEST(Panel, LongLinesAreWrittenSmallerInsteadOfCut) {
    Panel panel;
    panel.lines = {{{{std::string(60, 'W'), 0.0, white}}, 40.0}};
    const cv::Mat picture = drawn_panel(panel, 600);
    const cv::Rect box = inked(picture);
    EXPECT_EQ(picture.cols, 600);
    EXPECT_GT(box.width, 450);
    EXPECT_LT(box.x + box.width, 600 - 8);
}

TEST(Panel, WordsBreakWhereTheWidthEnds) {
    const double width = text_width_px("one two", 20.0) + 1.0;
    const auto lines = fitted_lines("one two three", 20.0, width);
    ASSERT_EQ(lines.size(), 2U);
    EXPECT_EQ(lines[0], "one two");
    EXPECT_TRUE(fitted_lines("", 20.0, width).empty());
}

}  // namespace
}  // namespace ridgetally

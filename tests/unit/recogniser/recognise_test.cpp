#include "recogniser/recognise.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "unit/recogniser/drawn_tile.h"

namespace ridgetally::test {
namespace {

// The scene renderer of the tests shares nothing with the one the network learned from. 3 % is what the
// recogniser's answer is used for: the plain method refines around it.
constexpr double right_within = 0.03;

RecogniseOptions along(const DrawnSwatch& swatch) {
    RecogniseOptions options;
    options.rows = RowKnowledge::modulo_90;
    options.row_direction_rad = swatch.row_direction_rad + 0.1;
    return options;
}

void expect_right(Drawn what, double angle_deg) {
    const DrawnSwatch swatch = drawn_swatch(what, angle_deg);
    const auto out = recognise(shipped_recogniser(), swatch.bgr, swatch.mask, along(swatch));
    ASSERT_TRUE(out) << out.refusal().message;
    EXPECT_NEAR(out->best.stitch_pitch_px / swatch.stitch_pitch_px, 1.0, right_within);
    EXPECT_NEAR(out->best.row_pitch_px / swatch.row_pitch_px, 1.0, right_within);
    EXPECT_LT(std::abs(std::sin(out->best.row_direction_rad - swatch.row_direction_rad)), std::sin(0.06));
    EXPECT_GT(out->confidence, 0.5);
}

TEST(Recognise, SingleCrochetInRounds) { expect_right(Drawn::sc_round, 8.0); }
TEST(Recognise, HalfDoubleInRounds) { expect_right(Drawn::hdc_round, -15.0); }
TEST(Recognise, DoubleCrochetTurned) { expect_right(Drawn::dc_flat, 100.0); }
TEST(Recognise, Stockinette) { expect_right(Drawn::stockinette, 35.0); }

TEST(Recognise, DirectionNeedNotBeKnown) {
    const DrawnSwatch swatch = drawn_swatch(Drawn::dc_flat, 28.0);
    const auto out = recognise(shipped_recogniser(), swatch.bgr, swatch.mask, {});
    ASSERT_TRUE(out);
    EXPECT_NEAR(out->best.stitch_pitch_px / swatch.stitch_pitch_px, 1.0, right_within);
    EXPECT_NEAR(out->best.row_pitch_px / swatch.row_pitch_px, 1.0, right_within);
}

TEST(Recognise, TwiceTheSizeIsTwiceThePitch) {
    const DrawnSwatch swatch = drawn_swatch(Drawn::hdc_round, 0.0);
    cv::Mat large;
    cv::resize(swatch.bgr, large, {}, 1.8, 1.8, cv::INTER_CUBIC);
    const auto one = recognise(shipped_recogniser(), swatch.bgr, {}, along(swatch));
    const auto two = recognise(shipped_recogniser(), large, {}, along(swatch));
    ASSERT_TRUE(one && two);
    EXPECT_NEAR(two->best.stitch_pitch_px / one->best.stitch_pitch_px, 1.8, 1.8 * right_within);
    EXPECT_NEAR(two->best.row_pitch_px / one->best.row_pitch_px, 1.8, 1.8 * right_within);
}

TEST(Recognise, MapsLieOnThePicture) {
    const DrawnSwatch swatch = drawn_swatch(Drawn::dc_flat, 0.0);
    const auto out = recognise(shipped_recogniser(), swatch.bgr, swatch.mask, along(swatch));
    ASSERT_TRUE(out);
    ASSERT_EQ(out->maps.stitch.type(), CV_32FC2);
    ASSERT_EQ(out->maps.stitch.size(), out->maps.fabric.size());
    // One sample of the map is 2 px of the tile; along the row the phase turns once a stitch.
    const cv::Matx23d& m = out->maps.picture_from_map;
    const double px_a_sample = std::hypot(m(0, 0), m(1, 0));
    const cv::Point2d f = refined_frequency(out->maps.stitch, out->maps.fabric,
                                            strongest_wave(out->maps.stitch, out->maps.fabric).frequency);
    EXPECT_NEAR(px_a_sample / std::abs(f.x), swatch.stitch_pitch_px, right_within * swatch.stitch_pitch_px);
    const double middle = 0.5 * (out->maps.fabric.cols - 1);
    const cv::Point2d at(m(0, 0) * middle + m(0, 1) * middle + m(0, 2),
                         m(1, 0) * middle + m(1, 1) * middle + m(1, 2));
    EXPECT_GT(swatch.mask.at<unsigned char>(cvRound(at.y), cvRound(at.x)), 0);
}

TEST(Recognise, SamePictureSameAnswer) {
    const DrawnSwatch swatch = drawn_swatch(Drawn::sc_round, 0.0);
    const Recogniser recogniser = shipped_recogniser();
    const auto one = recognise(recogniser, swatch.bgr, {}, along(swatch));
    const auto two = recognise(recogniser, swatch.bgr, {}, along(swatch));
    ASSERT_TRUE(one && two);
    EXPECT_EQ(one->best.stitch_pitch_px, two->best.stitch_pitch_px);
    EXPECT_EQ(one->confidence, two->confidence);
}

TEST(Recognise, ToldHeightDecidesAmongReadings) {
    const DrawnSwatch swatch = drawn_swatch(Drawn::dc_flat, 0.0);
    RecogniseOptions options = along(swatch);
    const auto free = recognise(shipped_recogniser(), swatch.bgr, swatch.mask, options);
    options.told = HeightToWidthPrior{.mean = 0.5, .relative_std = 0.05};  // no double crochet is like that
    const auto told = recognise(shipped_recogniser(), swatch.bgr, swatch.mask, options);
    ASSERT_TRUE(free);
    if (told) {
        EXPECT_LT(told->confidence, free->confidence);
    }
}

}  // namespace
}  // namespace ridgetally::test

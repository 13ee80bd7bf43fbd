#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "core/random.h"
#include "recogniser/recognise.h"
#include "unit/recogniser/drawn_tile.h"

namespace ridgetally::test {
namespace {

constexpr double answer_from = 0.5;  // the least confidence any caller answers from

/// Refused, or said to be unsure.
void expect_no_answer(const cv::Mat& picture) {
    const auto out = recognise(shipped_recogniser(), picture, {}, {});
    if (out) {
        EXPECT_LT(out->confidence, answer_from);
    }
}

TEST(RecogniseNothing, FlatGrey) { expect_no_answer(cv::Mat(500, 500, CV_8UC1, cv::Scalar(127))); }

TEST(RecogniseNothing, WhiteNoise) {
    cv::Mat noise(500, 500, CV_8UC1);
    Random random(5);
    for (int i = 0; i < 500 * 500; ++i) noise.data[i] = static_cast<unsigned char>(random.whole(0, 255));
    expect_no_answer(noise);
}

TEST(RecogniseNothing, WoodGrain) {
    cv::Mat streaks(500, 500, CV_8UC1);
    Random random(6);
    for (int i = 0; i < 500 * 500; ++i) streaks.data[i] = static_cast<unsigned char>(random.whole(60, 200));
    cv::GaussianBlur(streaks, streaks, {}, 60.0, 1.5);
    cv::normalize(streaks, streaks, 90, 170, cv::NORM_MINMAX);
    expect_no_answer(streaks);
}

TEST(RecogniseNothing, RulerMarks) {
    cv::Mat ruler(500, 500, CV_8UC1, cv::Scalar(220));
    for (int x = 10; x < 500; x += 12)
        cv::line(ruler, {x, 200}, {x, x % 60 == 10 ? 270 : 240}, cv::Scalar(30), 2);
    expect_no_answer(ruler);
}

TEST(RecogniseNothing, GridOfKeys) {
    cv::Mat keys(500, 500, CV_8UC1, cv::Scalar(40));
    for (int y = 6; y < 500; y += 44) {
        for (int x = 6; x < 500; x += 44) cv::rectangle(keys, {x, y, 36, 36}, cv::Scalar(150), cv::FILLED);
    }
    expect_no_answer(keys);
}

TEST(RecogniseNothing, StaggeredKeysWithSigns) {
    cv::Mat keys(500, 500, CV_8UC1, cv::Scalar(30));
    for (int row = 0; row < 14; ++row) {
        for (int x = 4 + 9 * row % 36 - 36; x < 500; x += 36) {
            cv::rectangle(keys, {x, 4 + 36 * row, 31, 31}, cv::Scalar(58), cv::FILLED);
            cv::line(keys, {x + 12, 14 + 36 * row}, {x + 18, 22 + 36 * row}, cv::Scalar(220), 2);
        }
    }
    expect_no_answer(keys);
}

TEST(RecogniseNothing, OpenNet) {
    cv::Mat net(500, 500, CV_8UC1, cv::Scalar(60));
    for (int at = 9; at < 500; at += 22) {
        cv::line(net, {at, 0}, {at, 499}, cv::Scalar(190), 5, cv::LINE_AA);
        cv::line(net, {0, at}, {499, at}, cv::Scalar(175), 5, cv::LINE_AA);
    }
    expect_no_answer(net);
}

TEST(RecogniseNothing, PictureSmallerThanAStitch) {
    expect_no_answer(cv::Mat(5, 7, CV_8UC1, cv::Scalar(90)));
}

TEST(RecogniseNothing, EmptyMask) {
    const cv::Mat grey(300, 300, CV_8UC1, cv::Scalar(90));
    const auto out = recognise(shipped_recogniser(), grey, cv::Mat::zeros(300, 300, CV_8UC1), {});
    ASSERT_FALSE(out);
    EXPECT_EQ(out.refusal().code, "no-stitches");
}

TEST(RecogniseNothing, MaskOfAnotherSizeIsMisuse) {
    const cv::Mat grey(300, 300, CV_8UC1, cv::Scalar(90));
    EXPECT_THROW((void)recognise(shipped_recogniser(), grey, cv::Mat::zeros(30, 30, CV_8UC1), {}),
                 std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally::test

#include "image/memory.h"

#include <gtest/gtest.h>

#include <array>
#include <opencv2/imgproc.hpp>

namespace ridgetally {
namespace {

class LargePages : public testing::Test {
  protected:
    void SetUp() override { put_pictures_on_large_pages(); }
    void TearDown() override { cv::Mat::setDefaultAllocator(cv::Mat::getStdAllocator()); }
};

TEST_F(LargePages, PicturesWorkAsBefore) {
    for (const cv::Size size : {cv::Size(3, 5), cv::Size(1500, 1100)}) {
        const cv::Mat a(size, CV_8UC3, cv::Scalar(1, 2, 3));
        cv::Mat b = a.clone();
        EXPECT_TRUE(b.isContinuous());
        b(cv::Rect(1, 1, 2, 2)) = cv::Scalar::all(9);
        cv::Mat difference;
        cv::absdiff(a, b, difference);
        EXPECT_EQ(cv::sum(difference)[0], 4 * 8.0);
        b.create(size.width, size.height, CV_32FC1);
        b.setTo(2.0);
        EXPECT_EQ(cv::sum(b)[0], 2.0 * size.area());
    }
}

TEST_F(LargePages, SeveralDimensionsAndGivenBytes) {
    const std::array<int, 3> sizes = {30, 200, 400};
    const cv::Mat volume(3, sizes.data(), CV_8UC1, cv::Scalar(7));
    EXPECT_EQ(volume.step[0], 200U * 400U);
    EXPECT_EQ(cv::sum(volume.reshape(1, 30))[0], 7.0 * 30 * 200 * 400);
    std::array<std::uint8_t, 6> bytes = {1, 2, 3, 4, 5, 6};
    const cv::Mat given(2, 3, CV_8UC1, bytes.data());
    EXPECT_EQ(given.at<std::uint8_t>(1, 2), 6);
}

TEST_F(LargePages, PicturesOutliveTheSetting) {
    cv::Mat kept(1500, 1500, CV_8UC1, cv::Scalar(3));
    cv::Mat::setDefaultAllocator(cv::Mat::getStdAllocator());
    const cv::Mat copy = kept.clone();
    kept.release();
    EXPECT_EQ(cv::mean(copy)[0], 3.0);
}

}  // namespace
}  // namespace ridgetally

#include "image/encode.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>

#include "files_of_tests.h"

namespace ridgetally {
namespace {

using namespace files;

TEST(Encode, PngIsExactAlsoForAPartOfAPicture) {
    const cv::Mat part = four_quarters()(cv::Rect(50, 30, 91, 67));
    const auto photo = decode_photo(encode_png(part), "", any_size());
    ASSERT_TRUE(photo.ok());
    ASSERT_EQ(photo->colour.bgr.size(), part.size());
    EXPECT_EQ(cv::norm(photo->colour.bgr, part, cv::NORM_INF), 0.0);
    EXPECT_EQ(encode_png(part), encode_png(part.clone()));
}

TEST(Encode, GreyPictures) {
    cv::Mat grey(30, 256, CV_8UC1);
    for (int x = 0; x < 256; ++x) grey.col(x) = x;
    for (const Bytes& bytes : {encode_png(grey), encode_jpeg(grey, 100)}) {
        const auto photo = decode_photo(bytes, "", any_size());
        ASSERT_TRUE(photo.ok());
        for (int x = 0; x < 256; ++x) EXPECT_NEAR(photo->colour.bgr.at<cv::Vec3b>(9, x)[1], x, 2);
    }
}

TEST(Encode, JpegKeepsColourAtFullResolution) {
    // One red line of a pixel on white: at half resolution its colour would run over three.
    cv::Mat picture(64, 64, CV_8UC3, cv::Scalar::all(255));
    picture.col(31) = cv::Scalar(0, 0, 255);
    const auto photo = decode_photo(encode_jpeg(picture, 100), "", any_size());
    ASSERT_TRUE(photo.ok());
    EXPECT_LE(difference(photo->colour.bgr.at<cv::Vec3b>(20, 31), cv::Vec3b(0, 0, 255)), 6);
    EXPECT_LE(difference(photo->colour.bgr.at<cv::Vec3b>(20, 30), cv::Vec3b(255, 255, 255)), 6);
}

TEST(Encode, LowerQualityIsSmaller) {
    EXPECT_LT(encode_jpeg(four_quarters(), 40).size(), encode_jpeg(four_quarters(), 100).size());
}

TEST(Encode, WhatIsNoPictureIsMisuse) {
    EXPECT_THROW((void)encode_png({}), std::invalid_argument);
    EXPECT_THROW((void)encode_png(cv::Mat(4, 4, CV_32FC1)), std::invalid_argument);
    EXPECT_THROW((void)encode_jpeg(cv::Mat(4, 4, CV_8UC4), 90), std::invalid_argument);
    EXPECT_THROW((void)encode_jpeg(four_quarters(), 0), std::invalid_argument);
    EXPECT_THROW((void)encode_jpeg(cv::Mat(1, 65501, CV_8UC1), 90), std::invalid_argument);
}

TEST(Encode, FilesAreWrittenOrTheReasonIsGiven) {
    const auto folder = std::filesystem::temp_directory_path() / ("encode-" + std::to_string(::getpid()));
    std::filesystem::create_directories(folder);
    const std::string png = (folder / "a.png").string();
    const std::string jpeg = (folder / "a.jpg").string();
    EXPECT_TRUE(write_png(png, four_quarters()).ok());
    EXPECT_TRUE(write_jpeg(jpeg, four_quarters(), 90).ok());
    EXPECT_TRUE(read_photo(png, any_size()).ok());
    EXPECT_TRUE(read_photo(jpeg, any_size()).ok());
    std::filesystem::remove_all(folder);
    const auto lost = write_png(png, four_quarters());
    ASSERT_FALSE(lost.ok());
    EXPECT_EQ(lost.refusal().code, "io");
}

}  // namespace
}  // namespace ridgetally

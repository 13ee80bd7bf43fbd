#include "image/orientation.h"

#include <gtest/gtest.h>

#include "jpeg_files.h"

namespace ridgetally {
namespace {

using namespace files;

enum class Side { top, bottom, left, right };

/// CIPA DC-008 (EXIF 2.32), tag Orientation: where the 0th row and the 0th column lie for the viewer.
struct Standard {
    int value;
    Side row_0;
    Side column_0;
};
constexpr std::array<Standard, 8> standard = {{{1, Side::top, Side::left},
                                               {2, Side::top, Side::right},
                                               {3, Side::bottom, Side::right},
                                               {4, Side::bottom, Side::left},
                                               {5, Side::left, Side::top},
                                               {6, Side::right, Side::top},
                                               {7, Side::right, Side::bottom},
                                               {8, Side::left, Side::bottom}}};

Side opposite(Side side) {
    switch (side) {
        case Side::top:
            return Side::bottom;
        case Side::bottom:
            return Side::top;
        case Side::left:
            return Side::right;
        case Side::right:
            return Side::left;
    }
    return side;
}

/// Index in quarters_of of the quarter where two sides meet.
std::size_t quarter_at(Side a, Side b) {
    const bool bottom = a == Side::bottom || b == Side::bottom;
    const bool right = a == Side::right || b == Side::right;
    return (bottom ? 2U : 0U) + (right ? 1U : 0U);
}

std::array<cv::Vec3b, 4> upright_quarters(const Standard& s) {
    std::array<cv::Vec3b, 4> upright;
    upright[quarter_at(s.row_0, s.column_0)] = red;
    upright[quarter_at(s.row_0, opposite(s.column_0))] = green;
    upright[quarter_at(opposite(s.row_0), s.column_0)] = blue;
    upright[quarter_at(opposite(s.row_0), opposite(s.column_0))] = yellow;
    return upright;
}

TEST(Orientation, EveryValueOfTheStandardInAJpeg) {
    // More rows than the decoder's strips hold, and not a multiple of them.
    const cv::Size stored(192, 320);
    for (const Standard& s : standard) {
        const Bytes exif = exif_block({.orientation = static_cast<std::uint16_t>(s.value)});
        const auto photo = decode_photo(jpeg_file(four_quarters(stored), {.exif = exif}), "", any_size());
        ASSERT_TRUE(photo.ok());
        const bool turned = s.row_0 == Side::left || s.row_0 == Side::right;
        EXPECT_EQ(photo->colour.bgr.size(), turned ? cv::Size(320, 192) : stored);
        const auto wanted = upright_quarters(s);
        const auto got = quarters_of(photo->colour.bgr);
        for (std::size_t i = 0; i < 4; ++i)
            EXPECT_LE(difference(got[i], wanted[i]), 2) << "value " << s.value << ", quarter " << i;
    }
}

TEST(Orientation, StripsGiveTheSameAsTheWholePicture) {
    cv::Mat stored(103, 61, CV_8UC3);
    for (int y = 0; y < stored.rows; ++y) {
        for (int x = 0; x < stored.cols; ++x)
            stored.at<cv::Vec3b>(y, x) = cv::Vec3b(static_cast<std::uint8_t>(x), static_cast<std::uint8_t>(y),
                                                   static_cast<std::uint8_t>(x * y));
    }
    for (const Standard& s : standard) {
        const auto orientation = static_cast<Orientation>(s.value);
        const cv::Mat whole = turned_upright(stored.clone(), orientation);
        cv::Mat pieced(upright_size(stored.size(), orientation), CV_8UC3, cv::Scalar::all(0));
        for (int first = 0; first < stored.rows; first += 10) {
            const int last = std::min(first + 10, stored.rows);
            place_rows(stored.rowRange(first, last), first, orientation, pieced);
        }
        ASSERT_EQ(whole.size(), pieced.size());
        EXPECT_EQ(cv::norm(whole, pieced, cv::NORM_INF), 0.0) << s.value;

        // The stored first pixel and the one right of it, by the standard's words.
        const bool turned = s.row_0 == Side::left || s.row_0 == Side::right;
        const Side vertical = turned ? s.column_0 : s.row_0;
        const Side horizontal = turned ? s.row_0 : s.column_0;
        const cv::Point corner(horizontal == Side::right ? whole.cols - 1 : 0,
                               vertical == Side::bottom ? whole.rows - 1 : 0);
        const int step = s.column_0 == Side::left || s.column_0 == Side::top ? 1 : -1;
        const cv::Point next = corner + (turned ? cv::Point(0, step) : cv::Point(step, 0));
        EXPECT_EQ(whole.at<cv::Vec3b>(corner), stored.at<cv::Vec3b>(0, 0)) << s.value;
        EXPECT_EQ(whole.at<cv::Vec3b>(next), stored.at<cv::Vec3b>(0, 1)) << s.value;
    }
}

}  // namespace
}  // namespace ridgetally

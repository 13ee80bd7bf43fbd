#include "disc/colour_pieces.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "unit/disc/drawn_disc.h"

namespace ridgetally {
namespace {

/// Area of a piece, photo px.
double area_px(const FabricRegion& piece) {
    return cv::countNonZero(piece.mask) / (piece.overview_from_photo * piece.overview_from_photo);
}

TEST(ColourPieces, ADiscOfItsOwnColourIsAmongThem) {
    const test::DrawnDisc disc;
    const auto pieces = colour_pieces(test::drawn(disc), {});
    const double area = std::numbers::pi * disc.radius_px * disc.radius_px;
    EXPECT_TRUE(std::any_of(pieces.begin(), pieces.end(), [&](const auto& piece) {
        return std::abs(area_px(piece) / area - 1.0) < 0.03;  // two thirds of an overview pixel all round
    }));
}

TEST(ColourPieces, TheLargestComesFirst) {
    const auto pieces = colour_pieces(test::drawn({}), {});
    EXPECT_TRUE(std::is_sorted(pieces.begin(), pieces.end(),
                               [](const auto& a, const auto& b) { return area_px(a) > area_px(b); }));
}

TEST(ColourPieces, WhatIsKeptOutBelongsToNone) {
    FindFabricOptions options;
    options.keep_out_px = {{{300.0, 100.0}, {600.0, 100.0}, {600.0, 300.0}, {300.0, 300.0}}};
    for (const auto& piece : colour_pieces(test::drawn({}), options)) {
        const double scale = piece.overview_from_photo;
        EXPECT_EQ(piece.mask.at<uchar>(static_cast<int>(240.0 * scale), static_cast<int>(450.0 * scale)), 0);
    }
}

}  // namespace
}  // namespace ridgetally

#include "recogniser/tile.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <stdexcept>

#include "image/grey.h"

namespace ridgetally {
namespace {

constexpr int normalising_window_px = 49;  // as in training
constexpr double contrast_floor = 0.008;   // as in training: two grey levels of 255
constexpr double most_contrast = 3.0;      // as in training
constexpr double enough_seen = 0.99;

/// The part of the picture around the tile, reduced to the tile's scale if that is smaller, so that no detail
/// finer than a tile pixel folds into it.
struct Surroundings {
    cv::Mat picture;
    cv::Mat mask;
    double scale = 1.0;
    cv::Point2d origin;  // of `picture` in the original
};

Surroundings surroundings(const cv::Mat& grey, const cv::Mat& mask, const TileFrame& frame) {
    const double reach = 0.75 * frame.side_px / frame.tile_from_picture + 4.0;
    cv::Rect around(cvFloor(frame.centre_px.x - reach), cvFloor(frame.centre_px.y - reach), cvCeil(2 * reach),
                    cvCeil(2 * reach));
    around &= cv::Rect(0, 0, grey.cols, grey.rows);
    Surroundings out{grey(around), mask.empty() ? cv::Mat() : mask(around), 1.0, around.tl()};
    if (frame.tile_from_picture >= 1.0 || around.empty()) return out;
    const cv::Size reduced(std::max(1, cvRound(around.width * frame.tile_from_picture)),
                           std::max(1, cvRound(around.height * frame.tile_from_picture)));
    out.scale = static_cast<double>(reduced.width) / around.width;
    cv::resize(out.picture, out.picture, reduced, 0.0, 0.0, cv::INTER_AREA);
    if (!out.mask.empty()) cv::resize(out.mask, out.mask, reduced, 0.0, 0.0, cv::INTER_NEAREST);
    return out;
}

cv::Matx23d in_surroundings(const cv::Matx23d& m, const Surroundings& s) {
    cv::Matx23d out = m * s.scale;
    out(0, 2) = (m(0, 2) - s.origin.x + 0.5) * s.scale - 0.5;
    out(1, 2) = (m(1, 2) - s.origin.y + 0.5) * s.scale - 0.5;
    return out;
}

}  // namespace

cv::Matx23d TileFrame::picture_from_tile() const {
    const double c = std::cos(direction_rad) / tile_from_picture;
    const double s = std::sin(direction_rad) / tile_from_picture;
    const double middle = 0.5 * (side_px - 1);
    return {c, -s, centre_px.x - c * middle + s * middle, s, c, centre_px.y - s * middle - c * middle};
}

cv::Matx23d TileFrame::picture_from_fields() const {
    // Pixel 0 of the fields lies on pixel 0.5 of the tile, and each is two of its pixels wide.
    const cv::Matx23d tile = picture_from_tile();
    cv::Matx23d fields = tile * 2.0;
    fields(0, 2) = tile(0, 2) + 0.5 * (tile(0, 0) + tile(0, 1));
    fields(1, 2) = tile(1, 2) + 0.5 * (tile(1, 0) + tile(1, 1));
    return fields;
}

cv::Point2d deepest_point(const cv::Mat& mask, const cv::Size& size) {
    if (mask.empty()) return {0.5 * (size.width - 1), 0.5 * (size.height - 1)};
    cv::Mat framed;
    cv::copyMakeBorder(mask, framed, 1, 1, 1, 1, cv::BORDER_CONSTANT, cv::Scalar(0));
    cv::Mat distance;
    cv::distanceTransform(framed, distance, cv::DIST_L2, 3);
    cv::Point at;
    cv::minMaxLoc(distance, nullptr, nullptr, nullptr, &at);
    return {at.x - 1.0, at.y - 1.0};
}

cv::Mat unit_grey(const cv::Mat& picture) {
    if (picture.type() != CV_8UC1 && picture.type() != CV_8UC3 && picture.type() != CV_32FC1) {
        throw std::invalid_argument("the recogniser takes 8 bit grey, 8 bit BGR or float grey pictures");
    }
    const cv::Mat grey = picture.type() == CV_8UC3 ? grey_of(picture) : picture;
    cv::Mat unit;
    grey.convertTo(unit, CV_32FC1, 1.0 / 255.0);
    return unit;
}

cv::Mat normalise_locally(const cv::Mat& x) {
    const cv::Size window(normalising_window_px, normalising_window_px);
    cv::Mat mean;
    cv::blur(x, mean, window, {-1, -1}, cv::BORDER_REFLECT_101);
    const cv::Mat centred = x - mean;
    cv::Mat variance;
    cv::blur(centred.mul(centred), variance, window, {-1, -1}, cv::BORDER_REFLECT_101);
    cv::Mat spread;
    cv::sqrt(variance + contrast_floor * contrast_floor, spread);
    cv::Mat out = centred / spread;
    out = cv::min(cv::max(out, -most_contrast), most_contrast);
    return out;
}

Tile cut_tile(const cv::Mat& grey, const cv::Mat& mask, const TileFrame& frame) {
    const Surroundings near = surroundings(grey, mask, frame);
    const cv::Size side(frame.side_px, frame.side_px);
    Tile tile;
    if (near.picture.empty()) {
        tile.picture = cv::Mat::zeros(side, CV_32FC1);
        tile.seen = cv::Mat::zeros(side / 2, CV_32FC1);
        return tile;
    }
    const cv::Matx23d map = in_surroundings(frame.picture_from_tile(), near);
    const int how = cv::INTER_LINEAR | cv::WARP_INVERSE_MAP;
    cv::Mat cut;
    cv::warpAffine(near.picture, cut, map, side, how, cv::BORDER_REFLECT_101);
    tile.picture = normalise_locally(cut);
    cv::Mat inside(near.picture.size(), CV_32FC1, cv::Scalar(1.0));
    if (!near.mask.empty()) near.mask.convertTo(inside, CV_32FC1, 1.0 / 255.0);
    cv::Mat seen;
    cv::warpAffine(inside, seen, map, side, how, cv::BORDER_CONSTANT, cv::Scalar(0.0));
    cv::resize(seen, seen, side / 2, 0.0, 0.0, cv::INTER_AREA);
    cv::threshold(seen, tile.seen, enough_seen, 1.0, cv::THRESH_BINARY);
    return tile;
}

}  // namespace ridgetally

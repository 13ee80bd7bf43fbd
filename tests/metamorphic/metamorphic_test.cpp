#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "blackbox/measured_shot.h"

namespace ridgetally::blackbox {
namespace {

/// A change of the photo that leaves the millimetres on the table as they were.
struct Change {
    const char* name;
    cv::Mat (*apply)(const cv::Mat&);
};

cv::Mat turned(const cv::Mat& m, int code) {
    cv::Mat out;
    cv::rotate(m, out, code);
    return out;
}

/// Kept as far from the 0.3 megapixels below which photos are refused as the photos allow.
cv::Mat scaled_to(const cv::Mat& m, double factor) {
    cv::Mat out;
    cv::resize(m, out, {}, factor, factor, factor < 1.0 ? cv::INTER_AREA : cv::INTER_CUBIC);
    return out;
}

const Change changes[] = {
    {"quarter turn", [](const cv::Mat& m) { return turned(m, cv::ROTATE_90_CLOCKWISE); }},
    {"half turn", [](const cv::Mat& m) { return turned(m, cv::ROTATE_180); }},
    {"smaller", [](const cv::Mat& m) { return scaled_to(m, 0.75); }},
    {"larger", [](const cv::Mat& m) { return scaled_to(m, 1.3); }},
    {"darker", [](const cv::Mat& m) { return cv::Mat(m * 0.75); }},
    {"mirrored",
     [](const cv::Mat& m) {
         cv::Mat out;
         cv::flip(m, out, 1);
         return out;
     }},
};

/// An even swatch in good light: measured for sure, so that every change can be compared.
synthetic::Shot good_shot(std::uint64_t seed, StitchFamily family) {
    synthetic::Variety v;
    v.family = family;
    v.worked = Worked::flat;
    v.megapixels = 1.6;
    v.max_tilt_deg = 6.0;
    v.max_unevenness = 0.05;
    v.partial_share = 0.0;
    v.laid_on_share = 0.0;
    synthetic::Shot shot = synthetic::random_swatch(seed, v);
    shot.scene.camera.k1 = 0.0;
    shot.scene.light.glare = 0.0;
    shot.scene.rulers.front().covered_mm.reset();
    return shot;
}

/// Each must lie in the other's stated 95 % interval, widened by its own: two measurements of one thing agree
/// where their difference is below the expanded uncertainty of that difference (JCGM 100:2008, GUM, 5.1.2
/// and 6.2).
void expect_agreement(const Measured& one, const Measured& other, const std::string& what) {
    EXPECT_LT(std::abs(one.value - other.value), coverage_factor_95 * std::hypot(one.std, other.std))
        << what << ": " << one.value << " and " << other.value;
}

class Metamorphic : public testing::TestWithParam<StitchFamily> {};

TEST_P(Metamorphic, MillimetresStayTheSame) {
    const synthetic::Shot shot = good_shot(31, GetParam());
    const cv::Mat picture = synthetic::render(shot.scene).bgr;
    const auto plain = measured(through_a_file(picture, shot), shot, Told::stitch);
    ASSERT_TRUE(plain.ok()) << plain.refusal().message;
    for (const Change& change : changes) {
        const auto again = measured(through_a_file(change.apply(picture), shot), shot, Told::stitch);
        ASSERT_TRUE(again.ok()) << change.name << ": " << again.refusal().message;
        expect_agreement(plain->stitches_per_10cm, again->stitches_per_10cm,
                         std::string(change.name) + ", stitches");
        ASSERT_EQ(plain->rows_per_10cm.has_value(), again->rows_per_10cm.has_value()) << change.name;
        if (plain->rows_per_10cm)
            expect_agreement(*plain->rows_per_10cm, *again->rows_per_10cm,
                             std::string(change.name) + ", rows");
    }
}

TEST_P(Metamorphic, ACroppedMarginChangesNothingOnTheTable) {
    const synthetic::Shot shot = good_shot(32, GetParam());
    const cv::Mat picture = synthetic::render(shot.scene).bgr;
    const auto plain = measured(through_a_file(picture, shot), shot, Told::stitch);
    ASSERT_TRUE(plain.ok()) << plain.refusal().message;
    // A crop about the middle keeps the camera's axis where it was; the 35 mm focal length then belongs to
    // another frame.
    const cv::Size size = picture.size();
    const int dx = size.width / 40, dy = size.height / 40;
    Photo cropped =
        through_a_file(picture(cv::Rect(dx, dy, size.width - 2 * dx, size.height - 2 * dy)).clone(), shot);
    if (cropped.focal_length_35mm) *cropped.focal_length_35mm *= 20.0 / 19.0;
    const auto again = measured(cropped, shot, Told::stitch);
    ASSERT_TRUE(again.ok()) << again.refusal().message;
    expect_agreement(plain->stitches_per_10cm, again->stitches_per_10cm, "stitches");
    if (plain->rows_per_10cm && again->rows_per_10cm)
        expect_agreement(*plain->rows_per_10cm, *again->rows_per_10cm, "rows");
}

INSTANTIATE_TEST_SUITE_P(Stitches, Metamorphic,
                         testing::Values(StitchFamily::sc, StitchFamily::hdc, StitchFamily::dc,
                                         StitchFamily::stockinette),
                         [](const auto& group) { return std::string(key_of(group.param)); });

}  // namespace
}  // namespace ridgetally::blackbox
